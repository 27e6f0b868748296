// pH and water activity as a limit: FDA Food Code 2022, 1-201.10, Tables A and B (read in state texts that
// copy them; checks C08 and C09 of the reference file test the tables themselves).
#include "judge/bench.h"

using namespace bench;

namespace {

plan::Point by_table(bool a) {
    plan::Point p = point("cool", plan::ClassLimit{a});
    p.measures = "pH and water activity";
    return p;
}

Verdict of(bool a, std::string_view ph, std::string_view aw) {
    return verdict(by_table(a), Batch().read(clock(5, 0), ph).read(clock(5, 1), aw));
}

}  // namespace

TEST_CASE("pH and water activity of one batch decide together, at the edges of both tables") {
    CHECK(of(true, "7pH", "0.92aw") == Verdict::within);
    CHECK(of(true, "5.6pH", "0.93aw") == Verdict::within);
    CHECK(of(true, "5.601pH", "0.93aw") == Verdict::deviation);
    CHECK(of(true, "4.6pH", "0.96aw") == Verdict::within);
    CHECK(of(true, "4.7pH", "0.96aw") == Verdict::deviation);
    CHECK(of(false, "7pH", "0.87aw") == Verdict::within);
    CHECK(of(false, "5.1pH", "0.88aw") == Verdict::deviation);
    CHECK(of(false, "5pH", "0.9aw") == Verdict::within);
    CHECK(of(false, "4.6pH", "0.91aw") == Verdict::within);
    CHECK(of(false, "4.19pH", "0.93aw") == Verdict::within);
    CHECK(of(false, "4.2pH", "0.93aw") == Verdict::deviation);
    const Finding f = only(by_table(false), Batch().read(clock(5, 0), "4.2pH").read(clock(5, 1), "0.93aw"));
    CHECK(f.measured == "4.2pH, 0.93aw");
    CHECK(f.detail ==
          "4.2pH, 0.93aw: by Table B a product assessment is wanted; until there is one it needs temperature "
          "control.");
    CHECK(only(by_table(true), Batch().read(clock(5, 0), "4.2pH").read(clock(5, 1), "0.93aw")).detail ==
          "4.2pH, 0.93aw: by Table A no temperature control is needed.");
}

TEST_CASE("one of the two is enough only when the other could be anything") {
    const plan::Point b = by_table(false);
    CHECK(verdict(b, Batch().read(clock(5, 0), "0.87aw")) == Verdict::within);
    CHECK(verdict(b, Batch().read(clock(5, 0), "4.19pH")) == Verdict::within);
    const Judged half = judge::judge_point(b, Batch().read(clock(5, 0), "0.93aw").facts);
    CHECK(half.standing == Standing::open);
    CHECK(half.next == "pH of the same batch: 0.93aw alone does not decide");
    const Finding missing = only(b, Batch().read(clock(5, 0), "5pH").step("cool", clock(6, 0)));
    CHECK(missing.verdict == Verdict::missing);
    CHECK(missing.detail == "5pH alone does not decide, and the step cool has passed without water activity.");
    CHECK(standing(b, Batch()) == Standing::open);
    CHECK(verdict(b, Batch().step("cool", clock(6, 0))) == Verdict::missing);
}

TEST_CASE("every pH and water activity counts: a better second reading never erases the first") {
    CHECK(verdict(by_table(false), Batch().read(clock(5, 0), "4.3pH").read(clock(5, 1), "0.93aw").read(clock(5, 2), "4.1pH")) ==
          Verdict::deviation);
}

TEST_CASE("a class that the instruments cannot show is unproven") {
    plan::Point b = by_table(false);
    CHECK(verdict(b, Batch().read(clock(5, 0), "4.1pH", "", InstrumentState::lapsed).read(clock(5, 1), "0.93aw")) == Verdict::unproven);
    b.guarded = true;
    Batch batch = Batch().read(clock(5, 0), "4.14pH").read(clock(5, 1), "0.93aw");
    CHECK(verdict(b, batch) == Verdict::unproven);  // how far the meters may be off is not known
    batch.facts.readings[0].guard = measure("0.05pH");
    batch.facts.readings[1].guard = measure("0.003aw");
    CHECK(verdict(b, batch) == Verdict::within);  // 4.14 + 0.05 = 4.19, still below 4.2
    batch.facts.readings[0].guard = measure("0.06pH");
    const Finding f = only(b, batch);
    CHECK(f.verdict == Verdict::unproven);  // 4.2 belongs to the class above
    CHECK(f.detail ==
          "4.14pH, 0.93aw: by Table B no temperature control is needed, but the instruments may be off by "
          "0.06pH and 0.003aw.");
}
