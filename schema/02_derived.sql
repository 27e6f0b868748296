-- DERIVED. Made from the entries in the same transaction that writes them; `peelbook rebuild` makes them again.
-- One table a struct of src/book/rows.h: same columns, same order, the leading ones are the key.
-- Times are Unix milliseconds (UTC), masses milligrams. An empty text means "none"; NULL means "not known" or "not yet".
-- Indexes are those that the look-ups of src/book/derived.h need.

CREATE TABLE fact (               -- an entry, with what later corrections say of it
    seq        INTEGER PRIMARY KEY,     -- of the entry
    kind       TEXT NOT NULL            -- of the entry: "received", "reading", ...
        CONSTRAINT fact_has_a_kind CHECK (kind <> ''),
    happened   INTEGER NOT NULL,        -- when the person says it happened, as last amended
    written    INTEGER NOT NULL,        -- when the clock says it was written
    by         TEXT NOT NULL            -- initials of who states it
        CONSTRAINT fact_is_signed CHECK (by <> ''),
    token      TEXT NOT NULL,           -- of the client, against double entry; empty: none
    late       INTEGER NOT NULL         -- 1: written later after it happened than the plan allows
        CONSTRAINT fact_late_or_not CHECK (late IN (0, 1)),
    amended_by INTEGER,                 -- the latest entry that amends it
    voided_by  INTEGER                  -- the entry that voids it
) STRICT;
CREATE UNIQUE INDEX fact_token ON fact (token) WHERE token <> '';

