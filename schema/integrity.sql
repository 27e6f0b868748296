-- RULES over the whole book that one table's checks cannot hold. `peelbook verify` runs each query: none may return a row.
-- "-- rule:" opens a query and says what must be true; the columns of a returned row say where it is not.

-- rule: every entry has its fact, of the same kind and time of writing
SELECT e.seq AS entry
FROM entry e LEFT JOIN fact f ON f.seq = e.seq
WHERE f.seq IS NULL
   OR f.kind IS NOT json_extract(CAST(e.body AS TEXT), '$.kind')
   OR f.written IS NOT json_extract(CAST(e.body AS TEXT), '$.written')
   OR f.by IS NOT json_extract(CAST(e.body AS TEXT), '$.by')
ORDER BY e.seq;

-- rule: every fact stands for an entry
SELECT f.seq AS fact FROM fact f WHERE NOT EXISTS (SELECT 1 FROM entry e WHERE e.seq = f.seq) ORDER BY f.seq;

-- rule: a fact is amended or voided only by a later entry
SELECT seq AS fact FROM fact WHERE amended_by <= seq OR voided_by <= seq ORDER BY seq;

-- rule: a touch names an entry that is in the book
SELECT t.subject_kind, t.subject, t.seq
FROM touch t LEFT JOIN fact f ON f.seq = t.seq
WHERE f.seq IS NULL
ORDER BY t.seq;

-- rule: a lot is made by an entry
SELECT l.id AS lot, l.code FROM lot l WHERE NOT EXISTS (SELECT 1 FROM fact f WHERE f.seq = l.id) ORDER BY l.id;

-- rule: a use joins two lots that are in the book
SELECT u.into_lot, u.from_lot, u.seq
FROM use u
WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = u.into_lot)
   OR NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = u.from_lot)
ORDER BY u.seq;

-- rule: the parts of a split lot are what went into them, to the milligram and the piece
SELECT l.id AS lot, l.code
FROM lot l
WHERE l.kind = 'rack'
  AND (l.made_mg IS NOT (SELECT sum(u.mass_mg) FROM use u WHERE u.into_lot = l.id)
       OR l.made_pieces IS NOT (SELECT sum(u.pieces) FROM use u WHERE u.into_lot = l.id))
ORDER BY l.id;

-- rule: what left or came back is of a lot that is in the book
SELECT m.lot, m.seq FROM move m WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = m.lot) ORDER BY m.seq;

-- rule: stock and counts are of lots that are in the book
SELECT s.lot FROM stock s WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = s.lot)
UNION
SELECT c.lot FROM stock_count c WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = c.lot)
ORDER BY 1;

-- rule: what was made is used, out, on hand, or a gap that a count found
SELECT lot, made_mg, used_mg, out_mg, on_hand_mg, gap_mg, made_pieces
FROM stock
WHERE made_mg <> used_mg + out_mg + on_hand_mg - gap_mg
   OR made_pieces <> used_pieces + out_pieces + on_hand_pieces - gap_pieces
ORDER BY lot;

-- rule: a reading is of a lot that is in the book
SELECT r.seq, r.lot
FROM reading r
WHERE r.lot IS NOT NULL AND NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = r.lot)
ORDER BY r.seq;

-- rule: a logger's file is named by an entry, kept, and of a lot that is in the book when it names one
SELECT s.seq
FROM series s
WHERE NOT EXISTS (SELECT 1 FROM fact f WHERE f.seq = s.seq AND f.kind = 'series')
   OR NOT EXISTS (SELECT 1 FROM attachment a WHERE a.sha256 = s.sha256)
   OR (s.lot IS NOT NULL AND NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = s.lot))
ORDER BY s.seq;

-- rule: a logger's file on a place has the rows it is said to have, in all and day by day
SELECT s.seq, s.rows
FROM series s
WHERE s.place <> ''
  AND (s.rows <> (SELECT count(*) FROM series_row r WHERE r.seq = s.seq)
       OR (s.voided_by IS NULL AND s.rows <> (SELECT total(d.rows) FROM series_day d WHERE d.seq = s.seq)))
