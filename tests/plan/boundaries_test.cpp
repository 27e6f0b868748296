// What the market of a label allows of gluten and sulphites: boundaries against their sources, limits read and told in words, faults
// told. Each message is asserted whole.
#include "plan/boundaries.h"

#include <catch2/catch.hpp>

#include "plan/changes.h"
#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

// "at most 10mg/kg", "below 20mg/kg", "none"
std::string words_of(const std::optional<Boundary>& b) {
    if (!b) return "none";
    return (b->below ? "below " : "at most ") + to_text(b->at);
}

std::string seed_goods(const std::string& labels, const std::string& material = "seed-meal", const std::string& allergens = "") {
    return "[[material]]\nid = \"" + material + "\"\nname = \"meal\"\nallergens = [" + allergens +
           "]\n[[product]]\nid = \"seed\"\nname = \"seed loaf\"\nformula = [ { item = \"" + material +
           "\", percent = \"100%\", flour = true } ]\nsteps = [\"mix\", \"bake\", \"pack\"]\n" + labels;
}

std::string seed_label(const std::string& market, const std::string& more) {
    return "[[label]]\nid = \"seed-" + market + "\"\nname = \"seed loaf\"\nproduct = \"seed\"\nmarket = \"" + market + "\"\n" + more;
}

std::string content_point(const std::string& of, const std::string& more = "products = [\"seed\"]\nstep = \"pack\"\n") {
    return "[[point]]\nid = \"lab\"\nname = \"lab\"\nclass = \"quality\"\n" + more + "limit = { market = { of = \"" + of + "\" } }\n";
}

const std::string free_of_gluten = "declares = []\nclaim = \"gluten-free\"\n";

std::string told_of(const std::string& text) {
    std::string all;
    for (const Fault& f : outcome_with(text).faults)
        all += (f.warning ? "warning: " : "") + f.found + "; wanted: " + f.wanted + " [" + f.remedy + "]\n";
    return all;
}

std::string limit_text_of(const std::string& text) {
    const Outcome outcome = outcome_with(text);
    for (const Fault& f : outcome.faults) UNSCOPED_INFO(to_text(f));
    REQUIRE(outcome.faults.empty());
    CHECK(outcome.plan.points.back().dimension == Dimension::per_million);
    return outcome.plan.points.back().limit_text;
}

}  // namespace

TEST_CASE("rule 41: sulphites not declared: at most 10 mg/kg in the EU, below it under Codex and in the US") {
    // Regulation (EU) No 1169/2011 Annex II point 12: declared at more than 10 mg/kg.
    CHECK(words_of(undeclared_sulphites(Market::eu)) == "at most 10mg/kg");
    // CXS 1-1985: declared at 10 mg/kg and above.
    CHECK(words_of(undeclared_sulphites(Market::codex)) == "below 10mg/kg");
    // 21 CFR 101.100(a)(4), from memory: 10 ppm or more is a detectable amount. 130.9(a), read in a public copy, has the same words.
    CHECK(words_of(undeclared_sulphites(Market::us)) == "below 10mg/kg");
}

TEST_CASE("the vocabulary and the boundary of sulphites agree: each market lists them") {
    for (const Market m : {Market::eu, Market::us, Market::codex}) CHECK(listed(*allergen("sulphites"), m));
}

TEST_CASE("rule 41: gluten-free: at most 20 mg/kg in the EU and under Codex, below it in the US") {
    // Regulation (EU) No 828/2014, Annex: no more than 20 mg/kg. CXS 118-1979, from memory. 21 CFR 101.91: below 20 ppm.
    CHECK(words_of(claim_boundary(Market::eu, "gluten-free")) == "at most 20mg/kg");
    CHECK(words_of(claim_boundary(Market::codex, "gluten-free")) == "at most 20mg/kg");
    CHECK(words_of(claim_boundary(Market::us, "gluten-free")) == "below 20mg/kg");
    // Regulation (EU) No 828/2014, Annex: very low gluten, no more than 100 mg/kg.
    CHECK(words_of(claim_boundary(Market::eu, "very-low-gluten")) == "at most 100mg/kg");
    CHECK(words_of(claim_boundary(Market::us, "very-low-gluten")) == "none");
    CHECK(words_of(claim_boundary(Market::codex, "very-low-gluten")) == "none");
    CHECK(words_of(claim_boundary(Market::eu, "")) == "none");
}

