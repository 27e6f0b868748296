-- question: what waits for another person, and what was typed from slips this week?
-- parameters: :week  production week, ISO year x 100 + week; :from_ms, :until_ms  when that week begins and ends
-- columns: what waits whatever its week, an entry each: before (empty: it corrects nothing) and after in words; then the slips of the week,
--          and how many of its records by people they are: more than one in twenty is too many
WITH entries AS (
    SELECT entry, target, alone FROM waiting WHERE decided_by IS NULL OR alone = 1
    UNION
    SELECT w.entry, w.entry, 0 FROM waits w WHERE NOT EXISTS (SELECT 1 FROM waiting one WHERE one.entry = w.entry)
), told AS (
    SELECT e.entry, group_concat(coalesce(l.code, f.place) || ' ' || f.point || ': ' ||
                                 CASE f.verdict WHEN 0 THEN 'within' WHEN 1 THEN 'unproven' WHEN 2 THEN 'missing' ELSE 'deviation' END,
                                 char(10)) AS findings
    FROM entries e JOIN waits w ON w.entry = e.entry
    JOIN finding f ON f.anchor = w.anchor AND f.point = w.point AND f.ord = w.ord
    LEFT JOIN lot l ON l.id = f.lot
    GROUP BY e.entry
), typed AS (
    SELECT r.seq, r.slip, l.code AS subject, r.point, r.typed, r.by FROM lot l JOIN reading r ON r.lot = l.id
    WHERE l.week = :week AND r.row = 0 AND r.voided_by IS NULL
    UNION ALL
    SELECT r.seq, r.slip, r.place, r.point, r.typed, r.by FROM reading r
    WHERE r.place <> '' AND r.happened >= :from_ms AND r.happened < :until_ms AND r.row = 0 AND r.voided_by IS NULL
)
SELECT CASE WHEN e.alone = 1 THEN 'decided alone' WHEN e.entry = e.target THEN 'typed late' ELSE c.kind END AS what,
       e.entry AS entry, f.by AS who, local_time(f.written) AS written,
       (SELECT coalesce(l.code, t.subject) FROM touch t LEFT JOIN lot l ON t.subject_kind = 1 AND l.id = CAST(t.subject AS INTEGER)
        WHERE t.seq = e.target ORDER BY t.subject_kind, t.subject LIMIT 1) AS subject, c.before,
       coalesce(c.after, (SELECT r.point || ' ' || r.typed || ', at ' || local_time(r.happened) FROM reading r WHERE r.seq = e.entry LIMIT 1),
                f.kind || ', at ' || local_time(f.happened)) AS after,
       c.why, t.findings, 0 AS part
FROM entries e
JOIN fact f ON f.seq = e.entry
LEFT JOIN correction c ON c.seq = e.entry
LEFT JOIN told t ON t.entry = e.entry
UNION ALL
SELECT 'from slip ' || y.slip, y.seq, y.by, local_time(f.written), y.subject, NULL, y.point || ' ' || y.typed, NULL, NULL, 1
FROM typed y JOIN fact f ON f.seq = y.seq WHERE y.slip <> ''
UNION ALL
SELECT CASE WHEN 20 * sum(slip <> '') > count(*) THEN 'too many slips' ELSE 'slips' END, NULL, NULL, NULL, NULL, NULL,
       sum(slip <> '') || ' of ' || count(*) || ' records', NULL, NULL, 2
FROM typed HAVING sum(slip <> '') > 0
ORDER BY part, entry;
