-- question: what was made this week, of what, and how much was lost on the way?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: inputs by lot with their mass in kg; loss_kg = input_kg - made_kg, loss_share of the inputs; verdict the worst of the batch
WITH input AS (
    SELECT u.into_lot, source.code || CASE WHEN sum(u.mass_mg) IS NULL THEN ''
                                           ELSE ' ' || rtrim(rtrim(printf('%.3f', sum(u.mass_mg) / 1e6), '0'), '.') END ||
           CASE WHEN sum(u.pieces) IS NULL THEN '' ELSE ' ' || sum(u.pieces) || ' pieces' END ||
           CASE WHEN min(u.sure) = 0 THEN ' (possible)' ELSE '' END AS words
    FROM lot l JOIN use u ON u.into_lot = l.id JOIN lot source ON source.id = u.from_lot
    WHERE l.kind = 'batch' AND l.week = :week
    GROUP BY u.into_lot, u.from_lot
    ORDER BY u.into_lot, sum(u.mass_mg) DESC
), listed AS (
    SELECT into_lot, group_concat(words, ', ') AS inputs FROM input GROUP BY into_lot
)
SELECT l.code AS batch, coalesce(item.name, l.item) AS item, local_time(l.happened) AS started, local_time(l.finished) AS finished,
       listed.inputs, l.input_mg / 1e6 AS input_kg, l.made_mg / 1e6 AS made_kg, l.made_pieces,
       (l.input_mg - l.made_mg) / 1e6 AS loss_kg,
       CASE WHEN l.input_mg > 0 THEN (l.input_mg - l.made_mg) * 1.0 / l.input_mg END AS loss_share,
       CASE (SELECT max(f.verdict) FROM finding f WHERE f.lot = l.id)
           WHEN 0 THEN 'within' WHEN 1 THEN 'unproven' WHEN 2 THEN 'missing' WHEN 3 THEN 'deviation' ELSE 'not judged'
       END AS verdict,
       CASE WHEN EXISTS (SELECT 1 FROM hold h WHERE h.lot = l.id AND h.released_seq IS NULL) THEN 'yes' ELSE '' END AS held
FROM lot l
LEFT JOIN listed ON listed.into_lot = l.id
LEFT JOIN plan_item item ON item.plan_seq = l.plan_seq AND item.sort = 'product' AND item.id = l.item
WHERE l.kind = 'batch' AND l.week = :week
ORDER BY l.happened, l.id;
