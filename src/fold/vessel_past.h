#pragma once
// What is recorded of a vessel as far back as it still matters for a change at one moment, in the form that trace/vessel.h works on.
//
// What stood in a mixed vessel before a fill is fully told by the blend that the fill made, so its past may begin there, wherever no
// open question of the clocks reaches across. The past of a first-in vessel begins after an inspected emptying. A vessel is
// first-in only as long as the plan says so of every fill since then and today; else it is mixed, which names more lots, never
// fewer. Heel, smear and clock uncertainty are the larger of those of the plan at the moment and today's.
#include <limits>

#include "fold/derivation.h"
#include "trace/vessel.h"

namespace peelbook::fold {

inline constexpr Duration longest_fill = hours(24);  // common practice: a tanker is blown over in hours

struct VesselPast {
    trace::VesselHistory history;
    bool on_blend = false;  // the first fill stands for the blend that it made, which is known and stays as it is
    book::Int open_from = std::numeric_limits<book::Int>::min();  // draws before it are of what they were of before the change, and
                                                                  // may be of what came before this past
    std::vector<Effective> entries;  // fills, draws and emptyings from there on, voided ones too, in (happened, seq) order
};

enum class Draws { all, none };  // none: of a mixed vessel; what a draw may be of does not depend on other draws

VesselPast vessel_past(Ledger& ledger, const std::string& vessel, Instant from, Draws draws);

// Of each draw from `open_from` on, what it may be of.
std::map<Seq, std::vector<DrawPart>> draw_parts(const VesselPast& past);

// A draw of `mass_mg` at `at`, as if it had been recorded.
std::vector<DrawPart> parts_of_draw(Ledger& ledger, const std::string& vessel, Instant at, book::Int mass_mg);

}  // namespace peelbook::fold
