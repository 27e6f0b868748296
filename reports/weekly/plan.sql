-- question: by which plan was this week judged, in words?
-- parameters: :week  production week, ISO year x 100 + week; :until_ms  when that week ends
-- columns: one row a control point and version; version is the entry that adopted it
SELECT p.plan_seq AS version, p.name, p.grade, p.step, p.measures,
       p.limit_text || CASE WHEN p.warning = '' THEN '' ELSE char(10) || 'warn outside: ' || p.warning END AS limit_text,
       p.frequency, p.who, p.product_action, p.process_action, p.basis
FROM plan_point p
WHERE p.plan_seq IN (SELECT f.plan_seq FROM finding f WHERE f.week = :week)
   OR p.plan_seq = (SELECT v.seq FROM plan_version v WHERE v.from_ms < :until_ms ORDER BY v.from_ms DESC, v.seq DESC LIMIT 1)
ORDER BY p.plan_seq, CASE p.grade WHEN 'critical' THEN 0 WHEN 'operating' THEN 1 ELSE 2 END, p.name;
