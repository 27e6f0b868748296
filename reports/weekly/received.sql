-- question: what came in this week, from whom?
-- parameters: :week  production week, ISO year x 100 + week
-- columns: kg and pieces as received (none for a supply such as water, which does not run out); date with its kind; allergens of that very lot, "not-stated" where the supplier declared nothing
SELECT l.code AS lot, local_time(l.happened) AS arrived, coalesce(item.name, l.item) AS item,
       coalesce(partner.name, l.partner) AS supplier, l.supplier_lot, l.made_mg / 1e6 AS kg, l.made_pieces AS pieces, l.date,
       l.date_kind, l.document,
       (SELECT group_concat(CASE a.level WHEN 'contains' THEN a.allergen WHEN 'may-contain' THEN 'may contain ' || a.allergen
                                         ELSE a.allergen END, ', ')
        FROM lot_allergen a WHERE a.lot = l.id) AS allergens,
       CASE WHEN l.kind = 'supply' THEN 'supply' ELSE l.status END AS status, l.by AS who
FROM lot l
LEFT JOIN plan_item item ON item.plan_seq = l.plan_seq AND item.sort = 'material' AND item.id = l.item
LEFT JOIN partner ON partner.code = l.partner
WHERE l.kind IN ('received', 'supply') AND l.week = :week
ORDER BY l.happened, l.id;
