-- question: which values outside their limit did further work correct in process this week?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: corrected = the values as typed; measured, decided and verdict of the reading that decides now
SELECT l.code || CASE WHEN f.unit = '' THEN '' ELSE ', ' || f.unit END AS subject, l.item,
       coalesce(p.name, f.point) AS point, f.corrected, f.measured, local_time(f.happened) AS decided, f.limit_text,
       CASE f.verdict WHEN 0 THEN 'within' WHEN 1 THEN 'unproven' WHEN 2 THEN 'missing' ELSE 'deviation' END AS verdict
FROM finding f
JOIN lot l ON l.id = f.lot
LEFT JOIN plan_point p ON p.plan_seq = f.plan_seq AND p.id = f.point
WHERE f.week = :week AND f.corrected <> ''
ORDER BY f.happened, f.anchor, f.point, f.ord;
