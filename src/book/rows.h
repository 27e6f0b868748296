#pragma once
// The derived tables, one struct a row (schema/ holds the same columns with their checks and comments). All of this can be
// thrown away and made again from the entries. Times are Unix ms, masses mg; optional = SQL NULL, but of a word the empty text.
// An enum over Int stands as its number, any other as its word.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/date_kind.h"
#include "base/grade.h"
#include "base/instrument_state.h"
#include "base/lot_kind.h"
#include "base/verdict.h"
#include "base/way.h"
#include "book/allergen_level.h"
#include "book/lot_status.h"
#include "record/disposition.h"
#include "record/seq.h"

// A list of fields is a table, one member beside the next: laid out by hand.
// clang-format off
namespace peelbook::book {

using Int = std::int64_t;
using LotId = Seq;  // the seq of the entry that made the lot

// What a fold is about. Stored: do not renumber.
enum class SubjectKind : Int { lot = 1, vessel = 2, place = 3, instrument = 4, line = 5, equipment = 6, outage = 7 };

struct Fact {  // an entry, with what corrections say of it
    static constexpr std::string_view table = "fact";
    Seq seq = 0;
    std::string kind;
    Int happened = 0;  // as last amended
    Int written = 0;   // of the original
    std::string by;
    std::string token;  // empty: none
    Int late = 0;       // 1: written minus happened exceeded the plan's late_after
    std::optional<Seq> amended_by, voided_by;
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("kind", s.kind); v("happened", s.happened); v("written", s.written); v("by", s.by);
        v("token", s.token); v("late", s.late); v("amended_by", s.amended_by); v("voided_by", s.voided_by);
    }
    bool operator==(const Fact&) const = default;
};

struct Person {
    static constexpr std::string_view table = "person";
    std::string initials, name, role;
    Seq seq = 0;
    std::optional<Int> left{};  // since when they sign nothing
    template <class V, class S> static void fields(V& v, S& s) {
        v("initials", s.initials); v("name", s.name); v("role", s.role); v("seq", s.seq); v("left_ms", s.left);
    }
    bool operator==(const Person&) const = default;
};

struct Partner {
    static constexpr std::string_view table = "partner";
    std::string code, name, roles, address, phone, email, gln;  // roles: "supplier customer"
    Seq seq = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("code", s.code); v("name", s.name); v("roles", s.roles); v("address", s.address); v("phone", s.phone);
        v("email", s.email); v("gln", s.gln); v("seq", s.seq);
    }
    bool operator==(const Partner&) const = default;
};

struct PlanVersion {
    static constexpr std::string_view table = "plan_version";
    Seq seq = 0;
    Int from_ms = 0;  // in force from; the first one also governs what happened before
    std::string sha256, by;
    Int practice = 0;
    std::string hazard{};  // why it also judges points that were open when it was adopted; empty: it does not
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("from_ms", s.from_ms); v("sha256", s.sha256); v("by", s.by); v("practice", s.practice);
        v("hazard", s.hazard);
    }
    bool operator==(const PlanVersion&) const = default;
};

struct PlanPoint {  // a control point of a version, in words, for reports
    static constexpr std::string_view table = "plan_point";
    Seq plan_seq = 0;
    std::string id, name, step;
    Grade grade = Grade::critical;
    std::string measures, limit_text, frequency, who, basis, product_action, process_action, warning;
    template <class V, class S> static void fields(V& v, S& s) {
        v("plan_seq", s.plan_seq); v("id", s.id); v("name", s.name); v("step", s.step); v("grade", s.grade);
        v("measures", s.measures); v("limit_text", s.limit_text); v("frequency", s.frequency); v("who", s.who);
        v("basis", s.basis); v("product_action", s.product_action); v("process_action", s.process_action);
        v("warning", s.warning);
    }
    bool operator==(const PlanPoint&) const = default;
};

struct PlanItem {  // a named thing of a version: material, product, label, vessel, place, instrument, hazard, the site
    static constexpr std::string_view table = "plan_item";
    Seq plan_seq = 0;
    std::string sort, id, name, detail;
    std::string gs1;  // GTINs, a blank between; of the site its GLN
    Int listed = 0;   // 1: on the Food Traceability List; of the site: its location is whole (address and telephone)
    template <class V, class S> static void fields(V& v, S& s) {
        v("plan_seq", s.plan_seq); v("sort", s.sort); v("id", s.id); v("name", s.name); v("detail", s.detail);
        v("gs1", s.gs1); v("listed", s.listed);
    }
    bool operator==(const PlanItem&) const = default;
};

