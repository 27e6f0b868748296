-- question: which batches may hold it although no use says so?
-- parameters: none
-- columns: batches with a missing use, made while the lot was in house
-- needs: trace_lot
SELECT code, name, local_time(happened) AS made, made_mg / 1e6 AS kg, made_pieces AS pieces
FROM trace_lot
WHERE state = 'possible'
ORDER BY happened, code;
