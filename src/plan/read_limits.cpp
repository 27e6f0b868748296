// What must hold at a control point: one function a limit kind.
#include <algorithm>

#include "base/text.h"
#include "plan/sections.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

const std::vector<std::string> bound_keys = {"least", "most"};
const std::vector<std::string> limit_keys = {"time",      "cooling", "before_packing", "yes_no",
                                             "lethality", "ph_aw",   "loss",           "souring", "label",
                                             "market"};
constexpr std::string_view limit_forms =
    "one of: { least = \"93C\", most = \"99C\" }, { time = { from = \"mix\", until = \"bake\", most = \"4h\" "
    "} }, "
    "{ cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\" } ], counted = \"start\" } }, "
    "{ before_packing = { most = \"35C\" } }, { yes_no = true }, "
    "{ lethality = { t_ref = \"61C\", z = \"10.4C\", d = \"16.5min\", studied = { from = \"55C\", to = "
    "\"61C\" }, log = 5, cap = 7, food = [\"...\"], source = \"...\" } }, "
    "{ ph_aw = { table = \"B\" } }, { loss = { before = \"inputs\", after = \"finish\", most = \"13%\" } }, "
    "{ souring = { starts_at = \"feed\", stages = [ { to = \"4.2pH\", within = \"12h\" } ] } }, "
    "{ label = { at = [\"start\", \"end\"] } }, { market = { of = \"gluten\" } }";

std::optional<Limit> read_range(Fields& limit) {
    RangeLimit range{limit.bound("least"), limit.bound("most")};
    if (!range.least && !range.most) return std::nullopt;
    return range;
}

std::optional<Limit> read_time(Fields& time) {
    TimeLimit limit;
    limit.from = time.code("from", Need::yes);
    limit.until = time.code("until", Need::yes);
    limit.least = time.period("least");
    limit.most = time.period("most");
    if (!time.has("least") && !time.has("most"))
        time.lacks("bound", "least = \"1h\", most = \"4h\" or both", "write one");
    if (!limit.least && !limit.most) return std::nullopt;
    return limit;
}

// None when one is wrong, or there is none.
std::vector<CoolingLimit::Stage> read_stages(Fields& limit, const std::string& example) {
    std::vector<CoolingLimit::Stage> stages;
    bool whole = true;
    limit.each("stages", "stage", [&](Fields& stage) {
        const std::optional<Bound> to = stage.bound("to", Need::yes);
        const std::optional<Duration> within = stage.period("within", Need::yes);
        if (to && within)
            stages.push_back({*to, *within});
        else
            whole = false;
    });
    if (!limit.has("stages")) limit.lacks("stages", "stages = [ " + example + " ]", "write at least one");
    return whole ? stages : std::vector<CoolingLimit::Stage>{};
}

std::optional<Limit> read_cooling(Fields& cooling) {
    const std::optional<Bound> from = cooling.bound("from", Need::yes);
    const auto stages = read_stages(cooling, "{ to = \"21C\", within = \"2h\" }");
    const std::string counted = cooling.choice("counted", {"start", "previous"}, Need::yes);
    const std::string hot_at = cooling.code("hot_at", Need::no);
    const std::string starts_at = cooling.code("starts_at", Need::no);
    if (!hot_at.empty() && !starts_at.empty())
        cooling.error("starts_at", "both hot_at and starts_at are given", "one start of the clock",
                      "leave hot_at for food that is cooked, starts_at for food made of ambient ingredients");
    if (!from || stages.empty()) return std::nullopt;
    return CoolingLimit{*from, stages, counted == "previous", hot_at, starts_at};
}

std::optional<Limit> read_before_packing(Fields& packing) {
    const std::optional<Bound> most = packing.bound("most", Need::yes);
    if (!most) return std::nullopt;
    return BeforePackingLimit{*most};
}

std::optional<Limit> read_lethality(Fields& heat) {
    const auto t_ref = heat.measure("t_ref", Dimension::temperature, Need::yes);
    const auto z = heat.measure("z", Dimension::temperature, Need::yes);
    const auto d = heat.period("d", Need::yes);
    std::optional<Measure> from, to;
    heat.inside("studied", [&](Fields& studied) {
        from = studied.measure("from", Dimension::temperature, Need::yes);
        to = studied.measure("to", Dimension::temperature, Need::yes);
    });
    if (!heat.has("studied"))
        heat.lacks("studied",
                   "studied = { from = \"55C\", to = \"61C\" }, the temperatures of the study of D and z",
                   "write them: outside them a rate is not known");
    const auto wanted = heat.thousandths("log", Need::yes);
    const auto cap = heat.thousandths("cap", Need::yes);
    const auto foods = heat.names("food");
    if (foods.empty())
        heat.lacks("food", "food = [\"...\"], the sorts of product that the study of D and z stands for",
                   "write them as the products' sort says");
    const std::string source = heat.prose("source", Need::yes);
    if (!t_ref || !z || !d || !from || !to || !wanted || !cap) return std::nullopt;
    return LethalityLimit{*t_ref, *z, *d, *from, *to, *wanted, *cap, foods, source};
}

