#pragma once
// What an entry says, one struct a kind. A payload is what the person stated, with codes as typed; who, when and where in
// the chain stand around it (record/entry.h). Nothing derived is kept here.
//
// Each struct says in `kind` what holds of every entry of its kind (record/kind.h), and lists its fields once, in `fields`; that
// list is used to write the canonical bytes, to read them back and to show them (record/codec.h). An absent optional and an
// empty list or string are not written. A stored name never changes its meaning: a new meaning is a new name, and old readers
// stay.
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/calendar.h"
#include "base/instant.h"
#include "base/measure.h"
#include "base/one_of.h"
#include "base/way.h"
#include "base/words.h"
#include "record/disposition.h"
#include "record/kind.h"
#include "record/part.h"
#include "record/recall_payload.h"
#include "record/seq.h"

// A list of fields is a table, one member beside the next: laid out by hand.
// clang-format off
namespace peelbook::record {

// --- the site and its people -------------------------------------------------------------------------------------------

struct Opened {  // always entry 1
    static constexpr Kind kind{"opened", "new", Correction::never, Lots::none};
    std::string name;  // of the bakery
    template <class V, class S> static void fields(V& v, S& s) { v("name", s.name); }
};

struct PersonAdded {  // stated again under the same initials: the later one counts from then on
    static constexpr Kind kind{"person", "person", Correction::never, Lots::none};
    std::string initials;
    std::string name;
    std::string role;  // a role of the plan; the first person of a site may do everything
    std::string state{};  // "left": they sign nothing from now on; "back": they do again; empty: as it was before
    template <class V, class S> static void fields(V& v, S& s) {
        v("initials", s.initials); v("name", s.name); v("role", s.role); v("state", s.state);
    }
};

struct PartnerAdded {  // stated again under the same code: the later one counts from then on
    static constexpr Kind kind{"partner", "partner", Correction::never, Lots::none};
    std::string code;
    std::string name;
    std::vector<std::string> roles;  // of "supplier", "customer", "carrier", "authority"
    std::string address, phone, email, gln;
    template <class V, class S> static void fields(V& v, S& s) {
        v("code", s.code); v("name", s.name); v("roles", s.roles);
        v("address", s.address); v("phone", s.phone); v("email", s.email); v("gln", s.gln);
    }
};

struct PlanFile {
    std::string name;  // "products.toml"
    std::string text;  // whole and unchanged
    template <class V, class S> static void fields(V& v, S& s) { v("name", s.name); v("text", s.text); }
};

struct PlanAdopted {
    static constexpr Kind kind{"plan-adopted", "plan adopt", Correction::never, Lots::none};
    std::vector<PlanFile> files;  // sorted by name
    std::string hazard;           // why it cannot wait for the next batch, but judges points that are still open; empty: it can
    template <class V, class S> static void fields(V& v, S& s) { v("files", s.files); v("hazard", s.hazard); }
};

// --- lots and the chain of custody -------------------------------------------------------------------------------------

// What the supplier declared of this very lot. Not stated is not the same as free.
struct Declaration {
    bool stated = false;
    std::vector<std::string> contains, may_contain;
    template <class V, class S> static void fields(V& v, S& s) {
        v("stated", s.stated); v("contains", s.contains); v("may-contain", s.may_contain);
    }
    bool operator==(const Declaration&) const = default;
};

struct Received {
    static constexpr Kind kind{"received", "receive", Correction::any, Lots::made};
    std::string lot;       // our code
    std::string material;  // id in the plan
    std::string supplier;  // partner code
    std::string supplier_lot;
    std::optional<Measure> mass;
    std::int64_t pieces = 0;  // 0: not counted in pieces
    std::string gtin;
    std::optional<Date> date;  // what kind of date it is (best-before, use-by) the plan's material says
    std::string document, carrier;
    std::optional<Measure> temperature;
    std::string instrument;  // that took the temperature
    Declaration allergens;
    std::string status;  // "accepted", "held", "refused"
    std::string why;     // wanted when held or refused
    std::string sscc;    // of the pallet or crate it came as, 18 digits
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("material", s.material); v("supplier", s.supplier); v("supplier-lot", s.supplier_lot);
        v("mass", s.mass); v("pieces", s.pieces); v("gtin", s.gtin); v("date", s.date); v("document", s.document);
        v("carrier", s.carrier); v("temperature", s.temperature); v("instrument", s.instrument);
        v("allergens", s.allergens); v("status", s.status); v("why", s.why); v("sscc", s.sscc);
    }
};

