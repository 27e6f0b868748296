-- question: which key data elements can the book not give?
-- parameters: :from_ms, :until_ms  the days asked for, as instants (until not included)
--             :lot  a traceability lot code, one of our codes or a printed code; '' for all
-- columns: event, entry, date, lot codes; the element by its name in 21 CFR 1.1340, 1.1345, 1.1350; what would give it
WITH RECURSIVE wanted(id) AS (  -- the lot asked for, what it was made from and what was made from it; nothing when no lot was asked for
    SELECT id FROM lot WHERE :lot <> '' AND (code = :lot OR supplier_lot = :lot OR printed_code = :lot)
), before(id) AS (
    SELECT id FROM wanted UNION SELECT u.from_lot FROM use u JOIN before b ON u.into_lot = b.id
), after(id) AS (
    SELECT id FROM wanted UNION SELECT u.into_lot FROM use u JOIN after a ON u.from_lot = a.id
), asked(id) AS (
    SELECT id FROM before UNION SELECT id FROM after
), missing AS (
    SELECT 'receiving' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Quantity' AS element,
           'amend the entry: mass=... or pieces=...' AS remedy
    FROM receiving_event WHERE quantity IS NULL
    UNION ALL
    SELECT 'receiving' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Location description: immediate previous source' AS element,
           'the partner again, with --address and --phone' AS remedy
    FROM receiving_event WHERE previous_source_short
    UNION ALL
    SELECT 'receiving' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Location description: where received' AS element,
           'in the plan, under [site]: address and phone' AS remedy
    FROM receiving_event WHERE coalesce(received_at_short, 1)
    UNION ALL
    SELECT 'receiving' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Traceability lot code given by its source' AS element,
           'none came with the lot: ours stands instead; ask the supplier' AS remedy
    FROM receiving_event WHERE tlc_own
    UNION ALL
    SELECT 'receiving' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Reference document type and number' AS element,
           'amend the entry: document=...' AS remedy
    FROM receiving_event WHERE document = ''
    UNION ALL
    SELECT 'transformation' AS event, entry, happened, into_tlc AS tlc, into_code AS code, into_lot AS lot, 'Quantity used' AS element,
           'weigh it: amend the use' AS remedy
    FROM transformation_event WHERE from_quantity IS NULL
    UNION ALL
    SELECT 'transformation' AS event, entry, happened, into_tlc AS tlc, into_code AS code, into_lot AS lot, 'Date transformation completed' AS element,
           'finish the batch' AS remedy
    FROM transformation_event WHERE completed IS NULL
    UNION ALL
    SELECT 'transformation' AS event, entry, happened, into_tlc AS tlc, into_code AS code, into_lot AS lot, 'Quantity' AS element,
           'finish the batch with what came out' AS remedy
    FROM transformation_event WHERE into_quantity IS NULL
    UNION ALL
    SELECT 'transformation' AS event, entry, happened, into_tlc AS tlc, into_code AS code, into_lot AS lot, 'Location description: where transformed' AS element,
           'in the plan, under [site]: address and phone' AS remedy
    FROM transformation_event WHERE coalesce(made_at_short, 1)
    UNION ALL
    SELECT 'shipping' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Traceability lot code of what was shipped' AS element,
           'any lot on hand was recorded: amend the entry with lot=...' AS remedy
    FROM shipping_event WHERE NOT sure
    UNION ALL
    SELECT 'shipping' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Quantity' AS element,
           'amend the entry: pieces=... or mass=...' AS remedy
    FROM shipping_event WHERE quantity IS NULL AND sure
    UNION ALL
    SELECT 'shipping' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Location description: immediate subsequent recipient' AS element,
           'the partner again, with --address and --phone' AS remedy
    FROM shipping_event WHERE next_recipient_short
    UNION ALL
    SELECT 'shipping' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Location description: where shipped from' AS element,
           'in the plan, under [site]: address and phone' AS remedy
    FROM shipping_event WHERE coalesce(shipped_from_short, 1)
    UNION ALL
    SELECT 'shipping' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Traceability lot code source' AS element,
           'the supplier as a partner, with --address and --phone' AS remedy
    FROM shipping_event WHERE tlc_source = ''
    UNION ALL
    SELECT 'shipping' AS event, entry, happened, tlc AS tlc, code AS code, lot AS lot, 'Reference document type and number' AS element,
           'amend the entry: document=...' AS remedy
    FROM shipping_event WHERE document = ''
)
SELECT event, entry, substr(local_time(happened), 1, 10) AS date, tlc, code, element, remedy
FROM missing
WHERE happened >= :from_ms AND happened < :until_ms AND (:lot = '' OR lot IN (SELECT id FROM asked))
ORDER BY happened, entry, code, element;
