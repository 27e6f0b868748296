#include "cli/calculation/balance.h"

#include "base/text.h"
#include "calc/dough_water.h"

namespace peelbook::cli {
namespace {

// Geankoplis, Transport Processes, appendix A.4-1: flour of 12 to 13.5 % water 1.80 to 1.88 kJ/(kg K).
constexpr double flour_kj_per_kg_k = 1.8;
// Water in a preferment, and in another ingredient whose specific heat is not given, in percent: a stiff
// leaven and a poolish lie on either side of 50 (common practice).
constexpr double usual_preferment_water = 50;
constexpr double percent = 100;

struct Part {
    std::string name;
    calc::HeatShare heat;
};

Refusal wanted(const std::string& option, const std::string& about) {
    return {"--balance without " + option, about, "add " + option + "; see `peelbook calc water --help`", {}};
}

Check check_given(const BalanceGiven& given) {
    if (!given.flour_mass) return wanted("--flour-mass", "the mass of the flour");
    if (!given.water_mass) return wanted("--water-mass", "the mass of the water, ice included");
    if (!given.tap) return wanted("--tap", "the temperature of the tap water");
    if (given.preferment && !given.preferment_mass) return wanted("--preferment-mass", "the mass of the preferment");
    if (given.preferment_mass && !given.preferment) return wanted("--preferment", "the temperature of the preferment");
    const double water = given.preferment_water.value_or(usual_preferment_water);
    if (water < 0 || water > percent) return Refusal{"--preferment-water " + number(water, 3), "0 to 100 percent", "correct it", {}};
    return {};
}

// "2kg@4C", "2kg@4C@2.3": mass, temperature, specific heat.
Result<Part> other_part(const std::string& typed) {
    const Refusal refusal{"--other '" + shown(typed) + "'",
                          "MASS@TEMPERATURE, or MASS@TEMPERATURE@KJ with kJ/(kg K)",
                          "type it like 2kg@4C or 2kg@4C@2.3",
                          {}};
    const auto parts = split(typed, '@');
    if (parts.size() < 2 || parts.size() > 3) return refusal;
    const auto mass = parse_measure(parts[0], Dimension::mass);
    const auto at = parse_measure(parts[1], Dimension::temperature);
    if (!mass || !at) return refusal;
    Part part{"other", {in(*mass, Unit::kg), calc::specific_heat(usual_preferment_water), in(*at, Unit::celsius)}};
    if (parts.size() == 3) {
        const auto kj = parse_measure(parts[2], Dimension::percent);  // a bare number
        if (!kj || parts[2].ends_with('%')) return refusal;
        part.heat.kj_per_kg_k = in(*kj, Unit::percent);
    }
    return part;
}

Result<std::vector<Part>> parts_of(const BalanceGiven& given) {
    std::vector<Part> parts{{"flour", {in(*given.flour_mass, Unit::kg), flour_kj_per_kg_k, in(*given.flour, Unit::celsius)}}};
    if (given.preferment)
        parts.push_back(
            {"preferment",
             {in(*given.preferment_mass, Unit::kg), calc::specific_heat(given.preferment_water.value_or(usual_preferment_water)),
              in(*given.preferment, Unit::celsius)}});
    for (const std::string& typed : given.others) {
        const auto part = other_part(typed);
        if (!part) return part.refusal();
        parts.push_back(*part);
    }
    return parts;
}

std::string kilograms(double kg) { return number(kg, 3) + "kg"; }

std::string masses_text(const calc::WaterAnswer& a) {
    std::vector<std::string> masses;
    if (a.ice_kg > 0) masses.push_back("ice " + kilograms(a.ice_kg));
    if (a.hot_kg > 0) masses.push_back("hot water " + kilograms(a.hot_kg));
    if (a.tap_kg > 0) masses.push_back("tap water " + kilograms(a.tap_kg));
    return joined(masses, ", ");
}

std::string working_text(const std::vector<Part>& parts, const calc::WaterQuestion& q, const calc::WaterAnswer& a) {
    Table table{{"part", "kg", "kJ/(kg K)", "from", "kJ to the wanted dough"}, {}};
    for (const Part& part : parts) {
        const calc::HeatShare& h = part.heat;
        table.rows.push_back({part.name, number(h.kg, 3), number(h.kj_per_kg_k, 3), degrees(h.celsius, Unit::celsius),
                              number(h.kg * h.kj_per_kg_k * (q.wanted_c - h.celsius), 1)});
    }
    table.rows.push_back({"mixer", "", "", "", number(-q.mixer_kj, 1)});
    std::string text = working_table(table);
    text += "\nThe water must bring the sum: water = wanted + sum / (" + number(q.water_kg, 3) +
            " x 4.19) = " + degrees(a.water_c, Unit::celsius) + "\n";
    if (a.ice_kg > 0)
        text += "ice = water x (tap - needed) / (tap + 333.55 / 4.19) = " + number(q.water_kg, 3) + " x (" + number(q.tap_c, 2) + " - " +
                number(a.water_c, 2) + ") / (" + number(q.tap_c, 2) + " + " + number(calc::latent_over_c, 2) + ")" +
                (a.reached ? " = " + number(a.ice_kg, 3) + " kg\n" : ", more than may be ice\n");
    return text + "dough = " + degrees(a.dough_c, Unit::celsius) + " with these masses\n";
}

}  // namespace

void add_balance(Options& options, BalanceGiven& given) {
    options.mass(given.flour_mass, "--flour-mass", "of the flour (balance)")
        .mass(given.water_mass, "--water-mass", "of the water, ice included (balance)")
        .temperature(given.tap, "--tap", "of the tap water (balance)")
        .temperature(given.hot, "--hot", "of the hottest water at hand (balance)")
        .mass(given.preferment_mass, "--preferment-mass", "of the preferment (balance)");
    add_number(options, given.preferment_water, "--preferment-water", "its water in percent, else 50 (balance)");
    options.each(given.others, "--other", "MASS@TEMPERATURE", "another ingredient, 2kg@4C, or 2kg@4C@2.3 with its kJ/(kg K) (balance)");
    add_number(options, given.mixer_kj, "--mixer-kj", "heat that mixing adds, in kJ, else none (balance)");
    add_number(options, given.most_ice, "--most-ice", "percent of the water that may be ice, else all (balance)");
}

bool balance_only(const BalanceGiven& given) {
    return given.flour_mass || given.water_mass || given.preferment_mass || given.tap || given.hot || given.preferment_water ||
           given.mixer_kj || given.most_ice || !given.others.empty();
}

Result<CalcAnswer> balance_answer(const BalanceGiven& given) {
    if (auto checked = check_given(given); !checked) return checked.refusal();
    const auto parts = parts_of(given);
    if (!parts) return parts.refusal();
    calc::WaterQuestion question;
    question.wanted_c = in(*given.want, Unit::celsius);
    for (const Part& part : *parts) question.others.push_back(part.heat);
    question.water_kg = in(*given.water_mass, Unit::kg);
    question.mixer_kj = given.mixer_kj.value_or(0);
    question.tap_c = in(*given.tap, Unit::celsius);
    if (given.hot) question.hot_tap_c = in(*given.hot, Unit::celsius);
    question.most_ice_share = given.most_ice.value_or(percent) / percent;
    const auto water = calc::balance_water(question);
    if (!water) return water.refusal();
    const Unit unit = given.want->unit;
    const std::string dough = degrees(from_celsius(water->dough_c, unit), unit, 1);
    CalcAnswer answer;
    answer.answer = water->reached ? masses_text(*water) + " for a dough of " + dough
                                   : to_text(*given.want) + " cannot be reached: the nearest is " + dough + ", with " + masses_text(*water);
    if (!given.mixer_kj) answer.mind = {"No --mixer-kj: the heat of mixing is counted as none."};
    answer.working = working_text(*parts, question, *water);
    answer.source = {"Heat balance: what the parts give up, the others take in.",
                     "Water 4.19 kJ/(kg K), ice 333.55 kJ/kg (from memory); flour 1.8 kJ/(kg K): Geankoplis, Transport "
                     "Processes, appendix A.4-1 (read); the rest from its share of water: Earle, Unit Operations in "
                     "Food Processing, appendix 7 (read)."};
    answer.json.set("water_c", water->water_c)
        .set("ice_kg", water->ice_kg)
        .set("tap_kg", water->tap_kg)
        .set("hot_kg", water->hot_kg)
        .set("reached", water->reached)
        .set("dough_c", water->dough_c);
    return answer;
}

}  // namespace peelbook::cli
