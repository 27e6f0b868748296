#pragma once
// Until when a lot may be used, and why (rules 22, 66, 67): the one place that works it out.
//
//   best-before   as printed; the shelf life of a product that the plan dates so
//   use-by        as printed; the shelf life of a product that the plan dates so; its age (use_within); the clocks of what was opened
//                 or thawed
// Parts and packs end with what they were taken from. What is made of other lots ends with their use-by, unless they went in before the
// end of a step that kills; their best-before ends nothing. A part taken before a clock began does not run by it.
#include <optional>
#include <string>
#include <vector>

#include "fold/ledger.h"

namespace peelbook::fold {

// All that ends the use of the lot as things stand at a moment, the earliest first; past it from `until_ms` on. Of a supply none.
std::vector<book::Keeping> ends_of_use(Ledger& ledger, const book::Lot& lot, Instant at);
// In words of a sentence, of a lot that it is told of: "its use-by date 2026-11-24", "the shelf life of PAN-1, over 2026-11-29 05:40".
std::string words(Ledger& ledger, const book::Keeping& end, book::LotId of);

// The latest date that may stand on packs of the lot. Best-before: the day on which it ends. Use-by: the last day that is over by
// then, since a day printed counts whole; what lasts less than a day bears the day on which it was made. None: nothing ends.
struct LatestDate {
    Date date;
    DateKind kind = DateKind::best_before;  // of what ends
    std::string why;
};
std::optional<LatestDate> latest_date(Ledger& ledger, const book::Lot& lot, Instant at);
// A product whose packs must bear a date: it has a shelf life and is not sold loose or packed for direct sale.
bool wants_date(const plan::Product& product);

// For people, at the end of the making and on the page of a lot: "print best-before 2026-12-01 at the latest: ...", or until when it
// may be used. Empty where nothing ends but by the lot's own printed date.
std::string told_of_use(Ledger& ledger, const book::Lot& lot, Instant at);

}  // namespace peelbook::fold
