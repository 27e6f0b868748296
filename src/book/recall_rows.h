#pragma once
// The derived tables of recalls and drills, one struct a row, as rows.h has the others.
#include <optional>
#include <string>
#include <string_view>

#include "base/fate.h"
#include "book/recall_step_kind.h"
#include "book/rows.h"

// clang-format off
namespace peelbook::book {

// A recall or drill; its snapshot, steps, counts and what was left out stand in the tables below, under its entry.
struct Recall {
    static constexpr std::string_view table = "recall";
    Seq seq = 0;
    std::string code;
    Int drill = 0;
    std::string scope;  // what was asked for, in words
    std::string hazard, grade, decision, why;
    std::string check_level;
    Int check_percent = 0;  // thousandths of a per cent, level B
    Int seed = 0;
    Int aware = 0, happened = 0;
    std::string by, digest;
    std::string words, material, supplier, vessel;  // what it began with, as typed; the words a line each
    std::optional<Int> from_ms, until_ms;
    Int taken = 0;                  // 1: the time is of what was taken out of the lots
    std::optional<Seq> closed_seq;  // none: open
    std::optional<Int> closed;
    std::string closed_by, closed_why;
    std::string closed_open;  // a line each
    Int made_mg = 0, made_pieces = 0, missing_mg = 0, missing_pieces = 0, placed = 0, found = 0;  // when it was closed
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("code", s.code); v("drill", s.drill); v("scope", s.scope); v("hazard", s.hazard);
        v("grade", s.grade); v("decision", s.decision); v("why", s.why); v("check_level", s.check_level);
        v("check_percent", s.check_percent); v("seed", s.seed); v("aware", s.aware); v("happened", s.happened);
        v("by", s.by); v("digest", s.digest); v("words", s.words);
        v("material", s.material); v("supplier", s.supplier); v("vessel", s.vessel); v("from_ms", s.from_ms);
        v("until_ms", s.until_ms); v("taken", s.taken); v("closed_seq", s.closed_seq); v("closed", s.closed);
        v("closed_by", s.closed_by); v("closed_why", s.closed_why);
        v("closed_open", s.closed_open); v("made_mg", s.made_mg);
        v("made_pieces", s.made_pieces); v("missing_mg", s.missing_mg); v("missing_pieces", s.missing_pieces);
        v("placed", s.placed); v("found", s.found);
    }
    bool operator==(const Recall&) const = default;
};

struct RecallLot {  // a lot that it covers: of the snapshot, or widened to since
    static constexpr std::string_view table = "recall_lot";
    Seq recall = 0;
    Int ord = 0;
    LotId lot = 0;
    std::string code;
    Int asked = 0, certain = 0, on_hand_mg = 0, on_hand_pieces = 0;
    Seq since = 0;  // the entry that brought it in; `recall` of the snapshot
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("ord", s.ord); v("lot", s.lot); v("code", s.code); v("asked", s.asked);
        v("certain", s.certain); v("on_hand_mg", s.on_hand_mg); v("on_hand_pieces", s.on_hand_pieces);
        v("since", s.since);
    }
    bool operator==(const RecallLot&) const = default;
};

struct RecallDelivery {  // who had what, in the snapshot
    static constexpr std::string_view table = "recall_delivery";
    Seq recall = 0;
    Int ord = 0;
    std::string partner, way, printed_code, lots, item, document;
    Int pieces = 0, mass_mg = 0, returned_pieces = 0, returned_mg = 0, first = 0, last = 0, certain = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("ord", s.ord); v("partner", s.partner); v("way", s.way);
        v("printed_code", s.printed_code); v("lots", s.lots); v("item", s.item); v("document", s.document);
        v("pieces", s.pieces); v("mass_mg", s.mass_mg); v("returned_pieces", s.returned_pieces);
        v("returned_mg", s.returned_mg); v("first", s.first); v("last", s.last); v("certain", s.certain);
    }
    bool operator==(const RecallDelivery&) const = default;
};

struct RecallStep {  // what was done in it, one row an entry; recall 0: the call list was tried
    static constexpr std::string_view table = "recall_step";
    Seq seq = 0, recall = 0;
    RecallStepKind kind = RecallStepKind::opened;
    std::string whom;   // partner, or of record::told_words
    std::string how;    // by what means, with whom
    Int reached = 0, checks = 0;
    std::string text;
    Int happened = 0;
    std::string by;
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("recall", s.recall); v("kind", s.kind); v("whom", s.whom); v("how", s.how);
        v("reached", s.reached); v("checks", s.checks); v("text", s.text); v("happened", s.happened); v("by", s.by);
    }
    bool operator==(const RecallStep&) const = default;
};

struct RecallToldCode {  // a code that a customer was told of when they were reached
    static constexpr std::string_view table = "recall_told_code";
    Seq seq = 0;
    std::string code;
    template <class V, class S> static void fields(V& v, S& s) { v("seq", s.seq); v("code", s.code); }
    bool operator==(const RecallToldCode&) const = default;
};

struct RecallCount {  // what a partner says of goods it had
    static constexpr std::string_view table = "recall_count";
    Seq seq = 0, recall = 0;
    std::string code, partner;
    std::optional<Way> way;  // without a partner
    Fate what = Fate::returned;
    std::optional<Int> mass_mg, pieces;
    Int excess_mg = 0, excess_pieces = 0;  // of these, beyond what the records had there when it was said
    Int happened = 0;
    template <class V, class S> static void fields(V& v, S& s) {
        v("seq", s.seq); v("recall", s.recall); v("code", s.code); v("partner", s.partner); v("way", s.way);
        v("what", s.what); v("mass_mg", s.mass_mg); v("pieces", s.pieces); v("excess_mg", s.excess_mg);
        v("excess_pieces", s.excess_pieces); v("happened", s.happened);
    }
    bool operator==(const RecallCount&) const = default;
};

struct RecallOut {  // a lot left out of the scope by a signed decision
    static constexpr std::string_view table = "recall_out";
    Seq recall = 0;
    LotId lot = 0;
    Seq seq = 0;
    std::string hazard, why;
    Int certain = 0;              // as the lot stood then
    std::optional<Seq> ended_by;  // the entry that took it back in
    template <class V, class S> static void fields(V& v, S& s) {
        v("recall", s.recall); v("lot", s.lot); v("seq", s.seq); v("hazard", s.hazard); v("why", s.why);
        v("certain", s.certain); v("ended_by", s.ended_by);
    }
    bool operator==(const RecallOut&) const = default;
};

}  // namespace peelbook::book
// clang-format on
