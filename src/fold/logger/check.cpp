#include "fold/logger/check.h"

#include <algorithm>
#include <cstdlib>

#include "base/text.h"

namespace peelbook::fold {

bool LoggerCheck::Found::full(std::string_view kind) const {
    return std::count_if(faults.begin(), faults.end(), [&](const auto& fault) { return fault.kind == kind; }) >= most_kept;
}

void LoggerCheck::Found::add(const char* kind, std::int64_t line, Instant from, Instant until, std::int64_t rows, std::string detail) {
    if (!full(kind)) faults.push_back({0, 0, kind, line, from.ms, until.ms, rows, std::move(detail)});
}

void LoggerCheck::begin_time() {
    before_.reset();
    time_ = {};
}

void LoggerCheck::in_file(const LoggerRow& row) {
    if (previous_ && row.at < *previous_) in_order_ = false;
    if (in_order_ && row.value) in_time(row.at, row.line, *row.value);
    if (row.never_was && !never_was_) {
        ++file_.sums.clock_steps;
        file_.add("clock", row.line, row.at, row.at, 1, "This local time never was: the clock was not yet set forward.");
    }
    never_was_ = row.never_was;
    if (row.again > Duration{}) {
        ++twice_rows_;
        if (!twice_) twice_ = row;
    }
    second_ |= row.again < Duration{};
    if (!row.value) {
        ++file_.sums.no_values;
        if (empty_rows_ == 0) empty_line_ = row.line, empty_from_ = row.at;
        ++empty_rows_;
        empty_until_ = row.at;
    } else {
        close_empty();
    }
    if (back_ && row.at > back_->left) close_back(row.at);
    if (previous_ && row.at < *previous_) {
        if (back_) close_back({});
        back_ = Back{row.line, 1, *previous_, row.at, row.at};
    } else if (back_) {
        back_->rows += row.at < back_->left ? 1 : 0;
        back_->last = row.at;
    } else if (previous_ && row.at > *previous_) {
        usual_ = row.at - *previous_;
    }
    previous_ = row.at;
}

void LoggerCheck::close_empty() {
    if (empty_rows_ == 0) return;
    file_.add("no-value", empty_line_, empty_from_, empty_until_, empty_rows_, counted(empty_rows_, "row", "rows") + " without a value.");
    empty_rows_ = 0;
}

// A clock that was set back goes on in steps as before, past the time it had reached; a block out of order
// ends with a jump to where the file had been, or with the file.
void LoggerCheck::close_back(std::optional<Instant> goes_on) {
    const Back back = *std::exchange(back_, std::nullopt);
    const Duration usual = every_.value_or(usual_);
    constexpr std::int64_t rows_of_a_set_clock = 3;
    const bool in_step = goes_on ? (*goes_on - back.last).ms * 2 <= usual.ms * 3 : back.rows >= rows_of_a_set_clock;
    const std::string far = to_text(back.left - back.begins);
    if (in_step) {
        ++file_.sums.clock_steps;
        file_.add("clock", back.line, back.left, back.begins, back.rows, "The clock went back by " + far + " and went on from there.");
    } else {
        file_.sums.out_of_order += back.rows;
        file_.add("out-of-order", back.line, back.begins, back.last, back.rows,
                  counted(back.rows, "row stands", "rows stand") + " after a later one, by up to " + far + ".");
    }
}

void LoggerCheck::end_of_file() {
    close_empty();
    if (back_) close_back({});
    if (!hour_unclear()) return;
    ++file_.sums.clock_steps;
    file_.add("clock", twice_->line, twice_->at, twice_->at, twice_rows_,
              "The clock showed this hour twice, and the file has it once: " + counted(twice_rows_, "row", "rows") + " may be of either.");
}

void LoggerCheck::in_time(Instant at, std::int64_t line, std::int64_t value) {
    if (!before_) {
        time_.sums.first_ms = at.ms;
        time_.sums.least = time_.sums.most = value;
    } else if (at == before_->at) {
        const bool same = value == before_->value;
        (same ? time_.sums.duplicates : time_.sums.two_values) += 1;
        if (!time_.full(same ? "duplicate" : "two-values"))
            time_.add(same ? "duplicate" : "two-values", line, at, at, 1,
                      std::string(same ? "The same time and value as line " : "The same time as line ") + std::to_string(before_->line) +
                          (same ? "." : " and another value; both are judged."));
    } else if (every_) {
        step(at - before_->at, before_->at, at, line);
    }
    ++time_.sums.rows;
    time_.sums.last_ms = at.ms;
    time_.sums.least = std::min(time_.sums.least, value);
    time_.sums.most = std::max(time_.sums.most, value);
    before_ = Held{at, line, value};
}

void LoggerCheck::step(Duration length, Instant from, Instant until, std::int64_t line) {
    const std::int64_t every = every_->ms;
    const bool gap = length.ms * 2 > every * 3;
    if (!gap && length.ms * 2 >= every) return;
    (gap ? time_.sums.gaps : time_.sums.clock_steps) += 1;
    if (time_.full(gap ? "gap" : "clock")) return;
    const std::int64_t whole = (length.ms + every / 2) / every;
    constexpr std::int64_t a_fifth = 5;
    const bool in_phase = std::abs(length.ms - whole * every) * a_fifth <= every;
    const std::string told = to_text(length) + " between two rows where " + to_text(*every_) + " is expected";
    if (gap) {
        time_.add("gap", line, from, until, std::max<std::int64_t>(0, whole - 1),
                  told + (in_phase ? "." : "; no whole number of steps: the clock may have been set, or logging begun anew."));
    } else {
        time_.add("clock", line, from, until, 1, told + ": the clock may have been set, or logging begun anew.");
    }
}

void LoggerCheck::tell(book::Series& series) const {
    series.rows = time_.sums.rows;
    series.first_ms = time_.sums.first_ms;
    series.last_ms = time_.sums.last_ms;
    series.least = time_.sums.least;
    series.most = time_.sums.most;
    series.gaps = time_.sums.gaps;
    series.duplicates = time_.sums.duplicates;
    series.two_values = time_.sums.two_values;
    series.out_of_order = file_.sums.out_of_order;
    series.clock_steps = file_.sums.clock_steps + time_.sums.clock_steps;
    series.no_values = file_.sums.no_values;
}

std::vector<book::SeriesFault> LoggerCheck::faults(Seq seq) const {
    auto faults = file_.faults;
    faults.insert(faults.end(), time_.faults.begin(), time_.faults.end());
    std::stable_sort(faults.begin(), faults.end(),
                     [](const auto& a, const auto& b) { return std::tie(a.from_ms, a.line) < std::tie(b.from_ms, b.line); });
    std::int64_t ord = 0;
    for (auto& fault : faults) {
        fault.seq = seq;
        fault.ord = ord++;
    }
    return faults;
}

}  // namespace peelbook::fold
