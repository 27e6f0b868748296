// What readings are worth by what they were read with, and by what can be read at all (rules 2, 56, 57), through the public face.
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

struct Probes : Bakery {
    Probes() {
        adopt(std::string(bakery_plan) + R"toml(
[[possible]]
id = "air"
least = "-5C"
most = "25C"
[[point]]
id = "store-air"
name = "air of the cold store, critical"
place = "cold-store"
class = "critical"
measures = "air"
unit = "C"
limit = { most = "5C" }
possible = { kind = "air" }
basis = "invented for this test"
action = { product = "Hold what lies there.", process = "Look at the chiller." }
[[point]]
id = "milk-warmth"
name = "milk at receipt"
materials = ["milk"]
class = "operating"
measures = "temperature"
unit = "C"
limit = { most = "8C" }
possible = { kind = "air" }
[[instrument]]
id = "spare"
name = "spare probe"
tolerance = "0.5C"
calibrate_every = "28days"
[[instrument]]
id = "bare"
name = "probe of which nobody knows how good it is"
)toml");
        receive("WF-1", "wheat-flour", "500kg");
        set("2026-11-16 12:00");
    }
    // What the core of a loaf, read with this at `when`, is worth.
    book::Finding core(const std::string& lot, const std::string& instrument) {
        start(lot, "loaf");
        did(reading(lot, "core", "96C", instrument));
        return finding(lot, "core");
    }
    static record::ReadingTaken air(const std::string& value, bool sure = true) {
        auto taken = reading("cold-store", "store-air", value);
        taken.sure = sure;
        return taken;
    }
    // value, verdict now, worst so far
    std::vector<std::string> airs() const {
        return ask(
            "SELECT typed || ' ' || verdict || ' ' || raised FROM reading JOIN finding ON anchor = reading.seq AND "
            "finding.point = reading.point WHERE reading.point = 'store-air' ORDER BY reading.happened");
    }
    std::string detail_of(Seq seq) const { return ask("SELECT detail FROM finding WHERE anchor = " + std::to_string(seq)).front(); }
};

bool noted(const Receipt& receipt, const std::string& text) {
    return std::find(receipt.next.begin(), receipt.next.end(), text) != receipt.next.end();
}

}  // namespace

TEST_CASE("rule 57: a pass without figures, or without a tolerance, shows nothing, and a fail needs none") {
    Probes b;
    auto said = Bakery::calibrated(true, "spare");
    said.read.reset();
    CHECK(noted(b.did(said), "without figures it shows nothing: what it read, against what reference"));
    CHECK(b.core("L-1", "spare").verdict == Verdict::unproven);
    CHECK(b.core("L-2", "spare").detail == "96C, limit at least 94C, but the instrument was never calibrated.");
    b.did(Bakery::calibrated(true, "spare"));
    CHECK(b.core("L-3", "spare").verdict == Verdict::within);
    said.passed = false;
    b.pass(minutes(30));
    b.did(said);
    CHECK(b.finding("L-3", "core").verdict == Verdict::unproven);
    CHECK(noted(b.did(Bakery::calibrated(true, "bare")), "it shows nothing: the plan states no tolerance of bare"));
    b.start("L-4", "loaf");
    CHECK(noted(b.did(Bakery::reading("L-4", "core", "96C", "bare")), "bare states no tolerance: the reading proves nothing for core"));
    CHECK(b.finding("L-4", "core").detail == "96C, limit at least 94C, but the instrument is none that this point may rest on.");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 57: a pass that its figures do not bear out is refused, to a user of the library too") {
    Probes b;
    auto off = Bakery::calibrated(false);
    off.passed = true;
    CHECK(told(b.refused(off)) ==
          "probe passed with 3C for 0C | failed: its tolerance is 0.5C | record it as failed, or check the figures");
}

