-- question: when was each step done, and by when was it owed?
-- parameters: none
-- columns: minutes after word came, rounded down; state done, done late, open, overdue, or not done where the plan has no deadline
-- needs: recall_timing
SELECT step, local_time(done) AS done, (done - (SELECT done FROM recall_timing ORDER BY ord LIMIT 1)) / 60000 AS minutes, local_time(due) AS due, state, basis
FROM recall_timing
ORDER BY ord;