TEST_CASE("a limit of the label's market is told in words, label by label") {
    const std::string labels = seed_label("eu", free_of_gluten) + seed_label("us", free_of_gluten) + seed_label("codex", "declares = []\n");
    const std::string text = seed_goods(labels) + content_point("gluten");
    CHECK(limit_text_of(text) ==
          "gluten: at most 20mg/kg for gluten-free on label seed-eu, market eu; below 20mg/kg for gluten-free on label seed-us, "
          "market us; any content on label seed-codex, market codex, which claims nothing of gluten");
    CHECK(shown(outcome_with(text).plan, "lab").find("  limit: gluten: at most 20mg/kg for gluten-free on label seed-eu, market eu;") !=
          std::string::npos);
    CHECK(shown(outcome_with(text).plan, "seed-us").find("  claims: gluten-free\n") != std::string::npos);

    const std::string fruit = seed_goods(
        seed_label("eu", "declares = []\n") + seed_label("codex", "declares = []\n") + seed_label("us", "declares = [\"sulphites\"]\n"),
        "raisin", "\"sulphites\"");
    const Outcome outcome = outcome_with(fruit + content_point("sulphites"));
    CHECK(outcome.plan.points.back().limit_text ==
          "sulphites as SO2: at most 10mg/kg undeclared on label seed-eu, market eu; below 10mg/kg undeclared on label seed-codex, "
          "market codex; any content declared on label seed-us, market us");
    // An adopted plan is read without the cross rules, and still knows its labels.
    const Plan adopted = read_adopted_plan({{"site.toml", sound_site}, {"goods.toml", sound_goods}, {"plan.toml", text}});
    CHECK(std::get<MarketLimit>(adopted.points.back().limit).labels.size() == 3);
    CHECK(adopted.points.back().limit_text == limit_text_of(text));
}

TEST_CASE("plan show allergens ends with the boundaries and their sources") {
    const std::string text = shown(outcome_with("").plan, "allergens");
    for (const char* line :
         {"  eu, sulphites as SO2 that are not declared: at most 10mg/kg (Regulation (EU) No 1169/2011 Annex II point 12)\n",
          "  us, sulphites as SO2 that are not declared: below 10mg/kg (21 CFR 101.100(a)(4), from memory)\n",
          "  codex, sulphites as SO2 that are not declared: below 10mg/kg (CXS 1-1985)\n",
          "  eu, gluten under the claim gluten-free: at most 20mg/kg (Regulation (EU) No 828/2014)\n",
          "  eu, gluten under the claim very-low-gluten: at most 100mg/kg (Regulation (EU) No 828/2014)\n",
          "  us, gluten under the claim gluten-free: below 20mg/kg (21 CFR 101.91)\n",
          "  codex, gluten under the claim gluten-free: at most 20mg/kg (CXS 118-1979, from memory)\n",
          "sulphites: sulphur dioxide and sulphites; listed by EU, US, Codex\n"}) {
        INFO(line);
        CHECK(text.find(line) != std::string::npos);
    }
}

