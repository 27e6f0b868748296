#include "fold/fold_series.h"

#include <algorithm>

#include "fold/findings.h"
#include "fold/instrument_state.h"
#include "fold/logger/series.h"
#include "fold/owed/gap.h"

namespace peelbook::fold {
namespace {

// A stretch of time under one version of the plan and in one production day.
struct Stretch {
    GoverningPlan governing;
    const plan::Point* point = nullptr;
    Ledger::Day day;
    Instant until;  // not included
};

Instant begin_of_day(Ledger& ledger, Instant at) {
    const int start = ledger.plan_at(at).plan->site.day_start_minutes;
    return ledger.zone().day_start(from_days(ledger.production_day(at).day), start / 60, start % 60);
}

Instant end_of_day(Ledger& ledger, Instant at) {
    const int start = ledger.plan_at(at).plan->site.day_start_minutes;
    const Instant end = ledger.zone().day_start(from_days(ledger.production_day(at).day + 1), start / 60, start % 60);
    return std::max(end, at + Duration{1});
}

// What an instrument's word is worth, looked up once a stretch of its spans.
class InstrumentAt {
  public:
    InstrumentAt(Ledger& ledger, std::string point, std::string instrument)
        : ledger_(ledger), point_(std::move(point)), instrument_(std::move(instrument)) {
        for (const auto& span : ledger.rows().spans(instrument_)) {
            changes_.push_back(span.from_ms);
            if (span.until_ms) changes_.push_back(*span.until_ms);
        }
        for (const auto& version : ledger.rows().plan_versions()) changes_.push_back(version.from_ms);
        std::sort(changes_.begin(), changes_.end());
    }

    judge::InstrumentState at(Instant t) {
        if (!known_ || t.ms < from_ || t.ms >= until_) {
            const auto next = std::upper_bound(changes_.begin(), changes_.end(), t.ms);
            until_ = next == changes_.end() ? ever : *next;
            from_ = next == changes_.begin() ? never : *(next - 1);
            const auto governing = ledger_.plan_at(t);
            state_ = instrument_state(ledger_, governing.plan->point(point_), instrument_, t);
            known_ = true;
        }
        return state_;
    }

  private:
    Ledger& ledger_;
    std::string point_, instrument_;
    std::vector<book::Int> changes_;
    bool known_ = false;
    book::Int from_ = 0, until_ = 0;
    judge::InstrumentState state_ = judge::InstrumentState::none;
};

struct DayVerdict {
    judge::Finding finding;
    GoverningPlan by;
};

class DaysFold {
  public:
    DaysFold(Derivation& d, const book::Series& series)
        : d_(d),
          ledger_(d.ledger),
          series_(series),
          unit_(unit_from_symbol(series.symbol).value_or(Unit::celsius)),
          instrument_(ledger_, series.point, series.instrument),
          moments_(ledger_, series.place, series.point),
          owing_(ledger_, series.place, series.point) {
        for (const auto& version : ledger_.rows().plan_versions()) versions_.push_back(version.from_ms);
    }

    void run(Instant from, Instant until);

  private:
    void take(const book::SeriesRow& row);
    void begin_stretch(Instant at);
    void end_stretch();
    void end_day();
    void gap(Instant from, std::optional<Instant> next_row);
    book::Finding stored(const DayVerdict& verdict, book::Int ord);

    Derivation& d_;
    Ledger& ledger_;
    const book::Series& series_;
    Unit unit_;
    InstrumentAt instrument_;
    PlaceMoments moments_;
    PlaceOwing owing_;
    std::vector<book::Int> versions_;

