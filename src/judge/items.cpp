// What `finish` compares with the formula. A forgotten use shortens a recall, and pieces that nobody counted may be anywhere: both must
// show.
#include "base/units.h"
#include "judge/by_unit.h"

namespace peelbook::judge {
namespace {

// What was found x 100 %, and wanted x (100 % -+ tolerance), in thousandths of a percent, so that nothing is rounded.
struct Toleranced {
    Wide found, least, most;
    bool within() const { return found >= least && found <= most; }
};
Toleranced toleranced(std::int64_t found, std::int64_t wanted, std::int64_t tolerance_milli_percent) {
    constexpr std::int64_t whole = 100'000;
    return {Wide{found} * whole, Wide{wanted} * (whole - tolerance_milli_percent), Wide{wanted} * (whole + tolerance_milli_percent)};
}

std::string percent_of(std::int64_t milli_percent) { return to_text(measure_of(milli_percent, Unit::percent)); }

}  // namespace

std::optional<Finding> judge_item(const ItemUse& use, std::int64_t tolerance_milli_percent, Instant finished) {
    if (use.optional) return std::nullopt;
    const Toleranced used = toleranced(use.used_mg, use.wanted_mg, tolerance_milli_percent);
    if (used.within()) return std::nullopt;
    Finding finding;
    finding.point = missing_use_point;
    finding.unit = use.item;
    finding.verdict = used.found < used.least ? Verdict::missing : Verdict::deviation;
    finding.happened = finished;
    finding.measured = mass_text(use.used_mg) + " of " + mass_text(use.wanted_mg);
    const std::int64_t apart = use.used_mg - use.wanted_mg;
    append_sentence(finding.detail, (use.name.empty() ? use.item : use.name) + ": " + mass_text(use.used_mg) + " recorded, " +
                                        mass_text(use.wanted_mg) + " wanted, " + mass_text(apart < 0 ? -apart : apart) +
                                        (apart < 0 ? " not accounted for" : " too much") + "; tolerance " +
                                        percent_of(tolerance_milli_percent));
    return finding;
}

std::optional<Finding> judge_yield(std::int64_t good, std::int64_t spoiled, std::int64_t expected, std::int64_t tolerance_milli_percent,
                                   Instant finished) {
    const std::int64_t came_out = good + spoiled;
    if (expected <= 0 || toleranced(came_out, expected, tolerance_milli_percent).within()) return std::nullopt;
    Finding finding;
    finding.point = yield_point;
    finding.verdict = Verdict::deviation;
    finding.happened = finished;
    finding.measured = std::to_string(came_out) + " of " + std::to_string(expected) + " pieces";
    const std::int64_t apart = came_out - expected;
    append_sentence(finding.detail, std::to_string(good) + " good, " + std::to_string(spoiled) + " spoiled, " +
                                        std::to_string(apart < 0 ? -apart : apart) +
                                        (apart < 0 ? " not accounted for" : " more than the dough makes") + "; tolerance " +
                                        percent_of(tolerance_milli_percent));
    return finding;
}

std::string yield_limit_text(std::int64_t expected, std::int64_t tolerance_milli_percent) {
    return std::to_string(expected) + " pieces, give or take " + percent_of(tolerance_milli_percent);
}

}  // namespace peelbook::judge