ORDER BY s.seq;

-- rule: a finding hangs on an entry, and on a lot that is in the book when it names one
SELECT f.anchor, f.point, f.ord
FROM finding f
WHERE NOT EXISTS (SELECT 1 FROM fact e WHERE e.seq = f.anchor)
   OR (f.lot IS NOT NULL AND NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = f.lot))
ORDER BY f.anchor;

-- rule: a finding never forgets the worst it stood at
SELECT anchor, point, ord FROM finding WHERE verdict > raised ORDER BY anchor;

-- rule: a hold is of a lot that is in the book
SELECT h.seq, h.lot FROM hold h WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = h.lot) ORDER BY h.seq;

-- rule: what keeps a lot from going on is of lots that are in the book
SELECT u.lot, u.source, u.point FROM unsettled u
WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = u.lot) OR NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = u.source)
ORDER BY u.lot;

-- rule: a corrective action answers a finding
SELECT a.seq AS action, a.anchor, a.point, a.ord
FROM action a
WHERE NOT EXISTS (SELECT 1 FROM finding f WHERE f.anchor = a.anchor AND f.point = a.point AND f.ord = a.ord)
ORDER BY a.seq;

-- rule: an allergen is of a lot that is in the book
SELECT a.lot, a.allergen FROM lot_allergen a WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = a.lot) ORDER BY a.lot;

-- rule: what ran on equipment, left residue there or met it is a lot that is in the book
SELECT r.equipment, r.at, r.lot FROM run r WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = r.lot)
UNION
SELECT r.equipment, r.from_ms, r.lot FROM residue r WHERE NOT EXISTS (SELECT 1 FROM lot l WHERE l.id = r.lot)
UNION
SELECT c.equipment, c.at, c.lot FROM carry_over c
WHERE NOT EXISTS (SELECT 1 FROM run r WHERE r.equipment = c.equipment AND r.at = c.at AND r.lot = c.lot)
ORDER BY 1, 2;

-- rule: the spans of an instrument do not overlap
SELECT a.instrument, a.from_ms
FROM instrument_span a JOIN instrument_span b ON b.instrument = a.instrument AND b.from_ms > a.from_ms
WHERE a.until_ms IS NULL OR a.until_ms > b.from_ms
ORDER BY a.instrument, a.from_ms;

-- rule: a correction names an entry that is in the book
SELECT c.seq, c.target FROM correction c WHERE NOT EXISTS (SELECT 1 FROM fact f WHERE f.seq = c.target) ORDER BY c.seq;

-- rule: lots and findings are judged by a version of the plan that is in the book
SELECT plan_seq FROM lot WHERE plan_seq <> 0 AND plan_seq NOT IN (SELECT seq FROM plan_version)
UNION
SELECT plan_seq FROM finding WHERE plan_seq <> 0 AND plan_seq NOT IN (SELECT seq FROM plan_version)
ORDER BY 1;

-- rule: the snapshot, the steps and the decisions of a recall are of a recall that is in the book
SELECT 'recall_lot' AS of, recall FROM recall_lot WHERE recall NOT IN (SELECT seq FROM recall)
UNION SELECT 'recall_delivery', recall FROM recall_delivery WHERE recall NOT IN (SELECT seq FROM recall)
UNION SELECT 'recall_step', recall FROM recall_step WHERE recall <> 0 AND recall NOT IN (SELECT seq FROM recall)
UNION SELECT 'recall_told_code', seq FROM recall_told_code WHERE seq NOT IN (SELECT seq FROM recall_step)
UNION SELECT 'recall_count', recall FROM recall_count WHERE recall NOT IN (SELECT seq FROM recall)
UNION SELECT 'recall_out', recall FROM recall_out WHERE recall NOT IN (SELECT seq FROM recall)
ORDER BY 1, 2;

-- rule: a recall is closed by a later entry
SELECT code FROM recall WHERE closed_seq <= seq ORDER BY seq;