struct Filled {  // a lot goes into a vessel; what stands there afterwards is a new blend lot
    static constexpr Kind kind{"filled", "fill", Correction::any, Lots::made_of_others};
    std::string vessel;
    std::string lot;    // what went in
    std::string blend;  // code of the lot that the vessel now holds
    std::optional<Measure> mass;   // absent with `rest`
    bool rest = false;             // all that is left of the lot
    std::optional<Instant> until;  // `happened` is the start of the fill
    bool already_done = false;
    std::string why{};             // of what was already done, or of a lot past its best-before date
    template <class V, class S> static void fields(V& v, S& s) {
        v("vessel", s.vessel); v("lot", s.lot); v("blend", s.blend); v("mass", s.mass); v("rest", s.rest);
        v("until", s.until); v("already-done", s.already_done); v("why", s.why);
    }
};

struct Emptied {  // only an inspected one ends the old-to-new chain
    static constexpr Kind kind{"emptied", "empty", Correction::any, Lots::linked};
    std::string vessel;
    bool inspected = false;
    std::string note;
    template <class V, class S> static void fields(V& v, S& s) {
        v("vessel", s.vessel); v("inspected", s.inspected); v("note", s.note);
    }
};

struct Started {
    static constexpr Kind kind{"started", "start", Correction::any, Lots::made};
    std::string lot;      // code of the batch
    std::string product;  // id in the plan
    std::optional<Measure> flour;  // size: by mass of flour, or
    std::optional<Measure> dough;  // by mass of dough, or
    std::int64_t pieces = 0;       // by pieces
    std::string line;
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("product", s.product); v("flour", s.flour); v("dough", s.dough); v("pieces", s.pieces);
        v("line", s.line);
    }
};

struct Used {
    static constexpr Kind kind{"used", "use", Correction::any, Lots::linked};
    std::string into;  // batch
    std::string lot;   // what went in; a vessel id stands for what the vessel held then
    std::optional<Measure> mass;
    bool rest = false;        // all that was left
    std::int64_t pieces = 0;  // of a lot counted in pieces (rework)
    bool possible = false;    // true: the lot may be in it ("any of these"), false: it is
    bool already_done = false;  // should not have been, and was: a critical deviation
    std::string why;            // wanted for a lot past its best-before date, and for what was already done
    std::string label{};        // another than the product's own, that the batch is to be packed under
    template <class V, class S> static void fields(V& v, S& s) {
        v("into", s.into); v("lot", s.lot); v("mass", s.mass); v("rest", s.rest); v("pieces", s.pieces);
        v("possible", s.possible); v("already-done", s.already_done);
        v("why", s.why); v("label", s.label);
    }
};

struct StepDone {  // `happened` is the end of the step
    static constexpr Kind kind{"step-done", "step", Correction::any, Lots::none};
    std::string lot, step, note;
    bool again = false;  // `happened` is when the step was begun again: back in the oven. It ends anew with the next entry
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("step", s.step); v("note", s.note); v("again", s.again);
    }
};

struct Finished {  // what came out, after the loss on the way
    static constexpr Kind kind{"finished", "finish", Correction::any, Lots::none};
    std::string lot;
    std::int64_t pieces = 0;      // good ones; 0: not counted in pieces (a scald, a filling)
    std::optional<Measure> mass;  // weighed, of the good ones
    std::string note;
    std::int64_t spoiled = 0;  // pieces that came out too and are waste: burnt, dropped
    std::string why{};         // wanted for these, and for a yield far from the formula's
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("pieces", s.pieces); v("mass", s.mass); v("note", s.note); v("spoiled", s.spoiled);
        v("why", s.why);
    }
};

struct Split {  // one rack taken from a batch becomes a lot of its own; the racks of a batch sum exactly to it
    static constexpr Kind kind{"split", "split", Correction::any, Lots::made_of_others};
    std::string lot;    // the batch
    std::string child;  // code of the new lot
    std::string unit;   // the rack, deck or tray: "rack-2"
    std::int64_t pieces = 0;
    std::optional<Measure> mass;  // of a lot that is not counted in pieces
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("child", s.child); v("unit", s.unit); v("pieces", s.pieces); v("mass", s.mass);
    }
};

