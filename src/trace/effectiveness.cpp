// Whom an effectiveness check asks.
#include <algorithm>

#include "base/text.h"
#include "trace/recall.h"
#include "trace/splitmix.h"

namespace peelbook::trace {
namespace {

constexpr std::int64_t percent_c = 10'000, percent_d = 2'000;

std::int64_t percent_of(CheckLevel level, std::int64_t percent_b) {
    switch (level) {
        case CheckLevel::a:
            return hundred_percent;
        case CheckLevel::b:
            return percent_b;
        case CheckLevel::c:
            return percent_c;
        case CheckLevel::d:
            return percent_d;
        case CheckLevel::e:
            return 0;
    }
    return 0;
}

}  // namespace

Result<CheckLevel> parse_check_level(std::string_view text) {
    const std::string level = uppered(trimmed(text));
    if (level.size() == 1 && level[0] >= 'A' && level[0] <= 'E') return static_cast<CheckLevel>(level[0] - 'A');
    return Refusal{"effectiveness check level '" + shown(text) + "'",
                   "A (all), B (a percentage set for the case), C (10 %), D (2 %) or E (none)",
                   "choose the level that the recall strategy names (21 CFR 7.42(b)(3))",
                   {}};
}

Result<std::int64_t> effectiveness_count(std::int64_t consignees, CheckLevel level, std::int64_t percent_b) {
    if (level == CheckLevel::b && (percent_b <= percent_c || percent_b >= hundred_percent)) {
        return Refusal{"level B with " + std::to_string(percent_b) + " thousandths of a per cent",
                       "a percentage above 10 and below 100",
                       "set the percentage for this case, or choose level A (all) or C (10 %)",
                       {}};
    }
    // Rounded up: n whole hundreds of thousands, then the rest, so that nothing overflows.
    const std::int64_t percent = percent_of(level, percent_b);
    const std::int64_t rest = consignees % hundred_percent;
    return consignees / hundred_percent * percent + (rest * percent + hundred_percent - 1) / hundred_percent;
}

Result<std::vector<std::string>> effectiveness_sample(std::vector<std::string> consignees, CheckLevel level, std::int64_t percent_b,
                                                      std::uint64_t seed) {
    std::sort(consignees.begin(), consignees.end());
    consignees.erase(std::unique(consignees.begin(), consignees.end()), consignees.end());
    const auto count = effectiveness_count(static_cast<std::int64_t>(consignees.size()), level, percent_b);
    if (!count) return count.refusal();
    const auto wanted = static_cast<std::size_t>(*count);
    SplitMix64 random(seed);
    for (std::size_t i = 0; i < wanted; ++i) {
        std::swap(consignees[i], consignees[i + static_cast<std::size_t>(random.below(consignees.size() - i))]);
    }
    consignees.resize(wanted);
    std::sort(consignees.begin(), consignees.end());
    return consignees;
}

}  // namespace peelbook::trace
