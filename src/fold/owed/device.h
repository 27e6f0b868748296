#pragma once
// How the checks of its line stood when a pack passed: devices (rule 12), and labels read at start and end of its run. Reading alone;
// a few indexed look-ups a device, however many years of checks there are.
#include <string>
#include <vector>

#include "fold/ledger.h"

namespace peelbook::fold {

// bad: the check before or after was not good (failed, unproven), or between the two lies a time without a check that was too long or
// runs too long by now. open: not shown yet, and nothing stands against it. good: shown on both sides.
enum class Passing { good, open, bad };

struct PassedDevice {
    std::string place, point;
    Passing state = Passing::good;
    std::string why;  // empty when good
};

// Every device that the plan in force at its packing names for the line of `pack`, in order of the plan. It is good when its last check
// at or before the packing is good and the first one after it too: the end of a run is owed before the goods leave, not before they are
// packed. Where the point says `at`, the check before must be of
//   start   the same production day
//   change  the same product: no pack of another one ran on the line in between
// Otherwise it may be of any time from which the next was not overdue; of a device that was first checked after the packing, and in
// time, the check after it speaks alone.
std::vector<PassedDevice> devices_passed(Ledger& ledger, const book::Lot& pack, Instant now);
// Those of them whose last check by then was not good.
std::vector<PassedDevice> devices_failed(Ledger& ledger, const book::Lot& pack);

// Of the labels that are read on the line of `pack`: bad when a reading differs or is missing, open while the end of its run is to be
// read and is not. Good where no labels are read.
Passing labels_read(Ledger& ledger, const book::Lot& pack);

}  // namespace peelbook::fold
