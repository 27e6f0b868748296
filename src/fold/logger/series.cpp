#include "fold/logger/series.h"

#include <algorithm>

#include "base/text.h"

namespace peelbook::fold {
namespace {

Result<plan::Logger> logger_of(Ledger& ledger, const std::string& id, Instant written) {
    if (id.empty()) return plan::Logger{};
    const auto governing = ledger.plan_at(written);
    if (const auto* known = governing.plan->logger(id)) return *known;
    std::vector<std::string> ids;
    for (const auto& logger : governing.plan->loggers) ids.push_back(logger.id);
    return Refusal{"logger '" + shown(id) + "'", "a logger of the plan in force: " + (ids.empty() ? "it has none" : joined(ids, ", ")),
                   "add a [[logger]] to the plan and adopt it, or leave --logger out for a file with time and value", nearest(id, ids)};
}

std::string column_text(const plan::LoggerColumn& column) {
    return column.column + (column.point.empty() ? "" : " for " + column.point) + (column.probed.empty() ? "" : ", " + column.probed);
}

Result<LoggerFile> open_series(Ledger& ledger, const record::SeriesTaken& series, Instant written) {
    const auto unit = unit_from_symbol(series.value_unit);
    if (!unit) return Refusal{"values in '" + shown(series.value_unit) + "'", "a known unit", "name the file's unit", {}};
    auto logger = logger_of(ledger, series.logger, written);
    if (!logger) return logger.refusal();
    const auto zone = Zone::named(ledger.plan_at(written).plan->site.zone);
    return LoggerFile(*std::move(logger), series.column, *unit, zone ? *zone : Zone::utc());
}

Refusal still_to_come(std::int64_t line) {
    return {"logger file, line " + std::to_string(line) + ": a time that is still to come",
            "rows up to now: the logger's clock, its zone or the order of day and month is wrong",
            "correct zone or time_format of the logger in the plan",
            {}};
}

Refusal too_many(std::int64_t most) {
    return {"a logger file of more than " + std::to_string(most) + " rows for one lot",
            "at most " + std::to_string(most),
            "record it on the place where it was logged, or record the part of the file that belongs to the lot",
            {}};
}

}  // namespace

Result<record::SeriesTaken> with_logger(Ledger& ledger, record::SeriesTaken series, Instant written) {
    if (series.logger.empty()) return series;
    const auto logger = logger_of(ledger, series.logger, written);
    if (!logger) return logger.refusal();
    std::vector<plan::LoggerColumn> fit;
    std::vector<std::string> all;
    for (const auto& column : logger->columns) {
        all.push_back(column_text(column));
        const bool fits = (series.column.empty() || series.column == column.column) &&
                          (column.point.empty() || column.point == series.point) &&
                          (series.unit.empty() || column.probed.empty() || column.probed == series.unit);
        if (fits) fit.push_back(column);
    }
    if (fit.size() != 1) {
        return Refusal{"logger " + logger->id + " for " + series.point +
                           (series.column.empty() ? "" : ", column '" + shown(series.column) + "'") + ": " +
                           (fit.empty() ? "no column" : std::to_string(fit.size()) + " columns"),
                       "one of its columns: " + joined(all, "; "),
                       "name it with --column, or what was probed with --unit",
                       {}};
    }
    const std::string unit(symbol(fit.front().unit));
    if (!series.value_unit.empty() && unit_from_symbol(series.value_unit) != fit.front().unit) {
        return Refusal{"values in '" + shown(series.value_unit) + "'",
                       "the unit the plan gives for column " + fit.front().column + ": " + unit,
                       "leave --unit-of-values out, or correct the plan",
                       {}};
    }
    series.column = fit.front().column;
    series.value_unit = unit;
    if (series.unit.empty()) series.unit = fit.front().probed;
    return series;
}

LoggerCheck read_series(Ledger& ledger, const Effective& e, std::int64_t most_rows, const std::function<void(const LoggerRow&)>& use) {
    const auto& series = std::get<record::SeriesTaken>(e.says);
    const auto refuse = [&](Refusal why) { throw UnreadableSeries(series.sha256, std::move(why)); };
    const auto logger = logger_of(ledger, series.logger, e.written);
    auto file = open_series(ledger, series, e.written);
    const auto bytes = ledger.book.open_attachment(series.sha256);
    if (!bytes) throw Damaged("a logger file of the book is gone: " + series.sha256);
    if (!logger) refuse(logger.refusal());
    if (!file) refuse(file.refusal());
    LoggerCheck check(logger->every);
    std::int64_t rows = 0;
    const auto take = [&](const LoggerRow& row) {
        if (row.at > e.written) refuse(still_to_come(row.line));
        if (row.value && ++rows > most_rows) refuse(too_many(most_rows));
        check.in_file(row);
        if (row.value) use(row);
    };
    const auto progress = [&](std::int64_t done, std::int64_t of) {
        if (ledger.progress) ledger.progress("reading the file", done, of);
    };
    if (auto checked = file->read(*bytes, take, progress); !checked) refuse(checked.refusal());
    if (rows == 0) refuse({"a logger file without a row", "a time and a value a line", "check that it is the right file", {}});
    check.end_of_file();
    return check;
}

book::Series series_row_of(const Effective& e, const record::SeriesTaken& s) {
    book::Series row;
    row.seq = e.seq;
    row.point = s.point;
    row.unit = s.unit;
    row.instrument = s.instrument;
    row.logger = s.logger;
    row.column = s.column;
    row.file = s.file;
    row.sha256 = s.sha256;
    row.symbol = s.value_unit;
    row.voided_by = e.voided_by;
    return row;
}

std::vector<std::string> series_lines(Ledger& ledger, Seq seq) {
    const auto series = ledger.rows().series(seq);
    if (!series) return {};
    const Unit unit = unit_from_symbol(series->symbol).value_or(Unit::celsius);
    const Zone& zone = ledger.zone();
    std::vector<std::string> lines;
    lines.push_back(std::to_string(series->rows) + " rows, " + to_text(zone, {series->first_ms}) + " to " +
                    to_text(zone, {series->last_ms}) + ", " + to_text(as_logged(series->least, unit)) + " to " +
                    to_text(as_logged(series->most, unit)));
    lines.push_back("file SHA-256 " + series->sha256);
    const std::vector<std::pair<book::Int, std::string>> counts{{series->gaps, "gaps"},
                                                                {series->duplicates, "doubled rows"},
                                                                {series->two_values, "times with two values"},
                                                                {series->out_of_order, "rows out of order"},
                                                                {series->clock_steps, "steps of its clock"},
                                                                {series->no_values, "rows without a value"}};
    std::vector<std::string> odd;
    for (const auto& [count, what] : counts) {
        if (count > 0) odd.push_back(what + " " + std::to_string(count));
    }
    if (!odd.empty()) lines.push_back("odd in the file: " + joined(odd, ", "));
    constexpr std::size_t most_told = 5;
    const auto faults = ledger.rows().series_faults(seq);
    for (const auto& fault : faults) {
        if (&fault - faults.data() == static_cast<std::ptrdiff_t>(most_told)) break;
        lines.push_back("line " + std::to_string(fault.line) + ", " + to_text(zone, {fault.from_ms}) + ", " + fault.kind + ": " +
                        fault.detail);
    }
    if (faults.size() > most_told) lines.push_back("more of them on sheet Logger files of the weekly workbook");
    return lines;
}

}  // namespace peelbook::fold
