-- question: what broke, went missing or could not be proven this week, and what was done about it?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: finding as `peelbook act` takes it; raised = the worst it stood at, verdict = now; since = what cleared it
--          and its holds; done and disposition from the actions
SELECT f.anchor || ':' || f.point || CASE WHEN f.ord = 0 THEN '' ELSE ':' || f.ord END AS finding,
       f.grade,
       coalesce(l.code, f.place) || CASE WHEN f.unit = '' THEN '' ELSE ', ' || f.unit END AS subject,
       coalesce(p.name, f.point) AS point,
       local_time(f.happened) AS decided, f.measured, f.limit_text, f.detail,
       CASE f.raised WHEN 1 THEN 'unproven' WHEN 2 THEN 'missing' ELSE 'deviation' END AS raised,
       CASE f.verdict WHEN 0 THEN 'within' WHEN 1 THEN 'unproven' WHEN 2 THEN 'missing' ELSE 'deviation' END AS verdict,
       trim(CASE WHEN f.cleared_by IS NOT NULL THEN 'cleared by entry ' || f.cleared_by || char(10)
                 WHEN f.kept_by IS NOT NULL THEN 'waits for a countersign of entry ' || f.kept_by || char(10) ELSE '' END ||
            coalesce((SELECT group_concat('held by entry ' || h.seq || CASE WHEN h.released_seq IS NULL THEN ', stands'
                                                                            ELSE ', released by ' || h.released_seq END, char(10))
                      FROM hold h
                      WHERE h.cause_anchor = f.anchor AND h.cause_point = f.point AND h.cause_ord = f.ord
                        AND (f.lot IS NULL OR h.lot = f.lot)), ''), char(10)) AS since,
       (SELECT group_concat(trim('entry ' || a.seq || ' ' || a.by || ': ' || a.product ||
                                 CASE WHEN a.product <> '' AND a.process <> '' THEN ' / ' ELSE '' END || a.process ||
                                 CASE WHEN a.cause = '' THEN '' ELSE ' Cause: ' || a.cause END ||
                                 CASE WHEN a.prevention = '' THEN '' ELSE ' Kept from coming back: ' || a.prevention END), char(10))
        FROM action a WHERE a.anchor = f.anchor AND a.point = f.point AND a.ord = f.ord) AS done,
       (SELECT group_concat(DISTINCT a.disposition) FROM action a
        WHERE a.anchor = f.anchor AND a.point = f.point AND a.ord = f.ord AND a.disposition <> '') AS disposition
FROM finding f
LEFT JOIN lot l ON l.id = f.lot
LEFT JOIN plan_point p ON p.plan_seq = f.plan_seq AND p.id = f.point
WHERE f.week = :week AND f.raised > 0
ORDER BY f.verdict DESC, CASE f.grade WHEN 'critical' THEN 0 WHEN 'operating' THEN 1 ELSE 2 END, f.happened, f.anchor, f.point, f.ord;
