#include "base/text.h"
#include "calc/dough_water.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {
namespace {

struct CalcIceGiven {
    std::optional<Measure> water, tap, need;
    bool textbook = false, json = false;
};

void set_up(Options& options, CalcIceGiven& given) {
    add_mass(options, given.water, "--water", "water and ice together");
    add_temperature(options, given.tap, "--tap", "of the tap water");
    add_temperature(options, given.need, "--need", "that the water is needed at");
    options.flag(given.textbook, "--textbook", "melting as textbooks round it: 80 C, 144 F");
    add_json(options, given.json);
}

Check check(const CalcIceGiven& given) {
    if (given.water->value <= 0) return Refusal{"--water " + to_text(*given.water), "a mass above 0", "give the water of the dough", {}};
    const double tap = in(*given.tap, Unit::celsius);
    if (tap < 0 || tap > 100) return Refusal{"--tap " + to_text(*given.tap), "liquid water, 0C to 100C", "measure the tap", {}};
    return {};
}

// In the scale that was typed: "40 x (20 - 10) / (20 + 80)", "100 x (75 - 50) / (75 - 32 + 144)".
std::string formula_text(const CalcIceGiven& given, double melting_c) {
    const Unit unit = given.tap->unit;
    const bool fahrenheit = unit == Unit::fahrenheit;
    const std::string tap = number(in(*given.tap, unit), 2);
    return number(in(*given.water, given.water->unit), 3) + " x (" + tap + " - " + number(in(*given.need, unit), 2) + ") / (" + tap +
           (fahrenheit ? " - 32" : "") + " + " + number(fahrenheit ? melting_c * 1.8 : melting_c, 2) + ")";
}

Result<Exit> act(Context& context, const CalcIceGiven& given) {
    if (auto checked = check(given); !checked) return checked.refusal();
    const double melting = given.textbook ? calc::textbook_latent_over_c : calc::latent_over_c;
    const double tap = in(*given.tap, Unit::celsius);
    const double need = in(*given.need, Unit::celsius);
    const double water_kg = in(*given.water, Unit::kg);
    const auto ice_kg = calc::ice_kg(water_kg, tap, need, melting);
    if (!ice_kg)
        return Refusal{"--need " + to_text(*given.need),
                       "not below what ice alone can do, " + degrees(from_celsius(-melting, given.need->unit), given.need->unit, 1),
                       "cool the flour, or mix less",
                       {}};
    const Unit unit = given.water->unit;
    const double scale = in(*given.water, unit) / water_kg;
    const auto mass = [&](double kg) { return number(kg * scale, 3) + std::string(symbol(unit)); };
    CalcAnswer answer;
    answer.answer = *ice_kg > 0 ? "ice " + mass(*ice_kg) + ", tap water " + mass(water_kg - *ice_kg)
                                : std::string("no ice: the tap water is cold enough");
    if (need > tap) answer.mind = {"The water must be warmer than the tap's: take warm water."};
    answer.working =
        *ice_kg > 0 ? "ice = water x (tap - needed) / (tap + melting)\n    = " + formula_text(given, melting) + " = " + mass(*ice_kg) + "\n"
                    : "needed " + to_text(*given.need) + " is not below the tap's " + to_text(*given.tap) + "\n";
    answer.source = {given.textbook ? "Heat balance; melting ice takes what cools its mass of water by 80 C (textbooks)."
                                    : "Heat balance; melting takes 333.55 kJ/kg, water 4.19 kJ/(kg K), which is 79.61 C (from "
                                      "memory). --textbook rounds it to 80 C."};
    answer.json.set("ice_kg", *ice_kg).set("tap_kg", water_kg - *ice_kg);
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_ice_command;
const Command calc_ice_command{.name = "calc ice",
                               .group = Group::calculation,
                               .about = "Say how much of the water must be ice.",
                               .more = {},
                               .examples =
                                   "peelbook calc ice --water 40kg --tap 20C --need 10C\n"
                                   "peelbook calc ice --water 100lb --tap 75F --need 50F --textbook",
                               .takes_at = false,
                               .body = body<CalcIceGiven, set_up, act>()};

}  // namespace peelbook::cli
