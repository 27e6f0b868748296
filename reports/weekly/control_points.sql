-- question: what was judged this week, with which instrument, by whom, and how?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: one row a finding; instrument and who are those of the readings it rests on
SELECT coalesce(p.name, f.point) AS point, f.grade, coalesce(l.code, f.place) AS subject,
       coalesce(item.name, l.item) AS item, f.unit, local_time(f.happened) AS decided, f.measured, f.limit_text,
       CASE f.verdict WHEN 0 THEN 'within' WHEN 1 THEN 'unproven' WHEN 2 THEN 'missing' ELSE 'deviation' END AS verdict,
       CASE WHEN f.lot IS NULL
            THEN (SELECT group_concat(DISTINCT r.instrument) FROM reading r
                  WHERE r.place = f.place AND r.place <> '' AND r.point = f.point AND r.happened = f.happened
                    AND r.voided_by IS NULL AND r.instrument <> '')
            ELSE (SELECT group_concat(DISTINCT r.instrument) FROM reading r
                  WHERE r.lot = f.lot AND r.point = f.point AND f.unit IN ('', r.unit)
                    AND r.voided_by IS NULL AND r.instrument <> '')
       END AS instrument,
       CASE WHEN f.verdict = 2 THEN ''
            WHEN f.lot IS NULL
            THEN (SELECT group_concat(DISTINCT r.by) FROM reading r
                  WHERE r.place = f.place AND r.place <> '' AND r.point = f.point AND r.happened = f.happened
                    AND r.voided_by IS NULL)
            ELSE coalesce((SELECT group_concat(DISTINCT r.by) FROM reading r
                           WHERE r.lot = f.lot AND r.point = f.point AND f.unit IN ('', r.unit) AND r.voided_by IS NULL),
                          (SELECT fact.by FROM fact WHERE fact.seq = f.anchor))
       END AS who
FROM finding f
LEFT JOIN lot l ON l.id = f.lot
LEFT JOIN plan_item item ON item.plan_seq = l.plan_seq AND item.id = l.item
                        AND item.sort = CASE WHEN l.kind IN ('received', 'supply') THEN 'material' ELSE 'product' END
LEFT JOIN plan_point p ON p.plan_seq = f.plan_seq AND p.id = f.point
WHERE f.week = :week
ORDER BY CASE f.grade WHEN 'critical' THEN 0 WHEN 'operating' THEN 1 ELSE 2 END, point, f.happened, f.anchor, f.ord;
