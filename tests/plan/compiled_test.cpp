// The kept form of a plan says what the plan says, and is not used when it is not whole. The reference is the reader of the texts
// and, for the form itself, the grammar in plan/compiled.h.
#include "plan/compiled.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "plan/changes.h"
#include "plan/starter.h"
#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

std::vector<Text> example_plan() {
    std::vector<Text> texts;
    for (const auto& file : std::filesystem::directory_iterator(PEELBOOK_SOURCE_DIR "/example-site/site")) {
        if (file.path().extension() != ".toml") continue;
        std::ifstream in(file.path());
        texts.push_back({file.path().filename(), std::string(std::istreambuf_iterator<char>(in), {})});
    }
    return texts;
}

void check_round_trip(const std::vector<Text>& texts) {
    const Plan plan = read_adopted_plan(texts);
    REQUIRE_FALSE(plan.points.empty());
    const std::string kept = compiled(plan);
    const auto again = from_compiled(kept);
    REQUIRE(again.has_value());
    CHECK(changes(plan, *again) == std::vector<std::string>{});
    CHECK(changes(*again, plan) == std::vector<std::string>{});
    CHECK(shown(*again, "") == shown(plan, ""));
    CHECK(compiled(*again) == kept);
}

}  // namespace

TEST_CASE("a plan comes back whole from its kept form") {
    check_round_trip(starter_plan("Sample", "Europe/Berlin"));
    check_round_trip(example_plan());
}

TEST_CASE("the kept form is the one that its header describes") {
    Plan plan;
    plan.site.name = "Brød; 2";  // 8 bytes in UTF-8
    plan.site.zone = "UTC";
    plan.calendar.closed = {{2026, 12, 25}};
    plan.shifts = {{"day", "", 360, 840, {"mon"}}};
    plan.places = {{"line-1", ""}};
    CHECK(compiled(plan) == "peelbook plan " + std::to_string(compiled_format) +
                                ";8:Brød; 20:0:0:0:0:3:UTC0;900000;0:2:A41:C2:kg0:0;7;1000;0;0;0;0;"
                                "0;1;2026;12;25;1;3:day0:360;840;1;3:mon0;0;0;0;1;6:line-10:0;0;0;0;0;0;0;0;0;0;");
}

TEST_CASE("negative numbers, every kind of limit and absent values come back") {
    Plan plan;
    const Bound frozen{measure_of(-18'000, Unit::celsius), measure_of(-17'778, Unit::fahrenheit)};
    Point point;
    point.warn_most = frozen;
    point.guarded = true;
    point.room = frozen.first;
    point.room_point = "air";
    Instrument probe{"probe", "", "", std::nullopt, frozen.second, std::nullopt, ""};
    plan.instruments = {probe};
    Product loaf;
    loaf.id = "loaf";
    loaf.dough = DoughAim{frozen.first, "dough", "flour", "water", "room", "leaven"};
    plan.products = {loaf};
    point.interval = Interval{hours(4), 1200, std::nullopt, true, Closed::alarm, "bell", {"start"}};
    const std::vector<Limit> limits = {
        RangeLimit{std::nullopt, frozen},
        TimeLimit{"start", "pack", minutes(5), std::nullopt},
        CoolingLimit{frozen, {{frozen, hours(2), minutes(20)}}, true, "bake", "start"},
        BeforePackingLimit{frozen},
        YesNoLimit{},
        LethalityLimit{
            frozen.first, *frozen.second, minutes(12), frozen.first, frozen.first, 6500, 7000, minutes(2), {"bread", "cake"}, "study"},
        ClassLimit{true},
        LossLimit{"inputs", "finish", frozen, std::nullopt},
        SouringLimit{"feed", {{frozen, hours(12)}}},
        LabelLimit{{"start"}, 2},
        MarketLimit{"gluten",
                    {{"seed-us", "seed", "us", "gluten-free", measure_of(20'000, Unit::mg_per_kg), true},
                     {"seed-eu", "seed", "eu", "", std::nullopt, false}}}};
    for (const Limit& limit : limits) {
        point.id = "p" + std::to_string(plan.points.size());
        point.limit = limit;
        plan.points.push_back(point);
    }
    const auto again = from_compiled(compiled(plan));
    REQUIRE(again.has_value());
    CHECK(changes(plan, *again) == std::vector<std::string>{});
    CHECK(again->points[0].warn_most->first == frozen.first);
    CHECK(again->points[0].warn_most->second == frozen.second);
    CHECK(again->points[1].interval->from_minutes == 1200);
    CHECK_FALSE(again->points[1].interval->until_minutes.has_value());
    CHECK(again->points[1].interval->closed == Closed::alarm);
    CHECK(again->points[1].interval->alarm == "bell");
    CHECK(again->points[1].interval->at == std::vector<std::string>{"start"});
    CHECK(std::get<CoolingLimit>(again->points[2].limit).stages.at(0).within == hours(2));
    CHECK(std::holds_alternative<YesNoLimit>(again->points[4].limit));
    const auto& market = std::get<MarketLimit>(again->points[10].limit);
    CHECK(market.labels.at(0).below);
    CHECK(market.labels.at(0).most == measure_of(20'000, Unit::mg_per_kg));
    CHECK_FALSE(market.labels.at(1).most.has_value());
}

TEST_CASE("a kept plan that is cut, longer, changed in a number or of another format is not used") {
    const std::string kept = compiled(read_adopted_plan({{"site.toml", sound_site}, {"goods.toml", sound_goods}}));
    REQUIRE(from_compiled(kept).has_value());
    for (std::size_t size = 0; size < kept.size(); ++size) {
        INFO("cut to " << size << " bytes");
        CHECK_FALSE(from_compiled(std::string_view(kept).substr(0, size)).has_value());
    }
    CHECK_FALSE(from_compiled(kept + "0;").has_value());
    const std::string name = "peelbook plan " + std::to_string(compiled_format) + ";";
    const std::string rest = kept.substr(name.size());
    CHECK_FALSE(from_compiled("peelbook plan 0;" + rest).has_value());
    CHECK_FALSE(from_compiled(name + "99999999999999999999:" + rest.substr(2)).has_value());
    CHECK_FALSE(from_compiled(name + "-1:" + rest.substr(2)).has_value());
}