struct PlanCompiled {  // a version in the form that is read fast (plan/compiled.h)
    static constexpr std::string_view table = "plan_compiled";
    Seq plan_seq = 0;
    std::string text;
    template <class V, class S> static void fields(V& v, S& s) { v("plan_seq", s.plan_seq); v("text", s.text); }
    bool operator==(const PlanCompiled&) const = default;
};

struct Lot {
    static constexpr std::string_view table = "lot";
    LotId id = 0;
    std::string code;
    LotKind kind = LotKind::received;
    std::string item;  // material or product id; of a pack: the product
    Seq plan_seq = 0;  // the version it is judged by
    std::string vessel;  // of a blend
    Int happened = 0;    // received, started, filled, split, packed
    std::optional<Int> finished, made_mg, made_pieces, input_mg;  // made: received, or yield; input: what went into a batch
    std::string partner, supplier_lot, gtin, date;
    std::optional<DateKind> date_kind;  // of what has a date
    std::string label, printed_code, document, carrier, place;
    std::optional<LotStatus> status;  // of a received lot or a batch
    Int day = 0, week = 0;  // production day in days since 1970-01-01, production week: ISO year x 100 + week
    std::string by, sscc;   // sscc: of the pallet it came as
    std::optional<Int> aged_from{};  // of a batch: shelf life and age count from here
    Int killed = 0;                  // 1: what went in up to then brings no use-by date
    template <class V, class S> static void fields(V& v, S& s) {
        v("id", s.id); v("code", s.code); v("kind", s.kind); v("item", s.item); v("plan_seq", s.plan_seq);
        v("vessel", s.vessel); v("happened", s.happened); v("finished", s.finished); v("made_mg", s.made_mg);
        v("made_pieces", s.made_pieces); v("input_mg", s.input_mg); v("partner", s.partner);
        v("supplier_lot", s.supplier_lot); v("gtin", s.gtin); v("date", s.date); v("date_kind", s.date_kind);
        v("label", s.label); v("printed_code", s.printed_code); v("document", s.document); v("carrier", s.carrier);
        v("place", s.place); v("status", s.status); v("day", s.day); v("week", s.week); v("by", s.by); v("sscc", s.sscc);
        v("aged_from", s.aged_from); v("killed", s.killed);
    }
    bool operator==(const Lot&) const = default;
};

struct Use {  // the only genealogy: from_lot went into into_lot
    static constexpr std::string_view table = "use";
    LotId into_lot = 0, from_lot = 0;
    Seq seq = 0;
    std::optional<Int> mass_mg, pieces;
    std::optional<Int> largest_mg;  // part of a draw from a vessel: the most it can be, where mass_mg is expected; else none
    Int stated = 1;  // 1: the mass was stated; 0: it is the pieces' share of the lot they came from
    Int sure = 1;    // 1 certain, 0 possible
    std::optional<Seq> ended_by;  // the decision that traces through this use end here
    Int happened = 0;
    std::string note;  // why a lot past its date, what was already done
    std::optional<Seq> struck_by{};  // a correction that takes it away and waits: it stays as possible
    template <class V, class S> static void fields(V& v, S& s) {
        v("into_lot", s.into_lot); v("from_lot", s.from_lot); v("seq", s.seq); v("mass_mg", s.mass_mg);
        v("pieces", s.pieces); v("largest_mg", s.largest_mg); v("stated", s.stated);
        v("sure", s.sure); v("ended_by", s.ended_by); v("struck_by", s.struck_by);
        v("happened", s.happened); v("note", s.note);
    }
    bool operator==(const Use&) const = default;
};

struct LineFeed {  // a lot stood on a line, for everything that ran there
    static constexpr std::string_view table = "line_feed";
    std::string line;
    Int from_ms = 0;
    Seq seq = 0;  // the entry that put it there
    LotId lot = 0;
    std::optional<Int> until_ms;  // none: it is still there
    template <class V, class S> static void fields(V& v, S& s) {
        v("line", s.line); v("from_ms", s.from_ms); v("seq", s.seq); v("lot", s.lot); v("until_ms", s.until_ms);
    }
    bool operator==(const LineFeed&) const = default;
};

struct Stay {  // a lot lay in a place of the house
    static constexpr std::string_view table = "stay";
    LotId lot = 0;
    Seq seq = 0;  // the entry that put it there
    std::string place;
    Int from_ms = 0;
    std::optional<Int> until_ms;  // none: it was stored nowhere else
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("seq", s.seq); v("place", s.place); v("from_ms", s.from_ms); v("until_ms", s.until_ms);
    }
    bool operator==(const Stay&) const = default;
};

