// Accumulated lethality as a limit. D and z of muffin batter: Channaiah et al. 2017, Int J Food Microbiol
// 250:1-6 (D 16.5 min at 61 C, studied from 55 to 61 C, z 10.4 C; read in its abstract). Sums by hand from L
// = 10^((T - Tref) / z).
#include "judge/bench.h"

using namespace bench;

namespace {

plan::LethalityLimit muffin() {
    plan::LethalityLimit limit;
    limit.t_ref = measure("61C");
    limit.z = measure("10.4C");
    limit.d = seconds(990);
    limit.studied_from = measure("55C");
    limit.studied_to = measure("61C");
    limit.wanted_milli_log = 5000;
    limit.cap_milli_log = 7000;
    limit.longest_gap = hours(200);  // what the cases of gaps state is their own
    limit.foods = {"muffin", "cake"};
    limit.source = "Study A";
    return limit;
}

plan::Point heat(plan::LethalityLimit limit = muffin()) {
    plan::Point p = point("bake", std::move(limit));
    p.limit_text = "5 log";
    return p;
}

Batch baked() {
    Batch batch;
    batch.facts.food = "muffin";
    return batch;
}

}  // namespace

TEST_CASE("lethality at the reference temperature is minutes over D, inclusive to the second") {
    // 5 log at 61 C takes 5 x 16.5 = 82.5 min.
    const auto of = [&](Instant until) {
        return only(heat(), baked().read(clock(5, 0), "61C").read(until, "61C").step("bake", clock(6, 30)));
    };
    CHECK(of(clock(6, 22, 30)).verdict == Verdict::within);
    CHECK(of(clock(6, 22, 30)).measured == "5.00 log");
    CHECK(of(clock(6, 22, 30)).detail ==
          "F 82.50 min at 61C by the lower end of each interval (trapezoid 82.50 min), 2 readings in "
          "1:22:30. F / D 16.50 min = "
          "5.00 log; wanted 5.00 log. Between two readings no more than 200:00 apart the core is taken to stay no colder than the colder "
          "of them. D and z: Study A.");
    // At a constant temperature both ends of each interval are one: a second less is short for certain.
    CHECK(of(clock(6, 22, 29)).verdict == Verdict::deviation);
}

TEST_CASE("rule 7: lethality counts nothing below the studied temperatures and the rate at their top above") {
    SECTION(
        "standards check C20: 70 C for 10 min would be 4.4453 log by the formula; at 61 C it is 10 / 16.5 = "
        "0.61 log") {
        const Finding f = only(heat(), baked().read(clock(5, 0), "70C").read(clock(5, 10), "70C").step("bake", clock(5, 11)));
        CHECK(f.measured == "0.61 log");
        CHECK(f.verdict == Verdict::deviation);  // not even 4.45 log is 5
        CHECK(f.detail.find("Up to 70.0C, above the studied 61C: counted as 61C.") != std::string::npos);
        CHECK(f.detail.find("Not enough even by the higher end of each interval, 4.45 log.") != std::string::npos);
    }
    SECTION("below: 54 C for a week is nothing") {
        const Finding f = only(heat(), baked().read(clock(5, 0), "54C").read(clock(173, 0), "54C").step("bake", clock(174, 0)));
        CHECK(f.measured == "0.00 log");
        CHECK(f.detail.find("From 54.0C, below the studied 55C: counted as nothing.") != std::string::npos);
    }
    SECTION("55 C itself is studied: 10^(-6 / 10.4) = 0.26490; 10 h are 158.94 min, 9.63 log, shown as the cap") {
        const Finding f = only(heat(), baked().read(clock(5, 0), "55C").read(clock(15, 0), "55C"));
        CHECK(f.verdict == Verdict::within);
        CHECK(f.measured == "at least 7.00 log");
        CHECK(f.detail.find("F 158.94 min") != std::string::npos);
    }
}

TEST_CASE("lethality between readings takes the lower end; the higher end parts unproven from deviation") {
    // 30 min from 55 to 61 C: lower 30 x 0.26490 = 7.95 min, trapezoid 30 x (0.26490 + 1) / 2 = 18.97 min,
    // higher 30 min.
    plan::LethalityLimit limit = muffin();
    limit.d = minutes(10);
    const auto of = [&](std::int64_t wanted_milli_log) {
        limit.wanted_milli_log = wanted_milli_log;
        return only(heat(limit), baked().read(clock(5, 0), "55C").read(clock(5, 30), "61C").step("bake", clock(5, 31)));
    };
    CHECK(of(794).verdict == Verdict::within);
    CHECK(of(795).verdict == Verdict::unproven);
    CHECK(of(795).detail.find("F 7.95 min at 61C by the lower end of each interval (trapezoid 18.97 min)") != std::string::npos);
    CHECK(of(3000).verdict == Verdict::unproven);
    CHECK(of(3000).detail.find("The higher end of each interval would reach it: read more often.") != std::string::npos);
    CHECK(of(3001).verdict == Verdict::deviation);
}

