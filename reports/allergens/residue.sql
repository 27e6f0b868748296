-- question: what lay on which equipment in the week, and what met it?
-- parameters: :from_ms, :until_ms  when the week begins and ends
-- columns: cleaning = the entry and how; met = lots that do not bring it themselves
SELECT r.equipment, r.allergen, r.level, l.code AS lot, local_time(r.from_ms) AS since,
       CASE WHEN r.until_ms IS NULL THEN 'still there' ELSE local_time(r.until_ms) END AS cleared,
       CASE WHEN r.cleaned_by IS NULL THEN '' ELSE 'entry ' || r.cleaned_by END AS cleaning,
       coalesce((SELECT group_concat(m.code, ', ')
                 FROM carry_over c JOIN lot m ON m.id = c.lot
                 WHERE c.equipment = r.equipment AND c.allergen = r.allergen AND c.since = r.from_ms), '') AS met
FROM residue r JOIN lot l ON l.id = r.lot
WHERE r.from_ms < :until_ms AND (r.until_ms IS NULL OR r.until_ms >= :from_ms)
ORDER BY r.equipment, r.from_ms, r.allergen;
