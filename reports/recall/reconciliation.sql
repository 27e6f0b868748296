-- question: does it add up, of each lot and in total?
-- parameters: none
-- columns: amounts exact, to the milligram (as kg with six decimals) and the piece
-- needs: recall_account
WITH told AS (SELECT *, CASE quantity WHEN 'mg' THEN '%.6f' ELSE '%d' END AS f, CASE quantity WHEN 'mg' THEN 1e6 ELSE 1 END AS d FROM recall_account)
SELECT lot, name, CASE quantity WHEN 'mg' THEN 'kg' ELSE quantity END AS unit, printf(f, made / d) AS made, printf(f, on_hand / d) AS on_hand,
       printf(f, shipped / d) AS shipped, printf(f, moved_on / d) AS moved_on, printf(f, used / d) AS used, printf(f, waste / d) AS waste,
       printf(f, samples / d) AS samples, printf(f, open / d) AS open, printf(f, returned / d) AS returned, printf(f, destroyed / d) AS destroyed,
       printf(f, consumed / d) AS consumed, printf(f, found / d) AS found, printf(f, shipped_open / d) AS shipped_open, CASE WHEN closes THEN 'yes' ELSE 'no' END AS closes
FROM told
ORDER BY ord;
