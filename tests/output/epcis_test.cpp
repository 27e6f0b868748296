// EPCIS documents. Sources: EPCIS 2.0 and CBV 2.0 (GS1) with their published JSON Schema, run by
// python3-jsonschema (tests/output/epcis); names as GS1 Digital Link 1.2 and CBV 2.0 section 8 write them.
#include "output/epcis.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "run_program.h"

using namespace peelbook;
using trace::CustodyEvent;

namespace {

constexpr std::int64_t evening = 1'795'550'400'000;  // 2026-11-24T20:00:00Z

CustodyEvent event(CustodyEvent::Kind kind, std::int64_t seq, const char* step, const char* action) {
    CustodyEvent out;
    out.kind = kind;
    out.seq = seq;
    out.happened = evening;
    out.written = evening + 65'250;
    out.offset_minutes = 60;
    out.step = step;
    out.disposition = "in_progress";
    out.action = action;
    return out;
}

trace::Custody sample() {
    using Kind = CustodyEvent::Kind;
    auto received = event(Kind::object, 7, "receiving", "OBSERVE");
    received.goods = {{"09520000471019", "C/77", {}, 12'500'000}};
    received.from = {"DAIRY-1", "9520000470029"};
    received.document = "N 5";
    received.issuer = received.from;
    auto made = event(Kind::transformation, 9, "commissioning", "");
    made.inputs = {{"09520000471019", "C/77", {}, 500'001}, {"", "WF-1", {}, {}}};
    made.goods = {{"", "CR-1", 100, 9'000'000}};
    made.offset_minutes = -150;
    auto packed = event(Kind::aggregation, 12, "packing", "ADD");
    packed.sscc = "095200000000000127";
    packed.goods = {{"09520000471026", "P-1", 40, {}}};
    auto gone = event(Kind::object, 12, "shipping", "OBSERVE");
    gone.part = 1;
    gone.sscc = packed.sscc;
    gone.disposition = "in_transit";
    gone.to = {"CAFE-1", ""};
    gone.document = "D-9";
    gone.stays = false;
    return {"Weir", "9520000470012", "https://weir.example/", evening, {received, made, packed, gone}, 0};
}

}  // namespace

TEST_CASE("An EPCIS document is valid by the published schema, and ten broken ones are not") {
    const auto file = std::filesystem::temp_directory_path() / ("peelbook-epcis-" + std::to_string(getpid()) + ".jsonld");
    for (const bool numbered : {true, false}) {  // with GS1 numbers of the site, and without
        auto custody = sample();
        if (!numbered) custody.gln.clear();
        std::ofstream(file) << output::epcis_json(custody);
        const auto [code, said] =
            output::test::run_program("/usr/bin/python3 " PEELBOOK_SOURCE_DIR "/tests/output/epcis/validate.py " + file.string() + " 2>&1");
        INFO(said);
        CHECK(code == 0);
        CHECK(said == "4 events valid, 12 broken documents rejected\n");
    }
    std::filesystem::remove(file);
}

TEST_CASE("Lots, pallets, parties and documents have the names that GS1 gives them") {
    const std::string text = output::epcis_json(sample());
    const auto holds = [&](const std::string& part) {
        INFO(part);
        CHECK(text.find(part) != std::string::npos);
    };
    holds(R"("epcClass": "https://id.gs1.org/01/09520000471019/10/C%2F77")");
    holds(R"("epcClass": "https://weir.example/lot/WF-1")");
    holds(R"("https://id.gs1.org/00/095200000000000127")");
    holds(R"("id": "https://id.gs1.org/414/9520000470012")");
    holds(R"("source": "https://id.gs1.org/417/9520000470029")");
    holds(R"("destination": "https://weir.example/partner/CAFE-1")");
    holds(R"("bizTransaction": "urn:epcglobal:cbv:bt:9520000470029:N%205")");
    holds(R"("eventID": "https://weir.example/event/12.1")");
    holds(R"("quantity": 0.500001)");  // kg, to the milligram
    holds(R"("quantity": 100)");
    // 20:00 UTC with the local offsets +01:00 and -02:30; RFC 3339
    holds(R"("eventTime": "2026-11-24T21:00:00.000+01:00")");
    holds(R"("recordTime": "2026-11-24T21:01:05.250+01:00")");
    holds(R"("eventTime": "2026-11-24T17:30:00.000-02:30")");
}
