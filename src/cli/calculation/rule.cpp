#include "cli/calculation/rule.h"

#include "base/text.h"

namespace peelbook::cli {
namespace {

struct Named {
    const char* name;
    const char* rule;         // as typed, with both scales where the source states both
    bool from_first_reading;  // the clock starts with the first reading, whatever the temperature
    const char* source;
};

// The laws must be re-read at their official sites before anyone relies on them.
constexpr Named named_rules[] = {
    {"us-two-stage", "57C|135F:21C|70F/2h,5C|41F/6h", false,
     "FDA Food Code 2022, 3-501.14(A): 57 C to 21 C within 2 h, and to 5 C within a total of 6 h (read in "
     "state "
     "texts that copy it)."},
    {"us-ambient", "21C|70F:5C|41F/4h", true,
     "FDA Food Code 2022, 3-501.14(B): food made from ingredients at ambient temperature, to 5 C within 4 h "
     "(read "
     "in state texts that copy it). The clock starts with the first reading."},
    {"uk-90-minutes", "63C:8C/1h30min", false,
     "UK local authority advice: out of the heat no longer than 1 h 30 min before the refrigerator (read). "
     "63 C, the "
     "hot-holding limit, to 8 C, the chill limit, in that time is the strict reading of it; both limits from "
     "memory. "
     "Advice, no law."},
    {"au-two-stage", "60C:21C/2h,5C/+4h", false,
     "Australian Food Standards Code 3.2.2: 60 C to 21 C within 2 h (read), then to 5 C within 4 h more "
     "(from "
     "memory)."},
};

Refusal not_a_rule(const std::string& typed) {
    return {"--rule '" + shown(typed) + "'",
            "a rule by name (" + joined(cooling_rule_names(), ", ") + ") or of your own, FROM:TO/TIME,TO/TIME as 57C:21C/2h,5C/6h",
            "'+' before a time counts it from the stage before: 60C:21C/2h,5C/+4h", nearest(typed, cooling_rule_names())};
}

// "21C" or "21C|70F"
std::optional<plan::Bound> bound_of(const std::string& text) {
    const auto sides = split(text, '|');
    const auto first = parse_measure(sides[0], Dimension::temperature);
    if (!first || sides.size() > 2) return std::nullopt;
    plan::Bound bound{*first, std::nullopt};
    if (sides.size() == 1) return bound;
    const auto second = parse_measure(sides[1], Dimension::temperature);
    if (!second || second->unit == first->unit) return std::nullopt;
    bound.second = *second;
    return bound;
}

// "21C/2h", "5C/+4h"
std::optional<plan::CoolingLimit::Stage> stage_of(const std::string& text, bool& from_previous) {
    const auto parts = split(text, '/');
    if (parts.size() != 2) return std::nullopt;
    const auto to = bound_of(parts[0]);
    from_previous = parts[1].starts_with('+');
    const auto within = parse_duration(from_previous ? parts[1].substr(1) : parts[1]);
    if (!to || !within) return std::nullopt;
    return plan::CoolingLimit::Stage{*to, *within};
}

Result<plan::CoolingLimit> read_rule(const std::string& typed) {
    const auto colon = typed.find(':');
    const auto from = bound_of(typed.substr(0, colon));
    if (colon == std::string::npos || !from) return not_a_rule(typed);
    plan::CoolingLimit limit;
    limit.from = *from;
    std::size_t with_plus = 0;
    for (const std::string& text : split(typed.substr(colon + 1), ',')) {
        bool from_previous = false;
        const auto stage = stage_of(text, from_previous);
        if (!stage) return not_a_rule(typed);
        with_plus += from_previous ? 1 : 0;
        limit.stages.push_back(*stage);
    }
    limit.each_from_previous = with_plus > 0;
    if (with_plus > 0 && with_plus + 1 < limit.stages.size())
        return Refusal{"--rule '" + shown(typed) + "'",
                       "'+' before the time of every stage after the first, or of none",
                       "count all stages from the start, or each from the one before",
                       {}};
    return limit;
}

}  // namespace

std::vector<std::string> cooling_rule_names() {
    std::vector<std::string> names;
    for (const Named& rule : named_rules) names.emplace_back(rule.name);
    return names;
}

Result<CoolingRuleSource> cooling_rule(const std::string& typed) {
    for (const Named& rule : named_rules) {
        if (typed != rule.name) continue;
        auto limit = read_rule(rule.rule);
        if (!limit) return limit.refusal();
        if (rule.from_first_reading) limit->starts_at = "the first reading";
        return CoolingRuleSource{*limit, rule.source};
    }
    const auto limit = read_rule(typed);
    if (!limit) return limit.refusal();
    return CoolingRuleSource{*limit, "The rule as typed: " + typed + "."};
}

}  // namespace peelbook::cli
