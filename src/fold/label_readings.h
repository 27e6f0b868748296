#pragma once
// What was read from labels on a line around a moment, in order of time; voided readings are left out.
#include <string>
#include <vector>

#include "judge/label_check.h"
#include "fold/ledger.h"

namespace peelbook::fold {

std::vector<judge::LabelReading> label_readings(Ledger& ledger, const std::string& line, const std::string& point, Instant around);

}  // namespace peelbook::fold
