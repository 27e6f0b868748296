-- question: which lots are covered?
-- parameters: none
-- columns: in the order of the trace, then what corrections cut off; by = the entries behind the state
-- needs: recall_scope
SELECT code, CASE WHEN asked AND state = 'covered' THEN 'began with' ELSE state END AS state, CASE WHEN certain THEN 'yes' ELSE 'possible' END AS certain, kind, name,
       local_time(happened) AS made, made_mg / 1e6 AS kg, made_pieces AS pieces, on_hand_mg / 1e6 AS on_hand_kg,
       CASE WHEN made_pieces IS NOT NULL THEN on_hand_pieces END AS on_hand_pieces, CASE WHEN held THEN 'yes' ELSE '' END AS held, printed_code,
       trim(supplier || ' ' || supplier_lot) AS supplier_lot, by
FROM recall_scope
ORDER BY ord;
