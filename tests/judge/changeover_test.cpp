// Residue on one piece of equipment. The cases are those of rules 37 and 40, worked out by hand
// (common practice): residue stays until a verified cleaning, whoever declares it in between.
#include "judge/changeover.h"

#include <catch2/catch.hpp>

using namespace peelbook;
using namespace peelbook::judge;

namespace {

Instant at(std::int64_t minute) { return {minute * 60'000}; }

EquipmentRun run(std::int64_t lot, std::int64_t minute, std::vector<AllergenThere> brings = {}) {
    return {lot, at(minute), std::move(brings)};
}
EquipmentCleaning wet(std::int64_t minute, std::vector<std::string> clears = {"hazelnut", "milk"}) {
    return {minute, at(minute), std::move(clears), {"seen", "swab"}};
}
EquipmentCheck check(const std::string& point, std::int64_t minute, bool within = true) { return {at(minute), point, within}; }

// "2 met hazelnut from 1"
std::vector<std::string> met(const Changeovers& c) {
    std::vector<std::string> out;
    for (const auto& one : c.met) {
        out.push_back(std::to_string(one.lot) + " met " + (one.residue.allergen.sure ? "" : "possible ") + one.residue.allergen.id +
                      " from " + std::to_string(one.residue.lot));
    }
    return out;
}

using Words = std::vector<std::string>;
const AllergenThere nut{"hazelnut", true}, nut_perhaps{"hazelnut", false}, milk{"milk", true};

}  // namespace

TEST_CASE("rule 40: nut, then nut-declaring, then plain with no cleaning between meets the first nut") {
    const auto c = judge_changeovers({}, {run(1, 0, {nut}), run(2, 60, {milk}), run(3, 120)}, {}, {});
    REQUIRE(met(c) == Words{"2 met hazelnut from 1", "3 met hazelnut from 1", "3 met milk from 2"});
    REQUIRE(c.spans.size() == 2);
    REQUIRE_FALSE(c.spans[0].until);
}

TEST_CASE("a verified cleaning clears what it clears, from the moment it was verified") {
    const auto c =
        judge_changeovers({}, {run(1, 0, {nut, {"sesame", true}}), run(2, 60)}, {wet(20)}, {check("seen", 25), check("swab", 40)});
    REQUIRE(met(c) == Words{"2 met sesame from 1"});
    REQUIRE(c.spans[0].until == at(40));
    REQUIRE(c.spans[0].cleaned_by == 20);
    REQUIRE_FALSE(c.spans[1].until);
}

TEST_CASE("a cleaning that nobody verified, or only in part, clears nothing") {
    REQUIRE(met(judge_changeovers({}, {run(1, 0, {nut}), run(2, 60)}, {wet(20)}, {})) == Words{"2 met hazelnut from 1"});
    REQUIRE(met(judge_changeovers({}, {run(1, 0, {nut}), run(2, 60)}, {wet(20)}, {check("seen", 25)})) == Words{"2 met hazelnut from 1"});
}

TEST_CASE("what was read before the cleaning, or after the piece ran again, verifies nothing") {
    const std::vector<EquipmentRun> runs = {run(1, 0, {nut}), run(2, 60), run(3, 120)};
    REQUIRE(met(judge_changeovers({}, runs, {wet(20)}, {check("seen", 10), check("swab", 15)})) ==
            Words{"2 met hazelnut from 1", "3 met hazelnut from 1"});
    REQUIRE(met(judge_changeovers({}, runs, {wet(20)}, {check("seen", 70), check("swab", 75)})) ==
            Words{"2 met hazelnut from 1", "3 met hazelnut from 1"});
}

TEST_CASE(
    "the last reading of a point counts: a swab that failed and passed after another cleaning, and one that "
    "failed at last") {
    const std::vector<EquipmentRun> runs = {run(1, 0, {nut}), run(2, 90)};
    REQUIRE(met(judge_changeovers({}, runs, {wet(20), wet(40)},
                                  {check("seen", 25), check("swab", 30, false), check("seen", 45), check("swab", 50)}))
                .empty());
    REQUIRE(met(judge_changeovers({}, runs, {wet(20)}, {check("seen", 25), check("swab", 30), check("swab", 35, false)})) ==
            Words{"2 met hazelnut from 1"});
}

TEST_CASE("a lot that surely brings it meets nothing; one that may contain it meets what surely lies there") {
    REQUIRE(met(judge_changeovers({}, {run(1, 0, {nut}), run(2, 60, {nut})}, {}, {})).empty());
    REQUIRE(met(judge_changeovers({}, {run(1, 0, {nut}), run(2, 60, {nut_perhaps})}, {}, {})) == Words{"2 met hazelnut from 1"});
    REQUIRE(met(judge_changeovers({}, {run(1, 0, {nut_perhaps}), run(2, 60, {nut_perhaps})}, {}, {})).empty());
    REQUIRE(met(judge_changeovers({}, {run(1, 0, {nut_perhaps}), run(2, 60)}, {}, {})) == Words{"2 met possible hazelnut from 1"});
}

TEST_CASE("of a possible and a sure residue the sure one is told") {
    const auto c = judge_changeovers({}, {run(1, 0, {nut_perhaps}), run(2, 30, {nut}), run(3, 60)}, {}, {});
    REQUIRE(met(c) == Words{"3 met hazelnut from 2"});
}

TEST_CASE("what lay there before the first run is met, and cleared like the rest") {
    const ResidueSpan before{nut, 9, at(-500), {}, 0};
    REQUIRE(met(judge_changeovers({before}, {run(1, 0)}, {}, {})) == Words{"1 met hazelnut from 9"});
    const auto c = judge_changeovers({before}, {run(1, 0)}, {wet(-20)}, {check("seen", -10), check("swab", -5)});
    REQUIRE(met(c).empty());
    REQUIRE(c.spans[0].until == at(-5));
}

TEST_CASE("readings of the very moment at which a lot runs count as before it") {
    REQUIRE(met(judge_changeovers({}, {run(1, 0, {nut}), run(2, 60)}, {wet(60)}, {check("seen", 60), check("swab", 60)})).empty());
}
