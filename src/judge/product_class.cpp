// pH and water activity of a batch against Table A or B of the Food Code (calc/product_class.h).
//
// Every reading counts: the highest pH and the highest water activity decide together. One of the two is
// enough when the other could be anything: water of 0.85 in Table B, say. A food that would need a product
// assessment needs temperature control until there is one, so it breaks a point that says it needs none.
#include "calc/product_class.h"

#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

using Readings = std::vector<const ReadingFact*>;

constexpr std::int64_t highest_ph = 14'000, highest_aw = 1'000'000;

struct Pair {
    const ReadingFact* ph = nullptr;
    const ReadingFact* aw = nullptr;
};

Pair highest_of(const Readings& readings) {
    Pair pair;
    for (const ReadingFact* r : readings) {
        const ReadingFact*& kept = r->value.dimension() == Dimension::ph ? pair.ph : pair.aw;
        if (!kept || r->value.value > kept->value.value) kept = r;
    }
    return pair;
}

// With each value raised by `times` its guard.
bool needs_none(const plan::ClassLimit& limit, const Pair& pair, std::int64_t times) {
    const auto value = [&](const ReadingFact* r, std::int64_t highest) {
        if (!r) return highest;
        const bool known = r->guard && r->guard->dimension() == r->value.dimension();
        return std::min(highest, r->value.value + (known ? times * r->guard->value : 0));
    };
    const auto table =
        limit.heat_treated_and_packaged ? calc::ClassTable::heat_treated_and_packaged : calc::ClassTable::not_heat_treated_or_not_packaged;
    const auto found = calc::classify(table, value(pair.ph, highest_ph), value(pair.aw, highest_aw));
    return found && *found == calc::ProductClass::no_control_needed;
}

std::string pair_text(const Pair& pair) {
    if (!pair.ph) return to_text(pair.aw->value);
    if (!pair.aw) return to_text(pair.ph->value);
    return to_text(pair.ph->value) + ", " + to_text(pair.aw->value);
}

// Why a class that the values show is not proven. Empty: it is.
std::string doubt_of(const plan::Point& point, const plan::ClassLimit& limit, const Pair& pair) {
    for (const ReadingFact* r : {pair.ph, pair.aw}) {
        if (!r) continue;
        if (lacks_instrument(point, r->instrument)) return instrument_fault(r->instrument) + " for " + to_text(r->value);
        const bool known = r->guard && r->guard->dimension() == r->value.dimension();
        if (point.guarded && !known) return guard_fault(*r) + " for " + to_text(r->value);
    }
    if (point.guarded && !needs_none(limit, pair, 1))
        return "but the instruments may be off by " + (pair.ph ? to_text(*pair.ph->guard) : std::string()) +
               (pair.ph && pair.aw ? " and " : "") + (pair.aw ? to_text(*pair.aw->guard) : std::string());
    return "";
}

Outcome half_read(const plan::Point& point, const Facts& facts, const Pair& pair) {
    const std::string lacking = pair.ph ? "water activity" : "pH";
    Outcome outcome;
    const auto passed = facts.passed_at(point.step);
    if (!passed) {
        outcome.next = lacking + " of the same batch: " + pair_text(pair) + " alone does not decide";
        return outcome;
    }
    Finding finding;
    finding.verdict = Verdict::missing;
    finding.happened = *passed;
    finding.measured = "no " + lacking;
    append_sentence(finding.detail,
                    pair_text(pair) + " alone does not decide, and the step " + point.step + " has passed without " + lacking);
    outcome.finding = std::move(finding);
    return outcome;
}

Outcome judge_readings(const plan::Point& point, const plan::ClassLimit& limit, const Facts& facts, const Readings& readings) {
    if (readings.empty()) return missing_or_open(point, facts, "reading");
    const Pair pair = highest_of(readings);
    const bool none_needed = needs_none(limit, pair, 0);
    if (!none_needed && !(pair.ph && pair.aw)) return half_read(point, facts, pair);
    Finding finding;
    finding.happened = readings.back()->at;
    finding.measured = pair_text(pair);
    std::string text = pair_text(pair) + ": by Table " + (limit.heat_treated_and_packaged ? "A" : "B") +
                       (none_needed ? " no temperature control is needed"
                                    : " a product assessment is wanted; until there is one it needs temperature control");
    finding.verdict = none_needed ? Verdict::within : Verdict::deviation;
    const std::string doubt = none_needed ? doubt_of(point, limit, pair) : "";
    if (!doubt.empty()) {
        finding.verdict = Verdict::unproven;
        text += ", " + doubt;
    }
    append_sentence(finding.detail, text);
    Outcome outcome;
    outcome.finding = std::move(finding);
    return outcome;
}

}  // namespace

Judged judge_class(const plan::Point& point, const plan::ClassLimit& limit, const Facts& facts) {
    return judge_units(point, facts, facts.readings,
                       [&](const Readings& readings) { return judge_readings(point, limit, facts, readings); });
}

}  // namespace peelbook::judge
