-- question: how much did the trace reach, and where does it stand?
-- parameters: none
-- columns: one row a nearness of lots, then one of the packs; made_kg only where lots do not hold one another (a loaf is not added to its
--          dough)
-- needs: trace_lot, customer
SELECT what, lots, certain, held, made_kg, on_hand_kg, on_hand_pieces
FROM (SELECT 'lots ' || state AS what, count(*) AS lots, sum(certain) AS certain, sum(held) AS held, CASE state WHEN 'asked for' THEN sum(made_mg) / 1e6 END AS made_kg,
             sum(on_hand_mg) / 1e6 AS on_hand_kg, sum(on_hand_pieces) AS on_hand_pieces,
             CASE state WHEN 'asked for' THEN 1 WHEN 'direct' THEN 2 WHEN 'further' THEN 3 WHEN 'carry-over' THEN 4 ELSE 5 END AS part
      FROM trace_lot GROUP BY state
      UNION ALL
      SELECT 'packs, by ' || count(DISTINCT printed_code) || ' printed codes', count(*), sum(certain), sum(held),
             sum(made_mg) / 1e6, sum(on_hand_mg) / 1e6, sum(on_hand_pieces), 6
      FROM trace_lot WHERE printed_code <> '' AND state <> 'possible'
      HAVING count(*) > 0)
ORDER BY part, what;
