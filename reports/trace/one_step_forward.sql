-- question: who got the lot asked for?
-- parameters: none
-- columns: one row each time that some of it left or came back, in local time; pieces and kg as stated; recipient is empty for a way
--          without a partner, such as the own counter
-- needs: step_forward
SELECT name, printed_code, pieces, mass_mg / 1e6 AS kg, local_time(departed) AS departed, way, document, recipient, recipient_contact,
       carrier, carrier_contact, lot, CASE WHEN certain THEN 'yes' ELSE 'possible' END AS certain
FROM step_forward
ORDER BY ord;
