#pragma once
// What entries of a recall or a drill say; see record/payload.h for how a kind is written.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/fate.h"
#include "base/instant.h"
#include "base/measure.h"
#include "base/words.h"
#include "record/kind.h"
#include "record/part.h"

// A list of fields is a table, one member beside the next: laid out by hand.
// clang-format off
namespace peelbook::record {

struct RecallLot {  // a lot of the snapshot
    std::string lot;
    bool asked = false;     // one that the recall began with
    bool possible = false;  // it may hold some of it; not written: it does
    std::int64_t on_hand_mg = 0, on_hand_pieces = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("asked", s.asked); v("possible", s.possible); v("on-hand-mg", s.on_hand_mg);
        v("on-hand-pieces", s.on_hand_pieces);
    }
};

struct RecallDelivery {  // who had what, by printed code, in the snapshot
    std::string partner, way, printed_code, lot, item, document;
    std::int64_t pieces = 0, mass_mg = 0, returned_pieces = 0, returned_mg = 0;
    Instant first, last;  // when it left
    bool possible = false;
    template <class V, class S> static void fields(V& v, S& s) {
        v("partner", s.partner); v("way", s.way); v("printed-code", s.printed_code); v("lot", s.lot); v("item", s.item);
        v("document", s.document); v("pieces", s.pieces); v("mass-mg", s.mass_mg); v("returned-pieces", s.returned_pieces);
        v("returned-mg", s.returned_mg); v("first", s.first); v("last", s.last); v("possible", s.possible);
    }
};

// What the book knew when the recall was opened, frozen. The lots that it began with are named by code, or by what picks them
// out: a material or product in a time, what stood in a vessel in a time.
struct RecallOpened {
    static constexpr Kind kind{"recall-opened", "recall", Correction::never, Lots::none};
    std::string recall;  // RECALL-261120-1, or DRILL-261120-1 of a drill; filled in by the program
    bool drill = false;  // everything but the holds
    std::vector<std::string> lots;  // our code, a printed code, SUPPLIER:LOT
    std::string material, vessel;
    std::optional<Instant> from, until;
    std::string hazard, grade;  // grade: the class, "I", "II", "III" (21 CFR 7.3(m)), or empty
    std::string decision;       // of recall_decisions, or empty: not decided yet
    std::string why;
    std::string check_level;    // of the effectiveness check, "A" to "E" (21 CFR 7.42(b)(3)); empty: none asked for
    std::optional<Measure> check_percent;  // of level B
    std::int64_t seed = 0;                 // of the sample
    std::optional<Instant> aware;          // when word came; absent: when it was opened
    std::vector<RecallLot> snapshot;       // in the order of a trace; filled in by the program, as are these
    std::vector<RecallDelivery> deliveries;
    std::string digest;  // SHA-256 of both, record::snapshot_digest
    std::string supplier{};  // partner code: what they delivered in the time
    bool taken = false;  // the time is of what was taken out of the lots, as in a trace; not written: of when they came
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("drill", s.drill); v("lots", s.lots); v("material", s.material); v("vessel", s.vessel);
        v("from", s.from); v("until", s.until); v("hazard", s.hazard); v("class", s.grade); v("decision", s.decision);
        v("why", s.why); v("check-level", s.check_level); v("check-percent", s.check_percent); v("seed", s.seed);
        v("aware", s.aware); v("snapshot", s.snapshot); v("deliveries", s.deliveries); v("digest", s.digest);
        v("supplier", s.supplier); v("taken", s.taken);
    }
};
inline constexpr std::string_view recall_decisions[] = {"recall", "withdrawal", "stock-only", "none"};

struct RecallDecided {  // what is decided anew; lots left out of the scope stay on every list as left out
    static constexpr Kind kind{"recall-decided", "recall", Correction::never, Lots::none};
    std::string recall;
    std::string decision, grade, hazard;  // what is not stated stays
    std::vector<std::string> out;         // lots left out; then a hazard is wanted
    std::string why;
    std::vector<std::string> possible{};  // of those left out, what only might hold some of it then; filled in by the program
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("decision", s.decision); v("class", s.grade); v("hazard", s.hazard); v("out", s.out);
        v("why", s.why); v("possible", s.possible);
    }
};