CREATE TABLE touch (              -- which entries the fold of a subject reads
    subject_kind INTEGER NOT NULL       -- 1 lot, 2 vessel, 3 place and point, 4 instrument, 5 line, 6 equipment, 7 outage
        CONSTRAINT touch_subject_kind CHECK (subject_kind BETWEEN 1 AND 7),
    subject      TEXT NOT NULL,         -- lot id in decimal, vessel, place#point, instrument id, line, equipment id, "house"
    happened     INTEGER NOT NULL,      -- of the entry, as last amended
    seq          INTEGER NOT NULL,      -- the entry
    PRIMARY KEY (subject_kind, subject, happened, seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX touch_seq ON touch (seq);

CREATE TABLE person (
    initials TEXT PRIMARY KEY,          -- what they sign with
    name     TEXT NOT NULL,             -- in full
    role     TEXT NOT NULL,             -- a role of the plan
    seq      INTEGER NOT NULL,          -- the entry that stated it last
    left_ms  INTEGER                    -- since when they sign nothing; NULL: they sign
) STRICT, WITHOUT ROWID;

CREATE TABLE partner (            -- supplier, customer, carrier, authority
    code    TEXT PRIMARY KEY,           -- short code of ours
    name    TEXT NOT NULL,              -- of the firm
    roles   TEXT NOT NULL,              -- "supplier customer carrier authority", those that hold
    address TEXT NOT NULL,              -- as stated
    phone   TEXT NOT NULL,              -- for the recall call
    email   TEXT NOT NULL,              -- for the recall letter
    gln     TEXT NOT NULL,              -- GS1 location number, 13 digits
    seq     INTEGER NOT NULL            -- the entry that stated it last
) STRICT, WITHOUT ROWID;

CREATE TABLE plan_version (
    seq     INTEGER PRIMARY KEY,        -- the entry that adopted it
    from_ms INTEGER NOT NULL,           -- in force from; the first one also governs what happened before
    sha256  TEXT NOT NULL,              -- of the plan's text
    by      TEXT NOT NULL,              -- initials of who signed it
    practice INTEGER NOT NULL           -- 1: what is recorded under it is practice: judged, never held by itself
        CONSTRAINT plan_version_practice CHECK (practice IN (0, 1)),
    hazard  TEXT NOT NULL               -- why it also judges points that were open when it was adopted; empty: it does not
) STRICT;

CREATE TABLE plan_point (         -- a control point of a version, in words
    plan_seq       INTEGER NOT NULL,    -- the version
    id             TEXT NOT NULL,       -- of the point
    name           TEXT NOT NULL,       -- of the point, for people
    step           TEXT NOT NULL,       -- process step it stands at
    grade          TEXT NOT NULL        -- how much hangs on it
        CONSTRAINT plan_point_grade CHECK (grade IN ('critical', 'operating', 'quality')),
    measures       TEXT NOT NULL,       -- what is measured, with unit
    limit_text     TEXT NOT NULL,       -- the limit in words
    frequency      TEXT NOT NULL,       -- how often
    who            TEXT NOT NULL,       -- roles that may do it
    basis          TEXT NOT NULL,       -- source or validation document
    product_action TEXT NOT NULL,       -- corrective action for the product
    process_action TEXT NOT NULL,       -- corrective action for the process
    warning        TEXT NOT NULL,       -- what the reader must know about this limit
    PRIMARY KEY (plan_seq, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE plan_item (          -- a named thing of a version
    plan_seq INTEGER NOT NULL,          -- the version
    sort     TEXT NOT NULL,             -- material, product, label, vessel, place, instrument, hazard; site: one row with an empty id
    id       TEXT NOT NULL,             -- as typed in commands
    name     TEXT NOT NULL,             -- for people
    detail   TEXT NOT NULL,             -- more of it, in words; of the site its address and telephone
    gs1      TEXT NOT NULL,             -- GTINs of a material or product, a blank between; GLN of the site
    listed   INTEGER NOT NULL           -- 1: on the Food Traceability List; of the site: address and telephone are both stated
        CONSTRAINT plan_item_listed_or_not CHECK (listed IN (0, 1)),
    PRIMARY KEY (plan_seq, sort, id)
) STRICT, WITHOUT ROWID;

CREATE TABLE plan_compiled (      -- a version in the form that is read fast; the entry's texts say the same
    plan_seq INTEGER PRIMARY KEY,       -- the version
    text     TEXT NOT NULL              -- src/plan/compiled.h describes it
) STRICT;

CREATE TABLE lot (                -- everything that has a mass
    id           INTEGER PRIMARY KEY,   -- seq of the entry that made it
    code         TEXT NOT NULL          -- ours, as written on the bag, tub, rack
        CONSTRAINT lot_has_a_code CHECK (code <> ''),
    kind         TEXT NOT NULL          -- how it came to be
        CONSTRAINT lot_kind CHECK (kind IN ('received', 'supply', 'blend', 'batch', 'rack', 'pack')),
    item         TEXT NOT NULL,         -- material or product of the plan
    plan_seq     INTEGER NOT NULL,      -- version of the plan it is judged by
    vessel       TEXT NOT NULL,         -- of a blend: where it stands
    happened     INTEGER NOT NULL,      -- received, started, filled, split, packed
    finished     INTEGER,               -- when a batch was done
    made_mg      INTEGER                -- received, or yield; NULL while a batch is open
        CONSTRAINT lot_made_mg CHECK (made_mg >= 0),
    made_pieces  INTEGER                -- the same in pieces; NULL: not counted
        CONSTRAINT lot_made_pieces CHECK (made_pieces >= 0),
    input_mg     INTEGER                -- sum of what went into a batch
        CONSTRAINT lot_input_mg CHECK (input_mg >= 0),
    partner      TEXT NOT NULL,         -- supplier
    supplier_lot TEXT NOT NULL,         -- the supplier's own code; may come again, years apart
    gtin         TEXT NOT NULL,         -- GS1 article number
    date         TEXT NOT NULL          -- printed or shown date, 2026-11-24
        CONSTRAINT lot_date CHECK (date = '' OR date GLOB '[0-9][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]'),
    date_kind    TEXT NOT NULL,         -- best-before, use-by, ...
    label        TEXT NOT NULL,         -- of a pack: label version
    printed_code TEXT NOT NULL,         -- of a pack: as read from it, the unit of a recall
    document     TEXT NOT NULL,         -- delivery note
    carrier      TEXT NOT NULL,         -- who brought it
    place        TEXT NOT NULL,         -- where it was last stored
    status       TEXT NOT NULL          -- of a received lot or a batch
        CONSTRAINT lot_status CHECK (status IN ('', 'accepted', 'held', 'refused', 'open', 'finished')),
    day          INTEGER NOT NULL,      -- production day, days since 1970-01-01
    week         INTEGER NOT NULL,      -- production week, ISO year x 100 + week
    by           TEXT NOT NULL,         -- initials of who stated it
    sscc         TEXT NOT NULL,         -- GS1 number of the pallet it came as
    aged_from    INTEGER,               -- of a batch: its shelf life and its age count from here
    killed       INTEGER NOT NULL       -- 1: what went in up to aged_from was killed then, and brings no use-by date
        CONSTRAINT lot_killed CHECK (killed IN (0, 1))
) STRICT;
CREATE UNIQUE INDEX lot_code ON lot (code);
CREATE INDEX lot_item ON lot (item, happened);
CREATE INDEX lot_started ON lot (happened, finished) WHERE kind = 'batch';
CREATE INDEX lot_week ON lot (week);
CREATE INDEX lot_vessel ON lot (vessel, happened) WHERE kind = 'blend';
CREATE INDEX lot_supplier_lot ON lot (supplier_lot) WHERE supplier_lot <> '';
CREATE INDEX lot_printed_code ON lot (printed_code) WHERE printed_code <> '';

CREATE TABLE spent_code (         -- codes of lots whose maker was voided: labels may bear them, so no other lot gets them
    code TEXT PRIMARY KEY,              -- as it was
    lot  INTEGER NOT NULL               -- seq of the entry that was voided
) STRICT, WITHOUT ROWID;

CREATE TABLE keeping (            -- until when a lot may be used, as it was made: the earliest end of each kind
    lot      INTEGER NOT NULL,          -- which
    kind     TEXT NOT NULL              -- past best-before a reason is asked, past use-by it is refused
        CONSTRAINT keeping_kind CHECK (kind IN ('best-before', 'use-by')),
    until_ms INTEGER NOT NULL,          -- the first moment that is too late
    reason   TEXT NOT NULL              -- what ends then
        CONSTRAINT keeping_reason CHECK (reason IN ('date', 'shelf-life', 'age', 'opened', 'thawed')),
    source   INTEGER NOT NULL,          -- of which lot: this one, or one that is in it
    PRIMARY KEY (lot, kind)
) STRICT, WITHOUT ROWID;

CREATE TABLE clock (              -- a lot was opened or thawed
    lot      INTEGER NOT NULL,          -- which
    seq      INTEGER NOT NULL,          -- the entry that says so
    kind     TEXT NOT NULL              -- which of the two
        CONSTRAINT clock_kind CHECK (kind IN ('opened', 'thawed')),
    happened INTEGER NOT NULL,          -- from here on
    another  INTEGER NOT NULL           -- 1: another tub or box of it; what ran before is used up
        CONSTRAINT clock_another CHECK (another IN (0, 1)),
    until_ms INTEGER,                   -- the first moment that is too late; NULL: the plan states no time
    PRIMARY KEY (lot, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE use (                -- the only genealogy: from_lot went into into_lot
    into_lot INTEGER NOT NULL,          -- what was made
    from_lot INTEGER NOT NULL           -- what went in
        CONSTRAINT use_not_of_itself CHECK (from_lot <> into_lot),
    seq      INTEGER NOT NULL,          -- the entry that states it
    mass_mg  INTEGER                    -- NULL: mass not known
        CONSTRAINT use_mass CHECK (mass_mg >= 0),
    pieces   INTEGER                    -- NULL: not counted in pieces
        CONSTRAINT use_pieces CHECK (pieces >= 0),
    largest_mg INTEGER                  -- part of a draw from a vessel: the most it can be, mass_mg being expected; NULL: mass_mg
        CONSTRAINT use_largest CHECK (largest_mg >= mass_mg),
    stated   INTEGER NOT NULL           -- 1: the mass was stated; 0: it is the pieces' share of the lot they came from
        CONSTRAINT use_stated_or_shared CHECK (stated IN (0, 1)),
    sure     INTEGER NOT NULL           -- 1 certain, 0 possible
        CONSTRAINT use_sure_or_possible CHECK (sure IN (0, 1)),
    ended_by INTEGER,                   -- the signed decision that traces through this use end here
    struck_by INTEGER,                  -- a correction that takes it away and waits: until then it stays as possible
    happened INTEGER NOT NULL,          -- when it went in
    note     TEXT NOT NULL,             -- why a lot past its date, what was already done
    PRIMARY KEY (into_lot, from_lot, seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX use_from ON use (from_lot, into_lot, ended_by);
CREATE INDEX use_ended ON use (from_lot) WHERE ended_by IS NOT NULL;

CREATE TABLE line_feed (          -- a lot stood on a line: everything that ran there meanwhile may hold it
    line     TEXT NOT NULL,             -- place of the plan
    from_ms  INTEGER NOT NULL,          -- put there
    seq      INTEGER NOT NULL,          -- the entry that says so
    lot      INTEGER NOT NULL,          -- which
    until_ms INTEGER                    -- taken off; NULL: it is still there
        CONSTRAINT line_feed_ends_later CHECK (until_ms >= from_ms),
    PRIMARY KEY (line, from_ms, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE stay (               -- a lot lay in a place of the house
    lot      INTEGER NOT NULL,          -- which
    seq      INTEGER NOT NULL,          -- the entry that put it there
    place    TEXT NOT NULL              -- of the plan
        CONSTRAINT stay_somewhere CHECK (place <> ''),
    from_ms  INTEGER NOT NULL,          -- since when
    until_ms INTEGER                    -- when it was stored elsewhere; NULL: it was not
        CONSTRAINT stay_ends_later CHECK (until_ms >= from_ms),
    PRIMARY KEY (lot, seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX stay_place ON stay (place, from_ms);

CREATE TABLE move (               -- a way out of the house, or a return
    lot         INTEGER NOT NULL,       -- what left
    seq         INTEGER NOT NULL,       -- the entry that states it
    way         TEXT NOT NULL           -- each way out is a word of its own
        CONSTRAINT move_way CHECK (way IN ('customer', 'own-shop', 'van', 'staff-shop', 'donation', 'animal-feed',
                                           'co-packer', 'waste', 'sample', 'supplier', 'returned')),
    partner     TEXT NOT NULL,          -- who has it
    mass_mg     INTEGER                 -- NULL: mass not known
        CONSTRAINT move_mass CHECK (mass_mg >= 0),
    pieces      INTEGER                 -- NULL: not counted in pieces
        CONSTRAINT move_pieces CHECK (pieces >= 0),
    stated      INTEGER NOT NULL        -- 1: the mass was stated; 0: it is the pieces' share of the lot
        CONSTRAINT move_stated_or_shared CHECK (stated IN (0, 1)),
    of_returned INTEGER NOT NULL        -- 1: of what came back, not of what is on hand
        CONSTRAINT move_of_returned_or_not CHECK (of_returned IN (0, 1)),
    happened    INTEGER NOT NULL,       -- when it left or came back
    sure        INTEGER NOT NULL        -- 1 certain, 0 possible: shipped by product, lot not known
        CONSTRAINT move_sure_or_possible CHECK (sure IN (0, 1)),
    document    TEXT NOT NULL,          -- delivery note
    carrier     TEXT NOT NULL,          -- who drove
    why         TEXT NOT NULL,          -- of waste, sample, return
    sscc        TEXT NOT NULL,          -- GS1 number of the pallet it left as
    round       TEXT NOT NULL,          -- delivery round that it went by
    left_by     TEXT NOT NULL           -- of a return without a partner: the way by which the goods had left
        CONSTRAINT move_left_by CHECK (left_by IN ('', 'customer', 'own-shop', 'van', 'staff-shop', 'donation', 'animal-feed',
                                                   'co-packer', 'supplier')),
    PRIMARY KEY (lot, seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX move_round ON move (round, happened) WHERE round <> '';
CREATE INDEX move_partner ON move (partner, happened) WHERE partner <> '';

CREATE TABLE stock_count (        -- stock as found
    lot            INTEGER NOT NULL,    -- what was counted
    seq            INTEGER NOT NULL,    -- the entry that states it
    happened       INTEGER NOT NULL,    -- when it was counted
    counted_mg     INTEGER              -- NULL: not weighed
        CONSTRAINT stock_count_mass CHECK (counted_mg >= 0),
    counted_pieces INTEGER              -- NULL: not counted
        CONSTRAINT stock_count_pieces CHECK (counted_pieces >= 0),
    why            TEXT NOT NULL,       -- reason given
    PRIMARY KEY (lot, seq)
) STRICT, WITHOUT ROWID;

CREATE TABLE stock (              -- on hand = made - used - out + gap; returned stands apart
    lot             INTEGER PRIMARY KEY,  -- of which
    made_mg         INTEGER NOT NULL,     -- received or yield
    used_mg         INTEGER NOT NULL,     -- went into other lots
    out_mg          INTEGER NOT NULL,     -- left the house
    gap_mg          INTEGER NOT NULL,     -- counted minus computed, summed over the counts
    on_hand_mg      INTEGER NOT NULL,     -- what should stand there now
    returned_mg     INTEGER NOT NULL,     -- came back, kept apart
    made_pieces     INTEGER,              -- NULL: not counted in pieces, and the columns below are 0
    used_pieces     INTEGER NOT NULL,     -- as used_mg
    out_pieces      INTEGER NOT NULL,     -- as out_mg
    gap_pieces      INTEGER NOT NULL,     -- as gap_mg
    on_hand_pieces  INTEGER NOT NULL,     -- as on_hand_mg
    returned_pieces INTEGER NOT NULL,     -- as returned_mg
    went_negative   INTEGER NOT NULL      -- 1: at some past instant more had left than was there (a late entry)
        CONSTRAINT stock_negative_or_not CHECK (went_negative IN (0, 1)),
    CONSTRAINT stock_mass_adds_up CHECK (made_mg = used_mg + out_mg + on_hand_mg - gap_mg),
    CONSTRAINT stock_pieces_add_up
        CHECK (made_pieces IS NULL OR made_pieces = used_pieces + out_pieces + on_hand_pieces - gap_pieces)
) STRICT;

CREATE TABLE reading (            -- a reading, a row of a logger's series on a lot, or an inspection
    seq        INTEGER NOT NULL,        -- the entry that states it
    row        INTEGER NOT NULL,        -- line of the series, from 0; 0 of a single reading
    lot        INTEGER,                 -- of which lot; NULL: of a place
    place      TEXT NOT NULL,           -- of which place or equipment, when it is not of a lot
    point      TEXT NOT NULL,           -- control point of the plan
    unit       TEXT NOT NULL,           -- which oven, deck, rack was probed
    instrument TEXT NOT NULL,           -- with which
    value      INTEGER NOT NULL,        -- canonical integer of the quantity (base/measure.h); 1 or 0 of an inspection
    symbol     TEXT NOT NULL,           -- of the typed unit; empty of an inspection
    typed      TEXT NOT NULL,           -- as typed: 93.4C, yes
    happened   INTEGER NOT NULL,        -- when it was read
    by         TEXT NOT NULL,           -- initials of who states it
    slip       TEXT NOT NULL,           -- number of the paper original that it was typed from; empty: none
    voided_by  INTEGER,                 -- the entry that voids it
    PRIMARY KEY (seq, row),
    CONSTRAINT reading_of_lot_or_place CHECK ((lot IS NULL) = (place <> ''))
) STRICT, WITHOUT ROWID;
CREATE INDEX reading_lot ON reading (lot, point, happened) WHERE lot IS NOT NULL;
CREATE INDEX reading_place ON reading (place, point, happened) WHERE place <> '';
CREATE INDEX reading_instrument ON reading (instrument, happened) WHERE instrument <> '';

CREATE TABLE series (             -- a logger's file as it was read; the file itself is an attachment
    seq          INTEGER PRIMARY KEY,   -- the entry that states it
    lot          INTEGER,               -- of which lot: its rows are readings; NULL: of a place
    place        TEXT NOT NULL,         -- of which place: its rows are series_row
    point        TEXT NOT NULL,         -- control point of the plan
    unit         TEXT NOT NULL,         -- which oven, deck, rack was probed
    instrument   TEXT NOT NULL,         -- the logger, as an instrument of the plan
    logger       TEXT NOT NULL,         -- how the file was read: a logger of the plan; empty: found out
    column_read  TEXT NOT NULL,         -- of the values: heading or number; empty: the second
    file         TEXT NOT NULL,         -- its name
    sha256       TEXT NOT NULL,         -- of its bytes: the attachment's key
    symbol       TEXT NOT NULL,         -- of the unit of its values
    rows         INTEGER NOT NULL,      -- with a time and a value
    first_ms     INTEGER NOT NULL,      -- time of the earliest row
    last_ms      INTEGER NOT NULL,      -- time of the latest row
    least        INTEGER NOT NULL,      -- canonical
    most         INTEGER NOT NULL,      -- canonical
    gaps         INTEGER NOT NULL,      -- steps longer than half as much again as the plan's logger says
    duplicates   INTEGER NOT NULL,      -- rows with the time and value of another
    two_values   INTEGER NOT NULL,      -- rows with the time of another and another value
    out_of_order INTEGER NOT NULL,      -- rows that stand after a later one
    clock_steps  INTEGER NOT NULL,      -- places where the logger's clock was moved, or its time never was, or was twice and stands there once
    no_values    INTEGER NOT NULL,      -- rows without a value
    voided_by    INTEGER,               -- the entry that voids it
    CONSTRAINT series_has_a_span CHECK (first_ms <= last_ms),
    CONSTRAINT series_of_lot_or_place CHECK ((lot IS NULL) = (place <> ''))
) STRICT;
CREATE INDEX series_place ON series (place, point, last_ms) WHERE place <> '';

CREATE TABLE series_fault (       -- something odd in a logger's file: of each kind the first few, all are counted in series
    seq      INTEGER NOT NULL,          -- the entry that states the file
    ord      INTEGER NOT NULL,          -- in order of time
    kind     TEXT NOT NULL              -- what is odd
        CONSTRAINT series_fault_kind CHECK (kind IN ('gap', 'duplicate', 'two-values', 'out-of-order', 'clock', 'no-value')),
    line     INTEGER NOT NULL,          -- of the file, from 1
    from_ms  INTEGER NOT NULL,          -- from this time of the logger
    until_ms INTEGER NOT NULL,          -- to this one; earlier when its clock went back
    rows     INTEGER NOT NULL,          -- rows it is about; of a gap the missing ones, 0 when not known
    detail   TEXT NOT NULL,             -- in a sentence
    PRIMARY KEY (seq, ord)
) STRICT, WITHOUT ROWID;

CREATE TABLE series_day (         -- a production day of a logger's file on a place
    seq        INTEGER NOT NULL,        -- the entry that states the file
    day        INTEGER NOT NULL,        -- production day, days since 1970-01-01
    week       INTEGER NOT NULL,        -- production week, ISO year x 100 + week
    rows       INTEGER NOT NULL,        -- of that day
    least      INTEGER NOT NULL,        -- canonical
    most       INTEGER NOT NULL,        -- canonical
    mean       INTEGER NOT NULL,        -- canonical, rounded
    outside    INTEGER NOT NULL,        -- rows that miss the limit
    longest_ms INTEGER NOT NULL,        -- of the longest stretch of them, to the first row within again
    PRIMARY KEY (seq, day)
) STRICT, WITHOUT ROWID;
CREATE INDEX series_day_week ON series_day (week);

CREATE TABLE series_row (         -- a row of a logger's file on a place
    seq      INTEGER NOT NULL,          -- the entry that states the file
    happened INTEGER NOT NULL,          -- its time
    line     INTEGER NOT NULL,          -- of the file, from 1
    value    INTEGER NOT NULL,          -- canonical integer of the quantity (base/measure.h)
    PRIMARY KEY (seq, happened, line)
) STRICT, WITHOUT ROWID;

CREATE TABLE finding (            -- a verdict on a control point
    anchor     INTEGER NOT NULL,        -- the entry it hangs on
    point      TEXT NOT NULL,           -- control point of the plan
    ord        INTEGER NOT NULL,        -- number among those of the same anchor and point
    lot        INTEGER,                 -- of which lot; NULL: of a place
    place      TEXT NOT NULL,           -- of which place, when it is not of a lot
    unit       TEXT NOT NULL,           -- which oven, deck, rack
    plan_seq   INTEGER NOT NULL,        -- version of the plan that judged
    grade      TEXT NOT NULL            -- of the point
        CONSTRAINT finding_grade CHECK (grade IN ('critical', 'operating', 'quality')),
    verdict    INTEGER NOT NULL         -- what the records say now: 0 within, 1 unproven, 2 missing, 3 deviation
        CONSTRAINT finding_verdict CHECK (verdict BETWEEN 0 AND 3),
    raised     INTEGER NOT NULL         -- the worst it ever stood at
        CONSTRAINT finding_raised CHECK (raised BETWEEN verdict AND 3),
    happened   INTEGER NOT NULL,        -- when it was decided
    measured   TEXT NOT NULL,           -- what was found, in words
    figure     INTEGER,                 -- the same as the number by which a point is judged that is read from no instrument, as the
                                        -- records stand: ms between two events, thousandths of a percent lost; NULL: none
    limit_text TEXT NOT NULL,           -- what was wanted, in words
    detail     TEXT NOT NULL,           -- the reckoning
    corrected  TEXT NOT NULL,           -- values outside the limit that further work corrected in process, as typed; empty: none
    breaks_newer TEXT NOT NULL,         -- within by its plan, what the newest plan then in force wanted that it would break; empty: nothing
    cleared_by INTEGER,                 -- the entry after which it was within again
    kept_by    INTEGER,                 -- an entry that would make it milder and may not by itself; NULL: none
    waits      INTEGER NOT NULL,        -- how many entries it waits for (table waits)
    decided    TEXT NOT NULL            -- what a person has signed that becomes of the product, as the finding stands; empty: nothing
        CONSTRAINT finding_decided CHECK (decided IN ('', 'release', 'rework', 'downgrade', 'discard')),
    day        INTEGER NOT NULL,        -- production day, days since 1970-01-01
    week       INTEGER NOT NULL,        -- production week, ISO year x 100 + week
    PRIMARY KEY (anchor, point, ord)
) STRICT, WITHOUT ROWID;
CREATE INDEX finding_lot ON finding (lot) WHERE lot IS NOT NULL;
CREATE INDEX finding_week ON finding (week);
CREATE INDEX finding_open ON finding (decided, happened) WHERE verdict > 0 AND cleared_by IS NULL;

CREATE TABLE waits (              -- entries whose effect a finding waits for: it would be milder with them
    anchor INTEGER NOT NULL,            -- of the finding
    point  TEXT NOT NULL,               -- its point
    ord    INTEGER NOT NULL,            -- which of its units
    entry  INTEGER NOT NULL,            -- which
    PRIMARY KEY (anchor, point, ord, entry)
) STRICT, WITHOUT ROWID;
CREATE INDEX waits_entry ON waits (entry);

CREATE TABLE waiting (            -- entries that wait, or waited, for another person's countersign
    entry      INTEGER PRIMARY KEY,     -- the amendment, the void, or the late entry itself
    target     INTEGER NOT NULL,        -- the entry that it corrects; itself where it corrects none
    previous   INTEGER,                 -- the amendment of the target that stood before it; NULL: the target as first stated
    happened   INTEGER NOT NULL,        -- when the target was said to have happened before it
    decided_by INTEGER,                 -- the countersign; NULL: it waits
    refused    INTEGER NOT NULL         -- 1: it shall not count
        CONSTRAINT waiting_refused CHECK (refused IN (0, 1)),
    alone      INTEGER NOT NULL         -- 1: countersigned by its own writer, and nobody else has looked since
        CONSTRAINT waiting_alone CHECK (alone IN (0, 1))
) STRICT;
CREATE INDEX waiting_target ON waiting (target);
CREATE INDEX waiting_open ON waiting (decided_by) WHERE decided_by IS NULL;

CREATE TABLE hold (               -- a lot that must not be used or leave
    seq          INTEGER NOT NULL,      -- the entry that holds it
    lot          INTEGER NOT NULL,      -- which
    happened     INTEGER NOT NULL,      -- from when
    why          TEXT NOT NULL,         -- reason
    cause_anchor INTEGER,               -- the finding that caused it, when the program wrote the hold
    cause_point  TEXT NOT NULL,         -- of the same finding
    cause_ord    INTEGER,               -- of the same finding
    released_seq INTEGER                -- the entry that ended it
        CONSTRAINT hold_released_later CHECK (released_seq > seq),
    PRIMARY KEY (lot, seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX hold_open ON hold (lot) WHERE released_seq IS NULL;
CREATE INDEX hold_cause ON hold (cause_anchor, cause_point, cause_ord) WHERE cause_anchor IS NOT NULL;

CREATE TABLE action (             -- corrective action for a finding
    seq         INTEGER PRIMARY KEY,    -- the entry that states it
    anchor      INTEGER NOT NULL,       -- the finding
    point       TEXT NOT NULL,          -- of the same finding
    ord         INTEGER NOT NULL,       -- of the same finding
    product     TEXT NOT NULL,          -- what was done with the product
    process     TEXT NOT NULL,          -- what was done to the process
    disposition TEXT NOT NULL           -- where the product goes; empty: not decided here
        CONSTRAINT action_disposition CHECK (disposition IN ('', 'release', 'rework', 'downgrade', 'discard')),
    cause       TEXT NOT NULL,          -- why it happened
    prevention  TEXT NOT NULL,          -- what keeps it from coming back
    by          TEXT NOT NULL,          -- initials
    happened    INTEGER NOT NULL,       -- when it was done
    seen_verdict INTEGER NOT NULL       -- of the finding as it was signed
        CONSTRAINT action_seen CHECK (seen_verdict BETWEEN 0 AND 3),
    seen        TEXT NOT NULL           -- digest of the finding as it was signed: a later one that is no better opens it again
) STRICT;
CREATE INDEX action_finding ON action (anchor, point, ord);

CREATE TABLE unsettled (          -- critical points that keep a lot from going on: its own, and of what became part of it
    lot     INTEGER NOT NULL,           -- which lot is kept
    source  INTEGER NOT NULL,           -- the lot whose point it is
    anchor  INTEGER NOT NULL,           -- of the finding; of the source where the point is open
    point   TEXT NOT NULL,              -- id of the point in the plan, or one of the book's own
    ord     INTEGER NOT NULL,           -- of the finding; -1 where the point is open
    verdict INTEGER                     -- of the finding; NULL: the point is open, no record shows it yet
        CONSTRAINT unsettled_verdict CHECK (verdict BETWEEN 1 AND 3),
    decided TEXT NOT NULL               -- signed, and other than a release; empty: nothing is signed
        CONSTRAINT unsettled_decided CHECK (decided IN ('', 'rework', 'downgrade', 'discard')),
    PRIMARY KEY (lot, source, anchor, point, ord)
) STRICT, WITHOUT ROWID;

CREATE TABLE lot_allergen (       -- union over what really went in, through every depth
    lot      INTEGER NOT NULL,          -- which
    allergen TEXT NOT NULL,             -- id of the vocabulary; not-stated when an input declared nothing
    level    TEXT NOT NULL              -- how it is there; carry-over: only as residue of another product on equipment
        CONSTRAINT lot_allergen_level CHECK (level IN ('contains', 'may-contain', 'carry-over', 'not-stated')),
    PRIMARY KEY (lot, allergen)
) STRICT, WITHOUT ROWID;

CREATE TABLE run (                -- a lot touched a piece of equipment; a pack also its line, where labels are read or a device is passed
    equipment TEXT NOT NULL,            -- id in the plan
    at        INTEGER NOT NULL,         -- when
    lot       INTEGER NOT NULL,         -- which
    PRIMARY KEY (equipment, at, lot)
) STRICT, WITHOUT ROWID;
CREATE INDEX run_lot ON run (lot);

CREATE TABLE residue (            -- what lies on a piece of equipment until a verified cleaning that clears it
    equipment  TEXT NOT NULL,           -- id in the plan
    allergen   TEXT NOT NULL,           -- id of the vocabulary
    from_ms    INTEGER NOT NULL,        -- since when
    level      TEXT NOT NULL            -- of the lot that brought it
        CONSTRAINT residue_level CHECK (level IN ('contains', 'may-contain')),
    lot        INTEGER NOT NULL,        -- that brought it
    until_ms   INTEGER                  -- when the cleaning was verified; NULL: still there
        CONSTRAINT residue_has_length CHECK (until_ms > from_ms),
    cleaned_by INTEGER,                 -- the cleaning
    PRIMARY KEY (equipment, allergen, from_ms)
) STRICT, WITHOUT ROWID;
CREATE INDEX residue_until ON residue (equipment, until_ms);

CREATE TABLE carry_over (         -- a lot met residue that it does not bring itself
    equipment TEXT NOT NULL,            -- where
    at        INTEGER NOT NULL,         -- when
    lot       INTEGER NOT NULL,         -- which
    allergen  TEXT NOT NULL,            -- of the residue
    level     TEXT NOT NULL             -- of the residue
        CONSTRAINT carry_over_level CHECK (level IN ('contains', 'may-contain')),
    from_lot  INTEGER NOT NULL,         -- the lot that left it
    since     INTEGER NOT NULL,         -- when it left it
    PRIMARY KEY (equipment, at, lot, allergen)
) STRICT, WITHOUT ROWID;
CREATE INDEX carry_over_lot ON carry_over (lot);

CREATE TABLE instrument_span (    -- what an instrument's word was worth, from when to when
    instrument TEXT NOT NULL,           -- id in the plan
    from_ms    INTEGER NOT NULL,        -- from this instant
    until_ms   INTEGER                  -- to this one, not included; NULL: still
        CONSTRAINT instrument_span_has_length CHECK (until_ms > from_ms),
    state      TEXT NOT NULL            -- of the instrument in that time
        CONSTRAINT instrument_span_state CHECK (state IN ('valid', 'lapsed', 'never-calibrated', 'failed', 'out-of-service')),
    seq        INTEGER NOT NULL,        -- the entry that opened the span
    PRIMARY KEY (instrument, from_ms)
) STRICT, WITHOUT ROWID;

CREATE TABLE outage (             -- time in which nothing could be checked: no check is owed in it
    seq      INTEGER NOT NULL,          -- the entry that states it
    place    TEXT NOT NULL,             -- of which place; empty: of the whole house
    from_ms  INTEGER NOT NULL,          -- when it began
    until_ms INTEGER NOT NULL           -- when it was over
        CONSTRAINT outage_has_length CHECK (until_ms > from_ms),
    PRIMARY KEY (seq, place)
) STRICT, WITHOUT ROWID;
CREATE INDEX outage_until ON outage (until_ms);

CREATE TABLE owed (               -- the next check of a lot that is due; of places it is worked out when asked
    subject_kind INTEGER NOT NULL       -- 1 lot
        CONSTRAINT owed_subject_kind CHECK (subject_kind = 1),
    subject      TEXT NOT NULL,         -- lot code
    point        TEXT NOT NULL,         -- control point of the plan
    ord          INTEGER NOT NULL,      -- number among those of the same subject and point
    opens        INTEGER NOT NULL,      -- may be done from
    due          INTEGER NOT NULL,      -- to be done by
    what         TEXT NOT NULL,         -- in words
    PRIMARY KEY (subject_kind, subject, point, ord)
) STRICT, WITHOUT ROWID;
CREATE INDEX owed_opens ON owed (opens);

CREATE TABLE correction (         -- an amendment or a void
    seq    INTEGER PRIMARY KEY,         -- the entry that states it
    target INTEGER NOT NULL             -- the entry it corrects
        CONSTRAINT correction_of_the_past CHECK (target < seq),
    kind   TEXT NOT NULL                -- which of the two
        CONSTRAINT correction_kind CHECK (kind IN ('amended', 'voided')),
    why    TEXT NOT NULL,               -- reason
    before TEXT NOT NULL,               -- what stood there, in words
    after  TEXT NOT NULL                -- what stands there now, in words
) STRICT;
CREATE INDEX correction_target ON correction (target);

CREATE TABLE review (             -- a record looked through and signed
    seq         INTEGER PRIMARY KEY,    -- the entry that states it
    what        TEXT NOT NULL,          -- lot code, or week 2026-W47
    digest      TEXT NOT NULL,          -- SHA-256 of what was reviewed
    by          TEXT NOT NULL,          -- initials of the reviewer
    note        TEXT NOT NULL,          -- remark
    happened    INTEGER NOT NULL,       -- when
    reopened_by INTEGER                 -- the entry that changed what had been reviewed
) STRICT;
CREATE INDEX review_what ON review (what);

CREATE TABLE recall (             -- a recall or a drill
    seq            INTEGER PRIMARY KEY, -- the entry that opened it
    code           TEXT NOT NULL        -- RECALL-261120-1, DRILL-261120-1
        CONSTRAINT recall_has_a_code CHECK (code <> ''),
    drill          INTEGER NOT NULL     -- 1: a drill, which holds nothing
        CONSTRAINT recall_drill_or_not CHECK (drill IN (0, 1)),
    scope          TEXT NOT NULL,       -- what was asked for, in words
    hazard         TEXT NOT NULL,       -- what is feared, as last stated
    grade          TEXT NOT NULL        -- class, as last stated
        CONSTRAINT recall_grade CHECK (grade IN ('', 'I', 'II', 'III')),
    decision       TEXT NOT NULL        -- as last stated
        CONSTRAINT recall_decision CHECK (decision IN ('', 'recall', 'withdrawal', 'stock-only', 'none')),
    why            TEXT NOT NULL,       -- reason
    check_level    TEXT NOT NULL        -- of the effectiveness check
        CONSTRAINT recall_check_level CHECK (check_level IN ('', 'A', 'B', 'C', 'D', 'E')),
    check_percent  INTEGER NOT NULL,    -- of level B, thousandths of a per cent; 0: another level
    seed           INTEGER NOT NULL,    -- of the sample
    aware          INTEGER NOT NULL,    -- when word came
    happened       INTEGER NOT NULL,    -- when it was opened
    by             TEXT NOT NULL,       -- initials of who opened it
    digest         TEXT NOT NULL,       -- SHA-256 of the snapshot
    words          TEXT NOT NULL,       -- lots that it began with, as typed, a line each
    material       TEXT NOT NULL,       -- or lots of this material or product
    supplier       TEXT NOT NULL,       -- that this supplier delivered
    vessel         TEXT NOT NULL,       -- or what stood in this vessel
    from_ms        INTEGER,             -- in a time: its beginning; NULL: open
    until_ms       INTEGER,             -- its end; NULL: open
    taken          INTEGER NOT NULL     -- 1: the time is of what was taken out of them; 0: of when they came or were made
        CONSTRAINT recall_taken_or_made CHECK (taken IN (0, 1)),
    closed_seq     INTEGER,             -- the entry that closed it; NULL: open
    closed         INTEGER,             -- when
    closed_by      TEXT NOT NULL,       -- initials
    closed_why     TEXT NOT NULL,       -- reason, with what is not accounted for
    closed_open    TEXT NOT NULL,       -- everything that was not done or accounted for then, a line each
    made_mg        INTEGER NOT NULL,    -- when it was closed: goods and materials in the scope
    made_pieces    INTEGER NOT NULL,    -- the same in pieces
    missing_mg     INTEGER NOT NULL,    -- of it, not accounted for
    missing_pieces INTEGER NOT NULL,    -- the same in pieces
    placed         INTEGER NOT NULL,    -- thousandths of a per cent that the records place
    found          INTEGER NOT NULL     -- the same, less what nobody accounts for at customers
) STRICT;
CREATE UNIQUE INDEX recall_code ON recall (code);
CREATE INDEX recall_open ON recall (seq) WHERE closed_seq IS NULL;

CREATE TABLE recall_lot (         -- lots that it covers: the snapshot, and what it was widened to since
    recall         INTEGER NOT NULL,    -- of which
    ord            INTEGER NOT NULL,    -- place in the trace
    lot            INTEGER NOT NULL,    -- which lot
    code           TEXT NOT NULL,       -- its code
    asked          INTEGER NOT NULL     -- 1: the recall began with it
        CONSTRAINT recall_lot_asked_or_not CHECK (asked IN (0, 1)),
    certain        INTEGER NOT NULL     -- 1 certain, 0 possible
        CONSTRAINT recall_lot_certain_or_possible CHECK (certain IN (0, 1)),
    on_hand_mg     INTEGER NOT NULL,    -- there then
    on_hand_pieces INTEGER NOT NULL,    -- there then
    since          INTEGER NOT NULL,    -- the entry that brought it in; of the snapshot the opening
    PRIMARY KEY (recall, ord)
) STRICT, WITHOUT ROWID;
CREATE INDEX recall_lot_of ON recall_lot (lot);
CREATE INDEX recall_lot_asked ON recall_lot (recall) WHERE asked = 1;

CREATE TABLE recall_delivery (    -- the snapshot: who had what, by printed code
    recall          INTEGER NOT NULL,   -- of which
    ord             INTEGER NOT NULL,   -- place in the list
    partner         TEXT NOT NULL,      -- who
    way             TEXT NOT NULL,      -- ways out, with ", " between
    printed_code    TEXT NOT NULL,      -- as read from the pack
    lots            TEXT NOT NULL,      -- our codes, with ", " between
    item            TEXT NOT NULL,      -- name of the product
    document        TEXT NOT NULL,      -- delivery notes
    pieces          INTEGER NOT NULL,   -- shipped
    mass_mg         INTEGER NOT NULL,   -- shipped
    returned_pieces INTEGER NOT NULL,   -- back by then
    returned_mg     INTEGER NOT NULL,   -- back by then
    first           INTEGER NOT NULL,   -- when it first left
    last            INTEGER NOT NULL,   -- when it last left
    certain         INTEGER NOT NULL    -- 1 certain, 0 possible
        CONSTRAINT recall_delivery_certain_or_possible CHECK (certain IN (0, 1)),
    PRIMARY KEY (recall, ord)
) STRICT, WITHOUT ROWID;

CREATE TABLE recall_step (        -- what was done in a recall, one row an entry
    seq      INTEGER PRIMARY KEY,       -- the entry
    recall   INTEGER NOT NULL,          -- of which; 0: the call list was tried
    kind     TEXT NOT NULL              -- what sort of step
        CONSTRAINT recall_step_kind CHECK (kind IN ('opened', 'decided', 'widened', 'contacted', 'told', 'counted', 'closed')),
    whom     TEXT NOT NULL,             -- partner; authority, customers, public, supplier of what was told
    how      TEXT NOT NULL,             -- with whom and by what means
    reached  INTEGER NOT NULL           -- 1: a contact was reached
        CONSTRAINT recall_step_reached_or_not CHECK (reached IN (0, 1)),
    checks   INTEGER NOT NULL           -- 1: a call of the effectiveness check
        CONSTRAINT recall_step_check_or_not CHECK (checks IN (0, 1)),
    text     TEXT NOT NULL,             -- what was said or decided
    happened INTEGER NOT NULL,          -- when
    by       TEXT NOT NULL              -- initials
) STRICT;
CREATE INDEX recall_step_of ON recall_step (recall, happened);

CREATE TABLE recall_told_code (   -- codes that a customer was told of when they were reached
    seq  INTEGER NOT NULL,              -- the entry
    code TEXT NOT NULL,                 -- printed on the pack, or our lot where none is
    PRIMARY KEY (seq, code)
) STRICT, WITHOUT ROWID;

CREATE TABLE recall_count (       -- what a partner says of goods it had
    seq      INTEGER PRIMARY KEY,       -- the entry
    recall   INTEGER NOT NULL,          -- in which recall
    code     TEXT NOT NULL,             -- as read from the pack, or one of our lots
    partner  TEXT NOT NULL,             -- who says so; empty: our own people, of what left by a way that names nobody
    way      TEXT NOT NULL              -- that way
        CONSTRAINT recall_count_way CHECK (way IN ('', 'customer', 'own-shop', 'van', 'staff-shop', 'donation', 'animal-feed',
                                                   'co-packer', 'supplier')),
    what     TEXT NOT NULL              -- what became of them
        CONSTRAINT recall_count_what CHECK (what IN ('returned', 'destroyed', 'used', 'found')),
    mass_mg  INTEGER                    -- NULL: not weighed
        CONSTRAINT recall_count_mass CHECK (mass_mg >= 0),
    pieces   INTEGER                    -- NULL: not counted
        CONSTRAINT recall_count_pieces CHECK (pieces >= 0),
    excess_mg     INTEGER NOT NULL,     -- of it, beyond what the records had there when it was said
    excess_pieces INTEGER NOT NULL,     -- the same in pieces
    happened INTEGER NOT NULL           -- when it was said
) STRICT;
CREATE INDEX recall_count_of ON recall_count (recall, happened);

CREATE TABLE recall_out (         -- left out of the scope by a signed decision
    recall INTEGER NOT NULL,            -- of which
    lot    INTEGER NOT NULL,            -- which lot
    seq    INTEGER NOT NULL,            -- the entry that says so
    hazard TEXT NOT NULL,               -- the hazard that the decision is about
    why    TEXT NOT NULL,               -- reason
    certain  INTEGER NOT NULL           -- how the lot stood then: 1 certain, 0 possible
        CONSTRAINT recall_out_certain_or_possible CHECK (certain IN (0, 1)),
    ended_by INTEGER,                   -- the entry that took it back in; NULL: it is left out
    PRIMARY KEY (recall, lot)
) STRICT, WITHOUT ROWID;
