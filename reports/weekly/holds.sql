-- question: what was held or released this week, and what is held still?
-- parameters: :from_ms, :until_ms  when the week begins and ends
-- columns: cause is the finding, when the program wrote the hold; on hand as of now
SELECT h.seq AS entry, local_time(h.happened) AS since, l.code AS lot, coalesce(item.name, l.item) AS item, h.why,
       CASE WHEN h.cause_anchor IS NULL THEN ''
            ELSE h.cause_anchor || ':' || h.cause_point || CASE WHEN h.cause_ord = 0 THEN '' ELSE ':' || h.cause_ord END END AS cause,
       coalesce(local_time(released.happened), 'stands') AS released, released.by AS released_by,
       s.on_hand_mg / 1e6 AS on_hand_kg, CASE WHEN s.made_pieces IS NOT NULL THEN s.on_hand_pieces END AS on_hand_pieces
FROM hold h
JOIN lot l ON l.id = h.lot
LEFT JOIN fact released ON released.seq = h.released_seq
LEFT JOIN stock s ON s.lot = h.lot
LEFT JOIN plan_item item ON item.plan_seq = l.plan_seq AND item.id = l.item
                        AND item.sort = CASE WHEN l.kind IN ('received', 'supply') THEN 'material' ELSE 'product' END
WHERE h.released_seq IS NULL
   OR (h.happened >= :from_ms AND h.happened < :until_ms)
   OR (released.happened >= :from_ms AND released.happened < :until_ms)
ORDER BY h.happened, h.seq, l.code;
