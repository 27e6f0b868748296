-- question: who gave each ingredient that is in the lot asked for?
-- parameters: none
-- columns: one row a received lot; kg and pieces as they came in, received in local time; carrier as stated at the receipt
-- needs: step_back
SELECT name, supplier_lot, mass_mg / 1e6 AS kg, pieces, local_time(received) AS received, document, supplier, supplier_contact,
       carrier, carrier_contact, lot, CASE WHEN certain THEN 'yes' ELSE 'possible' END AS certain
FROM step_back
ORDER BY ord;
