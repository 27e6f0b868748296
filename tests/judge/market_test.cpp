// Measured gluten and sulphites against what the market of the label allows. Boundaries: Regulation (EU) No 828/2014 (gluten-free at
// most 20 mg/kg, very low gluten at most 100), 21 CFR 101.91 (below 20 ppm), Regulation (EU) No 1169/2011 Annex II point 12 (declared
// above 10 mg/kg), CXS 1-1985 (declared at 10 mg/kg and above), 21 CFR 101.100(a)(4), from memory (at 10 ppm and above).
#include "judge/bench.h"
#include "plan/boundaries.h"

using namespace bench;

namespace {

plan::Label market_label(const std::string& market, const std::string& claim, const std::vector<std::string>& declares = {}) {
    plan::Label l;
    l.id = "seed-" + market;
    l.product = "seed";
    l.market = market;
    l.claim = claim;
    l.declares = declares;
    return l;
}

plan::Point lab(const std::string& of, const std::vector<plan::Label>& labels) {
    plan::Plan plan;
    plan.labels = labels;
    plan::Point p = point("cool", {});
    p.products = {"seed"};
    p.measures = of;
    p.limit = plan::MarketLimit{of, plan::labels_of(plan, p, of)};
    return p;
}

Batch content(std::string_view value, const std::string& on_label = "") {
    Batch batch;
    batch.facts.product = "seed";
    batch.facts.label = on_label;
    return batch.read(clock(5, 0), value);
}

Verdict gluten(const std::string& market, std::string_view value, const std::string& claim = "gluten-free") {
    return verdict(lab("gluten", {market_label(market, claim)}), content(value));
}

Verdict sulphites(const std::string& market, std::string_view value, const std::vector<std::string>& declares = {}) {
    return verdict(lab("sulphites", {market_label(market, "", declares)}), content(value));
}

}  // namespace

TEST_CASE("C64 measured gluten under a claim, on both sides of each market's boundary") {
    CHECK(gluten("eu", "20mg/kg") == Verdict::within);  // 828/2014: no more than 20
    CHECK(gluten("eu", "20.1mg/kg") == Verdict::deviation);
    CHECK(gluten("codex", "20mg/kg") == Verdict::within);  // CXS 118-1979, from memory
    CHECK(gluten("codex", "20.1mg/kg") == Verdict::deviation);
    CHECK(gluten("us", "20ppm") == Verdict::deviation);  // 101.91: below 20
    CHECK(gluten("us", "19.9ppm") == Verdict::within);
    CHECK(gluten("eu", "100mg/kg", "very-low-gluten") == Verdict::within);
    CHECK(gluten("eu", "100.1mg/kg", "very-low-gluten") == Verdict::deviation);
    // As typed, to a millionth: nothing is rounded into the limit.
    CHECK(gluten("eu", "20.000001mg/kg") == Verdict::deviation);
    CHECK(gluten("us", "19.999999mg/kg") == Verdict::within);
}

TEST_CASE("C63 measured sulphites that are not declared, on both sides of each market's boundary") {
    CHECK(sulphites("eu", "10mg/kg") == Verdict::within);  // Annex II point 12: above 10
    CHECK(sulphites("eu", "10.1mg/kg") == Verdict::deviation);
    CHECK(sulphites("codex", "9.9mg/kg") == Verdict::within);  // CXS 1-1985: 10 and above
    CHECK(sulphites("codex", "10mg/kg") == Verdict::deviation);
    CHECK(sulphites("us", "9.9ppm") == Verdict::within);  // 101.100(a)(4), from memory: 10 and above
    CHECK(sulphites("us", "10ppm") == Verdict::deviation);
}

TEST_CASE("declared sulphites are within whatever is measured, and a label without a claim says nothing of gluten") {
    for (const char* market : {"eu", "codex", "us"}) CHECK(sulphites(market, "2000mg/kg", {"sulphites"}) == Verdict::within);
    CHECK(only(lab("sulphites", {market_label("eu", "", {"sulphites"})}), content("2000mg/kg")).detail ==
          "2000mg/kg, limit any content declared on label seed-eu, market eu.");
    CHECK(gluten("eu", "2000mg/kg", "") == Verdict::within);
    // ... and without an instrument, since nothing is to be proven.
    Batch batch;
    batch.facts.product = "seed";
    CHECK(verdict(lab("sulphites", {market_label("eu", "", {"sulphites"})}),
                  batch.read(clock(5, 0), "2000mg/kg", "", InstrumentState::none)) == Verdict::within);
}

