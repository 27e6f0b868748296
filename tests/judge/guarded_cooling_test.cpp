// Guarded acceptance of staged cooling and souring: JCGM 106:2012, 8.3.2 (from memory) on the proof of
// calc/cooling.h, whose own tests have the bounds. The readings are those of rule 5: 57 C to 21 C in 2:00.
#include <random>

#include "judge/bench.h"
#include "judge/cooling_ahead.h"

using namespace bench;

namespace {

plan::Point tray(bool guarded = true) {
    plan::Point p = point("cool", plan::CoolingLimit{bound("57C | 135F"), {{bound("21C | 70F"), hours(2)}}, false, "", ""});
    p.guarded = guarded;
    return p;
}

Batch with_error(Batch batch, std::string_view guard) {
    for (auto& r : batch.facts.readings) r.guard = measure(guard);
    return batch;
}

// From 60 C to 20.8 C in 1:50 as read.
Batch chilled() { return Batch().read(clock(10, 30), "60C").read(clock(11, 0), "48C").read(clock(12, 20), "20.8C"); }

// What a point came to, from best to worst: within, open, unproven, missing, deviation.
int how_bad(const Judged& judged) {
    if (judged.findings.empty()) return 1;
    const Verdict worst = judged.findings.front().verdict;
    return worst == Verdict::within ? 0 : 1 + static_cast<int>(worst);
}

}  // namespace

TEST_CASE("a guarded cooling is within up to the edge of the instrument's error") {
    CHECK(verdict(tray(), with_error(chilled(), "0.2C")) == Verdict::within);
    CHECK(verdict(tray(false), with_error(chilled(), "5C")) == Verdict::within);  // simple acceptance
    CHECK(only(tray(), with_error(chilled(), "0.2C")).detail == only(tray(false), with_error(chilled(), "0.2C")).detail);
    const Judged judged = judge::judge_point(tray(), with_error(chilled(), "0.3C").facts);
    CHECK(judged.standing == Standing::open);
    CHECK(judged.next == "21C less 0.3C for the instrument within 0:10 of the last reading");
}

TEST_CASE("a guarded cooling that only exact readings prove is unproven once nothing more can show it") {
    const Finding f = only(tray(), with_error(chilled(), "0.3C").step("cool", clock(12, 30)));
    CHECK(f.verdict == Verdict::unproven);
    CHECK(f.measured == "21C not surely reached in 1:20");
    CHECK(f.detail ==
          "57C to 21C within 2:00, each reading at the worst that its instrument allows: took more than 1:20; start "
          "between 60C and 48C, end after 20.8C. Temperature assumed to fall strictly between readings. As read "
          "0:00-1:50 to 21C, but the instrument may be off by 0.3C.");
    Batch read_on = chilled().read(clock(12, 30), "20.7C").step("cool", clock(12, 30));
    CHECK(verdict(tray(), with_error(read_on, "0.3C")) == Verdict::within);
    // Before the start too: 57.2 C may have been 56.9 C, so the clock may have run since 60 C, 2:05 before.
    Batch early = Batch().read(clock(10, 30), "60C").read(clock(10, 50), "57.2C").read(clock(12, 35), "19C");
    CHECK(verdict(tray(), with_error(early, "0.2C")) == Verdict::within);
    CHECK(verdict(tray(), with_error(early, "0.3C")) == Verdict::unproven);
    CHECK(only(tray(), with_error(early, "0.3C")).measured == "0:00-2:05 to 21C");
}

TEST_CASE("guarding excuses no cooling that was too slow as read, and in Fahrenheit counts in Fahrenheit") {
    Batch slow = Batch().read(clock(10, 0), "57C").read(clock(12, 1), "21C");
    CHECK(verdict(tray(), with_error(slow, "3C")) == Verdict::deviation);
    CHECK(only(tray(), with_error(slow, "3C")).detail == only(tray(false), slow).detail);
    Batch american = Batch().read(clock(10, 0), "136F").read(clock(11, 50), "69F").step("cool", clock(12, 0));
    CHECK(verdict(tray(), with_error(american, "1F")) == Verdict::within);
    CHECK(verdict(tray(), with_error(american, "0.5C")) == Verdict::within);    // 0.9 F
    CHECK(verdict(tray(), with_error(american, "0.6C")) == Verdict::unproven);  // 1.08 F
}