struct Packed {
    static constexpr Kind kind{"packed", "pack", Correction::any, Lots::made_of_others};
    std::string lot;              // code of the new pack lot
    std::vector<Part> from;       // batches or racks
    std::string label;            // label version of the plan
    std::string printed_code;     // as read from the pack: the unit of a recall
    std::optional<Date> date;     // as printed; its kind is the product's
    std::int64_t pieces = 0;      // packs made; 0: as many as pieces went in
    bool already_done = false;
    std::string why;              // of what was already done
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("from", s.from); v("label", s.label); v("printed-code", s.printed_code);
        v("date", s.date); v("pieces", s.pieces); v("already-done", s.already_done); v("why", s.why);
    }
};

// Dusting flour, pan oil, egg wash, glaze, film: what a line takes as it runs, without a weighed use into each batch. From
// `happened` on the lot is on the line, or with `off` no longer. Every batch that ran there meanwhile may hold it.
struct LineFed {
    static constexpr Kind kind{"line-fed", "line on", Correction::any, Lots::linked};
    std::string lot;
    std::string line;  // a place of the plan
    bool off = false;
    std::string note;
    bool already_done = false;
    std::string why{};  // of what was already done, or of a lot past its best-before date
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("line", s.line); v("off", s.off); v("note", s.note);
        v("already-done", s.already_done); v("why", s.why);
    }
};

// What a co-packer made of goods that we sent comes back, as a new lot. What was sent left by a move of its own.
struct CoPacked {
    static constexpr Kind kind{"co-packed", "copacked", Correction::any, Lots::made_of_others};
    std::string lot;      // code of the new lot
    std::string product;  // id in the plan
    std::string partner;  // the co-packer
    std::string partner_lot;        // their own code
    std::vector<std::string> from;  // our lots that they name; when they name none, every lot sent to them so far
    bool possible = false;          // true: they named none, and the program filled `from` in
    std::int64_t pieces = 0;
    std::optional<Measure> mass;
    std::string label, printed_code;
    std::optional<Date> date;
    std::string document;
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("product", s.product); v("partner", s.partner); v("partner-lot", s.partner_lot);
        v("from", s.from); v("possible", s.possible); v("pieces", s.pieces); v("mass", s.mass); v("label", s.label);
        v("printed-code", s.printed_code); v("date", s.date); v("document", s.document);
    }
};

// A signed decision that the leaven in a lot counts as a new culture: traces through what the lot took over from the leaven
// before it end here, and say so. Dilution alone never ends them.
struct CultureRenewed {
    static constexpr Kind kind{"culture-renewed", "renew", Correction::any, Lots::linked};
    std::string lot;  // a batch of a product that goes into itself
    std::string why;
    template <class V, class S> static void fields(V& v, S& s) { v("lot", s.lot); v("why", s.why); }
};

struct ClockStarted {  // from `happened` on the lot is to be used within a time that the plan states. It only shortens: anybody may
    static constexpr Kind kind{"clock-started", "opened", Correction::void_only, Lots::none};
    std::string lot;
    std::string clock;     // "opened" or "thawed"
    bool another = false;  // another tub or box of the lot, what was opened or thawed of it before being used up
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("clock", s.clock); v("another", s.another);
    }
};

struct Stored {
    static constexpr Kind kind{"stored", "move", Correction::any, Lots::none};
    std::string lot, place;
    template <class V, class S> static void fields(V& v, S& s) { v("lot", s.lot); v("place", s.place); }
};

inline constexpr auto ways_out = words_of<Way, static_cast<std::size_t>(Way::returned)>();

