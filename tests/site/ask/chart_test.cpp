// Control charts over the book. The first uses the ten values of NIST/SEMATECH e-Handbook 6.3.2.2
// (mean 50.81, mean moving range 1.8778, limits 45.8159 and 55.8041; handbook from memory, recomputed by
// hand); the values stand for core temperatures here.
#include <cmath>

#include "site/ask/control_chart.h"
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

const std::vector<std::string> handbook{"49.6C", "47.6C", "49.9C", "51.3C", "47.8C", "51.2C", "52.6C", "52.4C", "53.6C", "52.1C"};

ChartQuestion ask_core(const Bakery& b) {
    return {"core", "", {}, b.at("2026-11-16 03:00"), b.at("2026-11-23 03:00"), false, calc::RuleSet::western_electric};
}

ChartAnswer charted(const Bakery& b, const ChartQuestion& question) {
    auto answer = b.site->chart(question);
    INFO((answer ? "" : told(answer.refusal())));
    REQUIRE(answer.ok());
    return *answer;
}

void bake_all(Bakery& b, const std::vector<std::string>& cores) {
    b.receive("WF-1", "wheat-flour", "2000kg");
    for (std::size_t i = 0; i < cores.size(); ++i) b.loaf("L-" + std::to_string(10 + i), "WF-1", cores[i]);
}

}  // namespace

TEST_CASE("individuals of a point have the centre and control lines of the handbook") {
    Bakery b;
    bake_all(b, handbook);
    const auto answer = charted(b, ask_core(b));
    CHECK(answer.unit == "C");
    CHECK(answer.what == "core temperature, in C, each reading");
    CHECK(answer.critical);
    REQUIRE(answer.groups.size() == 1);
    const auto& group = answer.groups.front();
    CHECK(group.name == "loaf");
    REQUIRE(group.values.size() == 10);
    CHECK(group.values.front().label == "L-10");
    CHECK_FALSE(group.values.front().range);
    REQUIRE(group.chart);
    CHECK(group.chart->value_limits.centre == Approx(50.81).margin(1e-4));
    CHECK(group.chart->range_limits.centre == Approx(1.8778).margin(1e-4));
    CHECK(group.chart->value_limits.lower == Approx(45.8159).margin(1e-4));
    CHECK(group.chart->value_limits.upper == Approx(55.8041).margin(1e-4));
    CHECK(group.signals.empty());
    CHECK(group.notes.back() == "lines from 10 values are provisional; 20 and more are usual");
    // Every one of these is a deviation from the critical limit of 94 C, though each lies between the control
    // lines.
    CHECK(b.ask("SELECT count(*) FROM finding WHERE point = 'core' AND verdict = 3") == std::vector<std::string>{"10"});
    REQUIRE(group.capability);
    CHECK_FALSE(group.capability->cp);
    CHECK(group.capability->cpk < 0);
}

TEST_CASE("a signal is a note and no verdict; a voided reading is not charted") {
    Bakery b;
    // Eight in a row above the centre line, all within the limit of 94 C.
    bake_all(b, {"95C", "95.2C", "94.8C", "95C", "95.1C", "94.9C", "95C", "94.9C", "97C", "97.1C", "96.9C", "97C", "97.2C", "96.8C", "97C",
                 "97.1C"});
    const auto before = b.ask("SELECT anchor, point, ord, verdict FROM finding");
    const auto answer = charted(b, ask_core(b));
    const auto& notes = answer.groups.front().notes;
    CHECK(std::find(notes.begin(), notes.end(), "L-18 to L-25: 8 in a row on one side of the centre line") != notes.end());
    CHECK(b.ask("SELECT anchor, point, ord, verdict FROM finding") == before);
    CHECK(b.ask("SELECT count(*) FROM finding WHERE point = 'core' AND verdict > 0") == std::vector<std::string>{"0"});
    const auto last = b.did(Bakery::reading("L-25", "core", "120C"));
    CHECK(charted(b, ask_core(b)).groups.front().values.size() == 17);
    REQUIRE(b.site->void_entry(last.seq, "QA", "typed wrongly").ok());
    CHECK(charted(b, ask_core(b)).groups.front().values.size() == 16);
}

