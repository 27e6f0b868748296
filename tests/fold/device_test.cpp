// How the devices and labels of its line stood when a pack passed, rule 12; times worked out by hand: the plan asks for a check every
// four hours, the production day begins at 03:00, the plan is adopted at 05:00 of Monday.
#include "fold/owed/device.h"

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;
using fold::Passing;

namespace {

std::string with(std::string plan, const std::string& after, const std::string& more) {
    return plan.insert(plan.find(after) + after.size(), more);
}

struct BreadLine : Bakery {
    BreadLine() { receive("WF-1", "wheat-flour", "900kg"); }
    void check(const std::string& when, bool passed = true) {
        set(when);
        did(metal(passed));
    }
    // A batch of its own, long done, of which `code` is packed at that time.
    void pack(const std::string& code, const std::string& when, const std::string& product = "loaf") {
        const Instant at_pack = at(when);
        clock.set(at_pack - minutes(60));
        start(code, product);
        did(reading(code, "core", "96C"));
        step(code, "bake");
        const std::int64_t pieces = product == "rye" ? 34 : 54;  // the usual batch
        finish(code, pieces, "43kg");
        clock.set(at_pack);
        did(packed(code + "-P", code, pieces, code + "-CODE"));
    }
    std::string passed(const std::string& code, const std::string& when) const {
        fold::Ledger ledger(book::Book::open(folder / "book.db", book::Book::Mode::read));
        const auto devices = devices_passed(ledger, lot(code + "-P"), at(when));
        REQUIRE(devices.size() == 1);
        CHECK(devices.front().point == "metal");
        CHECK(devices.front().place == "detector");
        const auto state = devices.front().state;
        return std::string(state == Passing::good ? "good" : state == Passing::open ? "open: " : "bad: ") + devices.front().why;
    }
};

struct RunLine : BreadLine {
    RunLine() { adopt(with(std::string(bakery_plan), "device_check = true\n", "at = [\"start\", \"change\", \"end\"]\n")); }
};

}  // namespace

TEST_CASE("rule 12: a pack passed well between two good checks, and is open until the second") {
    BreadLine b;
    b.check("05:10");
    b.pack("L-1", "06:20");
    CHECK(b.passed("L-1", "06:20") == "open: not checked since");
    CHECK(b.passed("L-1", "09:10") == "open: not checked since");  // the next one is owed by then
    CHECK(b.passed("L-1", "09:11") == "bad: no check since, and one is overdue: yes at 2026-11-16 05:10");
    b.check("08:00");
    CHECK(b.passed("L-1", "08:00") == "good");
    CHECK(b.passed("L-1", "2026-12-16 08:00") == "good");  // what is shown stays shown
}