struct MovedOut {
    static constexpr Kind kind{"moved-out", "ship", Correction::any, Lots::none};
    std::string way;      // of ways_out
    std::string lot;      // or, when nobody knows the lot:
    std::string product;  // any lot of it on hand then, possibly; these are
    std::vector<std::string> any_of;  // the lots on hand when it was recorded, filled in by the program
    std::string partner;  // wanted for customer, van, donation, animal-feed, co-packer
    std::int64_t pieces = 0;
    std::optional<Measure> mass;  // with neither pieces nor mass: all that is left
    std::string document, carrier;
    bool of_returned = false;  // of what came back, not of what is on hand
    bool already_done = false;
    std::string why;  // wanted for waste and sample, and for what was already done
    std::string sscc; // of the pallet or crate it leaves as, 18 digits
    std::string round{}; // delivery round that it went by; the next one begins with its list
    template <class V, class S> static void fields(V& v, S& s) {
        v("way", s.way); v("lot", s.lot); v("product", s.product); v("any-of", s.any_of); v("partner", s.partner);
        v("pieces", s.pieces);
        v("mass", s.mass); v("document", s.document); v("carrier", s.carrier);
        v("of-returned", s.of_returned);
        v("already-done", s.already_done); v("why", s.why); v("sscc", s.sscc); v("round", s.round);
    }
};

struct Returned {  // held on arrival and kept apart from stock
    static constexpr Kind kind{"returned", "return", Correction::any, Lots::came_back};
    std::string lot, partner;
    std::int64_t pieces = 0;
    std::optional<Measure> mass;
    std::string document, why;
    std::string way{};  // without a partner: the way by which the goods had left
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("partner", s.partner); v("pieces", s.pieces); v("mass", s.mass);
        v("document", s.document); v("why", s.why); v("way", s.way);
    }
};

struct Counted {  // stock as found; the gap to the computed stock stays visible
    static constexpr Kind kind{"counted", "count", Correction::any, Lots::none};
    std::string lot;
    std::optional<std::int64_t> pieces;
    std::optional<Measure> mass;
    std::string why;
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("pieces", s.pieces); v("mass", s.mass); v("why", s.why);
    }
};

// --- checks ------------------------------------------------------------------------------------------------------------

struct ReadingTaken {
    static constexpr Kind kind{"reading", "reading", Correction::any, Lots::none};
    std::string subject;  // a lot code, or a place or piece of equipment of the plan
    std::string point;
    Measure value;
    std::string unit;        // which oven, deck, rack was probed; empty: the point has no units
    std::string instrument;  // empty: none named
    std::string note;
    std::string slip{};  // number of the paper original that was made at the time; empty: none
    bool sure{};         // asked whether it really read so, beyond what the plan says it can, the person said yes
    template <class V, class S> static void fields(V& v, S& s) {
        v("subject", s.subject); v("point", s.point); v("value", s.value); v("unit", s.unit);
        v("instrument", s.instrument); v("note", s.note); v("slip", s.slip); v("sure", s.sure);
    }
};

struct SeriesRow {
    Instant at;
    std::int64_t value = 0;  // canonical
};

struct SeriesTaken {  // a logger file; the file itself is an attachment of the book
    static constexpr Kind kind{"series", "series", Correction::any, Lots::none};
    std::string subject, point, unit, instrument;
    std::string file;    // its name
    std::string sha256;  // of its bytes, lower-case hex: the attachment's key
    std::string value_unit;  // symbol of the unit in the file: "C"
    std::string logger;      // how the file is read: a logger of the plan in force when this was written; empty: found out
    std::string column;      // of the values: heading or number from 1; empty: the second
    template <class V, class S> static void fields(V& v, S& s) {
        v("subject", s.subject); v("point", s.point); v("unit", s.unit); v("instrument", s.instrument);
        v("file", s.file); v("sha256", s.sha256); v("value-unit", s.value_unit); v("logger", s.logger);
        v("column", s.column);
    }
};

struct Inspected {
    static constexpr Kind kind{"inspected", "inspect", Correction::any, Lots::none};
    std::string subject, point, unit, instrument;
    bool passed = false;
    std::string note;
    std::string slip{};  // as of a reading
    template <class V, class S> static void fields(V& v, S& s) {
        v("subject", s.subject); v("point", s.point); v("unit", s.unit); v("instrument", s.instrument);
        v("passed", s.passed); v("note", s.note); v("slip", s.slip);
    }
};

