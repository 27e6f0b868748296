#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "calc/dough_water.h"
#include "cli/calculation/balance.h"
#include "cli/calculation/text.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

constexpr double freezing_c = 0;
constexpr double yeast_dies_c = 60;

struct CalcWaterGiven {
    std::optional<Measure> room, friction, size;
    std::string learned, line, site;
    bool balance = false, json = false;
    BalanceGiven common;  // --want, --flour, --preferment are of both methods
};

void set_up(Options& options, CalcWaterGiven& given) {
    add_temperature(options, given.common.want, "--want", "of the dough after mixing");
    add_temperature(options, given.common.flour, "--flour", "of the flour");
    options.temperature(given.room, "--room", "of the room (factor method)")
        .temperature(given.common.preferment, "--preferment", "of the preferment, if there is one")
        .temperature(given.friction, "--friction", "what mixing adds by the factor method, a difference: 8F (factor method)")
        .text(given.learned, "--learned", "PRODUCT", "friction from the logged batches of this product instead (factor method)")
        .text(given.line, "--line", "LINE", "with --learned: the mixer's line; else the product's own")
        .mass(given.size, "--dough-mass", "with --learned: only doughs within a tenth of this mass")
        .text(given.site, "--site", "DIR", "with --learned: the site's folder; else PEELBOOK_SITE, else upward from here")
        .flag(given.balance, "--balance", "the heat balance instead: masses, specific heats, ice");
    add_balance(options, given.common);
    add_json(options, given.json);
}

Check check_factor(const CalcWaterGiven& given) {
    if (given.learned.empty() && (!given.line.empty() || given.size))
        return Refusal{given.size ? "--dough-mass without --learned" : "--line without --learned",
                       "--learned PRODUCT",
                       "add it, or leave the other out",
                       {}};
    if (!given.learned.empty() && given.friction) return Refusal{"--friction with --learned", "one of the two", "leave one out", {}};
    if (!given.room || (!given.friction && given.learned.empty()))
        return Refusal{given.room ? "no --friction" : "no --room",
                       "--room and --friction for the factor method",
                       "add them, or --learned PRODUCT for the friction, or --balance with the masses",
                       {}};
    if (balance_only(given.common))
        return Refusal{"a mass or a tap without --balance",
                       "temperatures only: the factor method has no masses",
                       "add --balance, or leave the masses and the tap out",
                       {}};
    return {};
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
    if (water_c > yeast_dies_c) return {"Yeast dies at about 60C (common practice): warm the flour or the room instead."};
    return {};
}

constexpr std::size_t most_batches_shown = 10;

std::string learned_text(const site::Friction& learned) {
    std::string text = "friction learned on " + (learned.line.empty() ? "no line" : learned.line) + " from " +
                       std::to_string(learned.batches.size()) + " batches: mean " + degrees(learned.mean_c, Unit::celsius) +
                       (learned.sd_c ? ", standard deviation " + degrees(*learned.sd_c, Unit::celsius) : std::string()) + "\n\n";
    Table table{{"batch", "dough", "sum of the others", "friction"}, {}};
    for (const auto& batch : learned.batches)
        table.rows.push_back({batch.lot, degrees(batch.dough_c, Unit::celsius), degrees(batch.others_c, Unit::celsius),
                              degrees(batch.friction_c, Unit::celsius)});
    return text + working_table(table, most_batches_shown) + "\n";
}

Result<site::Friction> learned_of(Context& context, const CalcWaterGiven& given) {
    const auto site = context.site(given.site, Context::Mode::read);
    if (!site) return site.refusal();
    auto learned = (*site)->learned_friction(given.learned, given.line, given.size ? given.size->value : 0);
    if (!learned) return learned.refusal();
    const int factors = given.common.preferment ? 4 : 3;
    if (learned->batches.empty())
        return Refusal{"no batch of " + given.learned + " to learn from",
                       "batches whose dough, flour, room and water temperatures are in the book",
                       "read them at the points that the plan's dough names, or give --friction",
                       {}};
    if (factors != learned->factors)
        return Refusal{std::to_string(factors) + " temperatures for a friction of " + std::to_string(learned->factors),
                       "as many as it was learned with",
                       learned->factors == 4 ? "add --preferment" : "leave --preferment out",
                       {}};
    return learned;
}

