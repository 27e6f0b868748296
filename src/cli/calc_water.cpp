#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "calc/dough_water.h"
#include "cli/calc_balance.h"
#include "cli/calc_text.h"

namespace peelbook::cli {
namespace {

constexpr double freezing_c = 0;
constexpr double yeast_dies_c = 60;

struct Given {
    std::optional<Measure> room, friction;
    bool balance = false, json = false;
    BalanceGiven common;  // --want, --flour, --preferment are of both methods
};

void set_up(Options& options, Given& given) {
    add_temperature(options, given.common.want, "--want", "of the dough after mixing");
    add_temperature(options, given.common.flour, "--flour", "of the flour");
    options.temperature(given.room, "--room", "of the room (factor method)")
        .temperature(given.common.preferment, "--preferment", "of the preferment, if there is one")
        .temperature(given.friction, "--friction",
                     "what mixing adds by the factor method, a difference: 8F (factor method)")
        .flag(given.balance, "--balance", "the heat balance instead: masses, specific heats, ice");
    add_balance(options, given.common);
    add_json(options, given.json);
}

Check check_factor(const Given& given) {
    if (!given.room || !given.friction)
        return Refusal{given.room ? "no --friction" : "no --room",
                       "--room and --friction for the factor method",
                       "add them, or --balance with the masses",
                       {}};
    if (balance_only(given.common))
        return Refusal{"a mass or a tap without --balance",
                       "temperatures only: the factor method has no masses",
                       "add --balance, or leave the masses and the tap out",
                       {}};
    return std::nullopt;
}

std::string terms(const std::vector<double>& values) {
    std::vector<std::string> texts;
    for (const double value : values) texts.push_back(number(value, 2));
    return joined(texts, " + ");
}

std::vector<std::string> mind_of(double water_c) {
    if (water_c < freezing_c)
        return {
            "Colder than ice: it cannot be had as water. Ask again with --balance and the masses, or cool "
            "the flour."};
    if (water_c > yeast_dies_c)
        return {"Yeast dies at about 60C (common practice): warm the flour or the room instead."};
    return {};
}

Result<Exit> act(Context& context, const Given& given) {
    if (given.balance) {
        if (given.room || given.friction)
            return Refusal{given.room ? "--room with --balance" : "--friction with --balance",
                           "--mixer-kj for what the mixer adds",
                           "leave it out; the balance counts masses and what the mixer really adds",
                           {}};
        const auto answer = balance_answer(given.common);
        if (!answer) return answer.refusal();
        print(context, *answer, given.json);
        return Exit::done;
    }
    if (Check refusal = check_factor(given)) return *refusal;
    const Unit unit = given.common.want->unit;
    const double want = in(*given.common.want, unit);
    std::vector<double> others{in(*given.common.flour, unit), in(*given.room, unit)};
    if (given.common.preferment) others.push_back(in(*given.common.preferment, unit));
    const double friction = difference(*given.friction, unit);
    const double water = calc::factor_water(want, others, friction);
    const double water_c = to_celsius(water, unit);
    const Unit other = unit == Unit::celsius ? Unit::fahrenheit : Unit::celsius;
    CalcAnswer answer;
    answer.answer = "water of " + degrees(water, unit, 1) + " (" +
                    degrees(from_celsius(water_c, other), other, 1) + ") for a dough of " +
                    degrees(want, unit);
    answer.mind = mind_of(water_c);
    const std::string n = std::to_string(others.size() + 1);
    answer.working = "water = " + n + " x wanted - (flour + room" +
                     (others.size() > 2 ? " + preferment" : "") + ") - friction\n      = " + n + " x " +
                     number(want, 2) + " - (" + terms(others) + ") - " + number(friction, 2) + " = " +
                     number(water, 2) + "\n";
    answer.source = {"Factor method of baking schools (common practice): each temperature weighs the same."};
    answer.json.set("water_c", water_c)
        .set("water_f", from_celsius(water_c, Unit::fahrenheit))
        .set("factors", others.size() + 1)
        .set("reachable_with_water", water_c >= freezing_c);
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_water_command;
const Command calc_water_command{
    .name = "calc water",
    .group = Group::calculation,
    .about = "Say how warm the dough water must be, or how much ice it needs.",
    .more =
        "Without --balance, the factor method: flour, room, preferment and friction, no masses.\n"
        "With --balance, --flour-mass, --water-mass and --tap are needed; see also `peelbook calc ice`.",
    .examples =
        "peelbook calc water --want 75F --flour 65F --room 65F --friction 8F\n"
        "peelbook calc water --balance --want 24C --flour 26C --flour-mass 100kg --water-mass 62kg --tap 18C "
        "--mixer-kj 2000",
    .takes_at = false,
    .body = body<Given, set_up, act>()};

}  // namespace peelbook::cli