struct Calibrated {  // an instrument against a reference
    static constexpr Kind kind{"calibrated", "calibrate", Correction::any, Lots::none};
    std::string instrument;
    std::string method;  // "ice", "boiling", "reference", "certificate"
    std::optional<Measure> read, reference;
    bool passed = false;
    std::string note;
    template <class V, class S> static void fields(V& v, S& s) {
        v("instrument", s.instrument); v("method", s.method); v("read", s.read); v("reference", s.reference);
        v("passed", s.passed); v("note", s.note);
    }
};

struct ServiceChanged {  // an instrument goes in or out of service
    static constexpr Kind kind{"service", "service", Correction::any, Lots::none};
    std::string instrument;
    bool in_service = true;
    std::string why;
    template <class V, class S> static void fields(V& v, S& s) {
        v("instrument", s.instrument); v("in-service", s.in_service); v("why", s.why);
    }
};

struct Outage {  // nobody could check anything: no power, a flood, an alarm that cleared the house
    static constexpr Kind kind{"outage", "outage", Correction::any, Lots::none};
    static constexpr Duration longest = days(7);
    Instant from, until;
    std::vector<std::string> places;  // none: the whole house
    std::string why;
    template <class V, class S> static void fields(V& v, S& s) {
        v("from", s.from); v("until", s.until); v("places", s.places); v("why", s.why);
    }
};

struct Cleaned {
    static constexpr Kind kind{"cleaned", "clean", Correction::any, Lots::none};
    std::string subject;  // vessel, place or equipment
    std::string how, note;
    template <class V, class S> static void fields(V& v, S& s) {
        v("subject", s.subject); v("how", s.how); v("note", s.note);
    }
};

struct LabelChecked {  // what the packer reads from a label, at one moment of a packing run on a line
    static constexpr Kind kind{"label-checked", "labels read", Correction::any, Lots::none};
    std::string line, point;
    std::string moment;        // "start", "reel", "change" (of date or product), "end"
    std::string label;         // its id, as read
    std::string printed_code;  // as read; empty: not printed here
    std::optional<Date> date;  // as read
    std::string reel;          // our lot of the reel, or the maker's number on it
    std::string note;
    template <class V, class S> static void fields(V& v, S& s) {
        v("line", s.line); v("point", s.point); v("moment", s.moment); v("label", s.label);
        v("printed-code", s.printed_code); v("date", s.date); v("reel", s.reel); v("note", s.note);
    }
};

struct LabelsCounted {  // at the end of a run: issued = applied + spoiled + returned
    static constexpr Kind kind{"labels-counted", "labels count", Correction::any, Lots::none};
    std::string line, point, label, reel;
    std::int64_t issued = 0, applied = 0, spoiled = 0, returned = 0;
    std::string note;
    template <class V, class S> static void fields(V& v, S& s) {
        v("line", s.line); v("point", s.point); v("label", s.label); v("reel", s.reel); v("issued", s.issued);
        v("applied", s.applied); v("spoiled", s.spoiled); v("returned", s.returned); v("note", s.note);
    }
};

// --- what is done about it ---------------------------------------------------------------------------------------------

// A finding's name for ever: the entry it hangs on, the point, and its number there.
struct FindingKey {
    Seq anchor = 0;
    std::string point;
    std::int64_t ord = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("anchor", s.anchor); v("point", s.point); v("ord", s.ord);
    }
    auto operator<=>(const FindingKey&) const = default;
};

struct Held {
    static constexpr Kind kind{"held", "hold", Correction::never, Lots::none};
    std::vector<std::string> lots;
    std::string why;
    std::optional<FindingKey> cause;  // set when the program wrote the hold
    template <class V, class S> static void fields(V& v, S& s) {
        v("lots", s.lots); v("why", s.why); v("cause", s.cause);
    }
};

struct Released {  // ends every hold on these lots; not of what was made from them
    static constexpr Kind kind{"released", "release", Correction::never, Lots::none};
    std::vector<std::string> lots;
    std::string why;
    std::string seen{};  // digest of the findings behind the holds, as the signer saw them
    template <class V, class S> static void fields(V& v, S& s) { v("lots", s.lots); v("why", s.why); v("seen", s.seen); }
};

inline constexpr auto dispositions = words_of<Disposition>();

