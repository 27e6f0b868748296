-- question: who is written to or called, and about which goods?
-- parameters: none
-- columns: one row a customer; goods one line a printed code
-- needs: recall_letter
SELECT name, address, phone, email, goods, missing_pieces, missing_mg / 1e6 AS missing_kg, CASE WHEN reached THEN 'yes' ELSE 'no' END AS reached
FROM recall_letter
ORDER BY reached, name, ord;
