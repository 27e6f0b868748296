-- question: what was owed this week and is not there, and what was written late?
-- parameters: :week  production week, ISO year x 100 + week; :from_ms, :until_ms  when that week begins and ends
-- columns: of a missing check: the control point, when it was decided, the reckoning; of one that nobody has done yet at the end of the
--          week, or by now: when it was due, and since when it is owed; of a late entry: its kind, both times, minutes
SELECT 'missing' AS what, f.anchor AS entry, coalesce(p.name, f.point) AS kind,
       coalesce(l.code, f.place) || CASE WHEN f.unit = '' THEN '' ELSE ', ' || f.unit END AS subject,
       local_time(f.happened) AS happened, NULL AS written, NULL AS late_min, '' AS who,
       f.detail || CASE WHEN f.cleared_by IS NULL THEN '' ELSE ' Cleared by entry ' || f.cleared_by || '.' END AS detail,
       f.happened AS at_ms
FROM finding f
LEFT JOIN lot l ON l.id = f.lot
LEFT JOIN plan_point p ON p.plan_seq = f.plan_seq AND p.id = f.point
WHERE f.week = :week AND (f.verdict = 2 OR f.raised = 2)
UNION ALL
SELECT 'missing', NULL, o.name, o.place, local_time(o.due), NULL, NULL, '',
       CASE WHEN o.never THEN 'Never read since it is owed, ' ELSE 'Last read ' END || local_time(o.since)
           || '; nobody has read it by the end of the week, or by now. ' || o.what || '.'
           || CASE WHEN o.closed = '' THEN '' ELSE ' After closed hours: ' || o.closed || '.' END,
       o.due
FROM owed_now o
UNION ALL
SELECT 'late entry', f.seq, f.kind,
       (SELECT coalesce(l.code, t.subject)
        FROM touch t LEFT JOIN lot l ON t.subject_kind = 1 AND l.id = CAST(t.subject AS INTEGER)
        WHERE t.seq = f.seq ORDER BY t.subject_kind, t.subject LIMIT 1),
       local_time(f.happened), local_time(f.written), (f.written - f.happened) / 6e4, f.by,
       CASE WHEN f.voided_by IS NOT NULL THEN 'Voided by entry ' || f.voided_by || '.'
            WHEN f.amended_by IS NOT NULL THEN 'Amended by entry ' || f.amended_by || '.' END,
       f.happened
FROM fact f
WHERE f.late = 1 AND f.happened >= :from_ms AND f.happened < :until_ms
ORDER BY what DESC, at_ms, entry;
