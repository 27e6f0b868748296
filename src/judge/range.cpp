// Every reading counts and the worst decides: a second reading never erases the first.
//
// A reading outside the limit is an in-process correction, and no deviation, only when the step was worked on
// between it and a later reading of the same unit that is within, and its end is recorded: the product was
// baked further. The later one may be taken `read_on` after that end, for what cools can only have been
// hotter. Only what further work undoes can be corrected so: a value below the least (bake on), a pH or
// water activity above the most (sour on, dry on). Food that was too warm stays so; a hold above a
// temperature is a point on a place, where nothing is corrected.
//
// Until the step takes no more readings, such a value is unsettled: no deviation, and nothing better either.
#include <algorithm>

#include "base/text.h"
#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/limits.h"
#include "plan/words.h"

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

const ReadingFact* later_within(const RangeOf& range, const Readings& readings, const ReadingFact& bad) {
    for (const ReadingFact* r : readings)
        if (r->unit == bad.unit && r->at > bad.at && meets(r->value, range.sides)) return r;
    return nullptr;
}

bool worked_between(const std::vector<Work>& works, Instant from, Instant until) {
    return std::any_of(works.begin(), works.end(), [&](const Work& work) {
        const Instant begins = work.from ? std::max(*work.from, from) : from;
        return begins < (work.until ? std::min(*work.until, until) : until);
    });
}

// Taken while the step was worked on or up to `read_on` after, and the end of that work is recorded.
bool in_its_time(const std::vector<Work>& works, const ReadingFact& reading, Duration read_on) {
    const Work* work = &works.front();
    for (const Work& later : works)
        if (later.from && *later.from < reading.at) work = &later;
    return work->until && reading.at <= *work->until + read_on;
}

