-- question: how often was each control point judged this week, and how did it stand?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: name, grade; judged = within + unproven + missing + deviation (verdict now); cleared: raised higher than it stands now
WITH judged AS (
    SELECT f.point, f.grade, coalesce(p.name, f.point) AS name, f.verdict, f.raised
    FROM finding f LEFT JOIN plan_point p ON p.plan_seq = f.plan_seq AND p.id = f.point
    WHERE f.week = :week
), counted AS (
    SELECT 0 AS part, '' AS point, 'All ' || grade || ' points' AS name, grade, verdict, raised FROM judged
    UNION ALL
    SELECT 1, point, name, grade, verdict, raised FROM judged
)
SELECT max(name) AS name, grade, count(*) AS judged, sum(verdict = 0) AS within, sum(verdict = 1) AS unproven,
       sum(verdict = 2) AS missing, sum(verdict = 3) AS deviation, sum(raised > verdict) AS cleared
FROM counted
GROUP BY part, point, grade
ORDER BY part, CASE grade WHEN 'critical' THEN 0 WHEN 'operating' THEN 1 ELSE 2 END, name;
