-- question: who has it?
-- parameters: none
-- columns: one row a customer, way, printed code and lot; contact as stated for the partner
-- needs: customer
SELECT CASE WHEN name = '' THEN partner ELSE name END AS name, partner,
       trim(phone || CASE WHEN phone <> '' AND email <> '' THEN ', ' ELSE '' END || email ||
            CASE WHEN address = '' THEN '' ELSE char(10) || address END, char(10)) AS contact,
       way, printed_code, item, pieces, mass_mg / 1e6 AS kg, returned_pieces, returned_mg / 1e6 AS returned_kg,
       local_time(first) AS first, local_time(last) AS last, CASE WHEN certain THEN 'yes' ELSE 'possible' END AS certain, lot, document
FROM customer
ORDER BY name, partner, printed_code, lot, way;
