-- question: how did everything cool that had to cool in stages this week, against its limit?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: minutes since the last reading at or above the start temperature (since the first reading when there is none); celsius of a
--          reading; limit_c of the limit's corners, which stand after the curves; verdict of the lot at that point
-- needs: plan_limit
WITH judged AS MATERIALIZED (
    SELECT f.lot, f.point, f.plan_seq, f.unit, max(f.verdict) AS verdict
    FROM finding f
    WHERE f.week = :week AND f.lot IS NOT NULL
      AND (f.plan_seq, f.point) IN (SELECT k.plan_seq, k.point FROM plan_limit k WHERE k.kind = 'cooling')
    GROUP BY f.lot, f.point, f.plan_seq, f.unit
), curve AS MATERIALIZED (
    SELECT j.lot, j.point, j.plan_seq, j.verdict, r.unit, r.seq, r.row, r.happened, r.value, r.by
    FROM judged j JOIN reading r ON r.lot = j.lot AND r.point = j.point AND j.unit IN ('', r.unit)
    WHERE r.voided_by IS NULL
), zero AS MATERIALIZED (
    SELECT c.lot, c.point, c.unit,
           coalesce(max(CASE WHEN c.value >= k.start THEN c.happened END), min(c.happened)) AS from_ms
    FROM curve c JOIN plan_limit k ON k.plan_seq = c.plan_seq AND k.point = c.point AND k.kind = 'cooling' AND k.stage = 1
    GROUP BY c.lot, c.point, c.unit
), stage AS MATERIALIZED (
    SELECT DISTINCT k.point, k.plan_seq, k.stage, k.most, k.by_ms,
           coalesce(lag(k.most) OVER one, k.start) AS before, coalesce(lag(k.by_ms) OVER one, 0) AS since_ms
    FROM plan_limit k
    WHERE k.kind = 'cooling' AND EXISTS (SELECT 1 FROM judged j WHERE j.plan_seq = k.plan_seq AND j.point = k.point)
    WINDOW one AS (PARTITION BY k.plan_seq, k.point ORDER BY k.stage)
), corner AS (
    SELECT point, plan_seq, stage, 1 AS part, since_ms AS at_ms, before AS value FROM stage
    UNION ALL
    SELECT point, plan_seq, stage, 2, by_ms, before FROM stage
    UNION ALL
    SELECT point, plan_seq, stage, 3, by_ms, most FROM stage
    WHERE stage = (SELECT max(other.stage) FROM stage other WHERE other.plan_seq = stage.plan_seq AND other.point = stage.point)
), line AS (
    SELECT 1 AS sort, c.point, c.plan_seq, l.happened AS lot_happened,
           l.code || CASE WHEN c.unit = '' THEN '' ELSE ', ' || c.unit END AS curve,
           coalesce(item.name, l.item) AS item, local_time(c.happened) AS taken, (c.happened - z.from_ms) / 6e4 AS minutes,
           c.value / 1e3 AS celsius, NULL AS limit_c, CASE c.verdict WHEN 0 THEN 'within' WHEN 1 THEN 'unproven' WHEN 2 THEN 'missing' ELSE 'deviation' END AS verdict, c.by AS who, c.happened AS o1, c.seq AS o2, c.row AS o3
    FROM curve c
    JOIN zero z ON z.lot = c.lot AND z.point = c.point AND z.unit = c.unit
    JOIN lot l ON l.id = c.lot
    LEFT JOIN plan_item item ON item.plan_seq = l.plan_seq AND item.sort = 'product' AND item.id = l.item
    UNION ALL
    SELECT 2, k.point, k.plan_seq, 0, 'limit of ' || k.point, '', NULL, k.at_ms / 6e4, NULL, k.value / 1e3, NULL, NULL, k.stage, k.part, 0
    FROM corner k
)
SELECT line.curve, line.item, coalesce(p.name, line.point) AS point, line.taken, line.minutes, line.celsius, line.limit_c,
       line.verdict, line.who
FROM line LEFT JOIN plan_point p ON p.plan_seq = line.plan_seq AND p.id = line.point
ORDER BY line.sort, line.point, line.plan_seq, line.lot_happened, line.curve, line.o1, line.o2, line.o3;
