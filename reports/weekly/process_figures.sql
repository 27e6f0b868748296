-- question: what are the lines, the spread and the capability of each charted group, and what is there to note?
-- parameters: none of its own; the charts end with the report's week
-- columns: what is charted; sigma from the moving ranges; sd, cp, cpk and its 95 % limits from all values against the plan's
--          limit; note is for quality, never a verdict
-- needs: charts
SELECT point, grp, what, unit, n, centre, lower, upper, sigma, mean, sd, least, most, cp, cpk, cpk_lower, cpk_upper, note
FROM (SELECT 1 AS sort, coalesce(p.name, g.point) AS point, g.grp, g.what, g.unit, g.n, g.centre, g.lower, g.upper, g.sigma, g.mean, g.sd, g.least,
             g.most, g.cp, g.cpk, g.cpk_lower, g.cpk_upper, NULL AS note, g.rowid AS o
      FROM chart_group g LEFT JOIN (SELECT id, name, max(plan_seq) FROM plan_point GROUP BY id) p ON p.id = g.point
      UNION ALL
      SELECT 2, coalesce(p.name, n.point), n.grp, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, n.note, n.rowid
      FROM chart_note n LEFT JOIN (SELECT id, name, max(plan_seq) FROM plan_point GROUP BY id) p ON p.id = n.point)
ORDER BY point, grp, sort, o;