// It covers more: what a later entry brought in, written by the program, or what a person takes in or back in.
struct RecallWidened {
    static constexpr Kind kind{"recall-widened", "recall", Correction::never, Lots::none};
    std::string recall;
    std::vector<RecallLot> lots;    // that it did not cover
    std::vector<std::string> back;  // that were left out
    std::string why;
    std::int64_t cause = 0;         // the entry that brought them in; 0: a person did
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("lots", s.lots); v("back", s.back); v("why", s.why); v("cause", s.cause);
    }
};

struct Contacted {  // a partner was called or written to; without a recall: the call list was tried
    static constexpr Kind kind{"contacted", "recall", Correction::void_only, Lots::none};
    std::string recall, partner;
    std::string person, how;  // who answered; "telephone", "e-mail", ...
    bool reached = false;
    bool check = false;  // of the effectiveness check: did the word arrive and was it acted on?
    std::string note;
    std::vector<std::string> codes{};  // that they were told of when reached: as stated, else all that they had then, filled in; an
                                       // older entry without them is of those of the snapshot
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("partner", s.partner); v("person", s.person); v("how", s.how); v("reached", s.reached);
        v("check", s.check); v("note", s.note); v("codes", s.codes);
    }
};

inline constexpr std::string_view told_words[] = {"authority", "customers", "public", "supplier"};
struct RecallTold {  // those who are told as a body; single customers are Contacted
    static constexpr Kind kind{"recall-told", "recall", Correction::void_only, Lots::none};
    std::string recall, whom;  // of told_words
    std::string name, how, note;
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("whom", s.whom); v("name", s.name); v("how", s.how); v("note", s.note);
    }
};

inline constexpr auto counted_words = words_of<Fate>();
struct RecallCounted {  // what a partner says of goods it had; "found" stands there still
    static constexpr Kind kind{"recall-counted", "recall", Correction::void_only, Lots::came_back};
    std::string recall;
    std::string code;  // printed code, or our lot code
    std::string partner, what;
    std::int64_t pieces = 0;
    std::optional<Measure> mass;
    std::vector<Part> parts;  // by lot, filled in: a printed code may be on several
    std::string note;
    std::string way{};  // without a partner: the way by which the goods had left
    std::int64_t excess_pieces{}, excess_mg{};  // beyond what went there and is not spoken of yet, in no part; filled in
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("code", s.code); v("partner", s.partner); v("what", s.what); v("pieces", s.pieces);
        v("mass", s.mass); v("parts", s.parts); v("note", s.note); v("way", s.way); v("excess-pieces", s.excess_pieces);
        v("excess-mg", s.excess_mg);
    }
};

struct RecallClosed {
    static constexpr Kind kind{"recall-closed", "recall", Correction::never, Lots::none};
    std::string recall;
    std::string why;  // wanted when anything is open
    // What the reconciliation said then; filled in. Percentages in thousandths: 100,000 is all.
    std::int64_t made_mg = 0, made_pieces = 0, missing_mg = 0, missing_pieces = 0;
    std::int64_t placed = 0;  // of what was made, whose whereabouts the records say
    std::int64_t found = 0;   // the same, less what was shipped and nobody accounts for
    std::vector<std::string> open{};  // everything that was not done or accounted for, in words; filled in
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("why", s.why); v("made-mg", s.made_mg); v("made-pieces", s.made_pieces);
        v("missing-mg", s.missing_mg); v("missing-pieces", s.missing_pieces); v("placed", s.placed); v("found", s.found);
        v("open", s.open);
    }
};

// Lower-case hex of the SHA-256 of {"deliveries":[...],"snapshot":[...]}, in the canonical form of a body.
std::string snapshot_digest(const RecallOpened& recall);

}  // namespace peelbook::record
// clang-format on
