-- question: what must the reader know?
-- parameters: none
-- columns: note
-- needs: recall_note
SELECT note FROM recall_note ORDER BY ord;