TEST_CASE(
    "standards check C14 in Fahrenheit: 130 F for 112 min is 6.067 log with F 12 min at 140 F for 6.5 log, z "
    "10 F") {
    // FSIS Appendix A (read in public copies): 6.5 log at 140 F in 12 min, so D is 12 / 6.5 min = 110.769 s.
    plan::LethalityLimit limit = muffin();
    limit.t_ref = measure("140F");
    limit.z = measure("10F");
    limit.d = Duration{110'769};
    limit.studied_from = measure("130F");
    limit.studied_to = measure("157F");
    limit.wanted_milli_log = 6500;
    const Finding f = only(heat(limit), baked().read(clock(5, 0), "130F").read(clock(6, 52), "130F").step("bake", clock(7, 0)));
    CHECK(f.measured == "6.07 log");
    CHECK(f.verdict == Verdict::deviation);
}

TEST_CASE("lethality is open until it is enough or the step is over") {
    Batch batch = baked().read(clock(5, 0), "61C");
    Judged judged = judge::judge_point(heat(), batch.facts);
    CHECK(judged.standing == Standing::open);
    CHECK(judged.next == "a second reading: lethality needs a time");
    batch.read(clock(5, 33), "61C");
    judged = judge::judge_point(heat(), batch.facts);
    CHECK(judged.standing == Standing::open);
    CHECK(judged.next == "2.00 log so far of 5.00 log: go on heating, and read again");
    batch.read(clock(6, 23), "61C");
    CHECK(judge::judge_point(heat(), batch.facts).standing == Standing::judged);  // enough, though the step is not over
    CHECK(verdict(heat(), batch) == Verdict::within);
    CHECK(verdict(heat(), batch.read(clock(6, 30), "20C")) == Verdict::within);  // heat adds up: cooling takes none away
    CHECK(standing(heat(), baked()) == Standing::open);
    CHECK(verdict(heat(), baked().step("bake", clock(5, 30))) == Verdict::missing);
    const Finding one = only(heat(), baked().read(clock(5, 0), "90C").step("bake", clock(5, 30)));
    CHECK(one.verdict == Verdict::unproven);
    CHECK(one.detail == "One reading, 90C, has no time to count.");
}

TEST_CASE("rule 7: what nobody saw in a gap counts nothing, and the finding says what is assumed") {
    // D 40 s at 62 C, z 5.8 C: 2 min at 62 C are 3 log.
    plan::LethalityLimit custard = muffin();
    custard.t_ref = measure("62C"), custard.z = measure("5.8C"), custard.d = seconds(40);
    custard.studied_from = measure("56C"), custard.studied_to = measure("66C");
    custard.longest_gap = minutes(3);
    const auto kettle = [&](const std::vector<std::pair<Instant, std::string>>& readings) {
        Batch batch = baked();
        for (const auto& [at, value] : readings) batch.read(at, value);
        return only(heat(custard), batch.step("bake", clock(9, 0)));
    };
    const Finding dipped = kettle({{clock(5, 0), "62C"}, {clock(5, 2), "57C"}, {clock(5, 4), "62C"}});
    CHECK(dipped.measured == "0.82 log");
    CHECK(dipped.verdict == Verdict::unproven);  // at the higher ends 6 log
    const Finding without = kettle({{clock(5, 0), "62C"}, {clock(5, 4), "62C"}});
    CHECK(without.measured == "0.00 log");
    CHECK(without.verdict == Verdict::unproven);
    CHECK(without.detail.find("Between two readings no more than 0:03 apart the core is taken to stay no colder than the colder of them; "
                              "1 longer gap counts nothing, 4.0 min.") != std::string::npos);
    CHECK(without.detail.ends_with("Nobody saw what the heat was in the longer gaps: read more often."));
    CHECK(kettle({{clock(5, 0), "62C"}, {clock(8, 0), "62C"}}).measured == "0.00 log");
    CHECK(kettle({{clock(5, 0), "62C"}, {clock(5, 3), "62C"}, {clock(5, 6), "62C"}}).verdict == Verdict::within);
    custard.longest_gap = {};  // of a plan that was adopted before it had to say so
    const Finding old = kettle({{clock(5, 0), "62C"}, {clock(5, 3), "62C"}, {clock(5, 6), "62C"}});
    CHECK(old.verdict == Verdict::unproven);
    CHECK(old.detail.find("The plan does not say how far apart two readings may be: none counts.") != std::string::npos);
}

TEST_CASE("rule 7: D and z of another kind of food prove nothing") {
    Batch batch = baked().read(clock(5, 0), "61C").read(clock(6, 30), "61C");
    CHECK(verdict(heat(), batch) == Verdict::within);
    batch.facts.food = "egg batter";
    const Finding f = only(heat(), batch);
    CHECK(f.verdict == Verdict::unproven);
    CHECK(f.detail.find("D and z are of another kind of food than egg batter: they prove nothing here.") != std::string::npos);
    batch.facts.food = "";
    CHECK(verdict(heat(), batch) == Verdict::unproven);
}

TEST_CASE("lethality by an instrument that is not valid, and with guarded acceptance") {
    const auto held = [&](InstrumentState state) {
        return baked().read(clock(5, 0), "61C", "", state).read(clock(6, 22, 30), "61C", "", state);
    };
    CHECK(verdict(heat(), held(InstrumentState::lapsed)) == Verdict::unproven);
    CHECK(only(heat(), held(InstrumentState::lapsed)).detail.find("but the calibration of the instrument had lapsed for 61C.") !=
          std::string::npos);
    plan::Point guarded = heat();
    guarded.guarded = true;
    CHECK(verdict(guarded, held(InstrumentState::valid)) == Verdict::unproven);  // how far it may be off is not known
    Batch batch = held(InstrumentState::valid);
    for (auto& r : batch.facts.readings) r.guard = measure("0.5C");
    // Lowered to 60.5 C the rate is 10^(-0.5 / 10.4) = 0.8952: 73.86 min, 4.48 log.
    const Finding f = only(guarded, batch);
    CHECK(f.verdict == Verdict::unproven);
    CHECK(f.detail.find("Enough as read, but with each reading lowered by the error of its instrument it is 4.48 log.") !=
          std::string::npos);
    batch.read(clock(6, 40), "61C");  // 100 min x 0.8952 = 89.5 min, 5.43 log
    batch.facts.readings.back().guard = measure("0.5C");
    CHECK(verdict(guarded, batch) == Verdict::within);
    // A minute short as read stays a deviation, though 0.5 C more would have made it (JCGM 106:2012, 8.3.2: guarding
    // is stricter than simple acceptance; from memory).
    Batch brief = baked().read(clock(5, 0), "60C").read(clock(6, 40), "60C").step("bake", clock(6, 41));
    for (auto& r : brief.facts.readings) r.guard = measure("0.5C");  // 100 min x 10^(-1 / 10.4) = 80.14 min, 4.86 log
    CHECK(verdict(heat(), brief) == Verdict::deviation);
    CHECK(verdict(guarded, brief) == Verdict::deviation);
}

TEST_CASE("more heat or more time never lowers lethality, and a reading left out never raises it") {
    std::uint64_t state = 7;
    const auto random = [&](std::int64_t below) {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        return static_cast<std::int64_t>((state >> 33) % static_cast<std::uint64_t>(below));
    };
    plan::LethalityLimit limit = muffin();
    limit.d = seconds(30);
    for (int run = 0; run < 500; ++run) {
        limit.wanted_milli_log = 500 + random(6000);
        Batch batch = baked();
        std::int64_t at = 0, value = 50'000;
        std::vector<std::pair<std::int64_t, std::int64_t>> rising;  // a strictly rising series
        for (int i = 0; i < 8; ++i) {
            rising.emplace_back(at += 1 + random(4), value += 1 + random(2500));
        }
        const auto read = [&](std::size_t without, std::int64_t warmer) {
            Batch out = baked();
            for (std::size_t i = 0; i < rising.size(); ++i)
                if (i != without) out.read(clock(5, rising[i].first), to_text(measure_of(rising[i].second + warmer, Unit::celsius)));
            return out.step("bake", clock(8, 0));
        };
        const Verdict all = verdict(heat(limit), read(99, 0));
        CHECK(verdict(heat(limit), read(99, 500)) <= all);
        // Between readings the rate lies between the two ends: fewer readings bound it less, so a verdict
        // turns to unproven at most.
        const std::size_t inner = 1 + static_cast<std::size_t>(random(6));
        const Verdict fewer = verdict(heat(limit), read(inner, 0));
        CHECK((fewer == all || fewer == Verdict::unproven));
    }
}
