// Gluten and sulphites measured of a batch and of its packs, through the public face. Boundaries: Regulation (EU) No 828/2014 (at most
// 20 mg/kg), 21 CFR 101.91 (below 20 ppm), Regulation (EU) No 1169/2011 Annex II point 12 (sulphites declared above 10 mg/kg).
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

constexpr std::string_view seed_plan = R"toml(
[[material]]
id = "seed-meal"
name = "meal of seeds"
[[product]]
id = "seed"
name = "seed loaf"
code = "SD"
formula = [ { item = "seed-meal", percent = "100%", flour = true } ]
unit_mass = "500g"
usual_flour = "10kg"
steps = ["mix", "bake", "cool", "pack"]
label = "seed-eu"
[[label]]
id = "seed-eu"
name = "seed loaf"
product = "seed"
market = "eu"
declares = []
claim = "gluten-free"
[[label]]
id = "seed-us"
name = "seed loaf"
product = "seed"
market = "us"
declares = []
claim = "gluten-free"
[[point]]
id = "gluten"
name = "gluten by the laboratory"
step = "pack"
products = ["seed"]
class = "critical"
measures = "gluten"
unit = "mg/kg"
limit = { market = { of = "gluten" } }
optional = true
instrument = false
basis = "Regulation (EU) No 828/2014; 21 CFR 101.91"
action = { product = "Hold, and pack under a label without the claim.", process = "Trace the meal." }
[[point]]
id = "so2"
name = "sulphites by the laboratory"
step = "pack"
products = ["seed"]
class = "operating"
limit = { market = { of = "sulphites" } }
optional = true
)toml";

struct SeedBakery : Bakery {
    SeedBakery() {
        adopt(std::string(bakery_plan) + std::string(seed_plan));
        receive("SM-1", "seed-meal", "100kg");
    }
    void seed(const std::string& code) {
        start(code, "seed");
        use(code, "SM-1", "10kg");
        pass(minutes(30));
        finish(code, 20, "9kg");
        pass(minutes(5));
    }
    Receipt measured(const std::string& lot, const std::string& point, const std::string& value) {
        pass(minutes(1));
        return did(reading(lot, point, value, ""));
    }
    bool held(const std::string& code) const {
        for (const auto& table : site->tables())
            if (table.first == "hold")
                for (const auto& row : table.second.rows)
                    for (const auto& cell : row)
                        if (cell == Cell{code}) return true;
        return false;
    }
};

}  // namespace

TEST_CASE("a batch of a product with labels of two markets is judged by the stricter, and held when it breaks it") {
    SeedBakery b;
    b.seed("SD-1");
    b.measured("SD-1", "gluten", "19.9mg/kg");
    CHECK(b.finding("SD-1", "gluten").verdict == Verdict::within);
    CHECK_FALSE(b.held("SD-1"));
    b.measured("SD-1", "gluten", "20mg/kg");
    const auto f = b.finding("SD-1", "gluten");
    CHECK(f.verdict == Verdict::deviation);
    CHECK(f.measured == "20mg/kg");
    CHECK(f.limit_text == "gluten: below 20mg/kg for gluten-free on label seed-us, market us");
    CHECK(f.detail ==
          "20mg/kg is too much: below 20mg/kg for gluten-free on label seed-us, market us (21 CFR 101.91). Allowed on label seed-eu "
          "(market eu, at most 20mg/kg).");
    CHECK(b.held("SD-1"));
    b.refused(b.packed("SDP-1", "SD-1", 20, "K1", "seed-eu"));
    CHECK(b.site->verify(true).empty());
}

