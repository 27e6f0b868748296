// Losses between two weighings. Sample: 568.18 g of dough bake to 500 g at 12 % (reference check C38; loss of
// 10 to 13 % from Gisslen, Professional Baking, scaling).
#include "judge/bench.h"

using namespace bench;

namespace {

plan::Point loss(std::string before, std::string after) {
    plan::Point p = point("cool", plan::LossLimit{std::move(before), std::move(after), bound("10%"), bound("13%")});
    p.limit_text = "from 10% to 13% lost";
    p.instrument_needed = false;
    return p;
}

Batch& weigh(Batch& batch, std::string point, Instant at, std::string_view value) {
    batch.read(at, value);
    batch.facts.readings.back().point = std::move(point);
    return batch;
}

Finding between(std::string_view dough, std::string_view loaf) {
    Batch batch;
    weigh(batch, "scaled", clock(5, 0), dough);
    weigh(batch, "baked", clock(7, 0), loaf);
    return only(loss("scaled", "baked"), batch);
}

}  // namespace

TEST_CASE("a loss is inclusive on both sides and compared without rounding") {
    CHECK(between("1000g", "900g").verdict == Verdict::within);
    CHECK(between("1000g", "870g").verdict == Verdict::within);
    CHECK(between("1000g", "900.001g").verdict == Verdict::deviation);
    CHECK(between("1000g", "869.999g").verdict == Verdict::deviation);
    CHECK(between("568.18g", "500g").measured == "12.00%");
    CHECK(between("568.18g", "500g").figure == 12'000);  // thousandths of a percent: 68.18 / 568.18 = 11.99972 %
    CHECK(between("568.18g", "500g").detail == "scaled 568.18g, baked 500g: 12.00% lost, at least 10% and at most 13%.");
    CHECK(between("1000g", "860g").detail == "scaled 1kg, baked 860g: 14.00% lost, at least 10% and at most 13%: too much.");
    CHECK(between("1000g", "1001g").verdict == Verdict::unproven);
    CHECK(between("1000g", "1001g").measured == "weighing error");
    CHECK_FALSE(between("1000g", "1001g").figure);
}

TEST_CASE("several weighings count by their mean, and voided ones not") {
    Batch batch;
    weigh(batch, "scaled", clock(5, 0), "1000g");
    weigh(batch, "scaled", clock(5, 1), "1001g");
    weigh(batch, "baked", clock(7, 0), "880g");
    weigh(batch, "baked", clock(7, 1), "881g");
    weigh(batch, "baked", clock(7, 2), "600g");
    CHECK(only(loss("scaled", "baked"), batch).verdict == Verdict::deviation);
    batch.void_reading(4);
    const Finding f = only(loss("scaled", "baked"), batch);
    CHECK(f.verdict == Verdict::within);  // (1000.5 - 880.5) / 1000.5 = 11.99 %
    CHECK(f.measured == "11.99%");
    CHECK(f.evidence.size() == 4);
}

TEST_CASE("the loss of a whole batch: what went in against what finish weighed") {
    Batch batch;
    const plan::Point p = loss("inputs", "finish");
    CHECK(standing(p, batch) == Standing::open);
    batch.facts.input_mg = 100'000'000;
    CHECK(standing(p, batch) == Standing::open);
    batch.facts.made_mg = 88'000'000;
    batch.finish(clock(8, 0));
    const Finding f = only(p, batch);
    CHECK(f.verdict == Verdict::within);
    CHECK(f.happened == clock(8, 0));
    CHECK(f.detail == "all that went in 100kg, the finished batch 88kg: 12.00% lost, at least 10% and at most 13%.");
    batch.facts.made_mg.reset();
    CHECK(verdict(p, batch) == Verdict::missing);
    CHECK(only(p, batch).detail == "The step cool has passed without a mass of the finished batch.");
}
