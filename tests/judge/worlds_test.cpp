// Rule 59, on values: a record that waits for a countersign counts where it makes things worse, and nowhere else.
#include "judge/worlds.h"

#include "bench.h"

namespace {

using namespace bench;
using judge::waiting_in;

constexpr std::int64_t waiting_entry = 900, another = 901;

// Amended by `entry`, which waits: `was` until then, `now` from then on.
Batch amended(Batch batch, Instant at, std::string_view was, std::string_view now, std::int64_t entry = waiting_entry) {
    batch.read(at, was).facts.readings.back().in.only_without = entry;
    batch.read(at, now).facts.readings.back().in.only_with = entry;
    return batch;
}

Batch ended_bake() { return Batch().step("bake", clock(5, 45)); }

TEST_CASE("rule 59: without what waits, with each alone, with all: the worst counts, and names what it waits for") {
    const plan::Point core = at_least("bake", "92C");
    const Finding milder = only(core, amended(ended_bake(), clock(5, 40), "69C", "96C"));
    CHECK(milder.verdict == Verdict::deviation);
    CHECK(milder.measured == "69C");
    CHECK(milder.waits == std::vector<std::int64_t>{waiting_entry});
    const Finding worse = only(core, amended(ended_bake(), clock(5, 40), "96C", "69C"));
    CHECK(worse.verdict == Verdict::deviation);
    CHECK(worse.waits.empty());  // it would be no milder with it
    const Finding same = only(core, amended(ended_bake(), clock(5, 40), "96C", "97C"));
    CHECK(same.verdict == Verdict::within);
    CHECK(same.waits.empty());
    // Two that wait, each good by itself and bad together: either alone leaves one of two probes unread.
    plan::Point of_two = core;
    of_two.units = {"front", "back"};
    Batch batch = ended_bake();
    batch.read(clock(5, 40), "96C", "front").facts.readings.back().in.only_without = waiting_entry;
    batch.read(clock(5, 40), "96C", "back").facts.readings.back().in.only_without = another;
    const Judged judged = judge::judge_point(of_two, batch.facts);
    REQUIRE(judged.findings.size() == 2);
    for (const Finding& finding : judged.findings) CHECK(finding.verdict == Verdict::missing);
}

TEST_CASE("rule 59: a measurement whose void waits still counts against the batch, and for nothing") {
    const plan::Point core = at_least("bake", "92C");
    const auto struck = [&](std::string_view value) {
        Batch batch = ended_bake().read(clock(5, 40), value);
        auto voided = batch.facts.readings.back();
        batch.facts.readings.back().in.only_without = waiting_entry;
        voided.voided = true;
        voided.in.only_with = waiting_entry;
        batch.facts.readings.push_back(voided);
        return batch;
    };
    CHECK(only(core, struck("69C")).verdict == Verdict::deviation);
    CHECK(standing(core, struck("96C")) == Standing::not_judged);
}

TEST_CASE("rule 59: a start whose time is moved and waits counts from either") {
    plan::Point proof = point("bake", plan::TimeLimit{"start", "bake", std::nullopt, minutes(60)});
    Batch batch = ended_bake();  // started at 04:00, ended 05:45
    batch.facts.started = clock(5, 0);
    CHECK(verdict(proof, batch) == Verdict::within);
    batch.facts.started_before = {clock(4, 0), waiting_entry};
    CHECK(verdict(proof, batch) == Verdict::deviation);
    CHECK(waiting_in(batch.facts) == std::vector<std::int64_t>{waiting_entry});
}

TEST_CASE("rule 59: an end of a step that is moved and waits counts from either, and with the start moved too, each alone") {
    plan::Point proof = point("bake", plan::TimeLimit{"start", "bake", std::nullopt, minutes(60)});
    const auto moved = [](Instant was, Instant now) {
        Batch batch = Batch().step("bake", was).step("bake", now);
        batch.facts.steps_done[0].in.only_without = waiting_entry;
        batch.facts.steps_done[1].in.only_with = waiting_entry;
        batch.facts.started = clock(5, 0);
        return batch;
    };
    const Finding milder = only(proof, moved(clock(6, 30), clock(5, 45)));
    CHECK(milder.verdict == Verdict::deviation);
    CHECK(milder.waits == std::vector<std::int64_t>{waiting_entry});
    // 45 minutes as first stated, and 45 with both an hour earlier; with the start alone 105.
    Batch both = moved(clock(5, 45), clock(4, 45));
    both.facts.started = clock(4, 0);
    both.facts.started_before = {clock(5, 0), another};
    CHECK(verdict(proof, both) == Verdict::deviation);
}

}  // namespace
