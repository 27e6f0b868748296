-- question: into what did foods of the Food Traceability List go, and what does 21 CFR 1.1350 ask of it?
-- parameters: :from_ms, :until_ms  the days asked for, as instants (until not included)
--             :lot  a traceability lot code, one of our codes or a printed code; '' for all
-- columns: the key data elements of the food used and of the food made; then whether the use is certain, the code printed on packs,
--          whether the food made is on the list too, and the entry
WITH RECURSIVE wanted(id) AS (  -- the lot asked for, what it was made from and what was made from it; nothing when no lot was asked for
    SELECT id FROM lot WHERE :lot <> '' AND (code = :lot OR supplier_lot = :lot OR printed_code = :lot)
), before(id) AS (
    SELECT id FROM wanted UNION SELECT u.from_lot FROM use u JOIN before b ON u.into_lot = b.id
), after(id) AS (
    SELECT id FROM wanted UNION SELECT u.into_lot FROM use u JOIN after a ON u.from_lot = a.id
), asked(id) AS (
    SELECT id FROM before UNION SELECT id FROM after
)
SELECT from_tlc, from_product, from_quantity, from_unit, into_tlc, made_at, substr(local_time(completed), 1, 10) AS date, into_product,
       into_quantity, into_unit, 'production record' AS document_type, 'entry ' || into_lot AS document,
       CASE WHEN sure THEN 'yes' ELSE 'possible' END AS certain, printed_code, CASE WHEN into_listed THEN 'yes' ELSE 'no' END AS listed, entry
FROM transformation_event
WHERE happened >= :from_ms AND happened < :until_ms AND (:lot = '' OR (from_lot IN (SELECT id FROM asked) AND into_lot IN (SELECT id FROM asked)))
ORDER BY happened, entry, from_code;