struct Move {  // a way out, or a return
    static constexpr std::string_view table = "move";
    LotId lot = 0;
    Seq seq = 0;
    Way way = Way::customer;
    std::string partner;
    std::optional<Int> mass_mg, pieces;  // never negative
    Int stated = 1;                      // as in Use
    Int of_returned = 0;                 // 1: of what came back, not of what is on hand
    Int happened = 0;
    Int sure = 1;
    std::string document, carrier, why, sscc;  // sscc: of the pallet it left as
    std::string round{};                        // delivery round that it went by
    std::optional<Way> left_by{};              // of a return without a partner: the way by which the goods had left
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("seq", s.seq); v("way", s.way); v("partner", s.partner); v("mass_mg", s.mass_mg);
        v("pieces", s.pieces); v("stated", s.stated); v("of_returned", s.of_returned); v("happened", s.happened);
        v("sure", s.sure); v("document", s.document); v("carrier", s.carrier); v("why", s.why);
        v("sscc", s.sscc); v("round", s.round); v("left_by", s.left_by);
    }
    bool operator==(const Move&) const = default;
};

struct StockCount {
    static constexpr std::string_view table = "stock_count";
    LotId lot = 0;
    Seq seq = 0;
    Int happened = 0;
    std::optional<Int> counted_mg, counted_pieces;
    std::string why;
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("seq", s.seq); v("happened", s.happened); v("counted_mg", s.counted_mg);
        v("counted_pieces", s.counted_pieces); v("why", s.why);
    }
    bool operator==(const StockCount&) const = default;
};

// made = used + out + on hand - gap, in mg and in pieces; returned stands apart. gap: counted minus computed, summed.
struct Stock {
    static constexpr std::string_view table = "stock";
    LotId lot = 0;
    Int made_mg = 0, used_mg = 0, out_mg = 0, gap_mg = 0, on_hand_mg = 0, returned_mg = 0;
    std::optional<Int> made_pieces;  // none: not counted in pieces, and the others are 0
    Int used_pieces = 0, out_pieces = 0, gap_pieces = 0, on_hand_pieces = 0, returned_pieces = 0;
    Int went_negative = 0;  // 1: at some past instant more had left than was there (a late entry)
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("made_mg", s.made_mg); v("used_mg", s.used_mg); v("out_mg", s.out_mg);
        v("gap_mg", s.gap_mg); v("on_hand_mg", s.on_hand_mg); v("returned_mg", s.returned_mg);
        v("made_pieces", s.made_pieces); v("used_pieces", s.used_pieces); v("out_pieces", s.out_pieces);
        v("gap_pieces", s.gap_pieces); v("on_hand_pieces", s.on_hand_pieces);
        v("returned_pieces", s.returned_pieces); v("went_negative", s.went_negative);
    }
    bool operator==(const Stock&) const = default;
};

struct Reading {  // also a row of a logger series, and a yes/no inspection (value 1 or 0, unit "")
    static constexpr std::string_view table = "reading";
    Seq seq = 0;
    Int row = 0;
    std::optional<LotId> lot;
    std::string place;  // when it is not of a lot
    std::string point, unit, instrument;  // unit: which oven, rack
    Int value = 0;
    std::string symbol;  // of the typed unit
    std::string typed;   // "93.4C", "yes"
    Int happened = 0;
    std::string by;
    std::optional<Seq> voided_by;
    std::string slip{};  // number of the paper original that it was typed from
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("row", s.row); v("lot", s.lot); v("place", s.place); v("point", s.point); v("unit", s.unit);
        v("instrument", s.instrument); v("value", s.value); v("symbol", s.symbol); v("typed", s.typed);
        v("happened", s.happened); v("by", s.by); v("slip", s.slip); v("voided_by", s.voided_by);
    }
    bool operator==(const Reading&) const = default;
};

