-- DERIVED. Views with the key data elements of 21 CFR 1 subpart S: one view a critical tracking event that a bakery meets, one row an
-- event of a food on the Food Traceability List. A lot is such a food when the plan that governs it says so of its material, or of its
-- product (traceability_list = true: it still holds the food and had no kill step). What is not known is '' or NULL.
-- A traceability lot code (tlc) is the supplier's lot code; of what we made, and where the supplier gave none, our own.
-- A location is name, address and telephone as stated for the partner or the site; *_short is 1 when one of the three is missing.

CREATE VIEW listed_lot AS
SELECT l.id, l.code, l.kind, l.item, l.happened, l.finished, l.made_mg, l.made_pieces, l.partner, l.printed_code,
       CASE WHEN l.kind = 'received' AND l.supplier_lot <> '' THEN l.supplier_lot ELSE l.code END AS tlc, i.name AS product
FROM lot l
JOIN plan_item i ON i.plan_seq = l.plan_seq AND i.sort IN ('material', 'product') AND i.id = l.item
WHERE i.listed = 1;

CREATE VIEW location AS
SELECT code, gln, name || CASE WHEN address = '' THEN '' ELSE ', ' || address END || CASE WHEN phone = '' THEN '' ELSE ', ' || phone END
           AS description,
       CASE WHEN name = '' OR address = '' OR phone = '' THEN 1 ELSE 0 END AS short
FROM partner;

-- The site itself, by the plan version that governs a lot.
CREATE VIEW site_location AS
SELECT plan_seq, gs1 AS gln, name || CASE WHEN detail = '' THEN '' ELSE ', ' || detail END AS description,
       CASE WHEN detail = '' OR listed = 0 THEN 1 ELSE 0 END AS short
FROM plan_item
WHERE sort = 'site';

-- 21 CFR 1.1345: a lot that came in, and goods of our own that came back.
CREATE VIEW receiving_event AS
SELECT l.id AS entry, l.happened, l.id AS lot, l.code, l.tlc,
       coalesce(l.made_pieces, l.made_mg / 1e6) AS quantity, CASE WHEN l.made_pieces IS NULL THEN 'kg' ELSE 'pieces' END AS unit,
       l.product, coalesce(p.description, '') AS previous_source, coalesce(p.short, 1) AS previous_source_short,
       h.description AS received_at, h.short AS received_at_short, r.document,
       CASE WHEN r.supplier_lot = '' THEN h.description ELSE coalesce(p.description, '') END AS tlc_source,
       r.supplier_lot = '' AS tlc_own, r.gtin
FROM listed_lot l
JOIN lot r ON r.id = l.id
LEFT JOIN location p ON p.code = l.partner
LEFT JOIN site_location h ON h.plan_seq = r.plan_seq
WHERE l.kind = 'received' AND r.status <> 'refused'
UNION ALL
SELECT m.seq, m.happened, l.id, l.code, l.tlc, coalesce(m.pieces, m.mass_mg / 1e6), CASE WHEN m.pieces IS NULL THEN 'kg' ELSE 'pieces' END,
       l.product, coalesce(p.description, ''), coalesce(p.short, 1), h.description, h.short, m.document, h.description, 0, ''
FROM move m
JOIN listed_lot l ON l.id = m.lot
JOIN lot r ON r.id = l.id
LEFT JOIN location p ON p.code = m.partner
LEFT JOIN site_location h ON h.plan_seq = r.plan_seq
WHERE m.way = 'returned';

-- 21 CFR 1.1350: a lot of such a food went into another lot.
CREATE VIEW transformation_event AS
SELECT u.seq AS entry, u.happened, f.id AS from_lot, f.code AS from_code, f.tlc AS from_tlc, f.product AS from_product,
       coalesce(u.mass_mg / 1e6, u.pieces) AS from_quantity, CASE WHEN u.mass_mg IS NULL THEN 'pieces' ELSE 'kg' END AS from_unit,
       u.sure, t.id AS into_lot, t.code AS into_code, t.code AS into_tlc, t.printed_code,
       CASE WHEN t.kind = 'batch' THEN t.finished ELSE t.happened END AS completed,
       coalesce(i.name, t.item) AS into_product, coalesce(i.listed, 0) AS into_listed,
       coalesce(t.made_pieces, t.made_mg / 1e6) AS into_quantity, CASE WHEN t.made_pieces IS NULL THEN 'kg' ELSE 'pieces' END AS into_unit,
       h.description AS made_at, h.short AS made_at_short
FROM use u
JOIN listed_lot f ON f.id = u.from_lot
JOIN lot t ON t.id = u.into_lot
LEFT JOIN plan_item i ON i.plan_seq = t.plan_seq AND i.sort IN ('material', 'product') AND i.id = t.item
LEFT JOIN site_location h ON h.plan_seq = t.plan_seq;

-- 21 CFR 1.1340: it left for another location. Sale to consumers, waste and samples are no shipping.
CREATE VIEW shipping_event AS
SELECT m.seq AS entry, m.happened, l.id AS lot, l.code, l.tlc, l.printed_code,
       coalesce(m.pieces, m.mass_mg / 1e6) AS quantity, CASE WHEN m.pieces IS NULL THEN 'kg' ELSE 'pieces' END AS unit, m.sure,
       l.product, coalesce(p.description, '') AS next_recipient, coalesce(p.short, 1) AS next_recipient_short,
       h.description AS shipped_from, h.short AS shipped_from_short,
       CASE WHEN l.kind = 'received' AND r.supplier_lot <> '' THEN coalesce(s.description, '') ELSE h.description END AS tlc_source,
       m.document, m.why
FROM move m
JOIN listed_lot l ON l.id = m.lot
JOIN lot r ON r.id = l.id
LEFT JOIN location p ON p.code = m.partner
LEFT JOIN location s ON s.code = l.partner
LEFT JOIN site_location h ON h.plan_seq = r.plan_seq
WHERE m.way IN ('customer', 'van', 'co-packer', 'donation');
