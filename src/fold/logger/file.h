#pragma once
// A logger's file, row by row, as the plan's logger says it is written (plan::Logger; what that leaves out is
// found out). Bounded memory: a file of any length passes through one buffer.
//
//   A line is parted at the separator; fields may stand in quotes (base/csv.h). Empty lines count for
//   nothing. A value is a decimal number, with its unit behind it or without; an empty field, or a word of
//   `no_value`, is a row without a value. Numbers are kept to a millionth of their unit and then as the
//   canonical integer (base/measure.h). Refused with the line: one that cannot be read so, or of more than
//   10,000 bytes. Nothing is passed over silently.
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv.h"
#include "base/measure.h"
#include "base/time_format.h"
#include "fold/logger/clock.h"
#include "plan/plan.h"

namespace peelbook::fold {

struct LoggerRow {
    Instant at;
    std::int64_t line = 0;              // of the file, from 1
    std::optional<std::int64_t> value;  // canonical
    bool never_was = false;             // its local time never was: the clock is set forward later
    Duration again{};                   // its local time was twice: LoggerClock::Read
};

class LoggerFile {
  public:
    // `column` of the values: heading or number from 1; empty: the second. `unit` is theirs.
    LoggerFile(plan::Logger how, std::string column, Unit unit, const Zone& site);

    using Progress = std::function<void(std::int64_t done, std::int64_t of)>;  // bytes
    Check read(Bytes& bytes, const std::function<void(const LoggerRow&)>& use, const Progress& progress = {});

  private:
    struct Columns {
        std::optional<std::size_t> date;
        std::size_t time = 0, value = 1;
    };
    Check take_line(std::string_view line, const std::function<void(const LoggerRow&)>& use);
    using Row = std::vector<std::string_view>;
    Check find_columns(const Row& headings);
    Check find_column(const Row& headings, const std::string& wanted, std::size_t otherwise, std::size_t& index) const;
    bool needs_headings() const;
    const Row& part(std::string_view line);
    std::optional<LoggerClock::Read> time(const Row& fields);
    bool no_value(std::string_view text) const;
    std::optional<std::int64_t> number(std::string_view text) const;
    Refusal bad_line(std::string_view line) const;

    plan::Logger how_;
    std::string column_;
    Unit unit_;
    LoggerClock clock_;
    std::vector<TimeFormat> formats_;
    std::size_t format_ = 0;  // the one that fitted last
    Columns columns_;
    std::int64_t line_ = 0, header_lines_ = 0;
    bool header_known_ = false;  // else the first line that is no row is the header
    char separator_ = 0;         // of the line at hand
    Fields fields_;
    std::string joined_;
};

// A measure as a logger's file states it: the shortest number of the unit that means this integer, so that
// 200F stays 200F.
Measure as_logged(std::int64_t canonical, Unit unit);

}  // namespace peelbook::fold
