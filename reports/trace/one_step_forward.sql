-- question: who got the lot asked for?
-- parameters: none
-- columns: one row each time that some of it left or came back, in local time; pieces and kg as stated; recipient is empty for a way
--          without a partner, such as the own counter
-- needs: step_forward
SELECT name, printed_code, pieces, mass_mg / 1e6 AS kg, local_time(departed) AS departed, way, document, to_name AS recipient,
       trim(to_address || char(10) || to_phone || CASE WHEN to_phone <> '' AND to_email <> '' THEN ', ' ELSE '' END || to_email, char(10)) AS recipient_contact,
       carrier_name AS carrier,
       trim(carrier_address || char(10) || carrier_phone || CASE WHEN carrier_phone <> '' AND carrier_email <> '' THEN ', ' ELSE '' END || carrier_email, char(10)) AS carrier_contact,
       lot, CASE WHEN certain THEN 'yes' ELSE 'possible' END AS certain
FROM step_forward
ORDER BY ord;
