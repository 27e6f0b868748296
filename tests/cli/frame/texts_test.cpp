// What a person reads: whole texts of receipts, findings and refusals.
#include <catch2/catch.hpp>
#include <sstream>

#include "base/text.h"
#include "cli/frame/finding_text.h"
#include "cli/frame/parts.h"
#include "cli/frame/receipt_text.h"
#include "cli/frame/run.h"
#include "cli/keeping/amend_fields.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

// 2026-11-16 05:40 UTC, from `date -u -d @1794807600`.
constexpr Instant five_forty{1'794'807'600'000};

site::ToldFinding told(judge::Verdict verdict, const std::string& measured) {
    site::ToldFinding told;
    told.finding = {.anchor = 412,
                    .point = "bake-core",
                    .ord = 0,
                    .lot = 400,
                    .place = "",
                    .unit = "",
                    .plan_seq = 2,
                    .grade = Grade::critical,
                    .verdict = verdict,
                    .raised = Verdict::within,
                    .happened = five_forty.ms,
                    .measured = measured,
                    .limit_text = "at least 93C",
                    .detail = "",
                    .cleared_by = {},
                    .kept_by = {},
                    .day = 0,
                    .week = 0};
    told.lot_code = "PAN-261116-1";
    if (verdict != judge::Verdict::within) {
        told.product_action = "Hold the batch.";
        told.process_action = "Check the oven.";
    }
    return told;
}

site::Receipt receipt(std::vector<site::ToldFinding> findings) {
    site::Receipt r;
    r.seq = 412;
    r.kind = "reading";
    r.happened = r.written = five_forty;
    r.said = {findings.empty() ? "step bake of PAN-261116-1 is done"
                               : "bake-core " + findings.front().finding.measured + " of PAN-261116-1"};
    r.findings = std::move(findings);
    return r;
}

const std::string last = std::string(caution) + "\n";

}  // namespace

TEST_CASE("a reading that holds: what was recorded with its date, the verdict, the caution") {
    CHECK(receipt_text(receipt({told(judge::Verdict::within, "96.4C")}), Zone::utc()) ==
          "recorded 412  bake-core 96.4C of PAN-261116-1 at 2026-11-16 05:40\n"
          "within: bake-core 96.4C, limit at least 93C\n" +
              last);
}

TEST_CASE(
    "a deviation prints what to do with product and process on a line each, then the hold, then what is "
    "next") {
    site::Receipt r = receipt({told(judge::Verdict::deviation, "80C")});
    r.findings.front().finding.ord = 1;
    r.findings.front().finding.unit = "oven-2";
    r.holds = {{.seq = 413, .lots = {"PAN-261116-1"}, .customers = {"CAFE-1: 40 pieces of PAN-261116-1"}, .why = "bake-core 80C"}};
    r.next = {"a person with the right to release decides"};
    CHECK(receipt_text(r, Zone::utc()) ==
          "recorded 412  bake-core 80C of PAN-261116-1 at 2026-11-16 05:40\n"
          "DEVIATION: bake-core oven-2 80C of PAN-261116-1, limit at least 93C (critical)\n"
          "  product: Hold the batch.\n"
          "  process: Check the oven.\n"
          "  answer it: peelbook act 412:bake-core:1\n"
          "HELD: PAN-261116-1 (entry 413): bake-core 80C\n"
          "  already gone to CAFE-1: 40 pieces of PAN-261116-1\n"
          "next: a person with the right to release decides\n" +
              last);
}

TEST_CASE("no verdict, no caution; late and repeated are said") {
    CHECK(receipt_text(receipt({}), Zone::utc()) == "recorded 412  step bake of PAN-261116-1 is done at 2026-11-16 05:40\n");
    site::Receipt late = receipt({});
    late.late = true;
    late.written = late.happened + minutes(75);
    CHECK(receipt_text(late, Zone::utc()) ==
          "recorded 412  step bake of PAN-261116-1 is done at 2026-11-16 05:40, LATE: written 2026-11-16 "
          "06:55, 1:15 after it "
          "happened\n");
    site::Receipt again = receipt({});
    again.repeated = true;
    CHECK(receipt_text(again, Zone::utc()) ==
          "recorded before 412  step bake of PAN-261116-1 is done at 2026-11-16 05:40\n"
          "  this token was seen before: nothing new was written\n");
}

TEST_CASE("the weigh sheet shows mass, percent of the flour and lots, and sums") {
    site::Receipt r = receipt({});
    r.kind = "started";
    r.weigh_sheet = {{.item = "wheat-flour",
                      .name = "wheat flour",
                      .mass_mg = 100'000'000,
                      .micro_percent = 100'000'000,
                      .lots = {"FLOUR-1", "FLOUR-2"}},
                     {.item = "water", .name = "water", .mass_mg = 62'500'000, .micro_percent = 62'500'000, .lots = {}}};
    r.pieces_expected = 184;
    const std::string text = receipt_text(r, Zone::utc());
    CHECK(text.find("  wheat flour  100kg    100%      FLOUR-1, FLOUR-2\n") != std::string::npos);
    CHECK(text.find("  water        62.5kg   62.5%     none on hand\n") != std::string::npos);
    CHECK(text.find("  together     162.5kg\n") != std::string::npos);
    CHECK(text.find("  makes 184 pieces\n") != std::string::npos);
}

