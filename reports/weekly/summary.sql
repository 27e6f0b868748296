-- question: how often was each control point judged this week, and how did it stand?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: name, grade; judged = within + unproven + missing + deviation (verdict now); cleared: raised higher than it stands now; a check
--          that is owed at the end of the week, or now, and was not done counts as missing
WITH judged AS (
    SELECT point, grade, plan_seq, verdict, raised FROM finding WHERE week = :week
    UNION ALL
    SELECT point, grade, (SELECT max(seq) FROM plan_version WHERE from_ms <= o.due), 2, 2 FROM owed_now o
), counted AS (
    SELECT point, grade, max(plan_seq) AS plan_seq, count(*) AS judged, sum(verdict = 0) AS within, sum(verdict = 1) AS unproven,
           sum(verdict = 2) AS missing, sum(verdict = 3) AS deviation, sum(raised > verdict) AS cleared
    FROM judged
    GROUP BY point, grade
)
SELECT 'All ' || grade || ' points' AS name, grade, sum(judged) AS judged, sum(within) AS within, sum(unproven) AS unproven,
       sum(missing) AS missing, sum(deviation) AS deviation, sum(cleared) AS cleared,
       0 AS part, CASE grade WHEN 'critical' THEN 0 WHEN 'operating' THEN 1 ELSE 2 END AS weight
FROM counted GROUP BY grade
UNION ALL
SELECT coalesce(p.name, c.point), c.grade, c.judged, c.within, c.unproven, c.missing, c.deviation, c.cleared,
       1, CASE c.grade WHEN 'critical' THEN 0 WHEN 'operating' THEN 1 ELSE 2 END
FROM counted c LEFT JOIN plan_point p ON p.plan_seq = c.plan_seq AND p.id = c.point
ORDER BY part, weight, name;
