// Facts of the trade, common practice in large bakeries: where the weigh sheet, the yield and the limits of a plan that states them
// must land.
#include "fold/weigh_sheet.h"
#include "judge/judge.h"
#include "plan/reader.h"
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site::testing;

namespace {

plan::Plan plan_of(const std::string& text) {
    auto outcome = plan::read_plan({{"plan.toml", text}});
    for (const auto& fault : outcome.faults) INFO(plan::to_text(fault));
    REQUIRE(outcome.usable());
    return outcome.plan;
}

constexpr std::string_view trade_plan = R"toml(
[site]
name = "Handbook"
zone = "America/Chicago"
allergen_list = "us"

[[material]]
id = "flour"
name = "patent flour"
allergens = ["wheat"]
[[material]]
id = "water"
name = "water"
supply = true
[[material]]
id = "rest"
name = "yeast, salt, sugar, fat, milk powder"
allergens = ["milk"]
[[material]]
id = "malt"
name = "rye malt"
allergens = ["rye"]

# A white pan bread at 62 % water with 14 % of the rest (2 yeast, 2 salt, 4 sugar, 3 fat, 3 milk powder): common practice.
[[product]]
id = "white"
name = "long white loaf"
formula = [ { item = "flour", percent = "100%", flour = true }, { item = "water", percent = "62%" },
            { item = "rest", percent = "14%" } ]
unit_mass = "21oz"
usual_flour = "200lb"
steps = ["mix", "proof", "bake"]
[[product]]
id = "scald"
name = "scald of rye malt"
formula = [ { item = "malt", percent = "100%", flour = true }, { item = "water", percent = "250%" } ]
usual_flour = "10kg"
steps = ["scald", "stand"]

[[place]]
id = "pastry-room"
name = "pastry room"

[[point]]
id = "proof-warmth"
name = "proof temperature"
class = "operating"
step = "proof"
products = ["white"]
measures = "air of the proofer"
unit = "F"
limit = { least = "95F", most = "100F" }
instrument = false
[[point]]
id = "proof-damp"
name = "proof humidity"
class = "operating"
step = "proof"
products = ["white"]
measures = "relative humidity"
unit = "%"
limit = { least = "75%", most = "80%" }
instrument = false
[[point]]
id = "stand"
name = "scald stands"
class = "operating"
step = "stand"
products = ["scald"]
limit = { time = { from = "scald", until = "stand", least = "8h", most = "12h" } }
)toml";

judge::Verdict judged(const plan::Plan& plan, const char* point, const std::string& typed) {
    judge::Facts facts;
    facts.steps = {"mix", "proof", "bake"};
    facts.finish_step = "bake";
    facts.started = {0};
    facts.steps_done = {{2, "proof", {hours(3).ms}}};
    judge::ReadingFact reading;
    reading.seq = 1;
    reading.at = {hours(2).ms};
    reading.point = point;
    reading.value = *parse_measure(typed);
    facts.readings = {reading};
    const auto result = judge::judge_point(*plan.point(point), facts);
    REQUIRE(result.findings.size() == 1);
    return result.findings.front().verdict;
}

judge::Verdict stood(const plan::Plan& plan, Duration time) {
    judge::Facts facts;
    facts.steps = {"scald", "stand"};
    facts.finish_step = "stand";
    facts.started = {0};
    facts.steps_done = {{2, "scald", {minutes(10).ms}}, {3, "stand", {minutes(10).ms + time.ms}}};
    const auto result = judge::judge_point(*plan.point("stand"), facts);
    REQUIRE(result.findings.size() == 1);
    return result.findings.front().verdict;
}

}  // namespace

TEST_CASE("common practice: 200 lb of flour makes 250 to 280 long white loaves") {
    const auto plan = plan_of(std::string(trade_plan));
    record::Started size;
    size.flour = *parse_measure("200lb");
    const auto sheet = fold::weigh_sheet(*plan.product("white"), size);
    REQUIRE(sheet.ok());
    // 200 lb x 176 % = 352 lb of dough, by hand; 1 lb = 453.59237 g exactly.
    CHECK(sheet->dough_mg == 159'664'514);
    CHECK(sheet->items[1].mass_mg == 56'245'454);  // 124 lb of water
    // 352 lb / 21 oz = 268.19: whole loaves
    CHECK(sheet->pieces == 268);
    CHECK(sheet->pieces >= 250);
    CHECK(sheet->pieces <= 280);
}

TEST_CASE("common practice: proof at 95 to 100 F and 75 to 80 % relative humidity, limits inclusive") {
    const auto plan = plan_of(std::string(trade_plan));
    using judge::Verdict;
    CHECK(judged(plan, "proof-warmth", "95F") == Verdict::within);
    CHECK(judged(plan, "proof-warmth", "100F") == Verdict::within);
    CHECK(judged(plan, "proof-warmth", "94.9F") == Verdict::deviation);
    CHECK(judged(plan, "proof-warmth", "100.1F") == Verdict::deviation);
    CHECK(judged(plan, "proof-warmth", "36.5C") == Verdict::within);  // 97.7 F
    CHECK(judged(plan, "proof-damp", "75%") == Verdict::within);
    CHECK(judged(plan, "proof-damp", "80%") == Verdict::within);
    CHECK(judged(plan, "proof-damp", "80.1%") == Verdict::deviation);
}

TEST_CASE("common practice: a scald of rye malt stands 8 to 12 hours") {
    const auto plan = plan_of(std::string(trade_plan));
    using judge::Verdict;
    CHECK(stood(plan, minutes(8 * 60 - 1)) == Verdict::deviation);
    CHECK(stood(plan, hours(8)) == Verdict::within);
    CHECK(stood(plan, hours(12)) == Verdict::within);
    CHECK(stood(plan, minutes(12 * 60 + 1)) == Verdict::deviation);
}