// A logger's file, as it was read: what it covers and what is odd about it. Its readings are rows of `reading` when it is of a
// lot, and of `series_row` when it is of a place, where a year of them hangs on one subject.
struct Series {
    static constexpr std::string_view table = "series";
    Seq seq = 0;
    std::optional<LotId> lot;
    std::string place, point, unit, instrument, logger, column;
    std::string file, sha256;
    std::string symbol;  // of the unit of its values
    Int rows = 0;        // with a time and a value
    Int first_ms = 0, last_ms = 0;
    Int least = 0, most = 0;  // canonical
    Int gaps = 0, duplicates = 0, two_values = 0, out_of_order = 0, clock_steps = 0, no_values = 0;
    std::optional<Seq> voided_by;
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("lot", s.lot); v("place", s.place); v("point", s.point); v("unit", s.unit);
        v("instrument", s.instrument); v("logger", s.logger); v("column_read", s.column); v("file", s.file);
        v("sha256", s.sha256); v("symbol", s.symbol); v("rows", s.rows); v("first_ms", s.first_ms);
        v("last_ms", s.last_ms); v("least", s.least); v("most", s.most); v("gaps", s.gaps);
        v("duplicates", s.duplicates); v("two_values", s.two_values); v("out_of_order", s.out_of_order);
        v("clock_steps", s.clock_steps); v("no_values", s.no_values); v("voided_by", s.voided_by);
    }
    bool operator==(const Series&) const = default;
};

struct SeriesFault {  // something odd in a logger's file; of each kind the first few
    static constexpr std::string_view table = "series_fault";
    Seq seq = 0;
    Int ord = 0;
    std::string kind;  // "gap" "duplicate" "two-values" "out-of-order" "clock" "no-value"
    Int line = 0;      // of the file, from 1
    Int from_ms = 0, until_ms = 0;
    Int rows = 0;      // how many rows it is about; of a gap: how many are missing, 0 when that is not known
    std::string detail;
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("ord", s.ord); v("kind", s.kind); v("line", s.line); v("from_ms", s.from_ms);
        v("until_ms", s.until_ms); v("rows", s.rows); v("detail", s.detail);
    }
    bool operator==(const SeriesFault&) const = default;
};

struct SeriesDay {  // a production day of a logger's file on a place
    static constexpr std::string_view table = "series_day";
    Seq seq = 0;
    Int day = 0;  // days since 1970-01-01
    Int week = 0;
    Int rows = 0;
    Int least = 0, most = 0, mean = 0;  // canonical; the mean rounded
    Int outside = 0;     // rows that miss the limit
    Int longest_ms = 0;  // of the longest stretch of them, from its first row to the first one within again
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("day", s.day); v("week", s.week); v("rows", s.rows); v("least", s.least);
        v("most", s.most); v("mean", s.mean); v("outside", s.outside); v("longest_ms", s.longest_ms);
    }
    bool operator==(const SeriesDay&) const = default;
};

struct SeriesRow {  // one row of a logger's file on a place
    static constexpr std::string_view table = "series_row";
    Seq seq = 0;
    Int happened = 0;
    Int line = 0;   // of the file, from 1
    Int value = 0;  // canonical
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("happened", s.happened); v("line", s.line); v("value", s.value);
    }
    bool operator==(const SeriesRow&) const = default;
};

// A reading of a lot as a control chart wants it; a question's answer, no table.
struct ChartReading {
    Seq seq = 0;
    std::string code, item;  // of the lot
    std::string unit, instrument, by;
    Int value = 0;
    Int happened = 0;
};

struct Finding {
    static constexpr std::string_view table = "finding";
    Seq anchor = 0;
    std::string point;
    Int ord = 0;
    std::optional<LotId> lot;
    std::string place, unit;
    Seq plan_seq = 0;
    Grade grade = Grade::critical;
    Verdict verdict = Verdict::within;  // what the records say now
    Verdict raised = Verdict::within;   // the worst it ever stood at
    Int happened = 0;  // when it was decided: the reading, the step's end
    std::string measured;
    // The number behind it where no reading is it, as the records stand (a void that keeps the finding takes it along): ms between
    // two events, thousandths of a percent lost. Absent: none is measured.
    std::optional<Int> figure{};
    std::string limit_text, detail;
    std::string corrected{};        // values that further work corrected, as typed: "88.5C, 91C"
    std::string breaks_newer{};     // the limit of a plan adopted meanwhile that it would break: "2026-11-17 00:00: at least 95C"
    std::optional<Seq> cleared_by;  // the entry after which it was within again
    std::optional<Seq> kept_by;     // an entry that would make it milder and may not by itself
    Int waits = 0;                  // how many entries it waits for
    std::optional<record::Disposition> decided{};  // signed, of the finding as it stands
    Int day = 0, week = 0;          // production day and week
    template <class V, class S> static void fields(V& v, S& s) {
        v("anchor", s.anchor); v("point", s.point); v("ord", s.ord); v("lot", s.lot); v("place", s.place);
        v("unit", s.unit); v("plan_seq", s.plan_seq); v("grade", s.grade); v("verdict", s.verdict);
        v("raised", s.raised); v("happened", s.happened); v("measured", s.measured); v("figure", s.figure);
        v("limit_text", s.limit_text); v("detail", s.detail); v("corrected", s.corrected); v("breaks_newer", s.breaks_newer);
        v("cleared_by", s.cleared_by); v("kept_by", s.kept_by);
        v("waits", s.waits); v("decided", s.decided); v("day", s.day);
        v("week", s.week);
    }
    bool operator==(const Finding&) const = default;
};

