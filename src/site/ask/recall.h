#pragma once
// A recall or drill as it stands at a moment: what was frozen when it was opened, what later entries added
// and took away, who has what, who was reached, what adds up, and when each step was done against the plan's
// deadlines.
#include <optional>
#include <string>
#include <vector>

#include "book/recall_rows.h"
#include "book/rows.h"
#include "trace/recall.h"

namespace peelbook::site {

enum class RecallLotState {
    covered,
    added,     // since the snapshot
    cut_off,   // by a correction, still covered as possible
    left_out,  // by a signed decision
};
constexpr std::string_view word(RecallLotState state) {
    switch (state) {
        case RecallLotState::covered:
            return "covered";
        case RecallLotState::added:
            return "added";
        case RecallLotState::cut_off:
            return "cut off";
        case RecallLotState::left_out:
            return "left out";
    }
    return {};
}

struct RecallLotLine {
    trace::Lot lot;  // as it stands now; only id and code of one that is gone
    bool asked = false, certain = false;
    bool gone = false;  // a later entry voided it
    RecallLotState state = RecallLotState::covered;
    std::vector<Seq> by;  // the entries behind it, but of one that is covered
};

struct RecallPartner {      // who had some of it
    book::Partner partner;  // as stated last; only the code when the book does not know it
    std::vector<trace::Delivery> had;
    bool reached = false;
    std::optional<std::int64_t> first_reached, last_try;  // instants
    bool to_check = false, checked = false;               // of the effectiveness check
    std::int64_t shipped_pieces = 0, shipped_mg = 0, missing_pieces = 0,
                 missing_mg = 0;  // missing: nobody accounts for it yet
};

struct RecallTiming {
    std::string step;                  // "word came", "opened", or the name of a deadline of the plan
    std::optional<std::int64_t> done;  // instant
    std::optional<std::int64_t> due;
    std::string basis;  // of the deadline, as the plan states it
    std::string state;  // "done" "done late" "open" "overdue"; "not done" without a deadline
};

struct RecallChange {
    std::string what, text;  // site/ask/recall_scope.h
    std::vector<Seq> by;
};

struct RecallView {
    book::Recall recall;
    std::vector<RecallLotLine> lots;
    std::vector<trace::Delivery> deliveries;  // by printed code, all ways out
    std::vector<RecallPartner> partners;      // in order of code
    trace::Reconciliation reconciliation;     // of all of them, those left out too
    std::vector<RecallChange> changes;        // since the snapshot
    std::vector<RecallTiming> timings;
    std::vector<book::RecallStep> steps;  // by time
    std::vector<std::string> sample;      // partners that the effectiveness check asks
    std::vector<std::string> to_hold;     // covered, here, and not held; of a drill: all that a recall would hold
    int unfinished = 0;                   // batches whose yield is not known yet, in no sum
    std::vector<std::string> notes;
    std::int64_t missing_mg() const { return reconciliation.all.mg.missing; }
    std::int64_t missing_pieces() const { return reconciliation.all.pieces.missing; }
    std::int64_t placed() const;  // thousandths of a per cent: the lesser of mass and pieces; 100,000 when nothing was made
    std::int64_t found() const;
    // What stands on every page and screen: "DRILL", and once it is closed what is not accounted for, with
    // the reason or without; empty when neither.
    std::string stamp(bool with_reason = true) const;
};

// Who is called in a recall: partners with the role customer or authority, when the call list was last tried,
// and with what result.
struct Callee {
    book::Partner partner;
    std::optional<std::int64_t> tried;    // instant
    std::optional<std::int64_t> reached;  // instant of the last time someone answered
    bool overdue = false;                 // not reached within the plan's deadline for the call list, or never
};

}  // namespace peelbook::site
