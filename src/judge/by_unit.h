#pragma once
// What all limit kinds share: a point is judged unit by unit (each oven, deck, rack), voided records apart.
#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "judge/judge.h"
#include "judge/late.h"
#include "judge/possible.h"

namespace peelbook::judge {

template <class Fact> struct OfUnit {
    std::int64_t ord = 0;
    std::string unit;
    std::vector<const Fact*> effective;  // those that were not voided, in order of time
};

// Why a record proves nothing, as the end of a sentence: "but no instrument was named". Empty for a valid
// instrument.
std::string instrument_fault(InstrumentState state);
bool lacks_instrument(const plan::Point& point, InstrumentState state);
// Why guarded acceptance finds nothing shown: "but the instrument may be off by 0.5C".
std::string guard_fault(const ReadingFact& reading);

// Missing once the step takes no more readings, open before. `what` is "reading" or "inspection".
Outcome missing_or_open(const plan::Point& point, const Facts& facts, std::string_view what);
// The place of a unit in the point's list; its length for one that is not there.
std::int64_t unit_place(const plan::Point& point, std::string_view unit);
std::string name_of(const plan::Point& point);  // what it measures, else its name, else its id

template <class Fact> std::vector<std::int64_t> seqs_of(const std::vector<const Fact*>& facts) {
    std::vector<std::int64_t> seqs;
    for (const Fact* fact : facts) seqs.push_back(fact->seq);
    std::sort(seqs.begin(), seqs.end());
    seqs.erase(std::unique(seqs.begin(), seqs.end()), seqs.end());
    return seqs;
}

// The units of the point in its order. Records that name none of them are one more unit at the end: they
// count, and probe nothing. A point without units is one unit, whatever its records name.
template <class Fact> std::vector<OfUnit<Fact>> by_unit(const plan::Point& point, const std::vector<Fact>& facts) {
    std::vector<OfUnit<Fact>> units;
    for (const std::string& unit : point.units) units.push_back({static_cast<std::int64_t>(units.size()), unit, {}});
    units.push_back({static_cast<std::int64_t>(units.size()), "", {}});
    for (const Fact& fact : facts) {
        if (fact.point != point.id) continue;
        auto unit = std::find_if(units.begin(), units.end() - 1, [&](const auto& u) { return u.unit == fact.unit; });
        if (!fact.voided) unit->effective.push_back(&fact);
    }
    if (!point.units.empty() && units.back().effective.empty()) units.pop_back();
    return units;
}

// `judge_unit(records)` is called with the effective records of each unit.
template <class Fact, class JudgeUnit>
Judged judge_units(const plan::Point& point, const Facts& facts, const std::vector<Fact>& records, JudgeUnit judge_unit) {
    Judged judged;
    const auto of_point = [&](const Fact& fact) { return fact.point == point.id; };
    const auto effective = [&](const Fact& fact) { return of_point(fact) && !fact.voided; };
    const bool read = std::any_of(records.begin(), records.end(), effective);
    if (!read && std::any_of(records.begin(), records.end(), of_point)) return judged;  // all voided
    if (!read && point.optional) {
        judged.owed = false;
        return judged;
    }
    const auto judge = [&](const std::vector<const Fact*>& given) { return judge_believed(point, given, judge_unit); };
    for (const OfUnit<Fact>& unit : by_unit(point, records)) {
        if (point.optional && unit.effective.empty()) continue;
        Outcome outcome = judge_late(point, facts, unit.effective, judge);
        judged.part_open |= outcome.part_open || !outcome.finding;
        if (!outcome.next.empty()) {
            if (!judged.next.empty()) judged.next += "; ";
            judged.next += (unit.unit.empty() ? "" : unit.unit + ": ") + outcome.next;
        }
        if (!outcome.finding) continue;
        Finding& finding = *outcome.finding;
        finding.point = point.id;
        finding.ord = unit.ord;
        finding.unit = unit.unit;
        finding.evidence = seqs_of(unit.effective);
        judged.findings.push_back(std::move(finding));
    }
    judged.standing = judged.findings.empty() ? Standing::open : Standing::judged;
    if (judged.findings.empty()) judged.part_open = false;
    return judged;
}

}  // namespace peelbook::judge
