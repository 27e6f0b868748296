#include "calc/loss.h"

#include "base/text.h"
#include "cli/calculation/text.h"

namespace peelbook::cli {
namespace {

struct CalcLossGiven {
    std::optional<Measure> baked, dough;
    std::optional<Measure> loss;
    bool json = false;
};

void set_up(Options& options, CalcLossGiven& given) {
    const auto take_loss = [&given](const std::vector<std::string>& typed) -> Check {
        auto measure = parse_measure(typed.front(), Dimension::percent);
        if (!measure) return measure.refusal();
        given.loss = *measure;
        return {};
    };
    options.mass(given.baked, "--baked", "what is weighed after baking")
        .mass(given.dough, "--dough", "what is weighed before baking")
        .row({"--loss", "PERCENT", "of the dough that leaves in the oven: 12%", false, false, take_loss});
    add_json(options, given.json);
}

struct Sum {
    double baked = 0, dough = 0, loss = 0;
    std::string working;
};

Result<Sum> sum_of(const CalcLossGiven& given, Unit unit) {
    const auto grams = [&](const std::optional<Measure>& m) { return m ? in(*m, unit) : 0; };
    Sum sum{grams(given.baked), grams(given.dough), given.loss ? in(*given.loss, Unit::percent) : 0, ""};
    const auto text = [](double value) { return number(value, 3); };
    if (!given.dough) {
        const auto dough = calc::dough_for_baked(sum.baked, sum.loss);
        if (!dough) return dough.refusal();
        sum.dough = *dough;
        sum.working =
            "dough = baked / (1 - loss / 100) = " + text(sum.baked) + " / (1 - " + text(sum.loss) + " / 100) = " + text(sum.dough);
    } else if (!given.baked) {
        const auto baked = calc::baked_from_dough(sum.dough, sum.loss);
        if (!baked) return baked.refusal();
        sum.baked = *baked;
        sum.working =
            "baked = dough x (1 - loss / 100) = " + text(sum.dough) + " x (1 - " + text(sum.loss) + " / 100) = " + text(sum.baked);
    } else {
        const auto loss = calc::loss_percent(sum.dough, sum.baked);
        if (!loss) return loss.refusal();
        sum.loss = *loss;
        sum.working = "loss = (dough - baked) / dough x 100 = (" + text(sum.dough) + " - " + text(sum.baked) + ") / " + text(sum.dough) +
                      " x 100 = " + text(sum.loss) + "%";
    }
    return sum;
}

Result<Exit> act(Context& context, const CalcLossGiven& given) {
    const int said = (given.baked ? 1 : 0) + (given.dough ? 1 : 0) + (given.loss ? 1 : 0);
    if (said != 2)
        return Refusal{std::to_string(said) + " of --dough, --baked and --loss",
                       "two of them: the third is the answer",
                       said < 2 ? "add another one" : "leave one out",
                       {}};
    const Unit unit = given.baked ? given.baked->unit : given.dough->unit;
    const auto sum = sum_of(given, unit);
    if (!sum) return sum.refusal();
    const auto mass = [&](double value) { return number(value, 2) + std::string(symbol(unit)); };
    CalcAnswer answer;
    answer.answer =
        !given.dough   ? "dough " + mass(sum->dough) + " for " + mass(sum->baked) + " baked, at a loss of " + number(sum->loss, 2) + "%"
        : !given.baked ? "baked " + mass(sum->baked) + " from " + mass(sum->dough) + " of dough, at a loss of " + number(sum->loss, 2) + "%"
                       : "loss " + number(sum->loss, 2) + "% of the dough";
    answer.working = sum->working + "\n";
    answer.source = {
        "Bake loss is counted on the dough. Usual for bread: 10 to 13 % (Gisslen, Professional Baking, "
        "section on scaling; read)."};
    const double grams = in_unit(given.baked ? given.baked->value : given.dough->value, Unit::g) / (given.baked ? sum->baked : sum->dough);
    answer.json.set("dough_g", sum->dough * grams).set("baked_g", sum->baked * grams).set("loss_percent", sum->loss);
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_loss_command;
const Command calc_loss_command{.name = "calc loss",
                                .group = Group::calculation,
                                .about = "Say what dough a baked mass needs, or what was lost in the oven.",
                                .more = {},
                                .examples = "peelbook calc loss --baked 500g --loss 12%\npeelbook calc loss --dough 580g --baked 510g",
                                .takes_at = false,
                                .body = body<CalcLossGiven, set_up, act>()};

}  // namespace peelbook::cli
