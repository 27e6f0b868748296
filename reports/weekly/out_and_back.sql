-- question: what left the house this week, by which way and to whom, and what came back?
-- parameters: :from_ms, :until_ms  when the week begins and ends
-- columns: way is a kind of move of its own ("returned" came back); kg is the share of the lot where only pieces were stated
SELECT m.seq AS entry, local_time(m.happened) AS moved, m.way || CASE WHEN m.sure = 0 THEN ', possible' ELSE '' END AS way,
       coalesce(partner.name, m.partner) AS partner, l.code AS lot, l.printed_code, coalesce(item.name, l.item) AS item, m.pieces,
       m.mass_mg / 1e6 AS kg, m.document, m.why
FROM move m
JOIN lot l ON l.id = m.lot
LEFT JOIN partner ON partner.code = m.partner
LEFT JOIN plan_item item ON item.plan_seq = l.plan_seq AND item.id = l.item
                        AND item.sort = CASE WHEN l.kind IN ('received', 'supply') THEN 'material' ELSE 'product' END
WHERE m.happened >= :from_ms AND m.happened < :until_ms
ORDER BY m.happened, m.seq, l.id;
