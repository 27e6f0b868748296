// An inspection that must pass. A failed one stays failed: a later yes never erases it, for what was seen had
// been there.
#include "judge/by_unit.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

using Inspections = std::vector<const InspectionFact*>;

Verdict verdict_of(const plan::Point& point, const InspectionFact& inspection) {
    if (!inspection.passed) return Verdict::deviation;
    return lacks_instrument(point, inspection.instrument) ? Verdict::unproven : Verdict::within;
}

Finding finding_of(const plan::Point& point, const InspectionFact& deciding) {
    Finding finding;
    finding.verdict = verdict_of(point, deciding);
    finding.happened = deciding.at;
    finding.measured = deciding.passed ? "yes" : "no";
    std::string text = name_of(point) + ": " + finding.measured;
    if (finding.verdict == Verdict::unproven) text += ", " + instrument_fault(deciding.instrument);
    append_sentence(finding.detail, text);
    return finding;
}

Outcome judge_inspections(const plan::Point& point, const Facts& facts, const Inspections& inspections) {
    if (inspections.empty()) return missing_or_open(point, facts, "inspection");
    const InspectionFact* worst = inspections.front();
    for (const InspectionFact* i : inspections)
        if (verdict_of(point, *i) > verdict_of(point, *worst)) worst = i;
    Outcome outcome;
    outcome.finding = finding_of(point, *worst);
    return outcome;
}

}  // namespace

Judged judge_yes_no(const plan::Point& point, const Facts& facts) {
    return judge_units(point, facts, facts.inspections,
                       [&](const Inspections& of_unit) { return judge_inspections(point, facts, of_unit); });
}

Finding judge_place_inspection(const plan::Point& point, const InspectionFact& inspection) {
    Finding finding = finding_of(point, inspection);
    finding.point = point.id;
    finding.ord = unit_place(point, inspection.unit);
    finding.unit = inspection.unit;
    finding.evidence = {inspection.seq};
    return finding;
}

}  // namespace peelbook::judge
