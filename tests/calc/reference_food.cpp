#include <cmath>
#include <stdexcept>

#include "calc/acceptance.h"
#include "calc/allergen_dose.h"
#include "calc/cooling.h"
#include "calc/dough_water.h"
#include "calc/dz.h"
#include "calc/formula.h"
#include "calc/lethality.h"
#include "calc/loss.h"
#include "calc/product_class.h"
#include "calc/reference_operations.h"
#include "calc/thermometer.h"

using namespace peelbook;
using namespace peelbook::calc;

namespace reference {
namespace {

std::int64_t milli(double number) { return std::llround(number * 1e3); }
std::int64_t micro(double number) { return std::llround(number * 1e6); }
std::string yes_no(bool yes) { return yes ? "yes" : "no"; }

// "2:05" after the start, or minutes.
Instant clock_time(const std::string& text) {
    const auto colon = text.find(':');
    if (colon == std::string::npos) return Instant{} + Duration{std::llround(to_number(text) * 60'000)};
    return Instant{} + hours(std::llround(to_number(text.substr(0, colon)))) + minutes(std::llround(to_number(text.substr(colon + 1))));
}

std::string verdict_word(StageVerdict v) {
    switch (v) {
        case StageVerdict::within:
            return "within";
        case StageVerdict::unproven:
            return "unproven";
        case StageVerdict::deviation:
            return "deviation";
        case StageVerdict::open:
            return "open";
    }
    return "";
}

Answers cooling(const Inputs& in) {
    CoolingRule rule;
    rule.from = milli(in.number("from"));
    rule.each_from_previous = in.text("clock") == "previous";
    for (const auto& [to, within] : in.pairs("stages")) {
        rule.stages.push_back({milli(to_number(to)), clock_time(within) - Instant{}});
    }
    CoolingInput input;
    for (const auto& [at, value] : in.pairs("readings")) input.readings.push_back({clock_time(at), milli(to_number(value))});
    if (in.has("hot_at")) input.known_hot_at = clock_time(in.text("hot_at"));
    if (in.has("made_at")) input.started = clock_time(in.text("made_at"));
    if (auto checked = check(rule); !checked) return refused(checked.refusal().given);
    const CoolingResult result = judge_cooling(rule, input);
    Answers out{{"all", verdict_word(result.worst())}};
    for (std::size_t i = 0; i < result.stages.size(); ++i) {
        const StageResult& stage = result.stages[i];
        const std::string name = "stage" + std::to_string(i + 1);
        out[name] = verdict_word(stage.verdict);
        out[name + "_shortest_min"] = static_cast<double>(stage.shortest.ms) / 60'000;
        if (stage.longest) out[name + "_longest_min"] = static_cast<double>(stage.longest->ms) / 60'000;
    }
    return out;
}

Answers heat(const Inputs& in) {
    HeatResistance food{in.number("t_ref"), in.number("z"), in.number("d_min"), {}, {}, {}};
    if (in.has("cap")) food.cap_log = in.number("cap");
    if (in.has("studied")) {
        food.studied_from = in.numbers("studied").at(0);
        food.studied_to = in.numbers("studied").at(1);
    }
    std::vector<CoreReading> readings;
    for (const auto& [minute, temperature] : in.number_pairs("readings")) readings.push_back({minute, temperature});
    const auto sum = lethality(food, readings);
    if (!sum) return refused(sum.refusal().given);
    return {{"f_min", sum->f_trapezoid_min},       {"f_lower_min", sum->f_lower_min},    {"log_trapezoid", sum->log_trapezoid},
            {"log_lower", sum->log_lower},         {"log", sum->log_reduction},          {"capped", yes_no(sum->capped)},
            {"below", yes_no(sum->below_studied)}, {"above", yes_no(sum->above_studied)}};
}

Answers d_and_z(const Inputs& in) {
    std::vector<DValue> table;
    for (const auto& [temperature, minutes] : in.number_pairs("table")) table.push_back({temperature, minutes});
    const auto fit = fit_dz(table);
    if (!fit) return refused(fit.refusal().given);
    Answers out{{"z", fit->z}, {"d_at_58", fit->d_at(58)}};
    if (fit->z_lower) out["z_lower"] = *fit->z_lower;
    if (fit->z_upper)
        out["z_upper"] = *fit->z_upper;
    else
        out["z_upper"] = "none";
    return out;
}

Answers classes(const Inputs& in) {
    const auto table = in.text("table") == "A" ? ClassTable::heat_treated_and_packaged : ClassTable::not_heat_treated_or_not_packaged;
    const auto found = classify(table, milli(in.number("ph")), micro(in.number("aw")));
    if (!found) return refused(found.refusal().given);
    return {{"control", *found == ProductClass::no_control_needed ? "no" : "assessment"}};
}

Answers saturation(const Inputs& in) {
    const auto kelvin = saturation_kelvin(in.number("mpa") * 1e6);
    if (!kelvin) return refused(kelvin.refusal().given);
    return {{"kelvin", *kelvin}};
}

Answers boiling(const Inputs& in) {
    double pascal = 0;
    if (in.has("hpa")) {
        pascal = in.number("hpa") * 100;
    } else {
        const double metres = in.has("ft") ? in.number("ft") * 0.3048 : in.number("m");
        const auto standard = standard_pressure(metres);
        if (!standard) return refused(standard.refusal().given);
        pascal = *standard;
    }
    const auto celsius = boiling_celsius(pascal);
    if (!celsius) return refused(celsius.refusal().given);
    return {{"c", *celsius}, {"f", *celsius * 1.8 + 32}, {"hpa", pascal / 100}};
}

Answers probe(const Inputs& in) {
    const auto found = check_probe(milli(in.number("reading")), milli(in.number("bath")), milli(in.number("tolerance")));
    return {{"verdict", found.within ? "ok" : "out"}, {"offset", static_cast<double>(found.offset) / 1e3}};
}

Answers accepting(const Inputs& in) {
    const auto limit = [&](const char* name) { return in.has(name) ? std::optional(milli(in.number(name))) : std::nullopt; };
    const std::int64_t guard = in.has("guard") ? milli(in.number("guard")) : 0;
    switch (conformity(milli(in.number("value")), limit("lower"), limit("upper"), guard)) {
        case Conformity::meets:
            return {{"verdict", "meets"}};
        case Conformity::straddles:
            return {{"verdict", "straddles"}};
        case Conformity::fails:
            return {{"verdict", "fails"}};
    }
    return {};
}

Answers water_by_factors(const Inputs& in) {
    return {{"water", factor_water(in.number("dough"), in.numbers("others"), in.number("friction"))}};
}

Answers friction(const Inputs& in) { return {{"friction", friction_factor(in.number("dough"), in.numbers("all"))}}; }

Answers ice(const Inputs& in) {
    const bool fahrenheit = in.text("unit") == "F";
    const auto celsius = [&](double t) { return fahrenheit ? (t - 32) / 1.8 : t; };
    const double melting = in.text("melting") == "textbook" ? textbook_latent_over_c : latent_over_c;
    const auto kg = ice_kg(in.number("water"), celsius(in.number("tap")), celsius(in.number("need")), melting);
    return {{"ice", kg ? Answer(*kg) : Answer("cannot")}};
}

Answers heat_content(const Inputs& in) {
    const double percent = in.number("water_percent");
    return {{"c", specific_heat(percent)}};
}

// "name*=100" is flour.
std::vector<FormulaLine> formula_of(const Inputs& in, const std::string& name) {
    std::vector<FormulaLine> lines;
    for (const auto& [ingredient, percent] : in.pairs(name)) {
        const bool flour = ingredient.back() == '*';
        FormulaLine line{flour ? ingredient.substr(0, ingredient.size() - 1) : ingredient, milli(to_number(percent)), flour};
        lines.push_back(line);
    }
    return lines;
}

// Masses in any unit, taken as millions of the smallest part.
Answers scaling(const Inputs& in) {
    const auto formula = formula_of(in, "formula");
    const bool of_flour = in.has("of_flour");
    const Basis basis = of_flour ? Basis::added_flour : Basis::dough;
    const auto sheet = weigh_sheet(formula, basis, micro(in.number(of_flour ? "of_flour" : "of_dough")));
    if (!sheet) return refused(sheet.refusal().given);
    Answers out{{"total", static_cast<double>(sheet->total_mg) / 1e6}};
    for (const WeighLine& line : sheet->lines) out[line.name] = static_cast<double>(line.mg) / 1e6;
    return out;
}

Answers losing(const Inputs& in) {
    if (in.has("baked")) {
        const auto dough = dough_for_baked(in.number("baked"), in.number("loss"));
        if (!dough) return refused(dough.refusal().given);
        return {{"dough", *dough}};
    }
    const auto loss = loss_percent(in.number("before"), in.number("after"));
    if (!loss) return refused(loss.refusal().given);
    return {{"loss", *loss}};
}

Answers dose(const Inputs& in) {
    const auto level = action_level(in.number("dose_mg"), in.number("portion_g"));
    if (!level) return refused(level.refusal().given);
    return {{"mg_per_kg", *level}};
}

}  // namespace

const std::map<std::string, Operation>& food_operations() {
    static const std::map<std::string, Operation> operations = {
        {"cooling", cooling},
        {"lethality", heat},
        {"dz", d_and_z},
        {"class", classes},
        {"saturation", saturation},
        {"boiling", boiling},
        {"probe", probe},
        {"acceptance", accepting},
        {"factor_water", water_by_factors},
        {"friction", friction},
        {"ice", ice},
        {"heat_content", heat_content},
        {"scale", scaling},
        {"loss", losing},
        {"action_level", dose},
    };
    return operations;
}

}  // namespace reference
