// Every reading counts and the worst decides: a second reading never erases the first.
//
// A reading outside the limit is an in-process correction, and no deviation, only when a later reading of the
// same unit, taken not after the recorded end of the step, is within: the product was baked further, and that
// is recorded. Only what further work undoes can be corrected so: a value below the least (bake on), a pH or
// water activity above the most (sour on, dry on). Food that was too warm stays so; a hold above a
// temperature is a point on a place, where nothing is corrected.
#include "base/text.h"
#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/limits.h"

namespace peelbook::judge {
namespace {

using Readings = std::vector<const ReadingFact*>;

struct RangeOf {
    const plan::Point& point;
    Sides sides, warned;
};

// Meets the limit as read, but not with the instrument's error against it.
bool straddles(const RangeOf& range, const ReadingFact& reading) {
    return range.point.guarded && !meets_guarded(reading.value, range.sides, reading.guard);
}

Verdict verdict_of(const RangeOf& range, const ReadingFact& reading) {
    if (!meets(reading.value, range.sides)) return Verdict::deviation;
    if (straddles(range, reading)) return Verdict::unproven;
    return lacks_instrument(range.point, reading.instrument) ? Verdict::unproven : Verdict::within;
}

bool correctable(const RangeOf& range, const Measure& value) {
    if (range.sides.least && compare(value, *range.sides.least) < 0) return true;
    return value.dimension() == Dimension::ph || value.dimension() == Dimension::water_activity;
}

// A later reading of the same unit that is within; with `end`, one not after it.
const ReadingFact* later_within(const RangeOf& range, const Readings& readings, const ReadingFact& bad, std::optional<Instant> end) {
    for (const ReadingFact* r : readings) {
        const bool later = r->unit == bad.unit && r->at > bad.at && (!end || r->at <= *end);
        if (later && meets(r->value, range.sides)) return r;
    }
    return nullptr;
}

std::string warning_text(const RangeOf& range, const Readings& readings) {
    for (const ReadingFact* r : readings)
        if (!meets(r->value, range.warned)) return breach_text(r->value, range.warned, "operating limit");
    return "";
}

std::string decided_text(const RangeOf& range, const ReadingFact& reading, Verdict verdict) {
    if (verdict == Verdict::deviation) return breach_text(reading.value, range.sides, "limit");
    const std::string limit = sides_text(range.sides, reading.value.unit);
    const plan::Bound* bound = range.sides.least ? range.sides.least : range.sides.most;
    std::string text = bound ? value_text(reading.value, *bound) : to_text(reading.value);
    if (!limit.empty()) text += ", limit " + limit;
    if (verdict != Verdict::unproven) return text;
    const bool lacking = lacks_instrument(range.point, reading.instrument);
    return text + ", " + (lacking ? instrument_fault(reading.instrument) : guard_fault(reading));
}

Finding finding_of(const RangeOf& range, const ReadingFact& deciding) {
    Finding finding;
    finding.verdict = verdict_of(range, deciding);
    finding.happened = deciding.at;
    finding.measured = to_text(deciding.value);
    append_sentence(finding.detail, decided_text(range, deciding, finding.verdict));
    return finding;
}

bool worse_reading(const RangeOf& range, const ReadingFact& a, const ReadingFact& b) {
    const Verdict of_a = verdict_of(range, a), of_b = verdict_of(range, b);
    if (of_a != of_b) return of_a > of_b;
    return margin(a.value, range.sides) < margin(b.value, range.sides);
}

// The worst reading that no further work corrected, and the first that it did.
struct Sifted {
    const ReadingFact* worst = nullptr;
    const ReadingFact* corrected = nullptr;
};

Sifted sift(const RangeOf& range, const Readings& readings, std::optional<Instant> end) {
    Sifted sifted;
    for (const ReadingFact* r : readings) {
        const bool bad = !meets(r->value, range.sides);
        if (end && bad && correctable(range, r->value) && later_within(range, readings, *r, end)) {
            if (!sifted.corrected) sifted.corrected = r;
        } else if (!sifted.worst || worse_reading(range, *r, *sifted.worst)) {
            sifted.worst = r;
        }
    }
    return sifted;
}

// Why a later good reading does not save a bad one.
std::string uncorrected_text(const RangeOf& range, const Readings& readings, const ReadingFact& bad, std::optional<Instant> end) {
    const ReadingFact* later = later_within(range, readings, bad, std::nullopt);
    if (!later) return "";
    std::string text = "The later " + to_text(later->value) + " does not correct it";
    if (!correctable(range, bad.value)) return text;
    if (end) return text + ": it was taken after the recorded end of " + range.point.step;
    return text + " unless the end of " + range.point.step + " is recorded after it";
}

Outcome judge_readings(const RangeOf& range, const Facts& facts, const Readings& readings) {
    if (readings.empty()) return missing_or_open(range.point, facts, "reading");
    const auto end = facts.end_of(range.point.step);
    const Sifted sifted = sift(range, readings, end);
    Outcome outcome;
    outcome.finding = finding_of(range, *sifted.worst);
    Finding& finding = *outcome.finding;
    if (sifted.corrected) {
        append_sentence(finding.detail, "An earlier " + to_text(sifted.corrected->value) +
                                            " was corrected in process, before the recorded end of " + range.point.step);
    }
    if (finding.verdict == Verdict::deviation) {
        append_sentence(finding.detail, uncorrected_text(range, readings, *sifted.worst, end));
        return outcome;
    }
    outcome.next = warning_text(range, readings);
    append_sentence(finding.detail, outcome.next);
    return outcome;
}

RangeOf range_of(const plan::Point& point, Sides sides) { return {point, sides, sides_of(point.warn_least, point.warn_most)}; }

RangeOf range_of_place(const plan::Point& point) {
    Sides sides;
    if (const auto* limit = std::get_if<plan::RangeLimit>(&point.limit)) sides = sides_of(limit->least, limit->most);
    if (const auto* limit = std::get_if<plan::BeforePackingLimit>(&point.limit)) sides.most = &limit->most;
    return range_of(point, sides);
}

}  // namespace

Judged judge_range(const plan::Point& point, const plan::RangeLimit& limit, const Facts& facts) {
    const RangeOf range = range_of(point, sides_of(limit.least, limit.most));
    return judge_units(point, facts.readings, [&](const Readings& readings) { return judge_readings(range, facts, readings); });
}

Finding judge_place_reading(const plan::Point& point, const ReadingFact& reading) {
    const RangeOf range = range_of_place(point);
    Finding finding = finding_of(range, reading);
    if (finding.verdict != Verdict::deviation) append_sentence(finding.detail, warning_text(range, {&reading}));
    finding.point = point.id;
    finding.ord = unit_place(point, reading.unit);
    finding.unit = reading.unit;
    finding.evidence = {reading.seq};
    return finding;
}

PlaceRows::PlaceRows(const plan::Point& point, ReadingFact like) : point_(point), row_(std::move(like)) { row_.point = point.id; }

void PlaceRows::add(Instant at, const Measure& value, InstrumentState instrument) {
    row_.at = at;
    row_.value = value;
    row_.instrument = instrument;
    const RangeOf range = range_of_place(point_);
    if (rows_++ == 0 || worse_reading(range, row_, worst_)) worst_ = row_;
    const bool outside = !meets(value, range.sides);
    outside_ += outside ? 1 : 0;
    if (outside && !outside_since_) outside_since_ = at;
    if (outside_since_) longest_ = std::max(longest_, at - *outside_since_);
    if (!outside) outside_since_.reset();
}

Finding PlaceRows::finding() const {
    Finding finding = judge_place_reading(point_, worst_);
    std::string text = counted(rows_, "row", "rows") + " of a logger";
    if (outside_ > 0) text += ", " + std::to_string(outside_) + " outside the limit, the longest stretch of them " + to_text(longest_);
    append_sentence(finding.detail, text);
    return finding;
}

}  // namespace peelbook::judge
