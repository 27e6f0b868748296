-- question: did every bake reach its core temperature this week?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: one row a reading of a control point at step "bake" whose limit is a least temperature; limit_c that least
-- needs: plan_limit
SELECT coalesce(item.name, l.item) AS item, l.code AS batch, r.unit, local_time(r.happened) AS taken, r.value / 1e3 AS celsius,
       k.least / 1e3 AS limit_c, r.instrument, r.by AS who
FROM lot l
JOIN reading r ON r.lot = l.id AND r.voided_by IS NULL
JOIN plan_limit k ON k.plan_seq = l.plan_seq AND k.point = r.point AND k.kind = 'range' AND k.dimension = 'temperature'
                 AND k.least IS NOT NULL
JOIN plan_point p ON p.plan_seq = l.plan_seq AND p.id = r.point AND p.step = 'bake'
LEFT JOIN plan_item item ON item.plan_seq = l.plan_seq AND item.sort = 'product' AND item.id = l.item
WHERE l.week = :week
ORDER BY item, r.point, r.happened, r.seq, r.row;