TEST_CASE("of several markets the strictest decides, and the finding names it") {
    const plan::Point p = lab("gluten", {market_label("eu", "gluten-free"), market_label("us", "gluten-free"), market_label("codex", "")});
    const Finding us = only(p, content("20mg/kg"));
    CHECK(us.verdict == Verdict::deviation);
    CHECK(us.measured == "20mg/kg");
    CHECK(us.detail ==
          "20mg/kg is too much: below 20mg/kg for gluten-free on label seed-us, market us (21 CFR 101.91). Allowed on label seed-eu "
          "(market eu, at most 20mg/kg), seed-codex (market codex, any content).");
    CHECK(only(p, content("25.5ppm")).detail ==
          "25.5ppm is 5.5ppm too much: below 20mg/kg for gluten-free on label seed-us, market us (21 CFR 101.91). Allowed on label "
          "seed-codex (market codex, any content).");
    CHECK(only(p, content("19.9mg/kg")).detail ==
          "19.9mg/kg, limit below 20mg/kg for gluten-free on label seed-us, market us (21 CFR 101.91).");
    const plan::Point so2 = lab("sulphites", {market_label("us", "", {"sulphites"}), market_label("eu", ""), market_label("codex", "")});
    CHECK(verdict(so2, content("9.9mg/kg")) == Verdict::within);
    CHECK(only(so2, content("10mg/kg")).detail ==
          "10mg/kg is too much: below 10mg/kg undeclared on label seed-codex, market codex (CXS 1-1985). Allowed on label seed-us "
          "(market us, any content), seed-eu (market eu, at most 10mg/kg).");
    CHECK(only(lab("sulphites", {market_label("eu", "")}), content("10.1mg/kg")).detail ==
          "10.1mg/kg is 0.1mg/kg too much: at most 10mg/kg undeclared on label seed-eu, market eu (Regulation (EU) No 1169/2011 Annex "
          "II point 12).");
}

TEST_CASE("a pack is judged by its own label alone") {
    const plan::Point p = lab("gluten", {market_label("eu", "gluten-free"), market_label("us", "gluten-free")});
    CHECK(verdict(p, content("20mg/kg", "seed-eu")) == Verdict::within);
    CHECK(verdict(p, content("20mg/kg", "seed-us")) == Verdict::deviation);
    const Finding unknown = only(p, content("1mg/kg", "other"));
    CHECK(unknown.verdict == Verdict::unproven);
    CHECK(unknown.detail == "No label in the plan says what is allowed of gluten.");
}

TEST_CASE("every content counts, none is corrected, and what is owed is missing once the step has passed") {
    const plan::Point p = lab("gluten", {market_label("eu", "gluten-free")});
    CHECK(verdict(p, content("20.1mg/kg").read(clock(6, 0), "3mg/kg").step("cool", clock(7, 0))) == Verdict::deviation);
    Batch none;
    none.facts.product = "seed";
    CHECK(standing(p, none) == Standing::open);
    CHECK(verdict(p, none.step("cool", clock(7, 0))) == Verdict::missing);
    Batch voided = content("20.1mg/kg").read(clock(6, 0), "3mg/kg").void_reading(0);
    CHECK(verdict(p, voided) == Verdict::within);
    CHECK(standing(p, content("3mg/kg").void_reading(0)) == Standing::not_judged);
}

TEST_CASE("a content that the method cannot show is unproven; one that breaks the boundary stays a deviation") {
    plan::Point p = lab("gluten", {market_label("us", "gluten-free")});
    Batch batch;
    batch.facts.product = "seed";
    const Finding none = only(p, batch.read(clock(5, 0), "5ppm", "", InstrumentState::none));
    CHECK(none.verdict == Verdict::unproven);
    CHECK(none.detail ==
          "5ppm, limit below 20mg/kg for gluten-free on label seed-us, market us (21 CFR 101.91), but no instrument was named.");
    p.guarded = true;
    Batch near = content("16ppm");
    CHECK(verdict(p, near) == Verdict::unproven);  // how far the method may be off is not known
    near.facts.readings[0].guard = measure("4ppm");
    CHECK(verdict(p, near) == Verdict::unproven);  // 16 + 4 = 20, which is not below 20
    near.facts.readings[0].guard = measure("3.999999ppm");
    CHECK(verdict(p, near) == Verdict::within);
    Batch over = content("20ppm");
    over.facts.readings[0].guard = measure("4ppm");
    CHECK(verdict(p, over) == Verdict::deviation);
}

TEST_CASE("a warning comes before the boundary") {
    plan::Point p = lab("gluten", {market_label("eu", "gluten-free")});
    p.warn_most = bound("15mg/kg");
    const Finding f = only(p, content("16mg/kg"));
    CHECK(f.verdict == Verdict::within);
    CHECK(f.detail ==
          "16mg/kg, limit at most 20mg/kg for gluten-free on label seed-eu, market eu (Regulation (EU) No 828/2014). 16mg/kg is 1mg/kg "
          "above the operating limit of at most 15mg/kg.");
    CHECK(judge::judge_point(p, content("16mg/kg").facts).next == "16mg/kg is 1mg/kg above the operating limit of at most 15mg/kg");
}
