// Labels read on a line against what was packed there, and labels counted; worked out by hand (common
// practice).
#include "judge/label_check.h"

#include <catch2/catch.hpp>

#include "judge/declaration.h"

using namespace peelbook;
using namespace peelbook::judge;

namespace {

Instant at(std::int64_t minute) { return {minute * 60'000}; }

plan::Point the_point() {
    plan::Point point;
    point.id = "label-read";
    point.limit = plan::LabelLimit{{"start", "end"}, 2};
    return point;
}

std::vector<std::string> judged(const PackFact& pack, const std::vector<LabelReading>& readings) {
    const auto point = the_point();
    std::vector<std::string> out;
    for (const auto& f : judge_label_readings(point, std::get<plan::LabelLimit>(point.limit), pack, readings))
        out.push_back(std::to_string(f.ord) + " " + std::string(word(f.verdict)) + ": " + f.measured);
    return out;
}

LabelReading read(std::int64_t minute, const std::string& moment, const std::string& label = "loaf-1", const std::string& code = "K1",
                  const std::string& date = "") {
    return {minute, at(minute), from_word<LabelMoment>(moment).value(), label, code, date};
}

using Words = std::vector<std::string>;
const PackFact pack{at(60), "loaf-1", "K1", "2026-11-20"};

}  // namespace

TEST_CASE("a label that was read at the start and at the end of the run, as it was packed under") {
    REQUIRE(judged(pack, {read(0, "start"), read(90, "end")}) == Words{"0 within: loaf-1, code K1", "1 within: loaf-1, code K1"});
}

TEST_CASE("the end is not owed until the run has ended or another has begun") {
    REQUIRE(judged(pack, {read(0, "start")}) == Words{"0 within: loaf-1, code K1"});
    REQUIRE(judged(pack, {read(0, "start"), read(95, "start", "rye-1")}) ==
            Words{"0 within: loaf-1, code K1", "1 missing: label not read"});
    REQUIRE(judged(pack, {read(0, "start"), read(70, "reel"), read(90, "end")}) ==
            Words{"0 within: loaf-1, code K1", "1 within: loaf-1, code K1"});
}

TEST_CASE("nothing read before the packing, or only before the run had ended, is missing") {
    REQUIRE(judged(pack, {}) == Words{"0 missing: label not read"});
    REQUIRE(judged(pack, {read(0, "start"), read(30, "end")}) == Words{"0 missing: label not read"});
}

TEST_CASE("another label, code or date than was packed under is a deviation, on a new reel too") {
    REQUIRE(judged(pack, {read(0, "start", "rye-1")}) == Words{"0 deviation: rye-1, code K1"});
    REQUIRE(judged(pack, {read(0, "start", "loaf-1", "K2")}) == Words{"0 deviation: loaf-1, code K2"});
    REQUIRE(judged(pack, {read(0, "start", "loaf-1", "", "2026-11-21")}) == Words{"0 deviation: loaf-1, date 2026-11-21"});
    REQUIRE(judged(pack, {read(0, "start"), read(40, "reel", "rye-1")}) == Words{"0 deviation: rye-1, code K1"});
    REQUIRE(judged(pack, {read(0, "start", "loaf-1", "", "2026-11-20")}) == Words{"0 within: loaf-1, date 2026-11-20"});
}

TEST_CASE("rule 12: another label on a new reel of the same run counts back to the last good reading, a right one says nothing") {
    REQUIRE(judged(pack, {read(0, "start"), read(90, "reel", "rye-1")}) ==
            Words{"0 within: loaf-1, code K1", "2 deviation: rye-1, code K1"});
    REQUIRE(judged(pack, {read(0, "start"), read(90, "reel", "loaf-1", "K2")}) == Words{"0 within: loaf-1, code K1"});
    REQUIRE(judged(pack, {read(0, "start"), read(70, "reel"), read(90, "reel", "rye-1")}) == Words{"0 within: loaf-1, code K1"});
    REQUIRE(judged(pack, {read(0, "start"), read(90, "change", "rye-1"), read(95, "reel", "rye-1")}) ==
            Words{"0 within: loaf-1, code K1", "1 missing: label not read"});
}

TEST_CASE("issued labels are applied, spoiled or returned, but for as many as may be lost") {
    const auto point = the_point();
    const auto& limit = std::get<plan::LabelLimit>(point.limit);
    const auto count = [&](std::int64_t applied) { return judge_label_count(point, limit, {at(0), 500, applied, 12, 8}); };
    REQUIRE(count(480).verdict == Verdict::within);
    REQUIRE(count(478).verdict == Verdict::within);
    REQUIRE(count(477).verdict == Verdict::deviation);
    REQUIRE(count(477).measured == "3 labels not accounted for");
    REQUIRE(count(477).detail == "500 issued - 477 applied - 12 spoiled - 8 returned = 3.");
    REQUIRE(count(481).verdict == Verdict::deviation);
    REQUIRE(count(481).measured == "1 labels more than were issued");
}

TEST_CASE("a lot's declaration against its material's specification") {
    plan::Material flour;
    flour.allergens = {"wheat"};
    flour.may_contain = {"rye"};
    const auto judged_of = [&](const Declared& declared) {
        const auto j = judge_declaration(flour, declared, at(0));
        return std::string(word(j.finding.verdict)) + " " + std::string(word(j.grade)) + ": " + j.finding.measured;
    };
    REQUIRE(judged_of({true, {"wheat"}, {"rye"}}) == "within critical: as specified");
    REQUIRE(judged_of({true, {"wheat"}, {}}) == "within critical: as specified");
    REQUIRE(judged_of({false, {}, {}}) == "unproven critical: not stated");
    REQUIRE(judged_of({true, {"wheat", "soy"}, {}}) == "deviation critical: new: soy");
    REQUIRE(judged_of({true, {"wheat", "rye"}, {}}) == "deviation critical: new: rye");  // was only "may contain"
    REQUIRE(judged_of({true, {"wheat"}, {"lupin"}}) == "deviation critical: new: lupin (may contain)");
    REQUIRE(judged_of({true, {}, {}}) == "deviation operating: not declared any more: wheat");
}