TEST_CASE("instruments and people are told apart, lots make subgroups, and a period bounds them") {
    Bakery b;
    bake_all(b, {"95C", "96C", "95C", "97C"});
    for (int i = 0; i < 4; ++i) {
        auto draft = b.draft(Bakery::reading("L-" + std::to_string(10 + i), "core", "98C", "old-probe"));
        draft.by = "BA";
        b.did(draft);
    }
    auto question = ask_core(b);
    question.by = {ChartBy::instrument, ChartBy::person};
    const auto apart = charted(b, question);
    REQUIRE(apart.groups.size() == 2);
    CHECK(apart.groups[0].name == "loaf, old-probe, BA");
    CHECK(apart.groups[1].name == "loaf, probe, MK");
    question = ask_core(b);
    question.xbar = true;
    const auto lots = charted(b, question);
    CHECK(lots.what == "core temperature, in C, each reading, the readings of a lot as a subgroup");
    REQUIRE(lots.groups.size() == 1);
    CHECK(lots.groups.front().subgroup == 2);
    REQUIRE(lots.groups.front().values.size() == 4);
    CHECK(lots.groups.front().values[3].value == Approx(97.5));  // of 97 and 98
    CHECK(lots.groups.front().chart->value_limits.centre == Approx((96.5 + 97 + 96.5 + 97.5) / 4));
    question.until = question.from;
    CHECK(charted(b, question).groups.empty());
}

TEST_CASE("what has no control chart is refused with what has") {
    Bakery b;
    const auto refused = [&](const std::string& point, const std::string& product) {
        auto question = ask_core(b);
        question.point = point;
        question.product = product;
        auto answer = b.site->chart(question);
        REQUIRE_FALSE(answer.ok());
        return told(answer.refusal());
    };
    CHECK(refused("croe", "")
              .find("point 'croe' | a point of the plan that gives a number: core, cold-air | check the name "
                    "| core") == 0);
    CHECK(refused("cooling", "").find("a cooling curve or a yes and no has no control chart") != std::string::npos);
    CHECK(refused("metal", "").find("point metal") == 0);
    CHECK(refused("core", "bun").find("product 'bun' for core | one of loaf, rye") == 0);
}

TEST_CASE("checks of a place are charted, and a logger's daily means beside them") {
    Bakery b;
    b.set("2026-11-20 09:00");
    for (const std::string at : {"2026-11-16 07:00", "2026-11-17 07:00", "2026-11-18 07:00"})
        b.did_at(Bakery::reading("cold-store", "cold-air", "3C"), at);
    record::SeriesTaken series;
    series.subject = "cold-store";
    series.point = "cold-air";
    series.file = "log.csv";
    series.value_unit = "C";
    BytesInMemory bytes("2026-11-16 08:00;2\n2026-11-16 09:00;4\n2026-11-17 08:00;5\n2026-11-18 08:00;4\n");
    REQUIRE(
        b.site->record_series(series, bytes, {.says = {}, .by = "MK", .happened = {}, .token = "", .already_done = false, .why = ""}).ok());
    auto question = ask_core(b);
    question.point = "cold-air";
    const auto answer = charted(b, question);
    CHECK(answer.what == "air, in C, each check");
    REQUIRE(answer.groups.size() == 2);
    CHECK(answer.groups[0].values.size() == 3);
    CHECK(answer.groups[1].name == "daily mean of a logger");
    REQUIRE(answer.groups[1].values.size() == 3);
    CHECK(answer.groups[1].values[0].value == Approx(3));
    CHECK(answer.groups[1].values[0].label == "2026-11-16");
}

