// The house and what residue lies on: site, shifts, loggers, equipment, cleanings, reference doses.
#include "base/text.h"
#include "base/time_format.h"
#include "plan/complete.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

std::string character_of(Fields& f, const std::string& text) {
    if (text == "tab") return "\t";
    if (text == "blank") return " ";
    if (text.empty()) return "";
    constexpr std::string_view never = "0123456789+-.\"";
    if (text.size() == 1 && never.find(text.front()) == std::string_view::npos) return text;
    f.error("separator", "separator is " + quoted(text), "one character that no number holds, \"tab\" or \"blank\"",
            "write it like separator = \";\"");
    return "";
}

}  // namespace

// Its web address ends in '/', so that a lot's code can be set behind it.
void complete(Fields& f, Site& site) {
    std::string& web = site.web;
    if (web.empty()) return;
    const bool address = web.starts_with("https://") || web.starts_with("http://");
    if (!address || web.find_first_of(" \"<>\\^`{|}#?") != std::string::npos)
        f.error("web", "web is " + quoted(web), "an address such as \"https://example.com/\"",
                "write the address of your own domain, or take the key out");
    if (!web.ends_with('/')) web += '/';
}

void complete(Fields& f, const Shift& shift) {
    if (f.has("from") && f.has("until") && shift.from_minutes == shift.until_minutes)
        f.error("until", "it begins and ends at " + minute_of_day_text(shift.from_minutes), "two different times of day",
                "correct one of the two; a shift round the clock is two shifts");
}

void complete(Fields& f, Logger& logger) {
    logger.separator = character_of(f, logger.separator);
    if (!logger.time_format.empty())
        if (const auto format = TimeFormat::of(logger.time_format); !format) f.refuse("time_format", format.refusal());
    if (logger.decimal == "," && logger.separator == ",")
        f.error("decimal", "separator and decimal are both ','", "two different characters", "correct one of them");
    if (!logger.date_column.empty() && logger.time_format.empty())
        f.lacks("time_format", "date and time as they stand in their two columns, with a blank between",
                "write it like time_format = \"DD.MM.YYYY hh:mm:ss\"");
}

void needs_columns(Fields& f, const Logger& logger) {
    if (logger.columns.empty())
        f.lacks("values", "the columns that hold values, each with its unit", "write values = [ { column = \"2\", unit = \"C\" } ]");
}

void complete(Fields& f, const Equipment& piece) {
    if (piece.lines.empty()) f.lacks("lines", "lines = [\"line-1\"], those whose products touch it", "write the places of its lines");
}

void complete(Fields& f, const Cleaning& cleaning) {
    if (cleaning.equipment.empty()) f.lacks("equipment", "equipment = [\"slicer\"], the pieces it is for", "write them");
    if (cleaning.clears.empty())
        f.error("clears", "it clears nothing", "clears = [\"hazelnut\"], what its validation shows that it takes off",
                "write them, or take the cleaning out");
    if (cleaning.verify.empty())
        f.error("verify", "nothing verifies it", "verify = [\"slicer-seen\"], the points that show it worked",
                "write a point for each piece: residue stays until a verified cleaning");
}

void complete(Fields& f, const ReferenceDose& dose) {
    if (f.has("dose") && dose.dose.value <= 0)
        f.error("dose", "a dose of nothing", "more than 0mg of protein", "write it like dose = \"2mg\"");
}

}  // namespace peelbook::plan
