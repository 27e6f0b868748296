-- question: what do the marked points do over the four weeks to the end of this one, against their control lines?
-- parameters: none of its own; the charts end with the report's week
-- columns: what is charted (the title of the chart's axis); n counts the values of a point; one group (product, oven) after the
--          other, each with lines of its own; spread is the moving range. Control lines are no limits
-- needs: charts
SELECT coalesce(p.name, v.point) AS point, v.what, v.grp, v.n, v.label, local_time(v.taken) AS taken, v.value, v.unit, v.centre, v.lower, v.upper,
       v.spread, v.spread_centre, v.spread_upper, v.signal
FROM chart_value v
LEFT JOIN (SELECT id, name, max(plan_seq) FROM plan_point GROUP BY id) p ON p.id = v.point
ORDER BY v.point, v.n;