namespace {

// Points that no instrument reads: judged from what is recorded of a batch.
constexpr const char* judged_from_events = R"toml(
[[point]]
id = "proof"
name = "proof of the loaf"
step = "bake"
products = ["loaf"]
class = "operating"
chart = true
limit = { time = { from = "mix", until = "bake", least = "45min", most = "55min" } }
[[point]]
id = "stand"
name = "standing of the dough"
step = "mix"
products = ["loaf"]
class = "operating"
limit = { time = { from = "start", until = "mix", least = "8h", most = "12h" } }
[[point]]
id = "shrink"
name = "loss of the bake"
step = "cool"
products = ["loaf"]
class = "quality"
chart = true
limit = { loss = { before = "inputs", after = "finish", least = "9%", most = "13%" } }
)toml";

ChartQuestion ask_point(const Bakery& b, const std::string& point) {
    auto question = ask_core(b);
    question.point = point;
    return question;
}

Seq proofed(Bakery& b, const std::string& code, Duration proof) {
    b.start(code, "loaf");
    b.step(code, "mix");
    b.pass(proof);
    return b.step(code, "bake").seq;
}

}  // namespace

TEST_CASE("minutes between two events are charted as the judge measured them: the handbook's lines again") {
    Bakery b;
    b.adopt(std::string(bakery_plan) + judged_from_events);
    for (std::size_t i = 0; i < handbook.size(); ++i)  // 49.6 min is 49 min 36 s
        proofed(b, "L-" + std::to_string(10 + i), Duration{std::llround(std::stod(handbook[i]) * 60'000)});
    const auto answer = charted(b, ask_point(b, "proof"));
    CHECK(answer.what == "minutes from the end of mix to the end of bake, each batch");
    CHECK(answer.unit == "min");
    CHECK(answer.least == 45.0);
    CHECK(answer.most == 55.0);
    REQUIRE(answer.groups.size() == 1);
    const auto& group = answer.groups.front();
    CHECK(group.name == "loaf");
    REQUIRE(group.chart);
    CHECK(group.values.front().label == "L-10");
    CHECK(group.values.front().value == Approx(49.6));
    CHECK(group.chart->value_limits.centre == Approx(50.81).margin(1e-4));
    CHECK(group.chart->range_limits.centre == Approx(1.8778).margin(1e-4));
    CHECK(group.chart->value_limits.lower == Approx(45.8159).margin(1e-4));
    CHECK(group.chart->value_limits.upper == Approx(55.8041).margin(1e-4));
    REQUIRE(group.capability);
    // By hand: the squares about 50.81 sum to 37.229, / 9 = 4.1366, root 2.0339; Cpk = (55 - 50.81) / (3 x 2.0339).
    CHECK(group.sd == Approx(2.0339).margin(1e-4));
    CHECK(group.capability->cpk == Approx(0.6867).margin(1e-4));
    // The figure is the number behind the words of the finding, and no verdict moved.
    CHECK(b.ask("SELECT measured, figure FROM finding JOIN lot ON lot.id = finding.lot WHERE point = 'proof' AND code = "
                "'L-10'") == std::vector<std::string>{"0:49:36 2976000"});
    CHECK(b.ask("SELECT count(*) FROM finding WHERE point = 'proof' AND verdict > 0") == std::vector<std::string>{"0"});
    auto question = ask_point(b, "proof");
    question.xbar = true;
    const auto refused = b.site->chart(question);
    REQUIRE_FALSE(refused.ok());
    CHECK(told(refused.refusal()) ==
          "--as xbar for proof, mix to bake: from 45 min to 55 min | individuals: this point gives one figure of each "
          "batch | leave --as out: one figure makes no subgroup");
}

TEST_CASE("long times are charted in hours, a loss in percent") {
    Bakery b;
    b.adopt(std::string(bakery_plan) + judged_from_events);
    b.receive("WF-1", "wheat-flour", "2000kg");
    const std::vector<std::string> baked{"44kg", "45kg", "43.5kg"};  // of 50 kg: 12 %, 10 % and 13 % are lost
    for (int i = 0; i < 3; ++i) {
        const std::string code = "L-" + std::to_string(1 + i);
        b.start(code, "loaf");
        b.use(code, "WF-1", "30kg");
        b.use(code, "water", "20kg");
        b.pass(hours(9 + i));
        b.step(code, "mix");
        b.step(code, "bake");
        b.finish(code, 54, baked[static_cast<std::size_t>(i)]);
    }
    const auto stand = charted(b, ask_point(b, "stand"));
    CHECK(stand.what == "hours from the start to the end of mix, each batch");
    CHECK(stand.unit == "h");
    CHECK(stand.least == 8.0);
    CHECK(stand.most == 12.0);
    REQUIRE(stand.groups.size() == 1);
    REQUIRE(stand.groups[0].chart);
    CHECK(stand.groups[0].chart->value_limits.centre == Approx(10));
    CHECK(stand.groups[0].chart->value_limits.upper == Approx(10 + 3 / 1.128));  // moving ranges of 1 h; d2 of two
    const auto shrink = charted(b, ask_point(b, "shrink"));
    CHECK(shrink.what == "percent lost from inputs to finish, each batch");
    CHECK(shrink.unit == "%");
    CHECK(shrink.most == 13.0);
    REQUIRE(shrink.groups.size() == 1);
    REQUIRE(shrink.groups[0].values.size() == 3);
    CHECK(shrink.groups[0].values[0].value == Approx(12));
    CHECK(shrink.groups[0].values[1].value == Approx(10));
    CHECK(shrink.groups[0].values[2].value == Approx(13));
    CHECK(shrink.groups[0].values[2].range == Approx(3));
    CHECK(b.faults() == "");
}

TEST_CASE("a figure is of the records as they stand: voided it goes, recorded again it is charted") {
    Bakery b;
    b.adopt(std::string(bakery_plan) + judged_from_events);
    proofed(b, "L-1", minutes(50));
    const Seq late = proofed(b, "L-2", minutes(95));
    CHECK(b.finding("L-2", "proof").figure == minutes(95).ms);
    CHECK(charted(b, ask_point(b, "proof")).groups.front().values.size() == 2);
    REQUIRE(b.site->void_entry(late, "QA", "the wrong batch").ok());
    CHECK(b.finding("L-2", "proof").verdict == Verdict::deviation);  // a void clears nothing
    CHECK_FALSE(b.finding("L-2", "proof").figure);
    CHECK(charted(b, ask_point(b, "proof")).groups.front().values.size() == 1);
    b.step("L-2", "bake");
    CHECK(b.finding("L-2", "proof").figure == minutes(95).ms);
    CHECK(charted(b, ask_point(b, "proof")).groups.front().values.size() == 2);
    CHECK(b.faults() == "");
}

TEST_CASE("what an earlier plan measured otherwise at the same point is left out, and counted") {
    Bakery b;
    b.adopt(std::string(bakery_plan) + judged_from_events);
    proofed(b, "L-1", minutes(50));
    b.pass(minutes(5));
    std::string other = std::string(bakery_plan) + judged_from_events;
    const std::string mixed = "from = \"mix\", until = \"bake\"";
    other.replace(other.find(mixed), mixed.size(), "from = \"start\", until = \"bake\"");
    b.adopt(other);
    b.pass(minutes(5));
    proofed(b, "L-2", minutes(51));
    const auto answer = charted(b, ask_point(b, "proof"));
    CHECK(answer.judged_otherwise == 1);
    CHECK(left_out_text(answer) == "1 batch left out: the version of the plan in force then measured something else at this point");
    REQUIRE(answer.groups.size() == 1);
    CHECK(answer.groups[0].values.size() == 1);
    CHECK(answer.groups[0].values[0].label == "L-2");
}