TEST_CASE("a limit that no label can judge is refused where it stands") {
    CHECK(faults_with(seed_goods("") + content_point("sulphites")) ==
          "plan.toml:14:13: error: point 'lab' judges sulphites, and no label of product 'seed' is in the plan; wanted: a [[label]] "
          "with product = \"seed\": its market sets the boundary\n"
          "    products = [\"seed\"]\n"
          "                ^\n"
          "    [write the label it is packed under, or take the product out]");
    CHECK(told_of(seed_goods(seed_label("eu", "declares = []\n")) + content_point("gluten")) ==
          "point 'lab' judges gluten, and no label of product 'seed' claims anything of gluten; wanted: claim = \"gluten-free\" or "
          "\"very-low-gluten\" on one of them: only a claim has a boundary [write the claim as it is printed, or take the product out]\n");
    CHECK(told_of(content_point("sulphites", "materials = [\"milk\"]\n")) ==
          "point 'lab' judges sulphites by the labels of a product and is read on materials; wanted: products = [\"...\"]: the law's "
          "boundary is of the food as sold [read it on the products that are packed; what is bought has a limit of its own, like limit "
          "= { most = \"20mg/kg\" }]\n");
    CHECK(told_of(content_point("gluten", "place = \"line-1\"\noptional = true\n")).find("is read on a place; wanted") !=
          std::string::npos);
    CHECK(told_of(seed_goods(seed_label("eu", free_of_gluten)) + content_point("glutin")) ==
          "warning: label 'seed-eu' claims gluten-free, and no control point measures gluten of 'seed'; wanted: a point with limit = { "
          "market = { of = \"gluten\" } } [write one, or the claim rests on nothing in the book]\n"
          "point 'lab' limit market: of is 'glutin'; wanted: 'gluten' or 'sulphites' [did you mean 'gluten'? If not: write one of these "
          "words]\n");
    // A warning must lie inside the strictest boundary; the unit must be one of content.
    const std::string gluten = seed_goods(seed_label("eu", free_of_gluten)) + content_point("gluten");
    CHECK(told_of(gluten + "warn = { most = \"15mg/kg\" }\nunit = \"mg/kg\"\nacceptance = \"guarded\"\n").empty());
    CHECK(told_of(gluten + "warn = { most = \"25mg/kg\" }\n") ==
          "point 'lab' warns at most 25mg/kg, beyond its limit 20mg/kg; wanted: a warning that comes before the limit breaks [bring it "
          "inside the limit]\n");
    CHECK(told_of(gluten + "unit = \"%\"\n") ==
          "point 'lab': unit '%' is of percentage, but the limit is of content in mg/kg; wanted: one and the same [correct the unit or "
          "the limit]\n");
}

TEST_CASE("a claim that its market does not know, or that the formula speaks against") {
    CHECK(faults_with(seed_goods(seed_label("us", "declares = []\nclaim = \"very-low-gluten\"\n"))) ==
          "plan.toml:16:9: error: label 'seed-us': claim 'very-low-gluten' on a label of market 'us', which has no rule for it; wanted: "
          "a claim that the market of the label defines\n"
          "    claim = \"very-low-gluten\"\n"
          "            ^\n"
          "    [take it out, or correct the market]");
    CHECK(told_of(seed_goods(seed_label("eu", "declares = []\nclaim = \"glutenfree\"\n"))) ==
          "label 'seed-eu': claim 'glutenfree'; wanted: one of: gluten-free, very-low-gluten [did you mean 'gluten-free'? If not: write "
          "what the printed label says of gluten, or take the key out]\n");
    CHECK(told_of(seed_goods(seed_label("eu", "declares = [\"oats\"]\nclaim = \"gluten-free\"\n"), "oat-meal", "\"oats\"") +
                  content_point("gluten")) ==
          "warning: label 'seed-eu' claims gluten-free, and the formula of 'seed' brings oats; wanted: none that is not specially "
          "processed, and oats only where they are kept pure (Regulation (EU) No 828/2014) [correct the claim, or the allergens of the "
          "material]\n");
}

TEST_CASE("a US label must declare sulphites that the formula brings") {
    // 21 CFR 101.100(a)(4), from memory: from 10 ppm on, whatever FALCPA lists.
    CHECK(told_of(seed_goods(seed_label("us", "declares = []\n"), "raisin", "\"sulphites\"")) ==
          "warning: label 'seed-us' does not declare sulphites, which the formula of 'seed' brings; wanted: every allergen that market "
          "'us' lists [correct the label, or the allergens of the material, before anything is packed under it]\n");
}
