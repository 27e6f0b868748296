#pragma once
// What is odd about a logger's file: gaps, doubled rows, rows out of order, a clock that was moved.
//
//   gap           a step of more than 1.5 times the interval the plan gives for the logger
//   duplicate     a row with the time and the value of another;  two-values: with its time and another value
//   out-of-order  rows that stand in the file after a later one, which then goes on where it was
//   clock         the file steps back and goes on from there: the clock was set back; a step of less than
//   half the interval,
//                 or a gap that is no whole number of intervals: the clock may have been set, or logging
//                 begun anew; a local time that never was; an hour that the clock showed twice and the file has once
//   no-value      rows without a value, neighbours together
// The bounds 1.5 and 0.5 are common practice: half an interval is what a logger that starts between two marks
// can be off by. Of each kind the first `most_kept` are kept; all are counted. Bounded memory.
#include <optional>
#include <vector>

#include "book/rows.h"
#include "fold/logger/file.h"

namespace peelbook::fold {

class LoggerCheck {
  public:
    static constexpr std::int64_t most_kept = 100;

    explicit LoggerCheck(std::optional<Duration> every) : every_(every) {}

    void in_file(const LoggerRow& row);  // as they stand in the file; while that is the order of time, in_time too
    void end_of_file();
    // The hour that the clock showed twice stands in the file once: all rows of it may be as much later as LoggerRow::again says.
    bool hour_unclear() const { return twice_ && !second_; }
    bool in_order() const { return in_order_; }  // all rows so far: nothing is to be said in order of time any more
    // Else all those with a value once more, by time and then line.
    void begin_time();
    void in_time(Instant at, std::int64_t line, std::int64_t value);

    // Counts, span and extremes into `series`.
    void tell(book::Series& series) const;
    std::vector<book::SeriesFault> faults(Seq seq) const;  // in order of time

  private:
    struct Back {  // a stretch of the file that begins before the row before it
        std::int64_t line = 0, rows = 0;
        Instant left, begins, last;  // the latest time before it; its own first and last
    };
    struct Held {
        Instant at;
        std::int64_t line = 0, value = 0;
    };
    void close_back(std::optional<Instant> goes_on);
    void close_empty();
    void step(Duration length, Instant from, Instant until, std::int64_t line);
    struct Found {
        book::Series sums;
        std::vector<book::SeriesFault> faults;
        bool full(std::string_view kind) const;  // as many are kept as will be
        void add(const char* kind, std::int64_t line, Instant from, Instant until, std::int64_t rows, std::string detail);
    };

    std::optional<Duration> every_;
    // in the file
    std::optional<Instant> previous_;
    Duration usual_{};  // the last step forward
    std::optional<Back> back_;
    std::int64_t empty_line_ = 0, empty_rows_ = 0;
    Instant empty_from_, empty_until_;
    bool never_was_ = false;
    std::optional<LoggerRow> twice_;  // the first row of a local time that occurs twice
    std::int64_t twice_rows_ = 0;
    bool second_ = false;  // one of them is of the second time
    // in time
    bool in_order_ = true;
    std::optional<Held> before_;
    Found file_, time_;  // by the order of the file, by the order of time
};

}  // namespace peelbook::fold
