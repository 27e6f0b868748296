#include "cli/recall/recall.h"

#include "base/text.h"

namespace peelbook::cli {

Check fits_family(const std::string& code, bool drill, const std::string& command) {
    const bool of_drill = code.starts_with("DRILL-");
    const bool of_recall = code.starts_with("RECALL-");
    if ((drill && !of_recall) || (!drill && !of_drill)) return {};
    return Refusal{shown(code) + " with `peelbook " + (drill ? "drill " : "recall ") + command + "`",
                   drill ? "a drill" : "a recall",
                   std::string("type: peelbook ") + (drill ? "recall " : "drill ") + command + " " + shown(code),
                   {}};
}

Result<std::optional<Instant>> span_end(const Context& context, const site::Site& site, const std::string& typed, bool until) {
    const auto date = parse_date(typed);
    if (!date) return when(context, site, typed);
    if (!until) return std::optional(site.zone().day_start(*date, 0, 0));
    return std::optional(Instant{site.zone().day_start(add_days(*date, 1), 0, 0).ms - 1});
}

std::string elapsed_text(std::int64_t ms) {
    const std::int64_t minutes = ms / 60'000;
    if (minutes < 60) return std::to_string(minutes) + " min";
    if (minutes < 48 * 60) return std::to_string(minutes / 60) + " h " + std::to_string(minutes % 60) + " min";
    return std::to_string(minutes / 1440) + " d " + std::to_string(minutes / 60 % 24) + " h";
}

}  // namespace peelbook::cli
