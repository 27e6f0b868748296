-- question: by which way did it leave the house, and how much of that is still open?
-- parameters: none
-- columns: one row a way out; of waste and samples nothing is open
-- needs: recall_way
SELECT way, pieces, mass_mg / 1e6 AS kg, open_pieces, open_mg / 1e6 AS open_kg
FROM recall_way
ORDER BY ord;