TEST_CASE("rule 57: a good check counts from when it was made, and no reading before it is better for it") {
    Probes b;
    b.did(record::ServiceChanged{"spare", false, "lies in the drawer"});
    b.pass(minutes(10));
    CHECK(b.core("L-1", "spare").detail == "96C, limit at least 94C, but the instrument was out of service.");
    b.pass(minutes(10));
    b.did(Bakery::calibrated(true, "spare"));
    CHECK(b.core("L-2", "spare").verdict == Verdict::within);
    CHECK(b.finding("L-1", "core").verdict == Verdict::unproven);
    b.pass(minutes(10));
    b.did(record::ServiceChanged{"spare", false, "fell into the kettle"});
    CHECK(b.core("L-3", "spare").verdict == Verdict::unproven);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 56: at a place what cannot be is asked, then unproven until a second reading soon before or after agrees") {
    Probes b;
    CHECK(told(b.refused(Probes::air("-18C", false))) ==
          "-18C for store-air | what it can be: from -5C to 25C | type it again; if it really reads so, add --sure");
    b.did_at(Probes::air("4C", false), "08:00");
    const auto first = b.did_at(Probes::air("-18C"), "08:05");
    CHECK(
        noted(first, "-18C is beyond what store-air can be, from -5C to 25C: read again; it proves nothing until a second reading agrees"));
    CHECK(b.airs() == std::vector<std::string>{"4C 0 0", "-18C 1 1"});
    CHECK(b.detail_of(first.seq) ==
          "-18C, limit at most 5C. -18C is beyond what it can be, from -5C to 25C: it proves nothing until a second reading agrees.");
    b.did_at(Probes::air("-17C"), "08:21");  // 16 minutes later: not the same look
    CHECK(b.airs() == std::vector<std::string>{"4C 0 0", "-18C 1 1", "-17C 1 1"});
    auto by_another = b.draft(Probes::air("-16C"));  // 2 C from the one, 1 C from the other
    by_another.by = "QA";
    by_another.happened = b.at("08:15");
    const auto between = b.did(by_another);
    CHECK(b.airs() == std::vector<std::string>{"4C 0 0", "-18C 1 1", "-16C 0 0", "-17C 1 1"});  // typed late, it waits: rule 59
    b.countersigned(between.seq, "MK");
    CHECK(b.airs() == std::vector<std::string>{"4C 0 0", "-18C 0 1", "-16C 0 0", "-17C 0 1"});
    REQUIRE(b.site->void_entry(between.seq, "QA", "nobody read it").ok());
    CHECK(b.airs() == std::vector<std::string>{"4C 0 0", "-18C 1 1", "-17C 1 1"});  // what was never worse than within is gone
    CHECK(b.site->verify(true).empty());
}

TEST_CASE("rule 56: what breaks its limit is a deviation, however strange") {
    Probes b;
    b.did(Probes::air("40C"));
    CHECK(b.airs() == std::vector<std::string>{"40C 3 3"});
}

TEST_CASE("rule 56: an amendment and a receipt are asked as well") {
    Probes b;
    const auto typed = b.did(Probes::air("4C", false));
    const auto asked = b.site->amend(typed.seq, Probes::air("-40C", false), {}, "QA", "typed wrongly");
    REQUIRE_FALSE(asked.ok());
    CHECK(asked.refusal().next == "type it again; if it really reads so, amend sure=yes with it");
    b.amended(typed.seq, Probes::air("-40C"));
    CHECK(b.airs() == std::vector<std::string>{"-40C 1 1"});
    record::Received milk;
    milk.lot = "MILK-1";
    milk.material = "milk";
    milk.supplier = "DAIRY";
    milk.mass = measure("10kg");
    milk.temperature = measure("46C");
    milk.instrument = "probe";
    CHECK(
        told(b.refused(milk)) ==
        "46C for milk-warmth | what it can be: from -5C to 25C | type it again; if it really reads so, receive it without, and record it: "
        "peelbook reading LOT milk-warmth ... --sure");
}
