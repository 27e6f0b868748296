-- question: who gave each ingredient that is in the lot asked for?
-- parameters: none
-- columns: one row a received lot; kg and pieces as they came in, received in local time; carrier as stated at the receipt
-- needs: step_back
SELECT name, supplier_lot, mass_mg / 1e6 AS kg, pieces, local_time(received) AS received, document, from_name AS supplier,
       trim(from_address || char(10) || from_phone || CASE WHEN from_phone <> '' AND from_email <> '' THEN ', ' ELSE '' END || from_email, char(10)) AS supplier_contact,
       carrier_name AS carrier,
       trim(carrier_address || char(10) || carrier_phone || CASE WHEN carrier_phone <> '' AND carrier_email <> '' THEN ', ' ELSE '' END || carrier_email, char(10)) AS carrier_contact,
       lot, CASE WHEN certain THEN 'yes' ELSE 'possible' END AS certain
FROM step_back
ORDER BY ord;