TEST_CASE("a pack is judged by the label it is under when its own content was measured") {
    SeedBakery b;
    b.seed("SD-1");
    b.did(b.packed("SDP-EU", "SD-1", 10, "K1", "seed-eu"));
    b.did(b.packed("SDP-US", "SD-1", 10, "K2", "seed-us"));
    for (const auto& told : b.site->findings_of("SDP-EU")) CHECK(told.finding.point != "gluten");  // nothing is owed of a pack
    b.measured("SDP-EU", "gluten", "20mg/kg");
    CHECK(b.finding("SDP-EU", "gluten").verdict == Verdict::within);
    CHECK(b.finding("SDP-EU", "gluten").limit_text == "gluten: at most 20mg/kg for gluten-free on label seed-eu, market eu");
    const auto receipt = b.measured("SDP-US", "gluten", "20mg/kg");
    CHECK(b.finding("SDP-US", "gluten").verdict == Verdict::deviation);
    CHECK(b.held("SDP-US"));
    CHECK_FALSE(b.held("SDP-EU"));
    b.refused(b.out("customer", "SDP-US", 10, "CAFE"));
    // Amended to 19.9, and countersigned, it is within again; the hold waits for a release, and a void makes nothing milder.
    b.countersigned(b.amended(receipt.seq, b.reading("SDP-US", "gluten", "19.9mg/kg", "")).seq);
    CHECK(b.finding("SDP-US", "gluten").verdict == Verdict::within);
    CHECK(b.held("SDP-US"));
    CHECK(b.site->verify(true).empty());
}

TEST_CASE("voiding the only content measured of a pack leaves its finding as it was") {
    SeedBakery b;
    b.seed("SD-1");
    b.did(b.packed("SDP-US", "SD-1", 20, "K2", "seed-us"));
    const auto receipt = b.measured("SDP-US", "gluten", "20mg/kg");
    REQUIRE(b.site->void_entry(receipt.seq, "QA", "another sample").ok());
    CHECK(b.finding("SDP-US", "gluten").verdict == Verdict::deviation);
    CHECK(b.site->verify(true).empty());
}

TEST_CASE("a US label that does not declare the sulphites of a lot is refused") {
    // 21 CFR 101.100(a)(4), from memory: declared from 10 ppm on, although none of the nine major allergens.
    Bakery b;
    b.adopt(std::string(bakery_plan) + R"toml(
[[material]]
id = "raisin"
name = "raisins"
allergens = ["sulphites"]
[[product]]
id = "fruit"
name = "fruit loaf"
code = "FR"
formula = [ { item = "raisin", percent = "100%", flour = true } ]
steps = ["mix", "pack"]
usual_flour = "10kg"
unit_mass = "500g"
label = "fruit-us"
[[label]]
id = "fruit-us"
name = "fruit loaf"
product = "fruit"
market = "us"
declares = []
)toml");
    b.receive("RA-1", "raisin", "20kg");
    b.start("FR-1", "fruit");
    CHECK(b.refused(Bakery::used("FR-1", "RA-1", "10kg")).given ==
          "use of RA-1 into FR-1, to be packed under label fruit-us, which does not declare sulphites (in RA-1)");
    record::Received unsulphured;  // whose formula is specified with them all the same
    unsulphured.lot = "RA-2";
    unsulphured.material = "raisin";
    unsulphured.supplier = "MILL";
    unsulphured.supplier_lot = "S-9";
    unsulphured.mass = measure("10kg");
    unsulphured.allergens.stated = true;
    b.did(unsulphured);
    b.use("FR-1", "RA-2", "10kg");
    b.pass(minutes(5));
    b.finish("FR-1", 20, "9kg");
    CHECK(b.refused(b.packed("FRP-1", "FR-1", 20, "K1", "fruit-us")).given ==
          "packing FR-1 under label fruit-us, which does not declare sulphites (in formula of fruit)");
}

TEST_CASE("sulphites that no label declares: 10 mg/kg is too much for the US label, 10.1 for both") {
    SeedBakery b;
    b.seed("SD-1");
    b.measured("SD-1", "so2", "9.9ppm");
    CHECK(b.finding("SD-1", "so2").verdict == Verdict::within);
    b.measured("SD-1", "so2", "10ppm");
    CHECK(b.finding("SD-1", "so2").detail ==
          "10ppm is too much: below 10mg/kg undeclared on label seed-us, market us (21 CFR 101.100(a)(4), from memory). Allowed on label "
          "seed-eu (market eu, at most 10mg/kg).");
    b.measured("SD-1", "so2", "10.1mg/kg");
    CHECK(b.finding("SD-1", "so2").detail ==
          "10.1mg/kg is 0.1mg/kg too much: below 10mg/kg undeclared on label seed-us, market us (21 CFR 101.100(a)(4), from memory).");
    CHECK(told(b.refused(b.reading("SD-1", "so2", "0.001%", ""))) == "0.001% for so2 | a content in mg/kg | use a unit of: ppm, mg/kg");
}
