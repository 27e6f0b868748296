-- question: who reviewed the records of this week, and does the review still stand?
-- parameters: :week, :week_text  production week, as ISO year x 100 + week and as 2026-W47
-- columns: standing says which later entry reopened it
SELECT r.what, local_time(r.happened) AS reviewed, r.by AS who, r.note,
       CASE WHEN r.reopened_by IS NULL THEN 'yes' ELSE 'of the earlier version; reopened by entry ' || r.reopened_by END AS standing
FROM review r
WHERE r.what = :week_text OR EXISTS (SELECT 1 FROM lot l WHERE l.code = r.what AND l.week = :week)
ORDER BY r.happened, r.seq;
