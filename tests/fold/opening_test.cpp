// Opening stock: what was there when the book began is signed for by whoever adopted the first plan (fold/owed/opening.h).
#include "fold/owed/opening.h"

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site::testing;

namespace {

record::Started dough_of(const std::string& code) {
    record::Started s;
    s.lot = code;
    s.product = "loaf";
    return s;
}

}  // namespace

TEST_CASE("a batch that ran before the first plan, written down on the day of its adoption, is not judged by it; one of later is") {
    Bakery b;  // adopted at 05:00, without shifts
    b.pass(minutes(10));
    b.did_at(dough_of("L-1"), "04:40");
    b.step("L-1", "bake");
    CHECK_FALSE(b.has_finding("L-1", "core"));
    b.did(dough_of("L-2"));
    b.step("L-2", "bake");
    CHECK(b.finding("L-2", "core").verdict == Verdict::missing);
    b.set("2026-11-17 05:00");
    b.did_at(dough_of("L-3"), "2026-11-16 04:50");  // typed a day later, whatever it says
    b.step("L-3", "bake");
    CHECK(b.finding("L-3", "core").verdict == Verdict::missing);
    CHECK(b.faults() == "");
}

TEST_CASE("a later plan makes no opening stock of what ran before it") {
    Bakery b;
    b.set("05:30");
    b.adopt(std::string(bakery_plan));
    b.pass(minutes(5));
    b.did_at(dough_of("L-1"), "05:10");  // before this plan, after the first
    b.step("L-1", "bake");
    CHECK(b.finding("L-1", "core").verdict == Verdict::missing);
    CHECK(b.faults() == "");
}