TEST_CASE("rule 12: a check that failed or proves nothing is no good one, before or after") {
    BreadLine b;
    b.check("05:10");
    b.pack("L-1", "06:30");
    b.check("07:00", false);
    CHECK(b.passed("L-1", "07:00") == "bad: the check after was not good: no at 2026-11-16 07:00");
    b.check("07:10");
    b.pack("L-3", "09:50");
    b.check("10:00");
    CHECK(b.passed("L-3", "10:00") == "good");
    CHECK(b.passed("L-1", "10:00") == "bad: the check after was not good: no at 2026-11-16 07:00");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 12: a check that proves nothing holds what passed, as a failed one does") {
    BreadLine b;
    b.adopt(with(std::string(bakery_plan), "device_check = true\n", "instrument = true\n"));
    const auto check = [&](const std::string& when, const std::string& instrument) {
        b.set(when);
        return b.did(record::Inspected{"detector", "metal", "", instrument, true, ""});
    };
    check("05:10", "probe");
    b.pack("L-1", "06:20");
    check("06:30", "probe");
    b.pack("L-2", "07:40");
    const auto unproven = check("08:00", "old-probe");  // never calibrated
    CHECK(b.passed("L-1", "08:00") == "good");
    CHECK(b.passed("L-2", "08:00") == "bad: the check after was not good: yes at 2026-11-16 08:00");
    REQUIRE(unproven.holds.size() == 1);
    CHECK(unproven.holds.front().why == "critical point unproven: metal, yes; limit: must pass");
    CHECK(b.held("L-2-P"));
    CHECK_FALSE(b.held("L-1-P"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 12: a time without a check that was too long holds what was packed in it, and nothing else") {
    BreadLine b;
    b.check("05:10");
    b.pack("L-1", "06:20");
    b.check("06:30");
    b.pack("L-2", "07:30");
    b.set("10:20");
    b.start("L-3", "loaf");  // still in the making: nothing of it passed
    b.set("10:31");
    const auto late = b.did(Bakery::metal(true));
    REQUIRE(late.holds.size() == 1);
    CHECK(late.holds.front().lots == std::vector<std::string>{"L-2-P"});
    CHECK(late.holds.front().why.starts_with("critical point missing: metal, 4:01 without a check; limit: "));
    CHECK(b.passed("L-1", "10:31") == "good");
    CHECK(b.passed("L-2", "10:31") == "bad: too long without a check: yes at 2026-11-16 06:30");
    b.pack("L-4", "11:40");
    b.check("12:00");
    CHECK(b.passed("L-4", "12:00") == "good");
    CHECK_FALSE(b.held("L-4-P"));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 12: what passed in a time without a check goes on once its release is signed, and by nothing less") {
    BreadLine b;
    b.check("06:30");
    b.pack("L-2", "07:30");
    b.check("10:31");
    const auto gaps = b.ask("SELECT anchor FROM finding WHERE point = 'metal' AND ord = 1");
    REQUIRE(gaps.size() == 1);
    const auto sign = [&](const std::string& disposition) {
        b.did(record::Acted{{std::stoll(gaps.front()), "metal", 1}, "packs passed again", "", disposition, "", "", ""});
    };
    sign("downgrade");
    CHECK(b.passed("L-2", "10:31") == "bad: too long without a check: yes at 2026-11-16 06:30");
    sign("release");
    CHECK(b.passed("L-2", "10:31") == "good");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 12: four hours to the minute are in time") {
    BreadLine b;
    b.check("06:30");
    b.pack("L-2", "07:30");
    b.set("10:30");
    CHECK(b.did(Bakery::metal(true)).holds.empty());
    CHECK(b.passed("L-2", "10:30") == "good");
}

TEST_CASE("rule 12: a check of the night before speaks for the morning, unless the point asks for one at the start") {
    SECTION("by the clock alone") {
        BreadLine b;
        b.check("2026-11-17 02:50");
        b.pack("L-1", "2026-11-17 04:30");
        b.check("2026-11-17 05:00");
        CHECK(b.passed("L-1", "2026-11-17 05:00") == "good");
    }
    SECTION("at the start of a run") {
        RunLine b;
        b.check("2026-11-17 02:50");
        b.pack("L-1", "2026-11-17 04:30");
        CHECK(b.passed("L-1", "2026-11-17 04:30") == "bad: no check of that day before it: yes at 2026-11-17 02:50");
        b.check("2026-11-17 04:31");
        b.pack("L-2", "2026-11-17 05:40");
        CHECK(b.passed("L-2", "2026-11-17 05:40") == "open: not checked since");
    }
}

TEST_CASE("rule 12: another product in between asks for a check at the change") {
    RunLine b;
    b.check("05:10");
    b.pack("L-1", "06:20");
    b.pack("R-1", "07:25", "rye");
    CHECK(b.passed("L-1", "07:25") == "open: not checked since");
    CHECK(b.passed("R-1", "07:25") == "bad: no check since another product ran: yes at 2026-11-16 05:10");
    b.check("07:30");
    b.pack("R-2", "08:35", "rye");
    CHECK(b.passed("R-2", "08:35") == "open: not checked since");
    b.check("08:40");
    CHECK(b.passed("L-1", "08:40") == "good");
    CHECK(b.passed("R-2", "08:40") == "good");
    CHECK(b.passed("R-1", "08:40") == "bad: no check since another product ran: yes at 2026-11-16 05:10");
}

TEST_CASE("a device that was never checked is open until a check is overdue; a line without devices has none") {
    BreadLine b;
    b.pack("L-1", "06:30");
    CHECK(b.passed("L-1", "06:30") == "open: not checked yet");
    CHECK(b.passed("L-1", "2026-11-18 06:30") == "bad: no check since, and one is overdue");
    b.receive("MILK-1", "milk", "100kg");
    b.bun("B-1", "WF-1", "MILK-1");
    fold::Ledger ledger(book::Book::open(b.folder / "book.db", book::Book::Mode::read));
    CHECK(devices_passed(ledger, b.lot("B-1"), b.at("07:00")).empty());
    b.check("07:00");
    CHECK(b.passed("L-1", "07:00") == "good");  // first checked after it, and in time
}

TEST_CASE("rule 12: an outage excuses the checks, and shows nothing of what was packed in it") {
    BreadLine b;
    b.check("05:10");
    b.pack("L-1", "08:00");
    b.set("11:00");
    b.did(record::Outage{b.at("06:00"), b.at("11:00"), {}, "power out"});
    b.check("11:10");
    CHECK(b.passed("L-1", "11:10") == "bad: packed in an outage in which a check was owed: yes at 2026-11-16 05:10");
    b.pack("L-2", "12:15");
    b.check("12:20");
    CHECK(b.passed("L-2", "12:20") == "good");
    CHECK(b.faults() == "");
}

TEST_CASE("labels of a run are owed at its end where the plan asks for it") {
    Bakery b;
    b.adopt(std::string(bakery_plan) + std::string(equipment_plan));
    b.receive("WF-1", "wheat-flour", "900kg");
    const auto read = [&](const std::string& moment, const std::string& label) {
        b.did(record::LabelChecked{"line-1", "label-read", moment, label, "", {}, "", ""});
    };
    const auto standing = [&](const std::string& code) {
        fold::Ledger ledger(book::Book::open(b.folder / "book.db", book::Book::Mode::read));
        return labels_read(ledger, b.lot(code));
    };
    read("start", "loaf-1");
    b.loaf("L-1", "WF-1");
    b.did(Bakery::packed("P-1", "L-1", 30, "K1"));
    CHECK(standing("P-1") == Passing::open);
    b.pass(minutes(5));
    read("end", "loaf-1");
    CHECK(standing("P-1") == Passing::good);
    b.pass(minutes(5));
    read("start", "loaf-1");
    b.pass(minutes(5));
    b.did(Bakery::packed("P-2", "L-1", 10, "K1"));
    b.pass(minutes(5));
    read("end", "loaf-2");
    CHECK(standing("P-2") == Passing::bad);
    CHECK(standing("P-1") == Passing::good);
}
