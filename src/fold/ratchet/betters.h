#pragma once
// What an entry may make milder by itself (rule 59). The table says it by kind, and a kind that it does not name betters nothing: a
// new kind of entry cannot forget to ask. The same table stands as text in tests/fold/ratchet/table.txt and in DEVELOPERS.md.
//
// An entry may always make things look worse. What would look better through an entry that may not better it stays as it stood and
// says which entry it waits for, until another person has countersigned that entry.
#include <optional>
#include <string_view>

#include "fold/derivation.h"

namespace peelbook::fold {

// Kinds of findings.
enum class Matter { point, check, formula, label, residue, done };
constexpr std::string_view word(Matter matter) {
    switch (matter) {
        case Matter::point:
            return "point";  // of the plan, read on a lot
        case Matter::check:
            return "check";  // of a place or device, gaps and outages
        case Matter::formula:
            return "formula";  // what was used, and the yield
        case Matter::label:
            return "label";  // what a label or a lot declares
        case Matter::residue:
            return "residue";  // on equipment
        case Matter::done:
            return "done";  // what was done although it is refused
    }
    return {};
}
inline constexpr Matter matters[] = {Matter::point, Matter::check, Matter::formula, Matter::label, Matter::residue, Matter::done};
Matter matter_of(const book::Finding& finding);

// Whether an entry of this kind betters that at all, only when it was typed in time, or even when it was typed late.
enum class Betters { never, in_time, always };
constexpr std::string_view word(Betters betters) {
    switch (betters) {
        case Betters::never:
            return "never";
        case Betters::in_time:
            return "in time";
        case Betters::always:
            return "always";
    }
    return {};
}
Betters betters(const record::Statement& says, Matter matter);

// Typed within the site's late_after, or from a slip; a logger's file within its own time, an outage within a day of its end.
bool in_time(Ledger& ledger, const record::Entry& entry);

// Whether the entry that is being applied may by itself make `old` so mild as `now`; absent: nothing is judged there any more.
bool may_better(const Derivation& d, const book::Finding& old, const std::optional<book::Finding>& now);

}  // namespace peelbook::fold
