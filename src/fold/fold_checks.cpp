// Checks on a place or device. A year of them hangs on one subject, so a change folds only its window: the check before it and
// the checks at its moment. Of a logger's file those production days are folded that the window touches (fold_series.h).
#include <algorithm>

#include "fold/findings.h"
#include "fold/fold.h"
#include "fold/fold_series.h"
#include "fold/instrument_state.h"
#include "fold/owed/closed_hours.h"
#include "fold/owed/gap.h"
#include "fold/ratchet/waiting.h"
#include "fold/touches.h"
#include "judge/label_check.h"
#include "judge/possible.h"

namespace peelbook::fold {
namespace {

constexpr book::Int gap_ord = 1;  // the check itself is 0

struct Checked {
    Effective entry;
    std::vector<book::Reading> rows;
    std::vector<judge::Finding> findings;  // one a row; empty when voided
};

class PlaceFold {
  public:
    PlaceFold(Derivation& d, std::string place, std::string point)
        : d_(d),
          ledger_(d.ledger),
          place_(std::move(place)),
          point_(std::move(point)),
          moments_(ledger_, place_, point_),
          owing_(ledger_, place_, point_) {}

    const PlaceMoments& moments() const { return moments_; }
    // Where the window of a change at `at` begins: at the check before it, or before closed hours that one at `at` decides on.
    std::optional<Instant> opening(Instant at);

    Checked check(Seq seq);
    // Writes the check's own finding, and the gap that it opens.
    void write(const Checked& check);
    // The same of the gaps before any check that adoptions in (after, until] open.
    void write_since_adoptions(std::optional<Instant> after, Instant until);

  private:
    std::vector<judge::ReadingFact> near(Instant at);
    void add_labels(Checked& out, const plan::Plan& plan, const plan::Point& point, book::Reading base);
    book::Finding row(Seq anchor, const GoverningPlan& by, const judge::Finding& f, book::Int ord);

