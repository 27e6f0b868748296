-- question: what is this recall, and how far has it come?
-- parameters: none
-- columns: name and value, in words
-- needs: recall_fact
SELECT name, value FROM recall_fact ORDER BY ord;
