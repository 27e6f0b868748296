#pragma once
#include <functional>
#include <string>
#include <vector>

#include "base/result.h"
#include "record/payload.h"

namespace peelbook::cli {

// Sets named fields of a statement from "field=value" texts and keeps the rest. Fields are named as
// record/payload.h names them, parts of a field after a dot: "allergens.contains=wheat,milk". An empty value
// clears the field. `time_of` reads a typed time. Refused: a field the kind does not have (the nearest are
// offered), a value that does not fit.
Check set_fields(record::Statement& statement, const std::vector<std::string>& changes,
                 const std::function<Result<Instant>(const std::string&)>& time_of);

}  // namespace peelbook::cli
