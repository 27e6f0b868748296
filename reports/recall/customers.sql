-- question: who has it?
-- parameters: none
-- columns: one row a customer (or way without one) and printed code; contact as stated for the partner
-- needs: recall_customer
SELECT name, trim(phone || CASE WHEN phone <> '' AND email <> '' THEN ', ' ELSE '' END || email, ', ') AS contact, printed_code, item,
       CASE WHEN pieces <> 0 THEN pieces END AS pieces, mass_mg / 1e6 AS kg, CASE WHEN returned_pieces <> 0 THEN returned_pieces END AS returned_pieces,
       local_time(first) AS first, local_time(last) AS last, CASE WHEN certain THEN 'yes' ELSE 'possible' END AS certain,
       CASE WHEN reached IS NULL THEN '' WHEN reached THEN 'yes' ELSE 'no' END AS reached, CASE WHEN to_check THEN 'ask' ELSE '' END AS to_check, lots, document
FROM recall_customer
ORDER BY name, partner, printed_code, ord;
