-- question: do the amounts of each lot add up?
-- parameters: none
-- columns: made = used + out + on hand - gap + not accounted for, in kg and in pieces; ways = each way out with its amount
-- needs: trace_balance
SELECT code, made_mg / 1e6 AS made_kg, used_mg / 1e6 AS used_kg, out_mg / 1e6 AS out_kg, on_hand_mg / 1e6 AS on_hand_kg,
       gap_mg / 1e6 AS gap_kg, unaccounted_mg / 1e6 AS unaccounted_kg, returned_mg / 1e6 AS returned_kg, made_pieces, used_pieces,
       out_pieces, on_hand_pieces, gap_pieces, unaccounted_pieces, ways, CASE WHEN closes THEN 'yes' ELSE 'no' END AS closes
FROM trace_balance
ORDER BY ord;