TEST_CASE("guarded cooling by an instrument of unknown error, and by one that is not valid") {
    Batch batch = chilled().step("cool", clock(12, 30));
    const Finding unknown = only(tray(), batch);
    CHECK(unknown.verdict == Verdict::unproven);
    CHECK(unknown.detail.ends_with("As read 0:00-1:50 to 21C, but how far the instrument may be off is not known."));
    CHECK(judge::judge_point(tray(), chilled().facts).next == "21C by an instrument whose error is known within 2:00 of 57C");
    Batch lapsed = Batch().read(clock(10, 30), "60C").read(clock(12, 20), "20C", "", InstrumentState::lapsed);
    CHECK(only(tray(), with_error(lapsed, "0.1C")).detail ==
          only(tray(false), with_error(lapsed, "0.1C")).detail);  // told as without guarding
    CHECK(verdict(tray(), with_error(lapsed, "0.1C")) == Verdict::unproven);
}

TEST_CASE("a guarded souring is judged the same way, in pH") {
    plan::Point leaven = point("bake", plan::SouringLimit{"mix", {{bound("4.2pH"), hours(12)}}});
    leaven.guarded = true;
    const Batch sour = Batch().step("mix", clock(5, 0)).read(clock(16, 0), "4.15pH").step("bake", clock(20, 0));
    CHECK(verdict(leaven, with_error(sour, "0.05pH")) == Verdict::within);
    CHECK(verdict(leaven, with_error(sour, "0.06pH")) == Verdict::unproven);
}

TEST_CASE("a guarded stage stays due until it is reached for certain, and the prediction aims there") {
    const Batch batch = with_error(chilled(), "0.3C");
    REQUIRE(judge::next_stage(tray(), batch.facts));
    CHECK(judge::next_stage(tray(), batch.facts)->due == clock(12, 30));
    CHECK_FALSE(judge::next_stage(tray(false), batch.facts));
    CHECK_FALSE(judge::next_stage(tray(), with_error(chilled(), "0.2C").facts));
    Batch warm = Batch().read(clock(10, 0), "60C").read(clock(10, 20), "48C").read(clock(10, 40), "39C");
    const auto guarded = judge::cooling_ahead(tray(), with_error(warm, "0.3C").facts, measure("4C"));
    const auto simple = judge::cooling_ahead(tray(false), with_error(warm, "0.3C").facts, measure("4C"));
    REQUIRE(guarded.size() == 1);
    REQUIRE(simple.size() == 1);
    CHECK(to_text(guarded[0].target.first) == "20.7C");
    CHECK(to_text(simple[0].target.first) == "21C");
    CHECK(*guarded[0].at > *simple[0].at);
}

TEST_CASE("rule 10: guarding a point never makes it milder: unproven and deviation never become within") {
    std::mt19937 random(8);
    const auto below = [&](int n) { return static_cast<std::int64_t>(random() % static_cast<unsigned>(n)); };
    plan::LethalityLimit heat;
    heat.t_ref = measure("61C"), heat.z = measure("10.4C"), heat.d = minutes(2);
    heat.studied_from = measure("40C"), heat.studied_to = measure("90C");
    heat.wanted_milli_log = 5000, heat.cap_milli_log = 7000, heat.foods = {"bun"};
    heat.longest_gap = hours(2);
    const std::vector<plan::Limit> limits{
        food_code(), tray().limit, at_least("bake", "60C").limit, at_most("cool", "21C").limit, plan::BeforePackingLimit{bound("21C")},
        heat};
    int differ = 0;
    for (int run = 0; run < 12'000; ++run) {
        plan::Point simple = point("cool", limits[static_cast<std::size_t>(run) % limits.size()]);
        simple.instrument_needed = below(4) > 0;
        plan::Point guarded = simple;
        guarded.guarded = true;
        Batch batch;
        batch.facts.food = "bun";
        Instant at = clock(5, 0);
        std::int64_t value = 45'000 + below(40'000);
        const auto count = 1 + below(8);
        for (std::int64_t i = 0; i < count; ++i) {
            const auto state = below(10) == 0 ? InstrumentState::lapsed : InstrumentState::valid;
            batch.read(at, to_text(measure_of(value, Unit::celsius)), "", state);
            if (below(8) > 0) batch.facts.readings.back().guard = measure_of(below(2'000), Unit::celsius);
            if (below(12) == 0) batch.void_reading(batch.facts.readings.size() - 1);
            at = at + minutes(1 + below(60));
            value += below(6) == 0 ? below(15'000) : -below(22'000);
        }
        if (below(2) == 0) batch.step("cool", at);
        if (below(3) == 0) batch.pack(at);
        const int as_read = how_bad(judge::judge_point(simple, batch.facts));
        const int strict = how_bad(judge::judge_point(guarded, batch.facts));
        INFO("run " << run);
        REQUIRE(strict >= as_read);
        REQUIRE((strict == 4) == (as_read == 4));  // guarding makes no deviation either
        differ += strict != as_read ? 1 : 0;
    }
    CHECK(differ > 200);
}
