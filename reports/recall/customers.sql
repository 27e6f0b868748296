-- question: who has it?
-- parameters: none
-- columns: one row a customer (or way without one) and printed code; contact as stated for the partner; excess: said beyond what was sent
-- needs: recall_customer
SELECT name, trim(phone || CASE WHEN phone <> '' AND email <> '' THEN ', ' ELSE '' END || email, ', ') AS contact, printed_code, item,
       way || CASE WHEN repacked_pieces <> 0 THEN ', back packed ' || repacked_pieces || ' pieces' WHEN repacked_mg <> 0
                   THEN printf(', back packed %.6f kg', repacked_mg / 1e6) ELSE '' END AS way,
       CASE WHEN pieces <> 0 THEN pieces END AS pieces, mass_mg / 1e6 AS kg, CASE WHEN returned_pieces <> 0 THEN returned_pieces END AS returned_pieces,
       CASE WHEN open_pieces <> 0 THEN open_pieces || ' pieces' WHEN open_mg <> 0 THEN printf('%.6f kg', open_mg / 1e6) ELSE '0' END AS open,
       CASE WHEN excess_pieces <> 0 THEN excess_pieces || ' pieces' WHEN excess_mg <> 0 THEN printf('%.6f kg', excess_mg / 1e6) ELSE '' END ||
       CASE WHEN (excess_pieces <> 0 OR excess_mg <> 0) AND asked THEN ', asked' ELSE '' END AS excess,
       local_time(first) AS first, local_time(last) AS last, CASE WHEN certain THEN 'yes' ELSE 'possible' END AS certain,
       CASE WHEN reached IS NULL THEN '' WHEN reached THEN local_time(told) WHEN left_out THEN 'left out' ELSE 'no' END AS reached, CASE WHEN to_check THEN 'ask' ELSE '' END AS to_check,
       lots, document
FROM recall_customer
ORDER BY name, partner, printed_code, ord;