struct Acted {  // corrective action for a finding
    static constexpr Kind kind{"acted", "act", Correction::void_only, Lots::none};
    FindingKey finding;
    std::string product, process;  // what was done; at least one
    std::string disposition;       // of `dispositions`, or empty
    std::string cause, prevention;
    std::string seen{};  // digest of the finding as its signer saw it (fold/standing.h); a later one that is no better opens it again
    template <class V, class S> static void fields(V& v, S& s) {
        v("finding", s.finding); v("product", s.product); v("process", s.process); v("disposition", s.disposition);
        v("cause", s.cause); v("prevention", s.prevention); v("seen", s.seen);
    }
};

struct Reviewed {
    static constexpr Kind kind{"reviewed", "review", Correction::never, Lots::none};
    std::string what;    // a lot code, or a week "2026-W47"
    std::string digest;  // SHA-256 of what was reviewed: a later amendment reopens it
    std::string note;
    template <class V, class S> static void fields(V& v, S& s) {
        v("what", s.what); v("digest", s.digest); v("note", s.note);
    }
};

struct Sealed {  // the head of the chain, given to someone outside
    static constexpr Kind kind{"sealed", "seal", Correction::never, Lots::none};
    std::string head;  // hash before this entry, hex
    std::string given_to;
    template <class V, class S> static void fields(V& v, S& s) { v("head", s.head); v("given-to", s.given_to); }
};

// --- corrections -------------------------------------------------------------------------------------------------------

struct Voided {
    static constexpr Kind kind{"voided", "void", Correction::never, Lots::linked};
    static constexpr Duration undo_within = minutes(10);  // of writing the entry
    Seq target = 0;
    std::string why;
    bool undo = false;  // one's own last entry, taken back at once
    template <class V, class S> static void fields(V& v, S& s) { v("target", s.target); v("why", s.why); v("undo", s.undo); }
};

struct Countersigned {  // another person says of entries that wait whether they shall count
    static constexpr Kind kind{"countersigned", "countersign", Correction::never, Lots::linked};
    std::vector<Seq> entries;
    bool refused = false;  // they shall not
    std::string why;
    bool alone = false;  // by the person who wrote them, where the plan says that there is no second one
    std::string seen;    // SHA-256 of what the signer saw: each entry, what it changes, and the findings that wait for it
    template <class V, class S> static void fields(V& v, S& s) {
        v("entries", s.entries); v("refused", s.refused); v("why", s.why); v("alone", s.alone); v("seen", s.seen);
    }
};

using AnyKind = std::variant<Opened, PersonAdded, PartnerAdded, PlanAdopted, Received, Filled, Emptied, Started, Used,
                             StepDone, Finished, Split, Packed, Stored, MovedOut, Returned, Counted, ReadingTaken,
                             SeriesTaken, Inspected, Calibrated, ServiceChanged, Cleaned, Held, Released, Acted,
                             Reviewed, Sealed, Voided, LineFed, CoPacked, CultureRenewed, LabelChecked, LabelsCounted,
                             RecallOpened, RecallDecided, Contacted, RecallTold, RecallCounted, RecallClosed, Outage, Countersigned,
                             RecallWidened, ClockStarted>;

template <class S, class Variant> inline constexpr bool is_alternative = false;
template <class S, class... Kinds> inline constexpr bool is_alternative<S, std::variant<Kinds...>> = OneOf<S, Kinds...>;

// One of the kinds: a variant whose special members are compiled once, in payload.cpp, and not in every file that copies it.
struct Statement : AnyKind {
    Statement();
    template <class S>
        requires is_alternative<S, AnyKind>
    Statement(S says) : AnyKind(std::in_place_type<S>, std::move(says)) {}
    Statement(const Statement& other);
    Statement(Statement&& other) noexcept;
    Statement& operator=(const Statement& other);
    Statement& operator=(Statement&& other) noexcept;
    ~Statement();
};

struct Amended {  // replaces the target's whole statement, same kind; the latest amendment counts
    static constexpr Kind kind{"amended", "amend", Correction::never, Lots::linked};
    Seq target = 0;
    std::string why;
    Statement statement;
    std::optional<Instant> happened;  // when the amendment also moves the time
};

using Payload = std::variant<Statement, Amended>;

const Kind& kind_of(const Statement& s);
const Kind& kind_of(const Payload& p);

// The code of the lot that it makes; empty when it makes none.
std::string made_code(const Statement& s);

}  // namespace peelbook::record
// clang-format on