Result<Exit> act(Context& context, const CalcWaterGiven& given) {
    if (given.balance) {
        if (given.room || given.friction || !given.learned.empty())
            return Refusal{given.room       ? "--room with --balance"
                           : given.friction ? "--friction with --balance"
                                            : "--learned with --balance",
                           "--mixer-kj for what the mixer adds",
                           "leave it out; the balance counts masses and what the mixer really adds",
                           {}};
        const auto answer = balance_answer(given.common);
        if (!answer) return answer.refusal();
        print(context, *answer, given.json);
        return Exit::done;
    }
    if (auto checked = check_factor(given); !checked) return checked.refusal();
    const Unit unit = given.common.want->unit;
    const double want = in(*given.common.want, unit);
    std::vector<double> others{in(*given.common.flour, unit), in(*given.room, unit)};
    if (given.common.preferment) others.push_back(in(*given.common.preferment, unit));
    std::optional<site::Friction> learned;
    if (!given.learned.empty()) {
        auto found = learned_of(context, given);
        if (!found) return found.refusal();
        learned = std::move(*found);
    }
    const double scale = unit == Unit::fahrenheit ? 1.8 : 1;
    const double friction = learned ? learned->mean_c * scale : difference(*given.friction, unit);
    const double water = calc::factor_water(want, others, friction);
    const double water_c = to_celsius(water, unit);
    const Unit other = unit == Unit::celsius ? Unit::fahrenheit : Unit::celsius;
    CalcAnswer answer;
    answer.answer = "water of " + degrees(water, unit, 1) + " (" + degrees(from_celsius(water_c, other), other, 1) + ") for a dough of " +
                    degrees(want, unit);
    answer.mind = mind_of(water_c);
    if (learned && learned->sd_c) {
        const double sd = *learned->sd_c * scale;
        answer.mind.insert(answer.mind.begin(), "With the friction a standard deviation off either way: " + degrees(water - sd, unit, 1) +
                                                    " to " + degrees(water + sd, unit, 1) + ".");
    }
    const std::string n = std::to_string(others.size() + 1);
    answer.working = (learned ? learned_text(*learned) : std::string()) + "water = " + n + " x wanted - (flour + room" +
                     (others.size() > 2 ? " + preferment" : "") + ") - friction\n      = " + n + " x " + number(want, 2) + " - (" +
                     terms(others) + ") - " + number(friction, 2) + " = " + number(water, 2) + "\n";
    answer.source = {"Factor method of baking schools (common practice): each temperature weighs the same."};
    answer.json.set("water_c", water_c)
        .set("water_f", from_celsius(water_c, Unit::fahrenheit))
        .set("factors", others.size() + 1)
        .set("reachable_with_water", water_c >= freezing_c);
    if (learned) answer.json.set("friction_c", learned->mean_c).set("friction_sd_c", learned->sd_c).set("batches", learned->batches.size());
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_water_command;
const Command calc_water_command{.name = "calc water",
                                 .group = Group::calculation,
                                 .about = "Say how warm the dough water must be, or how much ice it needs.",
                                 .more =
                                     "Without --balance, the factor method: flour, room, preferment and friction, no masses.\n"
                                     "With --balance, --flour-mass, --water-mass and --tap are needed; see also `peelbook calc ice`.",
                                 .examples =
                                     "peelbook calc water --want 75F --flour 65F --room 65F --friction 8F\n"
                                     "peelbook calc water --want 26C --flour 20C --room 23C --learned pan-loaf\n"
                                     "peelbook calc water --balance --want 24C --flour 26C --flour-mass 100kg --water-mass 62kg --tap 18C "
                                     "--mixer-kj 2000",
                                 .takes_at = false,
                                 .body = body<CalcWaterGiven, set_up, act>()};

}  // namespace peelbook::cli
