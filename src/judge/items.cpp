// Formula items at `finish`: a forgotten use shortens a recall, so what was not recorded must show.
#include "base/units.h"
#include "judge/by_unit.h"

namespace peelbook::judge {

std::optional<Finding> judge_item(const ItemUse& use, std::int64_t tolerance_milli_percent, Instant finished) {
    if (use.optional) return std::nullopt;
    // wanted x (100 % -+ tolerance), in thousandths of a percent, so that nothing is rounded.
    constexpr std::int64_t whole = 100'000;
    const Wide used = Wide{use.used_mg} * whole;
    const Wide least = Wide{use.wanted_mg} * (whole - tolerance_milli_percent);
    const Wide most = Wide{use.wanted_mg} * (whole + tolerance_milli_percent);
    if (used >= least && used <= most) return std::nullopt;
    Finding finding;
    finding.point = missing_use_point;
    finding.unit = use.item;
    finding.verdict = used < least ? Verdict::missing : Verdict::deviation;
    finding.happened = finished;
    finding.measured = mass_text(use.used_mg) + " of " + mass_text(use.wanted_mg);
    const std::int64_t apart = use.used_mg - use.wanted_mg;
    append_sentence(finding.detail, (use.name.empty() ? use.item : use.name) + ": " + mass_text(use.used_mg) + " recorded, " +
                                        mass_text(use.wanted_mg) + " wanted, " + mass_text(apart < 0 ? -apart : apart) +
                                        (apart < 0 ? " not accounted for" : " too much") + "; tolerance " +
                                        to_text(measure_of(tolerance_milli_percent, Unit::percent)));
    return finding;
}

}  // namespace peelbook::judge
