-- question: what must the reader of this trace know?
-- parameters: none
-- columns: note
-- needs: trace_note
SELECT note FROM trace_note ORDER BY ord;
