-- question: which lots does the trace reach?
-- parameters: none
-- columns: state = how near; kg and pieces made or received; share and suspect_kg expected, share_largest the most it can be, empty when a mass on the way is unknown
-- needs: trace_lot
SELECT code, state, kind, name, local_time(happened) AS made, made_mg / 1e6 AS kg, made_pieces AS pieces, share, share_largest,
       suspect_mg / 1e6 AS suspect_kg, CASE WHEN certain THEN 'yes' ELSE 'no' END AS certain, on_hand_mg / 1e6 AS on_hand_kg,
       CASE WHEN made_pieces IS NOT NULL THEN on_hand_pieces END AS on_hand_pieces, CASE WHEN held THEN 'yes' ELSE '' END AS held,
       printed_code, trim(supplier || ' ' || supplier_lot) AS supplier_lot
FROM trace_lot
WHERE state <> 'possible'
ORDER BY ord;