bool is_corrected(const RangeOf& range, const Readings& readings, const std::vector<Work>& works, const ReadingFact& bad) {
    return std::any_of(readings.begin(), readings.end(), [&](const ReadingFact* r) {
        return r->unit == bad.unit && meets(r->value, range.sides) && in_its_time(works, *r, range.point.read_on) &&
               worked_between(works, bad.at, r->at);
    });
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

// The worst reading that counts, those that further work corrected, and the worst of those that it still may.
struct Sifted {
    const ReadingFact* worst = nullptr;
    Readings corrected;
    const ReadingFact* unsettled = nullptr;
};

Sifted sift(const RangeOf& range, const Facts& facts, const Readings& readings, const std::vector<Work>& works) {
    const bool open = !facts.over_at(range.point.step, range.point.read_on);
    Sifted sifted;
    for (const ReadingFact* r : readings) {
        const bool may = !meets(r->value, range.sides) && correctable(range, r->value);
        if (may && is_corrected(range, readings, works, *r)) {
            sifted.corrected.push_back(r);
            continue;
        }
        const ReadingFact*& kept = may && open ? sifted.unsettled : sifted.worst;
        if (!kept || worse_reading(range, *r, *kept)) kept = r;
    }
    return sifted;
}

// Why a later good reading does not save a bad one.
std::string uncorrected_text(const RangeOf& range, const Readings& readings, const ReadingFact& bad, bool ended) {
    const ReadingFact* later = later_within(range, readings, bad);
    if (!later) return "";
    std::string text = "The later " + to_text(later->value) + " does not correct it";
    if (!correctable(range, bad.value)) return text;
    if (ended) return text + ": it was taken after the recorded end of " + range.point.step;
    return text + " unless the end of " + range.point.step + " is recorded after it";
}

// What the baker does about a value that is not settled.
std::string unsettled_text(const RangeOf& range, const Readings& readings, const ReadingFact& bad, bool ended) {
    const std::string& step = range.point.step;
    const std::string text = breach_text(bad.value, range.sides, "limit") + ": ";
    if (ended)
        return text + "put it back within " + plan::period_text(range.point.read_on) + " of the end of " + step + ", say so (step " + step +
               " --again), and measure again";
    const ReadingFact* later = later_within(range, readings, bad);
    if (!later) return text + step + " on and measure again";
    return text + "the later " + to_text(later->value) + " corrects it once the end of " + step + " is recorded";
}

std::string values_text(const Readings& readings) {
    std::vector<std::string> values;
    for (const ReadingFact* r : readings) values.push_back(to_text(r->value));
    return joined(values, ", ");
}

Outcome judge_readings(const RangeOf& range, const Facts& facts, const Readings& readings) {
    if (readings.empty()) return missing_or_open(range.point, facts, "reading");
    const auto works = facts.works(range.point.step, range.point.read_on);
    const bool ended = works.back().until.has_value();
    const Sifted sifted = sift(range, facts, readings, works);
    Outcome outcome;
    const bool broken = sifted.worst && !meets(sifted.worst->value, range.sides);
    if (sifted.unsettled && !broken) {
        outcome.next = unsettled_text(range, readings, *sifted.unsettled, ended);
        return outcome;
    }
    outcome.finding = finding_of(range, *sifted.worst);
    Finding& finding = *outcome.finding;
    finding.corrected = values_text(sifted.corrected);
    if (!sifted.corrected.empty()) {
        append_sentence(finding.detail, "An earlier " + to_text(sifted.corrected.front()->value) +
                                            " was corrected in process, before the recorded end of " + range.point.step);
    }
    if (broken) {
        append_sentence(finding.detail, uncorrected_text(range, readings, *sifted.worst, ended));
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
    return judge_units(point, facts, facts.readings, [&](const Readings& readings) { return judge_readings(range, facts, readings); });
}

Finding judge_place_reading(const plan::Point& point, const ReadingFact& reading, const std::vector<ReadingFact>& near) {
    const RangeOf range = range_of_place(point);
    Finding finding = finding_of(range, reading);
    Readings others;
    for (const ReadingFact& one : near) others.push_back(&one);
    if (is_doubtful(point, reading, others)) {
        finding.verdict = reading.logged ? Verdict::unproven : worse(finding.verdict, Verdict::unproven);
        append_sentence(finding.detail, doubt_text(point, reading));
    }
    if (finding.verdict != Verdict::deviation) append_sentence(finding.detail, warning_text(range, {&reading}));
    finding.point = point.id;
    finding.ord = unit_place(point, reading.unit);
    finding.unit = reading.unit;
    finding.evidence = {reading.seq};
    return finding;
}

PlaceRows::PlaceRows(const plan::Point& point, ReadingFact like) : point_(point), row_(std::move(like)) {
    row_.point = point.id;
    row_.logged = true;
}

void PlaceRows::add(Instant at, const Measure& value, InstrumentState instrument) {
    row_.at = at;
    row_.value = value;
    row_.instrument = instrument;
    const RangeOf range = range_of_place(point_);
    ++rows_;
    if (!is_possible(point_, value)) {
        if (impossible_rows_++ == 0) impossible_ = row_;
        return;
    }
    if (rows_ - impossible_rows_ == 1 || worse_reading(range, row_, worst_)) worst_ = row_;
    const bool outside = !meets(value, range.sides);
    outside_ += outside ? 1 : 0;
    if (outside && !outside_since_) outside_since_ = at;
    if (outside_since_) longest_ = std::max(longest_, at - *outside_since_);
    if (!outside) outside_since_.reset();
}

Finding PlaceRows::finding() const {
    Finding finding = judge_place_reading(point_, rows_ > impossible_rows_ ? worst_ : impossible_);
    if (impossible_rows_ > 0 && rows_ > impossible_rows_) {
        finding.verdict = worse(finding.verdict, Verdict::unproven);
        append_sentence(finding.detail, doubt_text(point_, impossible_));
    }
    std::string text = counted(rows_, "row", "rows") + " of a logger";
    if (impossible_rows_ > 0) text += ", " + std::to_string(impossible_rows_) + " that cannot be";
    if (outside_ > 0) text += ", " + std::to_string(outside_) + " outside the limit, the longest stretch of them " + to_text(longest_);
    append_sentence(finding.detail, text);
    return finding;
}

}  // namespace peelbook::judge
