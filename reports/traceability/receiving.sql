-- question: which foods of the Food Traceability List came in, and what does 21 CFR 1.1345 ask of each?
-- parameters: :from_ms, :until_ms  the days asked for, as instants (until not included)
--             :lot  a traceability lot code, one of our codes or a printed code; '' for all
-- columns: the key data elements; then our lot code, the article number and the entry
WITH RECURSIVE wanted(id) AS (  -- the lot asked for, what it was made from and what was made from it; nothing when no lot was asked for
    SELECT id FROM lot WHERE :lot <> '' AND (code = :lot OR supplier_lot = :lot OR printed_code = :lot)
), before(id) AS (
    SELECT id FROM wanted UNION SELECT u.from_lot FROM use u JOIN before b ON u.into_lot = b.id
), after(id) AS (
    SELECT id FROM wanted UNION SELECT u.into_lot FROM use u JOIN after a ON u.from_lot = a.id
), asked(id) AS (
    SELECT id FROM before UNION SELECT id FROM after
)
SELECT tlc, quantity, unit, product, previous_source, received_at, substr(local_time(happened), 1, 10) AS date, tlc_source,
       CASE WHEN document = '' THEN '' ELSE 'delivery note' END AS document_type, document, code, gtin, entry
FROM receiving_event
WHERE happened >= :from_ms AND happened < :until_ms AND (:lot = '' OR lot IN (SELECT id FROM asked))
ORDER BY happened, entry;