struct Waits {  // a finding that would be milder with an entry that waits
    static constexpr std::string_view table = "waits";
    Seq anchor = 0;
    std::string point;
    Int ord = 0;
    Seq entry = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("anchor", s.anchor); v("point", s.point); v("ord", s.ord); v("entry", s.entry);
    }
    bool operator==(const Waits&) const = default;
};

struct Waiting {  // an entry that waits, or waited, for a countersign
    static constexpr std::string_view table = "waiting";
    Seq entry = 0;
    Seq target = 0;                 // what it corrects; itself where it corrects none
    std::optional<Seq> previous;    // the amendment of the target that stood before it
    Int happened = 0;               // when the target was said to have happened before it
    std::optional<Seq> decided_by;  // the countersign
    Int refused = 0;                // 1: it shall not count
    Int alone = 0;                  // 1: countersigned by its own writer, and nobody else has looked since
    template <class V, class S> static void fields(V& v, S& s) {
        v("entry", s.entry); v("target", s.target); v("previous", s.previous); v("happened", s.happened);
        v("decided_by", s.decided_by); v("refused", s.refused); v("alone", s.alone);
    }
    bool operator==(const Waiting&) const = default;
};

struct Hold {
    static constexpr std::string_view table = "hold";
    Seq seq = 0;
    LotId lot = 0;
    Int happened = 0;
    std::string why;
    std::optional<Seq> cause_anchor;
    std::string cause_point;
    std::optional<Int> cause_ord;
    std::optional<Seq> released_seq;
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("lot", s.lot); v("happened", s.happened); v("why", s.why);
        v("cause_anchor", s.cause_anchor); v("cause_point", s.cause_point); v("cause_ord", s.cause_ord);
        v("released_seq", s.released_seq);
    }
    bool operator==(const Hold&) const = default;
};

struct Action {
    static constexpr std::string_view table = "action";
    Seq seq = 0, anchor = 0;
    std::string point;
    Int ord = 0;
    std::string product, process;
    std::optional<record::Disposition> disposition;
    std::string cause, prevention, by;
    Int happened = 0;
    Verdict seen_verdict = Verdict::within;
    std::string seen{};  // digest of the finding as its signer saw it
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("anchor", s.anchor); v("point", s.point); v("ord", s.ord); v("product", s.product);
        v("process", s.process); v("disposition", s.disposition); v("cause", s.cause); v("prevention", s.prevention);
        v("by", s.by); v("happened", s.happened); v("seen_verdict", s.seen_verdict); v("seen", s.seen);
    }
    bool operator==(const Action&) const = default;
};

// A critical point that keeps a lot from going on: its own, or of what became part of it.
inline constexpr Int open_ord = -1;
struct Unsettled {
    static constexpr std::string_view table = "unsettled";
    LotId lot = 0, source = 0;  // source: whose point it is
    Seq anchor = 0;             // of the finding; of the source where the point is open
    std::string point;
    Int ord = 0;                                 // of the finding; open_ord where the point is open
    std::optional<Int> verdict;                  // of the finding; absent: open, nothing shows it yet
    std::optional<record::Disposition> decided;  // signed, and other than a release
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("source", s.source); v("anchor", s.anchor); v("point", s.point); v("ord", s.ord);
        v("verdict", s.verdict); v("decided", s.decided);
    }
    bool operator==(const Unsettled&) const = default;
};

struct LotAllergen {
    static constexpr std::string_view table = "lot_allergen";
    LotId lot = 0;
    std::string allergen;  // id of the vocabulary; "not-stated" when an input declared nothing
    AllergenLevel level = AllergenLevel::not_stated;
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("allergen", s.allergen); v("level", s.level);
    }
    bool operator==(const LotAllergen&) const = default;
};

