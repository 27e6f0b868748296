-- question: what did later entries change?
-- parameters: none
-- columns: by = the entries behind it
-- needs: recall_change
SELECT what, text, by FROM recall_change ORDER BY ord;
