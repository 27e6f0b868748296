#include "base/text.h"
#include "calc/product_class.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {
namespace {

struct CalcClassGiven {
    std::optional<Measure> ph, aw;
    std::string table;
    bool json = false;
};

Options::Take take_measure(std::optional<Measure>& to, std::string name, Dimension dimension) {
    return [&to, name = std::move(name), dimension](const std::vector<std::string>& typed) -> Check {
        auto measure = parse_measure(typed.front(), dimension);
        if (!measure) {
            Refusal refusal = measure.refusal();
            refusal.given = name + ": " + refusal.given;
            return refusal;
        }
        to = *measure;
        return {};
    };
}

void set_up(Options& options, CalcClassGiven& given) {
    options.row({"--ph", "PH", "of the food", true, false, take_measure(given.ph, "--ph", Dimension::ph)})
        .row({"--aw", "AW", "water activity of the food, 0 to 1", true, false, take_measure(given.aw, "--aw", Dimension::water_activity)})
        .one_of(given.table, "--table", {"A", "B"}, "A: heat-treated and then packaged; B: not heat-treated, or not packaged",
                Need::wanted);
    add_json(options, given.json);
}

// The table's rows as printed, for looking up by hand. calc/product_class.h has the same edges.
std::string rows_of(bool table_a) {
    if (table_a)
        return "Table A                 pH to 4.6    pH above 4.6 to 5.6   pH above 5.6\n"
               "aw to 0.92              no control   no control            no control\n"
               "aw above 0.92 to 0.95   no control   no control            assessment\n"
               "aw above 0.95           no control   assessment            assessment\n";
    return "Table B                 pH below 4.2   pH 4.2 to 4.6   pH above 4.6 to 5.0   pH above 5.0\n"
           "aw below 0.88           no control     no control      no control            no control\n"
           "aw 0.88 to 0.90         no control     no control      no control            assessment\n"
           "aw above 0.90 to 0.92   no control     no control      assessment            assessment\n"
           "aw above 0.92           no control     assessment      assessment            assessment\n";
}

Result<Exit> act(Context& context, const CalcClassGiven& given) {
    if (given.ph->typed_micro % micro_in_milli != 0)
        return Refusal{"--ph " + to_text(*given.ph), "at most 3 decimals", "round it to what the meter can tell, upwards", {}};
    const bool table_a = given.table == "A";
    const auto result =
        calc::classify(table_a ? calc::ClassTable::heat_treated_and_packaged : calc::ClassTable::not_heat_treated_or_not_packaged,
                       given.ph->value, given.aw->value);
    if (!result) return result.refusal();
    const bool assess = *result == calc::ProductClass::assessment;
    CalcAnswer answer;
    answer.answer = (assess ? "product assessment required: until then, time and temperature control"
                            : "no time and temperature control needed by pH and water activity") +
                    (" (" + to_text(*given.ph) + ", " + to_text(*given.aw) + ", Table " + given.table + ")");
    answer.mind = {
        "It says nothing about the meter's error, or about another spot of the food: classify the highest "
        "pH and the highest water activity."};
    answer.working = rows_of(table_a);
    answer.source = {"FDA Food Code 2022, 1-201.10, definition of time/temperature control for safety food, Table " + given.table +
                     " (read in state texts that copy it)."};
    answer.judges_safety = true;
    answer.json.set("class", assess ? "assessment" : "no control")
        .set("assessment_required", assess)
        .set("ph", in(*given.ph, Unit::ph))
        .set("aw", in(*given.aw, Unit::water_activity))
        .set("table", given.table);
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_class_command;
const Command calc_class_command{.name = "calc class",
                                 .group = Group::calculation,
                                 .about = "Say by pH and water activity whether a food needs temperature control.",
                                 .more = {},
                                 .examples = "peelbook calc class --ph 5.6 --aw 0.93 --table A",
                                 .takes_at = false,
                                 .body = body<CalcClassGiven, set_up, act>()};

}  // namespace peelbook::cli