    std::optional<Stretch> stretch_;
    std::optional<judge::PlaceRows> judged_;
    std::optional<Instant> last_;
    std::optional<book::Int> last_value_;
    Measure measure_;
    // of the day at hand
    book::SeriesDay day_;
    book::Int sum_ = 0;
    std::optional<DayVerdict> worst_, longest_gap_;
    Duration longest_gap_length_{};
    book::Int gaps_ = 0;
    std::vector<book::Finding> findings_;
};

void DaysFold::begin_stretch(Instant at) {
    Stretch next{ledger_.plan_at(at), nullptr, ledger_.production_day(at), end_of_day(ledger_, at)};
    next.point = next.governing.plan->point(series_.point);
    for (const book::Int from : versions_) {
        if (from > at.ms) next.until.ms = std::min(next.until.ms, from);
    }
    if (!stretch_ || stretch_->day.day != next.day.day) {
        if (stretch_) end_day();
        day_ = {series_.seq, next.day.day, next.day.week, 0, 0, 0, 0, 0, 0};
    }
    stretch_ = std::move(next);
    judged_.reset();
    if (!stretch_->point) return;
    judge::ReadingFact like;
    like.seq = series_.seq;
    like.unit = series_.unit;
    if (const auto* known = stretch_->governing.plan->instrument(series_.instrument))
        like.guard = known->uncertainty ? known->uncertainty : known->tolerance;
    judged_.emplace(*stretch_->point, std::move(like));
}

void DaysFold::end_stretch() {
    if (!judged_ || judged_->rows() == 0) return;
    day_.outside += judged_->outside();
    day_.longest_ms = std::max(day_.longest_ms, judged_->longest().ms);
    DayVerdict verdict{judged_->finding(), stretch_->governing};
    if (!worst_ || verdict.finding.verdict > worst_->finding.verdict) worst_ = std::move(verdict);
    judged_.reset();
}

book::Finding DaysFold::stored(const DayVerdict& verdict, book::Int ord) {
    const judge::Finding& f = verdict.finding;
    const auto day = ledger_.production_day(f.happened);
    book::Finding out;
    out.anchor = series_.seq;
    out.point = series_.point;
    out.ord = ord;
    out.place = series_.place;
    out.unit = f.unit;
    const auto* point = verdict.by.plan->point(series_.point);
    out.plan_seq = verdict.by.seq;
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

void DaysFold::end_day() {
    end_stretch();
    if (day_.rows == 0) return;
    const book::Int half = sum_ < 0 ? -day_.rows / 2 : day_.rows / 2;
    day_.mean = (sum_ + half) / day_.rows;
    ledger_.rows().put(day_);
    if (worst_) findings_.push_back(stored(*worst_, 2 * day_.day));
    if (longest_gap_) {
        if (gaps_ > 1) longest_gap_->finding.detail += " The longest of " + std::to_string(gaps_) + " gaps that begin this day.";
        findings_.push_back(stored(*longest_gap_, 2 * day_.day + 1));
    }
    sum_ = gaps_ = 0;
    worst_.reset();
    longest_gap_.reset();
    longest_gap_length_ = {};
}

// From a row to the next moment at which the place was read at all.
void DaysFold::gap(Instant from, std::optional<Instant> next_row) {
    const plan::Point* point = stretch_->point;
    if (!point || !point->interval || (next_row && *next_row - from <= point->interval->every)) return;
    const auto after = moments_.after(from, series_.seq);
    auto gap = gap_after(ledger_, owing_, moments_, from, after);
    if (!gap) return;
    ++gaps_;
    if (longest_gap_ && gap->owed <= longest_gap_length_) return;
    longest_gap_ = DayVerdict{std::move(gap->finding), gap->by};
    longest_gap_length_ = gap->owed;
}

void DaysFold::take(const book::SeriesRow& row) {
    const Instant at{row.happened};
    if (last_) gap(*last_, at);
    if (!stretch_ || at >= stretch_->until) {
        if (stretch_) end_stretch();
        begin_stretch(at);
    }
    if (last_value_ != row.value) {
        last_value_ = row.value;
        measure_ = as_logged(row.value, unit_);
    }
    if (judged_) judged_->add(at, measure_, instrument_.at(at));
    day_.least = day_.rows == 0 ? row.value : std::min(day_.least, row.value);
    day_.most = day_.rows == 0 ? row.value : std::max(day_.most, row.value);
    sum_ += row.value;
    ++day_.rows;
    last_ = at;
}

void DaysFold::run(Instant from, Instant until) {
    const Instant begin = begin_of_day(ledger_, from), end = end_of_day(ledger_, until);
    const book::Int first_day = ledger_.production_day(begin).day, end_day_number = ledger_.production_day(end).day;
    auto& rows = ledger_.rows();
    rows.erase_series_days(series_.seq, first_day, end_day_number);
    book::Int done = 0;
    constexpr book::Int rows_between_words = 10'000;
    rows.each_series_row(series_.seq, begin.ms, end.ms, [&](const book::SeriesRow& row) {
        take(row);
        if (ledger_.progress && ++done % rows_between_words == 0) ledger_.progress("judging", done, std::max(done, series_.rows));
    });
    if (last_) {
        const auto next = rows.series_row_after(series_.seq, last_->ms);
        gap(*last_, next ? std::optional<Instant>(Instant{*next}) : std::nullopt);
        end_day();
    }
    const auto before = rows.findings_between(series_.seq, series_.point, 2 * first_day, 2 * end_day_number);
    merge_findings(d_, before, findings_);
}

}  // namespace

book::Series put_series(Derivation& d, const Effective& e, const std::string& place) {
    auto& rows = d.ledger.rows();
    const auto& says = std::get<record::SeriesTaken>(e.says);
    book::Series now = series_row_of(e, says);
    now.place = place;
    const auto was = rows.series(e.seq);
    if (was && d.cause != e.seq && e.amended_by != d.cause) {
        auto kept = *was;
        kept.voided_by = e.voided_by;
        rows.put(kept);
        return kept;
    }
    if (was) rows.clear_series_rows(e.seq);
    auto check = read_series(d.ledger, e, ever, [&](const LoggerRow& row) {
        rows.add_series_row({e.seq, row.at.ms, row.line, *row.value});
    });
    if (!check.in_order()) {
        check.begin_time();
        rows.each_series_row(e.seq, never, ever, [&](const book::SeriesRow& row) { check.in_time({row.happened}, row.line, row.value); });
    }
    check.tell(now);
    rows.put(now);
    rows.set_series_faults(e.seq, check.faults(e.seq));
    return now;
}

void fold_series_days(Derivation& d, const book::Series& series, Instant from, Instant until) { DaysFold(d, series).run(from, until); }

void fold_voided_series(Derivation& d, const book::Series& series) {
    merge_findings(d, d.ledger.rows().findings_between(series.seq, series.point, never, ever), {});
}

}  // namespace peelbook::fold
