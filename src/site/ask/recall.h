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

// Goods under one printed code at one customer, or out by one way that names nobody.
struct RecallGoods {
    trace::Delivery delivery;          // nothing shipped: somebody says that they have it, and the records have none there
    std::optional<std::int64_t> told;  // instant at which the customer was first told of this code
    trace::Amounts repacked;           // came back from a co-packer as another lot
    trace::Amounts open;               // nobody accounts for it yet
    trace::Amounts excess;             // said beyond what went there: to be asked, and it credits nobody
    bool asked = true;                 // of the excess: they were reached since
    bool left_out = false;             // every lot of it, by decision: nobody needs to be told
};

struct RecallPartner {      // who had some of it
    book::Partner partner;  // as stated last; only the code when the book does not know it
    std::vector<RecallGoods> had;
    std::optional<std::int64_t> last_try;    // instant
    bool to_check = false, checked = false;  // of the effectiveness check
    trace::Amounts shipped, open;
    bool to_tell() const;                         // of some of it
    std::optional<std::int64_t> reached() const;  // instant at which the last of all codes was told; none while one is not
};

struct RecallWay {  // what left the house by it
    Way way = Way::customer;
    trace::Amounts went, open;  // open: what feeds somebody, and nobody accounts for yet
};

struct RecallTiming {
    std::string of;                    // the step of a deadline: hold authority customers public supplier close; else empty
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
    std::vector<RecallGoods> unnamed;         // out by ways that name nobody
    std::vector<RecallWay> ways;              // in their order, those by which something left
    trace::Reconciliation reconciliation;     // of all lots, also those left out
    std::vector<trace::Move> moves;           // what it was reckoned from: what left and came back, as the book has it,
    std::vector<trace::Statement> said;       // and what was said
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
    // What is not done or not accounted for, in words: what closing it now leaves open.
    std::vector<std::string> still_open() const;
    // What stands on every page and screen: "DRILL", and once it is closed what it left open, with the reason or without; empty when
    // neither. Of many the first; all stand in book::Recall::closed_open.
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