    Derivation& d_;
    Ledger& ledger_;
    std::string place_, point_;
    PlaceMoments moments_;
    PlaceOwing owing_;
};

std::optional<Instant> PlaceFold::opening(Instant at) {
    const auto before = moments_.before(at);
    const auto governing = ledger_.plan_at(at);
    if (!before || !asks_for(*governing.plan, place_, point_)) return before;
    if (const auto earlier = decides_from(owing_, moments_, governing, *before, at)) return earlier;
    return before;
}

Checked PlaceFold::check(Seq seq) {
    Checked out{as_it_counts(ledger_, ledger_.effective(seq)), {}, {}};
    const Effective& e = out.entry;
    const auto governing = ledger_.plan_at(e.happened);  // keeps the plan alive
    const plan::Point* point = governing.plan->point(point_);
    book::Reading base;
    base.seq = seq;
    base.place = place_;
    base.point = point_;
    base.by = e.by;
    base.voided_by = e.voided_by;
    base.happened = e.happened.ms;
    const auto measured = [&](const Measure& value, const std::string& unit, const std::string& instrument, Instant at) {
        auto reading = base;
        reading.row = static_cast<book::Int>(out.rows.size());
        reading.unit = unit;
        reading.instrument = instrument;
        reading.value = value.value;
        reading.symbol = std::string(symbol(value.unit));
        reading.typed = to_text(value);
        reading.happened = at.ms;
        out.rows.push_back(reading);
        if (!point || e.voided_by) return;
        judge::ReadingFact fact;
        fact.seq = seq;
        fact.row = reading.row;
        fact.at = at;
        fact.point = point_;
        fact.value = value;
        fact.unit = unit;
        fact.instrument = instrument_state(ledger_, point, instrument, at);
        if (const auto* known = governing.plan->instrument(instrument)) {
            fact.tolerance = known->tolerance;
            fact.guard = known->uncertainty ? known->uncertainty : known->tolerance;
        }
        fact.by = e.by;
        const bool doubtful = !judge::is_possible(*point, value);
        out.findings.push_back(judge::judge_place_reading(*point, fact, doubtful ? near(at) : std::vector<judge::ReadingFact>{}));
    };
    if (const auto* s = std::get_if<record::ReadingTaken>(&e.says)) {
        measured(s->value, s->unit, s->instrument, e.happened);
        out.rows.back().slip = s->slip;
    } else if (const auto* i = std::get_if<record::Inspected>(&e.says)) {
        auto reading = base;
        reading.unit = i->unit;
        reading.instrument = i->instrument;
        reading.value = i->passed ? 1 : 0;
        reading.typed = i->passed ? "yes" : "no";
        reading.slip = i->slip;
        out.rows.push_back(reading);
        if (point && !e.voided_by) {
            judge::InspectionFact fact;
            fact.seq = seq;
            fact.at = e.happened;
            fact.point = point_;
            fact.unit = i->unit;
            fact.passed = i->passed;
            fact.instrument = instrument_state(ledger_, point, i->instrument, e.happened);
            out.findings.push_back(judge::judge_place_inspection(*point, fact));
        }
    }
    if (point && std::holds_alternative<plan::LabelLimit>(point->limit)) add_labels(out, *governing.plan, *point, base);
    return out;
}

// What was read by hand soon before and after: one that cannot be is told by another that agrees.
std::vector<judge::ReadingFact> PlaceFold::near(Instant at) {
    std::vector<judge::ReadingFact> out;
    const auto governing = ledger_.plan_at(at);
    for (const auto& row :
         ledger_.rows().readings_of_place(place_, point_, (at - judge::near_at_place).ms, (at + judge::near_at_place).ms + 1)) {
        const auto unit = unit_from_symbol(row.symbol);
        if (row.voided_by || !unit) continue;
        judge::ReadingFact& fact = out.emplace_back();
        fact.seq = row.seq;
        fact.at = {row.happened};
        fact.value = measure_of(row.value, *unit);
        fact.unit = row.unit;
        fact.by = row.by;
        if (const auto* known = governing.plan->instrument(row.instrument)) fact.tolerance = known->tolerance;
    }
    return out;
}

// A label read is judged here only by whether its product runs on this line; what was packed, on the pack.
void PlaceFold::add_labels(Checked& out, const plan::Plan& plan, const plan::Point& point, book::Reading base) {
    const Effective& e = out.entry;
    judge::Finding f;
    f.happened = e.happened;
    if (const auto* s = std::get_if<record::LabelChecked>(&e.says)) {
        const auto* label = plan.label(s->label);
        const auto* product = label ? plan.product(label->product) : nullptr;
        const bool of_line = product && product->line == place_;
        f.unit = s->moment;
        f.verdict = of_line ? judge::Verdict::within : judge::Verdict::deviation;
        f.measured =
            s->label + (s->printed_code.empty() ? "" : ", code " + s->printed_code) + (s->date ? ", date " + to_text(*s->date) : "");
        f.detail = of_line ? "" : "The label is of " + (product ? product->id : "no product") + ", which does not run on " + place_ + ".";
    } else if (const auto* count = std::get_if<record::LabelsCounted>(&e.says)) {
        f = judge::judge_label_count(point, std::get<plan::LabelLimit>(point.limit),
                                     {e.happened, count->issued, count->applied, count->spoiled, count->returned});
        f.unit = "count";
    } else {
        return;
    }
    base.unit = f.unit;
    base.value = f.verdict == judge::Verdict::within ? 1 : 0;
    base.typed = f.measured;
    out.rows.push_back(base);
    if (!e.voided_by) out.findings.push_back(f);
}

book::Finding PlaceFold::row(Seq anchor, const GoverningPlan& by, const judge::Finding& f, book::Int ord) {
    const auto* point = by.plan->point(point_);
    const auto day = ledger_.production_day(f.happened);
    book::Finding out;
    out.anchor = anchor;
    out.point = point_;
    out.ord = ord;
    out.place = place_;
    out.unit = f.unit;
    out.plan_seq = by.seq;
    out.grade = point->grade;
    out.verdict = f.verdict;
    out.happened = f.happened.ms;
    out.measured = f.measured;
    out.limit_text = point->limit_text;
    out.detail = f.detail;
    out.day = day.day;
    out.week = day.week;
    return out;
}

void PlaceFold::write(const Checked& check) {
    const Seq seq = check.entry.seq;
    std::vector<book::Finding> before, mine;
    for (auto& f : ledger_.rows().findings_at(seq)) {
        if (f.point == point_) before.push_back(f);
    }
    if (!check.findings.empty()) {
        const auto worst = std::max_element(check.findings.begin(), check.findings.end(),
                                            [](const auto& a, const auto& b) { return a.verdict < b.verdict; });
        mine.push_back(row(seq, ledger_.plan_at(check.entry.happened), *worst, 0));
        const Instant last{check.rows.back().happened};
        if (const auto gap = gap_after(ledger_, owing_, moments_, last, moments_.after(last, seq)))
            mine.push_back(row(seq, gap->by, gap->finding, gap_ord));
    }
    merge_findings(d_, before, mine);
}

void PlaceFold::write_since_adoptions(std::optional<Instant> after, Instant until) {
    for (const std::size_t version : owing_.brought_in(after, until)) {
        const Seq adoption = ledger_.plan_versions()[version].seq;
        std::vector<book::Finding> mine;
        if (const auto gap = gap_since_adoption(ledger_, owing_, moments_, version)) {
            mine.push_back(row(adoption, gap->by, gap->finding, 0));
            mine.back().ord = mine.back().day;
        }
        std::vector<book::Finding> before = ledger_.rows().findings_between(adoption, point_, never, ever);
        merge_findings(d_, before, mine);
    }
}

// Points that rest on this one as the test of their alarm: closed hours from `from` to its next check may be judged anew.
Subjects resting_on(const plan::Plan& plan, const std::string& alarm, Instant from, Instant until) {
    Subjects out;
    for (const plan::Point& point : plan.points)
        if (point.interval && point.interval->alarm == alarm) out.push_back({Rank::checks, 0, point.place, point.id, from, until});
    return out;
}

}  // namespace

Subjects put_checks(Derivation& d, const std::string& place, const std::string& point, Instant at) {
    auto& rows = d.ledger.rows();
    PlaceFold fold(d, place, point);
    Subject now{Rank::checks, 0, place, point, at, at};
    Subjects dirtied;
    const auto include = [](Subject& window, const book::Series& series) {
        window.from = std::min(window.from, Instant{series.first_ms});
        window.until = std::max(window.until, Instant{series.last_ms});
    };
    for (const Seq seq : rows.touching(book::SubjectKind::place, place_subject(place, point), at.ms)) {
        const Effective e = as_it_counts(d.ledger, d.ledger.effective(seq));
        if (e.happened != at) break;
        if (std::holds_alternative<record::SeriesTaken>(e.says)) {
            const auto was = rows.series(seq);
            const book::Series series = put_series(d, e, place);
            if (series.voided_by) fold_voided_series(d, series);
            include(now, series);
            if (!was) continue;
            Subject before{Rank::checks, 0, was->place, was->point, {was->first_ms}, {was->last_ms}};
            dirtied.push_back(std::move(before));
            continue;
        }
        const Checked check = fold.check(seq);
        rows.set_reading_rows(seq, check.rows);
        if (check.entry.voided_by) fold.write(check);
    }
    dirtied.push_back(std::move(now));
    return dirtied;
}

void clear_left_place(Derivation& d, const std::string& place, const std::string& point, Seq check) {
    auto left = d.ledger.rows().findings_at(check);
    std::erase_if(left, [&](const auto& f) { return f.place != place || f.point != point; });
    merge_findings(d, left, {});
}

Subjects fold_checks(Derivation& d, const std::string& place, const std::string& point, Instant from, Instant until) {
    auto& rows = d.ledger.rows();
    PlaceFold fold(d, place, point);
    const auto opening = fold.opening(from);
    const Instant start = opening.value_or(from);
    const auto written_before = d.changed.size();
    const Instant first = std::min(start, from - judge::near_at_place), last = until + judge::near_at_place;
    for (const auto& reading : rows.readings_of_place(place, point, first.ms, last.ms + 1)) {
        if (!reading.voided_by) fold.write(fold.check(reading.seq));
    }
    for (const auto& series : rows.series_within(place, point, start.ms, until.ms)) {
        fold_series_days(d, series, std::max(start, Instant{series.first_ms}), std::min(until, Instant{series.last_ms}));
    }
    fold.write_since_adoptions(opening, until);
    const auto next = fold.moments().first(until + Duration{1});
    Subjects dirtied = resting_on(*d.ledger.plan_at(until).plan, point, from, next.value_or(std::max(until, d.written)));
    for (const auto& outage : rows.outages_at(place, start.ms, next ? next->ms : for_ever))
        dirtied.push_back(Subject::of_lot(Rank::outage, outage.seq));
    if (d.changed.size() != written_before)  // where it is a piece: whether a cleaning is verified there
        dirtied.push_back(Subject::since(Rank::equipment, place, start));
    return dirtied;
}

}  // namespace peelbook::fold
