// How the files of loggers are read.
#include "base/text.h"
#include "base/time_format.h"
#include "base/zone.h"
#include "plan/sections.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

std::string read_separator(Fields& f) {
    const std::string text = f.has("separator") ? f.name("separator", Need::yes) : "";
    if (text == "tab") return "\t";
    if (text == "blank") return " ";
    if (text.empty()) return "";
    constexpr std::string_view never = "0123456789+-.\"";
    if (text.size() == 1 && never.find(text.front()) == std::string_view::npos) return text;
    f.error("separator", "separator is " + quoted(text),
            "one character that no number holds, \"tab\" or \"blank\"", "write it like separator = \";\"");
    return "";
}

std::string read_decimal(Fields& f) {
    return f.has("decimal") ? f.choice("decimal", {".", ","}, Need::yes) : "";
}

LoggerColumn read_column(Fields& f, bool& whole) {
    LoggerColumn column;
    column.column = f.name("column", Need::yes);
    column.point = f.code("point", Need::no);
    column.probed = f.name("probed", Need::no);
    const std::string unit = f.name("unit", Need::yes);
    const std::optional<Unit> known = unit_from_symbol(unit);
    if (known) column.unit = *known;
    if (!known && !unit.empty())
        f.error("unit", "unit is " + quoted(unit), "a unit of measure", "write it like unit = \"C\"");
    whole = whole && known;
    return column;
}

void check_format(Fields& f, const Logger& logger) {
    if (logger.time_format.empty()) return;
    const auto format = TimeFormat::of(logger.time_format);
    if (!format) f.refuse("time_format", format.refusal());
}

}  // namespace

Logger read_logger(Fields& f) {
    Logger logger;
    logger.id = f.id();
    logger.name = f.name("name", Need::yes);
    logger.separator = read_separator(f);
    logger.decimal = read_decimal(f);
    logger.header_lines = f.whole("header_lines", 0);
    logger.date_column = f.name("date", Need::no);
    logger.time_column = f.name("time", Need::no);
    logger.time_format = f.name("time_format", Need::no);
    logger.zone = f.name("zone", Need::no);
    logger.every = f.period("every");
    logger.no_value = f.names("no_value");
    check_format(f, logger);
    if (logger.decimal == "," && logger.separator == ",")
        f.error("decimal", "separator and decimal are both ','", "two different characters",
                "correct one of them");
    if (!logger.date_column.empty() && logger.time_format.empty())
        f.lacks("time_format", "date and time as they stand in their two columns, with a blank between",
                "write it like time_format = \"DD.MM.YYYY hh:mm:ss\"");
    bool whole = true;
    f.each("values", "column of values",
           [&](Fields& value) { logger.columns.push_back(read_column(value, whole)); });
    if (logger.columns.empty() && whole)
        f.lacks("values", "the columns that hold values, each with its unit",
                "write values = [ { column = \"2\", unit = \"C\" } ]");
    return logger;
}

}  // namespace peelbook::plan
