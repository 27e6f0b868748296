// Rule 59: what is typed later, twice or elsewhere makes nothing look better, until another person has countersigned it.
#include <fstream>
#include <map>
#include <sstream>

#include "fold/ratchet/betters.h"
#include "site/bakery.h"

namespace peelbook::site::testing {
namespace {

using fold::Betters;
using judge::Verdict;

std::string_view word_of(Betters betters) {
    switch (betters) {
        case Betters::never:
            return "-";
        case Betters::in_time:
            return "time";
        case Betters::always:
            break;
    }
    return "yes";
}

std::map<std::string, std::vector<std::string>> written_table() {
    std::ifstream file(std::string(PEELBOOK_SOURCE_DIR) + "/tests/fold/ratchet/table.txt");
    REQUIRE(file);
    std::map<std::string, std::vector<std::string>> rows;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::istringstream words(line);
        std::string kind, word;
        words >> kind;
        while (words >> word) rows[kind].push_back(word);
    }
    return rows;
}

template <std::size_t... I> std::vector<record::Statement> one_of_each(std::index_sequence<I...>) {
    return {record::Statement{std::variant_alternative_t<I, record::AnyKind>{}}...};
}

// A batch whose core was too low when the bake was over, and is held.
struct LowCore : Bakery {
    Seq low = 0;
    LowCore() {
        receive("WF-1", "wheat-flour", "900kg");
        start("L-1", "loaf");
        pass(minutes(30));
        low = did(reading("L-1", "core", "69C")).seq;
        step("L-1", "bake");
        REQUIRE(finding("L-1", "core").verdict == Verdict::deviation);
    }
    Seq void_of(Seq entry, const std::string& by = "MK") {
        const auto receipt = site->void_entry(entry, by, "a slip");
        REQUIRE(receipt.ok());
        return receipt->seq;
    }
    Seq moved(Seq entry, const record::Statement& says, const std::string& when) {
        const auto receipt = site->amend(entry, says, at(when), "MK", "another time");
        REQUIRE(receipt.ok());
        return receipt->seq;
    }
    Verdict core(const std::string& lot = "L-1") { return finding(lot, "core").verdict; }
    std::vector<Seq> waits() {
        std::vector<Seq> out;
        for (const auto& one : site->waiting()) out.push_back(one.entry);
        return out;
    }
    Refusal refused_countersign(Seq entry, const std::string& by) {
        auto d = draft(record::Countersigned{{entry}, false, "", false, ""});
        d.by = by;
        return refused(d);
    }
};

}  // namespace

TEST_CASE("rule 59: the table of what an entry betters is the one that was written") {
    const auto wanted = written_table();
    std::size_t named = 0;
    for (const auto& says : one_of_each(std::make_index_sequence<std::variant_size_v<record::AnyKind>>{})) {
        const std::string kind(record::kind_of(says).name);
        const auto row = wanted.find(kind);
        if (row != wanted.end()) ++named;
        for (std::size_t i = 0; i < std::size(fold::matters); ++i) {
            INFO(kind << " " << word(fold::matters[i]));
            CHECK(word_of(fold::betters(says, fold::matters[i])) == (row == wanted.end() ? "-" : row->second.at(i)));
        }
    }
    CHECK(named == wanted.size());
}

TEST_CASE("rule 59: an amended value waits, both values count, and the amender does not countersign it") {
    LowCore b;
    const auto amended = b.amended(b.low, Bakery::reading("L-1", "core", "96C"));
    CHECK(b.core() == Verdict::deviation);
    CHECK(b.waits() == std::vector<Seq>{amended.seq});
    const auto waiting = b.site->waiting().front();
    CHECK(waiting.before == "subject: L-1; point: core; value: 69C; instrument: probe");
    CHECK(waiting.after == "subject: L-1; point: core; value: 96C; instrument: probe");
    REQUIRE(waiting.findings.size() == 1);
    CHECK(b.refused_countersign(amended.seq, "QA").given ==
          "a countersign of entry " + std::to_string(amended.seq) + " by QA, who wrote it");
    SECTION("countersigned, it counts, and the hold stays") {
        b.countersigned(amended.seq);
        CHECK(b.core() == Verdict::within);
        CHECK(b.held("L-1"));
        CHECK(b.waits().empty());
        CHECK(b.refused_countersign(amended.seq, "MK").given == "entry " + std::to_string(amended.seq) + ", which waits for nobody");
    }
    SECTION("refused, it never counts") {
        b.countersigned(amended.seq, "MK", true);
        CHECK(b.core() == Verdict::deviation);
        CHECK(b.waits().empty());
        CHECK(b.ask("SELECT typed FROM reading WHERE point = 'core'").front() == "69C");
    }
    SECTION("the next honest reading launders nothing") {
        b.did(Bakery::reading("L-1", "core", "97C"));
        CHECK(b.core() == Verdict::deviation);
        CHECK(b.waits() == std::vector<Seq>{amended.seq});
    }
    SECTION("one correction at a time") {
        const auto again = b.site->amend(b.low, Bakery::reading("L-1", "core", "98C"), {}, "QA", "once more");
        REQUIRE_FALSE(again.ok());
        CHECK(again.refusal().wanted == "one correction at a time");
    }
    CHECK(b.faults() == "");
}

