-- question: what was corrected this week, from what to what, why and by whom?
-- parameters: :from_ms, :until_ms  when the week begins and ends (by the time of writing)
-- columns: before and after in words
SELECT c.seq AS entry, local_time(f.written) AS written, c.kind, c.target, of.kind AS target_kind, c.before, c.after, c.why,
       f.by AS who
FROM correction c
JOIN fact f ON f.seq = c.seq
LEFT JOIN fact of ON of.seq = c.target
WHERE f.written >= :from_ms AND f.written < :until_ms
ORDER BY c.seq;