std::optional<Limit> read_class(Fields& limit) {
    const std::string table = limit.choice("table", {"A", "B"}, Need::yes);
    if (table.empty()) return std::nullopt;
    return ClassLimit{table == "A"};
}

std::optional<Limit> read_loss(Fields& loss) {
    LossLimit limit;
    limit.before = loss.code("before", Need::yes);
    limit.after = loss.code("after", Need::yes);
    limit.least = loss.bound("least");
    limit.most = loss.bound("most");
    if (!loss.has("least") && !loss.has("most"))
        loss.lacks("bound", "least = \"10%\", most = \"13%\" or both", "write one");
    if (!limit.least && !limit.most) return std::nullopt;
    return limit;
}

std::optional<Limit> read_label_check(Fields& label) {
    LabelLimit limit;
    limit.at = label.names("at");
    limit.most_lost = label.whole("most_lost", 0).value_or(0);
    const std::vector<std::string> known(std::begin(label_moments), std::end(label_moments));
    for (std::size_t i = 0; i < limit.at.size(); ++i)
        if (std::find(known.begin(), known.end(), limit.at[i]) == known.end())
            label.error("at/" + std::to_string(i), "moment " + quoted(limit.at[i]), "one of: " + joined(known, ", "),
                        remedy_with(nearest(limit.at[i], known), "take it out"));
    if (std::find(limit.at.begin(), limit.at.end(), "start") == limit.at.end())
        label.error("at", "labels are not read at the start of a run", "\"start\" among the moments",
                    "write at = [\"start\", \"end\"]");
    return limit;
}

std::optional<Limit> read_souring(Fields& souring) {
    const std::string starts_at = souring.code("starts_at", Need::yes);
    const auto stages = read_stages(souring, "{ to = \"4.2pH\", within = \"12h\" }");
    if (starts_at.empty() || stages.empty()) return std::nullopt;
    return SouringLimit{starts_at, stages};
}

std::optional<Limit> read_market(Fields& market) {
    const std::string of = market.choice("of", {"gluten", "sulphites"}, Need::yes);
    if (of.empty()) return std::nullopt;
    return MarketLimit{of, {}};
}

std::optional<Limit> read_one_limit(Fields& limit) {
    std::optional<Limit> found;
    std::vector<std::string> given;
    for (const std::string& key : bound_keys)
        if (limit.has(key) && given.empty()) given.emplace_back("least or most");
    for (const std::string& key : limit_keys)
        if (limit.has(key)) given.push_back(key);
    if (given.size() > 1)
        limit.error("", "more than one limit: " + all_of(given), "one limit a point",
                    "make a point of its own for each");
    if (const std::optional<Limit> range = read_range(limit)) found = range;
    limit.inside("time", [&](Fields& time) { found = read_time(time); });
    limit.inside("cooling", [&](Fields& cooling) { found = read_cooling(cooling); });
    limit.inside("before_packing", [&](Fields& packing) { found = read_before_packing(packing); });
    limit.inside("lethality", [&](Fields& heat) { found = read_lethality(heat); });
    limit.inside("ph_aw", [&](Fields& table) { found = read_class(table); });
    limit.inside("loss", [&](Fields& loss) { found = read_loss(loss); });
    limit.inside("souring", [&](Fields& souring) { found = read_souring(souring); });
    limit.inside("label", [&](Fields& label) { found = read_label_check(label); });
    limit.inside("market", [&](Fields& market) { found = read_market(market); });
    const bool inspection = limit.flag("yes_no", false);
    if (inspection) found = YesNoLimit{};
    if (limit.has("yes_no") && !inspection)
        limit.error("yes_no", "yes_no is not true", "yes_no = true, or another limit",
                    "write what must hold");
    if (given.empty()) limit.error("", "no limit is given", std::string(limit_forms), "write what must hold");
    return found;
}

}  // namespace

std::optional<Limit> read_limit(Fields& point) {
    std::optional<Limit> found;
    if (!point.has("limit")) point.lacks("limit", std::string(limit_forms), "write what must hold");
    point.inside("limit", [&](Fields& limit) { found = read_one_limit(limit); });
    return found;
}

}  // namespace peelbook::plan