TEST_CASE("rule 59: a value that no finding tells of yet is not amended or voided away either") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.start("L-1", "loaf");
    b.pass(minutes(30));
    const auto low = b.did(Bakery::reading("L-1", "core", "88C"));  // the bake goes on: unsettled
    b.pass(minutes(2));
    const bool voids = GENERATE(true, false);
    const auto corrected = voids ? b.site->void_entry(low.seq, "MK", "another loaf")
                                 : b.site->amend(low.seq, Bakery::reading("L-1", "core", "96C"), {}, "MK", "88 for 96");
    REQUIRE(corrected.ok());
    CHECK_FALSE(b.has_finding("L-1", "core"));
    b.step("L-1", "bake");
    b.pass(minutes(30));
    b.finish("L-1", 54, "43.2kg");
    CHECK(b.finding("L-1", "core").verdict >= Verdict::missing);
    b.countersigned(corrected->seq, "QA");
    CHECK(b.finding("L-1", "core").verdict == (voids ? Verdict::unproven : Verdict::within));
    CHECK(b.faults() == "");
}

TEST_CASE("rule 59: to another lot or another time a measurement moves only with a countersign") {
    LowCore b;
    SECTION("another lot") {
        b.start("L-2", "loaf");
        const auto moved = b.amended(b.low, Bakery::reading("L-2", "core", "69C"));
        CHECK(b.core() == Verdict::deviation);
        b.did(Bakery::reading("L-2", "core", "96C"));
        b.step("L-2", "bake");
        CHECK(b.core("L-2") != Verdict::missing);
        b.countersigned(moved.seq);
        CHECK(b.core() != Verdict::deviation);
    }
    SECTION("another time") {
        const auto moved = b.moved(b.low, Bakery::reading("L-1", "core", "69C"), "05:10");
        b.did(Bakery::reading("L-1", "core", "96C"));
        CHECK(b.core() == Verdict::deviation);
        CHECK(b.waits() == std::vector<Seq>{moved});
    }
    CHECK(b.faults() == "");
}

TEST_CASE("rule 38: the void of a step withdraws what the step alone made missing, and nothing that was measured") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.start("L-1", "loaf");
    b.pass(minutes(30));
    const auto early = b.step("L-1", "bake");
    b.pass(minutes(20));
    b.step("L-1", "cool");
    REQUIRE(b.finding("L-1", "core").verdict == Verdict::missing);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 59: a receipt whose declaration and time were amended stands as it was once the amendment is refused") {
    LowCore b;
    const auto seq = std::stoll(b.ask("SELECT id FROM lot WHERE code = 'WF-1'").front());
    auto other = std::get<record::Received>(std::get<record::Statement>(b.site->entry(seq)->payload));
    const auto stated = b.ask("SELECT count(*) FROM lot_allergen JOIN lot ON id = lot WHERE code = 'WF-1'");
    other.allergens = {true, {"wheat", "milk", "sesame"}, {}};
    const auto amended = b.site->amend(seq, other, b.at("05:00"), "QA", "another paper");
    REQUIRE(amended.ok());
    b.countersigned(amended->seq, "MK", true);
    CHECK(b.ask("SELECT count(*) FROM lot WHERE code = 'WF-1'").front() == "1");
    CHECK(b.ask("SELECT count(*) FROM lot_allergen JOIN lot ON id = lot WHERE code = 'WF-1'") == stated);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 59: a device check that failed still counts while its void or its correction waits: nothing is packed") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    b.did(Bakery::metal(true));
    b.pass(minutes(10));
    const auto failed = b.did(Bakery::metal(false));
    b.loaf("L-1", "WF-1");
    const auto corrected = GENERATE(0, 1, 2);
    const auto correction = corrected == 0   ? b.site->void_entry(failed.seq, "MK", "nobody checked")
                            : corrected == 1 ? b.site->amend(failed.seq, Bakery::metal(true), {}, "MK", "it was good")
                                             : b.site->amend(failed.seq, Bakery::metal(false), b.at("04:00"), "MK", "earlier");
    REQUIRE(correction.ok());
    b.pass(minutes(1));
    CHECK(b.refused(Bakery::packed("P-1", "L-1", 20, "K1")).given.find("no good check of its line") != std::string::npos);
    if (corrected < 2) {
        b.countersigned(correction->seq, "QA");
        b.did(Bakery::packed("P-1", "L-1", 20, "K1"));
    }
    CHECK(b.faults() == "");
}

