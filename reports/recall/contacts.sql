-- question: what was done, and who was told, when and by whom?
-- parameters: none
-- columns: one row an entry
-- needs: recall_log
SELECT local_time(happened) AS happened, kind, trim(whom || ' ' || name) AS whom, how, CASE WHEN reached IS NULL THEN '' WHEN reached THEN 'yes' ELSE 'no' END AS reached,
       CASE WHEN checks THEN 'yes' ELSE '' END AS checks, text, by, entry
FROM recall_log
ORDER BY ord;
