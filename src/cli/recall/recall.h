#pragma once
// What the commands of recalls and drills share. `drill` does all that `recall` does, without touching holds.
#include <string>

#include "base/zone.h"
#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "output/json.h"
#include "site/site.h"

namespace peelbook::cli {

// Refused: a drill's code after `recall`, and the other way round.
Check fits_family(const std::string& code, bool drill, const std::string& command);

// --from and --until: a time as typed, or a date for its whole day.
Result<std::optional<Instant>> span_end(const Context& context, const site::Site& site, const std::string& typed, bool until);

std::string recall_text(const site::RecallView& view, const Zone& zone);
output::Json recall_json(const site::RecallView& view, const Zone& zone);

// "12 min", "3 h 20 min", "2 d 4 h": after word came.
std::string elapsed_text(std::int64_t ms);

}  // namespace peelbook::cli
