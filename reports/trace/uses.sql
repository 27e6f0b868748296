-- question: which recorded uses does the trace stand on?
-- parameters: none
-- columns: one row a use, in the order in which they happened
-- needs: trace_edge
SELECT from_code, from_name, into_code, into_name, mass_mg / 1e6 AS kg, pieces, CASE WHEN sure THEN 'yes' ELSE 'possible' END AS certain,
       local_time(happened) AS used, seq AS entry
FROM trace_edge
ORDER BY happened, seq, from_code, into_code;