TEST_CASE("JSON of a receipt says the same") {
    const std::string json = receipt_json(receipt({told(judge::Verdict::deviation, "80C")}), Zone::utc()).text(0);
    for (const char* part : {"\"entry\":412", "\"happened\":\"2026-11-16T05:40:00+00:00\"", "\"finding\":\"412:bake-core\"",
                             "\"verdict\":\"deviation\"", "\"product_action\":\"Hold the batch.\"", "\"caution\":"}) {
        CAPTURE(part, json);
        CHECK(json.find(part) != std::string::npos);
    }
}

TEST_CASE("a finding's name survives being typed in again") {
    book::Finding finding;
    finding.anchor = 412;
    finding.point = "bake-core";
    CHECK(key_text(finding) == "412:bake-core");
    finding.ord = 2;
    const auto key = parse_key(key_text(finding));
    REQUIRE(key);
    CHECK(*key == record::FindingKey{412, "bake-core", 2});
    for (const char* wrong : {"", "412", "412:", ":bake-core", "x:bake-core", "412:bake-core:", "412:bake-core:x", "1:a:2:3"}) {
        CAPTURE(wrong);
        CHECK_FALSE(parse_key(wrong));
    }
}

TEST_CASE("a refusal prints on three lines, and a fourth when a name is near") {
    std::ostringstream err;
    print_refusal(err, {"lot 'F-12'", "a lot that is in the book", "receive it first", {"F-11", "F-21"}});
    CHECK(err.str() ==
          "refused: lot 'F-12'\nwanted: a lot that is in the book\nnext: receive it first\nnearest: F-11, "
          "F-21\n");
    std::ostringstream short_err;
    print_refusal(short_err, {"x", "y", "z", {}});
    CHECK(short_err.str() == "refused: x\nwanted: y\nnext: z\n");
}

TEST_CASE("amending sets the named fields and keeps the rest") {
    const auto no_time = [](const std::string&) -> Result<Instant> { return Instant{1000}; };
    record::Statement says = record::Received{};
    auto& received = std::get<record::Received>(says);
    received.lot = "FLOUR-1";
    received.supplier = "MILL-1";
    received.pieces = 4;
    REQUIRE(set_fields(says,
                       {"mass=990kg", "date=2027-01-31", "supplier-lot=W 4471", "allergens.stated=yes", "allergens.contains=wheat,milk",
                        "pieces=0", "document="},
                       no_time)
                .ok());
    CHECK(received.lot == "FLOUR-1");
    CHECK(received.supplier == "MILL-1");
    CHECK(received.mass->value == 990'000'000);
    CHECK(received.date == Date{2027, 1, 31});
    CHECK(received.supplier_lot == "W 4471");
    CHECK(received.allergens == record::Declaration{true, {"wheat", "milk"}, {}});
    CHECK(received.pieces == 0);
    REQUIRE(set_fields(says, {"mass="}, no_time).ok());
    CHECK_FALSE(received.mass);

    record::Statement filled = record::Filled{};
    REQUIRE(set_fields(filled, {"until=06:50", "rest=yes"}, no_time).ok());
    CHECK(std::get<record::Filled>(filled).until == Instant{1000});
    CHECK(std::get<record::Filled>(filled).rest);

    record::Statement packed = record::Packed{};
    REQUIRE(set_fields(packed, {"from=PAN-1=60,PAN-2"}, no_time).ok());
    CHECK(std::get<record::Packed>(packed).from.at(0).pieces == 60);
    CHECK(std::get<record::Packed>(packed).from.at(1).lot == "PAN-2");
}

TEST_CASE("amending refuses a field that the kind does not have, and a value that does not fit") {
    const auto no_time = [](const std::string&) -> Result<Instant> { return Instant{}; };
    record::Statement says = record::StepDone{.lot = "PAN-1", .step = "bake", .note = ""};
    const Check field = set_fields(says, {"stpe=proof"}, no_time);
    REQUIRE_FALSE(field.ok());
    CHECK(field.refusal().given == "field 'stpe'");
    CHECK(field.refusal().wanted == "a field of a step-done: lot, step, note, again");
    CHECK(field.refusal().nearest == std::vector<std::string>{"step"});
    CHECK(set_fields(says, {"proof"}, no_time).refusal().given == "'proof'");
    record::Statement emptied = record::Emptied{};
    CHECK(set_fields(emptied, {"inspected=maybe"}, no_time).refusal().given == "inspected: 'maybe'");
    record::Statement plan = record::PlanAdopted{};
    CHECK(set_fields(plan, {"files=x"}, no_time).refusal().next == "adopt the plan anew");
}