TEST_CASE("rule 59: a failed calibration is neither voided nor amended away from what is measured later") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "900kg");
    const auto failed = b.did(Bakery::calibrated(false));
    CHECK(b.site->undo("MK").refusal().wanted == "an event, or a measurement that raised nothing");
    const bool voids = GENERATE(true, false);
    const auto correction = voids ? b.site->void_entry(failed.seq, "MK", "another probe")
                                  : b.site->amend(failed.seq, Bakery::calibrated(true), {}, "MK", "misread");
    REQUIRE(correction.ok());
    b.start("L-1", "loaf");
    b.pass(minutes(30));
    b.did(Bakery::reading("L-1", "core", "96C"));
    CHECK(b.finding("L-1", "core").verdict == Verdict::unproven);
    b.countersigned(correction->seq, "QA");
    CHECK(b.finding("L-1", "core").verdict == Verdict::within);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 59: a label that was read wrong is a measurement: neither undone nor voided away") {
    Bakery b;
    b.adopt(std::string(bakery_plan) + std::string(equipment_plan));
    record::LabelChecked read;
    read.line = "line-1";
    read.moment = "start";
    read.label = "bun-1";  // of a product of the other line
    const auto wrong = b.did(read);
    const auto verdict = [&] { return b.ask("SELECT verdict FROM finding WHERE anchor = " + std::to_string(wrong.seq)).front(); };
    REQUIRE(verdict() == "3");
    CHECK(b.site->undo("MK").refusal().wanted == "an event, or a measurement that raised nothing");
    const auto voided = b.site->void_entry(wrong.seq, "MK", "another line");
    REQUIRE(voided.ok());
    CHECK(verdict() == "3");
    b.countersigned(voided->seq, "QA");
    CHECK(b.ask("SELECT count(*) FROM finding WHERE verdict > 0 AND cleared_by IS NULL").front() == "0");
    CHECK(b.faults() == "");
}

TEST_CASE("undo takes back one's own last entry within ten minutes") {
    LowCore b;
    const auto before = b.site->status().entries;
    SECTION("an event") {
        b.step("L-1", "cool");
        b.pass(minutes(9));
        REQUIRE(b.site->undo("MK").ok());
        CHECK(b.ask("SELECT count(*) FROM waiting").front() == "0");
        CHECK(b.site->undo("QA").refusal().given == "nothing of QA to take back");
    }
    SECTION("not after ten minutes") {
        b.step("L-1", "cool");
        b.pass(minutes(11));
        CHECK(b.site->undo("MK").refusal().given == "entry " + std::to_string(before + 1) + ", written 0:11 ago");
    }
    SECTION("a measurement that raised nothing, as if it had not been typed") {
        const auto slip = b.did(Bakery::reading("L-1", "core", "96C"));
        REQUIRE(b.site->undo("MK").ok());
        CHECK(b.ask("SELECT count(*) FROM waiting").front() == "0");
        CHECK(b.ask("SELECT voided_by FROM fact WHERE seq = " + std::to_string(slip.seq)).front() == std::to_string(slip.seq + 1));
    }
    SECTION("not one outside its limit") {
        b.did(Bakery::reading("L-1", "core", "70C"));
        CHECK(b.site->undo("MK").refusal().wanted == "an event, or a measurement that raised nothing");
    }
    CHECK(b.faults() == "");
}

}  // namespace peelbook::site::testing