struct Run {  // a lot touched a piece of equipment; a pack also its line
    static constexpr std::string_view table = "run";
    std::string equipment;
    Int at = 0;
    LotId lot = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("equipment", s.equipment); v("at", s.at); v("lot", s.lot);
    }
    auto operator<=>(const Run&) const = default;
};

struct Residue {  // lies on a piece of equipment until a verified cleaning that clears it
    static constexpr std::string_view table = "residue";
    std::string equipment, allergen;
    Int from_ms = 0;
    AllergenLevel level = AllergenLevel::contains;  // of the lot that brought it: contains or may-contain
    LotId lot = 0;
    std::optional<Int> until_ms;    // when the cleaning was verified
    std::optional<Seq> cleaned_by;  // the cleaning
    template <class V, class S> static void fields(V& v, S& s) {
        v("equipment", s.equipment); v("allergen", s.allergen); v("from_ms", s.from_ms); v("level", s.level);
        v("lot", s.lot); v("until_ms", s.until_ms); v("cleaned_by", s.cleaned_by);
    }
    bool operator==(const Residue&) const = default;
};

struct CarryOver {  // a lot met residue that it does not bring itself
    static constexpr std::string_view table = "carry_over";
    std::string equipment;
    Int at = 0;
    LotId lot = 0;
    std::string allergen;
    AllergenLevel level = AllergenLevel::contains;  // of the residue
    LotId from_lot = 0;  // that left it
    Int since = 0;       // when
    template <class V, class S> static void fields(V& v, S& s) {
        v("equipment", s.equipment); v("at", s.at); v("lot", s.lot); v("allergen", s.allergen); v("level", s.level);
        v("from_lot", s.from_lot); v("since", s.since);
    }
    bool operator==(const CarryOver&) const = default;
};

struct InstrumentSpan {
    static constexpr std::string_view table = "instrument_span";
    std::string instrument;
    Int from_ms = 0;
    std::optional<Int> until_ms;
    InstrumentState state = InstrumentState::valid;  // never none
    Seq seq = 0;  // the entry that opened the span
    template <class V, class S> static void fields(V& v, S& s) {
        v("instrument", s.instrument); v("from_ms", s.from_ms); v("until_ms", s.until_ms); v("state", s.state);
        v("seq", s.seq);
    }
    bool operator==(const InstrumentSpan&) const = default;
};

struct Outage {  // time in which nothing could be checked; one row a place, or one for the whole house
    static constexpr std::string_view table = "outage";
    Seq seq = 0;
    std::string place;  // empty: the whole house
    Int from_ms = 0, until_ms = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("place", s.place); v("from_ms", s.from_ms); v("until_ms", s.until_ms);
    }
    bool operator==(const Outage&) const = default;
};

struct Owed {  // the next check of a lot that is due
    static constexpr std::string_view table = "owed";
    SubjectKind subject_kind = SubjectKind::lot;
    std::string subject;  // lot code
    std::string point;
    Int ord = 0;
    Int opens = 0, due = 0;
    std::string what;
    template <class V, class S> static void fields(V& v, S& s) {
        v("subject_kind", s.subject_kind); v("subject", s.subject); v("point", s.point); v("ord", s.ord);
        v("opens", s.opens); v("due", s.due); v("what", s.what);
    }
    bool operator==(const Owed&) const = default;
};

struct Correction {
    static constexpr std::string_view table = "correction";
    Seq seq = 0, target = 0;
    std::string kind, why, before, after;  // kind: "amended", "voided"
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("target", s.target); v("kind", s.kind); v("why", s.why); v("before", s.before);
        v("after", s.after);
    }
    bool operator==(const Correction&) const = default;
};

struct Review {
    static constexpr std::string_view table = "review";
    Seq seq = 0;
    std::string what, digest, by, note;
    Int happened = 0;
    std::optional<Seq> reopened_by;
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("what", s.what); v("digest", s.digest); v("by", s.by); v("note", s.note);
        v("happened", s.happened); v("reopened_by", s.reopened_by);
    }
    bool operator==(const Review&) const = default;
};

struct Touch {  // which entries a subject's fold reads
    static constexpr std::string_view table = "touch";
    SubjectKind subject_kind = SubjectKind::lot;
    std::string subject;  // lot id in decimal, or vessel, place#point, instrument id; of outages there is one subject, "house"
    Int happened = 0;
    Seq seq = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("subject_kind", s.subject_kind); v("subject", s.subject); v("happened", s.happened); v("seq", s.seq);
    }
    bool operator==(const Touch&) const = default;
};

}  // namespace peelbook::book
// clang-format on
