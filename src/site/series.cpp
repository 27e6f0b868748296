#include "site/series.h"

#include <limits>

#include "base/text.h"
#include "site/lot_facts.h"

namespace peelbook::site {
namespace {

char separator_of(std::string_view line) {
    for (const char c : {';', '\t', ','}) {
        if (line.find(c) != std::string_view::npos) return c;
    }
    return ',';
}

std::optional<std::int64_t> value_of(std::string text, Unit unit, char separator) {
    if (separator != ',') {
        for (char& c : text) c = c == ',' ? '.' : c;
    }
    auto measure = parse_measure(text + std::string(symbol(unit)), dimension_of(unit));
    return measure ? std::optional<std::int64_t>(measure->value) : std::nullopt;
}

Refusal bad_line(std::size_t line, std::string_view text, std::string wanted) {
    return {"logger file, line " + std::to_string(line) + ": '" + shown(text) + "'", std::move(wanted),
            "mend a copy of the file and record that one", {}};
}

}  // namespace

Result<std::vector<record::SeriesRow>> read_series(std::string_view bytes, Unit unit, const Zone& zone) {
    std::vector<record::SeriesRow> rows;
    std::size_t number = 0;
    const Instant far{std::numeric_limits<std::int64_t>::max()};
    while (!bytes.empty()) {
        ++number;
        const auto end = bytes.find('\n');
        const auto line = trimmed(bytes.substr(0, end));
        bytes.remove_prefix(end == std::string_view::npos ? bytes.size() : end + 1);
        if (line.empty()) continue;
        const char separator = separator_of(line);
        const auto parts = split(line, separator);
        const auto at = parts.size() < 2 ? std::nullopt : [&]() -> std::optional<Instant> {
            auto when = parse_when(trimmed(parts[0]), zone, far);
            return when ? std::optional<Instant>(*when) : std::nullopt;
        }();
        const auto value = parts.size() < 2 ? std::nullopt : value_of(std::string(trimmed(parts[1])), unit, separator);
        if (!at || !value) {
            if (number == 1) continue;  // header
            return bad_line(number, line, "a time and a value, as 2026-11-16 05:40;93.4");
        }
        if (!rows.empty() && *at <= rows.back().at) return bad_line(number, line, "a time after the line before it");
        rows.push_back({*at, *value});
    }
    if (rows.empty()) return Refusal{"a logger file without a row", "a time and a value a line", "check that it is the right file", {}};
    return rows;
}

Check check_series(Ledger& ledger, const record::SeriesTaken& series) {
    const auto unit = unit_from_symbol(series.value_unit);
    if (!unit) return Refusal{"values in '" + shown(series.value_unit) + "'", "a known unit", "name the file's unit", {}};
    const auto bytes = ledger.book.attachment(series.sha256);
    auto rows = read_series(bytes.value_or(""), *unit, ledger.zone());
    if (!rows) return rows.refusal();
    return {};
}

std::vector<record::SeriesRow> series_rows(Ledger& ledger, const record::SeriesTaken& series) {
    const auto unit = unit_from_symbol(series.value_unit);
    const auto bytes = ledger.book.attachment(series.sha256);
    if (!unit || !bytes) throw Damaged("a logger file of the book is gone: " + series.sha256);
    auto rows = read_series(*bytes, *unit, ledger.zone());
    if (!rows) throw Damaged("a logger file of the book cannot be read any more: " + series.sha256);
    return std::move(*rows);
}

}  // namespace peelbook::site
