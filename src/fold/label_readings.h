#pragma once
// What was read from labels on a line around a moment, in order of time; voided readings are left out.
#include <string>
#include <vector>

#include "fold/queue.h"
#include "judge/label_check.h"

namespace peelbook::fold {

std::vector<judge::LabelReading> label_readings(Ledger& ledger, const std::string& line, const std::string& point, Instant around);

// The packs whose label readings changed with one at `around`, to be judged again.
Subjects packs_of_label_run(Ledger& ledger, const std::string& line, const std::string& point, Instant around);

}  // namespace peelbook::fold
