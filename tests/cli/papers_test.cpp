// From the scan at the door to the papers for others: whole command lines. Sources: GS1 General
// Specifications; 21 CFR 1.1340, 1.1345, 1.1350 and 1.1455; EPCIS 2.0.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "cli/walk.h"
#include "output/run_program.h"

using namespace peelbook::cli;

namespace {

// Numbers under 952, the prefix that GS1 keeps for examples; check digits worked out by hand.
constexpr const char* goods = R"toml(
[[material]]
id = "soft-cheese"
name = "soft cheese, 5 kg tub"
code = "SCH"
allergens = ["milk"]
date = "use-by"
gtin = ["9520000471019", "9520000471033"]
traceability_list = true

[[product]]
id = "cheese-roll"
name = "cheese roll, filled after the bake"
code = "CR"
formula = [ { item = "wheat-flour", percent = "100%", flour = true }, { item = "soft-cheese", percent = "50%" } ]
unit_mass = "90g"
usual_flour = "10kg"
steps = ["mix", "pack"]
label = "cheese-roll-1"
gtin = "9520000471026"
traceability_list = true

[[label]]
id = "cheese-roll-1"
name = "cheese roll"
product = "cheese-roll"
market = "eu"
declares = ["wheat", "milk"]
)toml";

struct Shop : Walk {
    Shop() {
        open_bakery();
        write("bakery/goods.toml", goods);
        std::string site = *files.read(folder / "bakery/site.toml");
        const std::string house =
            "gln = \"9520000470012\"\ncompany_prefix = \"9520000\"\nweb = \"https://weir.example\"\nphone = "
            "\"+00 555 0100\"\n";
        site.insert(site.find("[site]\n") + 7, house);
        std::ofstream(folder / "bakery/site.toml") << site;
        must("plan adopt");
        must(
            "partner DAIRY-1 'Hill Dairy' --role supplier --gln 9520000470029 --address '2 Hill Road, Weir' "
            "--phone '+00 555 0102'");
        must(
            "partner DELI-1 'Station Deli' --role customer --gln 9520000470036 --address '1 Station Square, "
            "Weir' --phone '+00 555 0103'");
    }
    // Cheese and flour in, a hundred rolls made, packed and shipped to two customers.
    void make_rolls() {
        must(
            "receive --scan '(01)09520000471019(10)C-77(17)261130(3103)005000' --from DAIRY-1 --document N-5 "
            "--contains milk --code SCH-1 --by RS");
        must("receive wheat-flour --from MILL-1 --lot W1 --mass 100kg --contains wheat --code WF-1 --by RS");
        must("start cheese-roll --code CR-1 --flour 6kg");
        must("use WF-1 6kg --into CR-1");
        must("use SCH-1 3kg --into CR-1");
        must("step CR-1 mix");
        wait(peelbook::minutes(40));
        must("finish CR-1 --pieces 100 --mass 9kg");
        must("pack CR-1=100 --code CRP-1 --label cheese-roll-1 --printed 24NOV --date 2026-11-19");
        must(
            "ship --scan '(01)09520000471026(10)CRP-1(17)261119' --pieces 40 --scan '(410)9520000470036' "
            "--sscc new --document D-1 --by RS");
        must("ship CRP-1 --to CAFE-1 --pieces 60 --by RS");
    }
};

std::string field(const std::string& json, const std::string& key) {
    const std::size_t at = json.find("\"" + key + "\": ");
    return at == std::string::npos ? "" : json.substr(at, json.find('\n', at) - at);
}

std::string read_back(const std::filesystem::path& workbook) {
    const auto [code, said] =
        peelbook::output::test::run_program("/usr/bin/python3 " PEELBOOK_SOURCE_DIR "/tests/output/read_workbook.py " + workbook.string());
    REQUIRE(code == 0);
    return said;
}

}  // namespace

TEST_CASE("a scan at the door fills in material, lot, date and mass; the supplier by its GLN") {
    Shop shop;
    const auto said = shop.must(
        "receive --scan '(01)09520000471019(10)C-77(17)261100(3103)005000(412)9520000470029' --contains milk "
        "--code SCH-1 --by RS");
    CHECK(said.has("SCH-1"));
    const auto entry = shop.must("entry 13 --json");
    for (const char* part : {"soft-cheese", "DAIRY-1", "C-77", "2026-11-30", "\"mass\": \"5kg\"", "9520000471019"}) {
        INFO(part << "\n" << entry.out);
        CHECK(entry.has(part));
    }
    // FNC1 as the scanner sends it; the plan's second number of the same cheese; a pallet with a count, of
    // goods that are not weighed
    shop.must(
        "receive --scan ']C10109520000471033"
        "10C-78\x1D"
        "17261130' --mass 5kg --from DAIRY-1 --contains milk --by RS");
    shop.must(
        "receive --scan '(02)09520000471019(37)12(10)C-79' --scan '(00)106141412345678908' --from DAIRY-1 "
        "--contains milk --by RS");
}

TEST_CASE("a scan that cannot be right is refused, and nothing is written") {
    Shop shop;
    const auto before = shop.must("status --json").out;
    const auto refused = [&](const std::string& line) {
        const auto said = shop.run(line);
        CHECK(said.code == 2);
        return said.err;
    };
    CHECK(refused("receive --scan '(01)09520000471018(10)C-77' --mass 5kg --from DAIRY-1 --by RS").find("check digit 9; this ends in 8") !=
          std::string::npos);
    CHECK(refused("receive --scan '(01)09520000471026(10)C-77' --mass 5kg --from DAIRY-1 --by RS")
              .find("an article that a material of the plan names as its gtin") != std::string::npos);
    CHECK(refused("receive wheat-flour --scan '(01)09520000471019(10)C-77' --mass 5kg --from DAIRY-1 --by RS")
              .find("wheat-flour, and the label says (01) 9520000471019: soft-cheese") != std::string::npos);
    CHECK(refused("receive --scan '(01)09520000471019(10)C-77' --lot C-78 --mass 5kg --from DAIRY-1 --by RS")
              .find("--lot C-78, and the label says (10) 'C-77'") != std::string::npos);
    CHECK(refused("receive --scan '(01)09520000471019(10)C-77' --from DAIRY-1 --by RS").find("no quantity") != std::string::npos);
    CHECK(refused("receive --scan '(01)09520000471019(10)C-77' --mass 5kg --by RS").find("no --from") != std::string::npos);
    CHECK(refused("ship --scan '(01)09520000471026(10)NONE-1' --to CAFE-1 --by RS").find("a lot of it with this code or printed code") !=
          std::string::npos);
    CHECK(refused("ship --scan '(01)09520000471026' --to CAFE-1 --by RS").find("without a lot (10)") != std::string::npos);
    CHECK(shop.must("status --json").out == before);
}

TEST_CASE("the traceability sheet has every element that the rule names, and lists those that are missing") {
    Shop shop;
    shop.make_rolls();
    const auto all = shop.must("report traceability --json");
    const auto row = [&](const std::string& sheet) {
        const std::size_t at = all.out.find("\"" + sheet + "\": [");
        return all.out.substr(at, all.out.find(']', at) - at);
    };
    const auto dairy = std::string("\"Hill Dairy, 2 Hill Road, Weir, +00 555 0102\"");
    const auto here = std::string("\"Weir Lane Bakery, ");
    const std::string receiving = row("Receiving");
    CHECK(field(receiving, "tlc") == "\"tlc\": \"C-77\",");
    CHECK(field(receiving, "quantity") == "\"quantity\": 5.0,");
    CHECK(field(receiving, "unit") == "\"unit\": \"kg\",");
    CHECK(field(receiving, "product") == "\"product\": \"soft cheese, 5 kg tub\",");
    CHECK(field(receiving, "previous_source") == "\"previous_source\": " + dairy + ",");
    CHECK(field(receiving, "received_at").find("\"received_at\": " + here) == 0);
    CHECK(field(receiving, "date") == "\"date\": \"2026-11-16\",");
    CHECK(field(receiving, "tlc_source") == "\"tlc_source\": " + dairy + ",");
    CHECK(field(receiving, "document") == "\"document\": \"N-5\",");
    CHECK(receiving.find("wheat") == std::string::npos);  // flour is not on the list
    const std::string made = row("Transformation");
    CHECK(field(made, "from_tlc") == "\"from_tlc\": \"C-77\",");
    CHECK(field(made, "from_quantity") == "\"from_quantity\": 3.0,");
    CHECK(field(made, "into_tlc") == "\"into_tlc\": \"CR-1\",");
    CHECK(field(made, "into_quantity") == "\"into_quantity\": 100,");
    CHECK(field(made, "date") == "\"date\": \"2026-11-16\",");
    CHECK(made.find("\"into_tlc\": \"CRP-1\"") != std::string::npos);
    const std::string shipped = row("Shipping");
    CHECK(field(shipped, "tlc") == "\"tlc\": \"CRP-1\",");
    CHECK(field(shipped, "next_recipient") == "\"next_recipient\": \"Station Deli, 1 Station Square, Weir, +00 555 0103\",");
    CHECK(field(shipped, "document") == "\"document\": \"D-1\",");
    CHECK(field(shipped, "tlc_source").find("\"tlc_source\": " + here) == 0);
    // The cafe has no address, and its delivery no document: both are told, and nothing else is.
    const std::string missing = row("Missing elements");
    CHECK(missing.find("immediate subsequent recipient") != std::string::npos);
    CHECK(missing.find("Reference document type and number") != std::string::npos);
    std::size_t rows = 0;
    for (std::size_t at = 0; (at = missing.find("\"element\"", at)) != std::string::npos; ++at) ++rows;
    CHECK(rows == 2);
}

TEST_CASE("the traceability sheet is cut to days, or to a lot with all before and after it") {
    Shop shop;
    shop.make_rolls();
    shop.at("2026-11-18T08:00+00:00");
    shop.must(
        "receive --scan '(01)09520000471019(10)C-80(17)261130(3103)005000' --from DAIRY-1 --document N-6 "
        "--contains milk --by RS");
    const auto has = [&](const std::string& options, const std::string& text) {
        return shop.must("report traceability " + options + " --json").has(text);
    };
    CHECK(has("--from 2026-11-18", "C-80"));
    CHECK_FALSE(has("--from 2026-11-18", "C-77"));
    CHECK(has("--until 2026-11-17", "C-77"));
    CHECK_FALSE(has("--until 2026-11-17", "C-80"));
    for (const char* lot : {"C-77", "CR-1", "24NOV"}) {  // the supplier's code, the batch, the printed code
        CHECK(has(std::string("--lot ") + lot, "\"tlc\": \"C-77\""));
        CHECK(has(std::string("--lot ") + lot, "D-1"));
        CHECK_FALSE(has(std::string("--lot ") + lot, "C-80"));
    }
    CHECK(shop.must("report traceability --from 2026-11-16 --until 2026-11-18").has("Traceability records, 2026-11-16 to 2026-11-18"));
    CHECK(shop.run("report traceability --from 2026-11-18 --until 2026-11-16").err.find("a first day that is not after the last") !=
          std::string::npos);
}

TEST_CASE("the traceability workbook, read back by another program, is one sheet an event that can be sorted") {
    Shop shop;
    shop.make_rolls();
    shop.must("report traceability --lot C-77 --out sheet.xlsx");
    const std::string book = read_back(shop.folder / "sheet.xlsx");
    for (const char* sheet : {"Receiving", "Transformation", "Shipping", "Missing elements"}) {
        const std::size_t at = book.find("\"name\": \"" + std::string(sheet) + "\"");
        INFO(sheet);
        REQUIRE(at != std::string::npos);
        CHECK(book.find("\"filter\": \"A4:", at) < book.find("\"charts\"", at));
    }
    // The elements as 21 CFR 1.1345(a), 1.1350(a) and 1.1340(a) name them.
    for (const char* element :
         {R"(["Receiving", 4, 1, "s", "Traceability lot code"])",
          R"(["Receiving", 4, 5, "s", "Location description: immediate previous source"])", R"(["Receiving", 4, 7, "s", "Date received"])",
          R"(["Receiving", 4, 9, "s", "Reference document type"])", R"(["Transformation", 4, 5, "s", "New traceability lot code"])",
          R"(["Transformation", 4, 7, "s", "Date transformation completed"])",
          R"(["Shipping", 4, 5, "s", "Location description: immediate subsequent recipient"])",
          R"(["Shipping", 4, 7, "s", "Date shipped"])", R"(["Receiving", 5, 1, "s", "C-77"])", R"(["Receiving", 5, 2, "n", 5])",
          R"(["Transformation", 5, 3, "n", 3])", R"(["Shipping", 5, 2, "n", 40])", R"(["Shipping", 5, 7, "s", "2026-11-16"])"}) {
        INFO(element);
        CHECK(book.find(element) != std::string::npos);
    }
}

TEST_CASE("an EPCIS document of what came in, was made and went out is valid by the published schema") {
    Shop shop;
    shop.make_rolls();
    const auto said = shop.must("export epcis --out events.jsonld");
    // cheese, flour, batch and pack; a pallet packed and shipped, and one delivery without a pallet
    CHECK(said.out == "wrote events.jsonld: 7 events\n");
    const std::string command =
        "/usr/bin/python3 " PEELBOOK_SOURCE_DIR "/tests/output/epcis/validate.py " + (shop.folder / "events.jsonld").string();
    CHECK(std::system((command + " >/dev/null").c_str()) == 0);
    const std::string text = *shop.files.read(shop.folder / "events.jsonld");
    for (const char* part :
         {"https://id.gs1.org/01/09520000471019/10/C-77", "https://id.gs1.org/01/09520000471026/10/CRP-1", "https://weir.example/lot/CR-1",
          "\"bizStep\": \"packing\"", "https://id.gs1.org/417/9520000470036", "https://weir.example/partner/CAFE-1",
          "urn:epcglobal:cbv:bt:9520000470012:D-1", "urn:epcglobal:cbv:bt:9520000470029:N-5"}) {
        INFO(part);
        CHECK(text.find(part) != std::string::npos);
    }
    CHECK(shop.run("export epcis --out events.jsonld").err.find("nothing is overwritten") != std::string::npos);
    CHECK(shop.must("export epcis --out none.jsonld --from 2026-11-20").out == "wrote none.jsonld: 0 events\n");
    Walk other;
    other.open_bakery();
    CHECK(other.run("export epcis --out e.jsonld").err.find("web = \"https://...\" under [site] in the plan") != std::string::npos);
}

TEST_CASE("a label of our own is scanned back into ship") {
    Shop shop;
    shop.make_rolls();
    const auto said = shop.must("label CRP-1 --out label.svg");
    CHECK(said.out == "wrote label.svg: (01)09520000471026(15)261119(10)CRP-1\n");
    CHECK(shop.must("lot CRP-1").has("24NOV"));
    CHECK(shop.must("label SCH-1 --as datamatrix --out tub.svg").out == "wrote tub.svg: (01)09520000471019(17)261130(10)C-77\n");
    CHECK(shop.must("label 106141412345678908 --out pallet.png").out == "wrote pallet.png: (00)106141412345678908\n");
    CHECK(shop.run("label 106141412345678909 --out p.png").err.find("check digit 8; this ends in 9") != std::string::npos);
    CHECK(shop.run("label CR-1 --out p.png").err.find("a packed or received lot") != std::string::npos);
    CHECK(shop.run("label WF-1 --out p.png").err.find("add gtin = \"...\" to it in the plan") != std::string::npos);
    CHECK(shop.run("label CRP-1 --out label.svg").err.find("nothing is overwritten") != std::string::npos);
    // The pallet's number: extension digit, prefix, the entry's own number, check digit (GenSpecs 2.2.1)
    CHECK(shop.must("entry 21 --json").has("0952000000000002"));
}

TEST_CASE("the genealogy is drawn beside a trace and into its workbook") {
    Shop shop;
    shop.make_rolls();
    const auto said = shop.must("trace forward SCH-1 --picture tree.svg --out trace.xlsx");
    CHECK(said.has("wrote trace.xlsx\nwrote tree.svg\n"));
    std::string svg = *shop.files.read(shop.folder / "tree.svg");
    for (std::size_t at = 0; (at = svg.find("&#45;")) != std::string::npos;) svg.replace(at, 5, "-");
    for (const char* part : {"SCH-1", "CR-1", "CRP-1", "soft cheese, 5 kg tub", "printed 24NOV"})
        CHECK(svg.find(part) != std::string::npos);
    const std::string book = read_back(shop.folder / "trace.xlsx");
    const std::size_t sheet = book.find("\"name\": \"Genealogy\"");
    REQUIRE(sheet != std::string::npos);
    CHECK(book.find("\"images\": 1", sheet) < book.find("\"breaks\"", sheet));
    CHECK(shop.run("trace back CRP-1 --picture tree.svg").err.find("nothing is overwritten") != std::string::npos);
    CHECK(shop.run("trace back CRP-1 --picture tree.jpg").err.find("a file name that ends in .svg or .png") != std::string::npos);
    shop.must("trace back CRP-1 --picture back.png");
}

TEST_CASE("one step back and one step forward are sheets of the trace workbook, read back by another program") {
    Shop shop;
    shop.must("partner VAN-1 'Weir Haulage' --role carrier --address '9 Dock Road, Weir' --phone '+00 555 0109'");
    shop.must("receive wheat-flour --from MILL-1 --lot W1 --mass 100kg --contains wheat --code WF-1 --by RS");
    shop.must(
        "receive soft-cheese --from DAIRY-1 --lot C-77 --mass 5kg --document N-5 --carrier VAN-1 --contains milk --code SCH-1 --by RS");
    shop.must("start cheese-roll --code CR-1 --flour 6kg");
    shop.must("use WF-1 6kg --into CR-1");
    shop.must("use SCH-1 3kg --into CR-1");
    shop.must("step CR-1 mix");
    shop.wait(peelbook::minutes(40));
    shop.must("finish CR-1 --pieces 100 --mass 9kg");
    shop.must("pack CR-1=100 --code CRP-1 --label cheese-roll-1 --printed 24NOV --date 2026-11-19");
    shop.must("ship CRP-1 --to DELI-1 --pieces 60 --document D-1 --carrier VAN-1 --by RS");
    shop.wait(peelbook::minutes(1));
    shop.must("ship CRP-1 --way own-shop --pieces 40 --by RS");
    shop.must("trace back CRP-1 --out back.xlsx");
    std::string book = read_back(shop.folder / "back.xlsx");
    // What 21 CFR 1.337 and 1.345 ask of the step: the firm with address and telephone, food, lot code, quantity, when, transporter.
    // The site keeps UTC. 60 of 100 rolls of 9 kg are 5.4 kg.
    for (const char* cell : {R"(["One step back", 4, 1, "s", "Ingredient"])",
                             R"(["One step back", 4, 3, "s", "Quantity received\nkg"])",
                             R"(["One step back", 5, 1, "s", "soft cheese, 5 kg tub"])",
                             R"(["One step back", 5, 2, "s", "C-77"])",
                             R"(["One step back", 5, 3, "n", 5])",
                             R"(["One step back", 5, 5, "s", "2026-11-16 03:00"])",
                             R"(["One step back", 5, 6, "s", "N-5"])",
                             R"(["One step back", 5, 7, "s", "Hill Dairy"])",
                             R"(["One step back", 5, 8, "s", "2 Hill Road, Weir\n+00 555 0102"])",
                             R"(["One step back", 5, 9, "s", "Weir Haulage"])",
                             R"(["One step back", 5, 10, "s", "9 Dock Road, Weir\n+00 555 0109"])",
                             R"(["One step back", 5, 11, "s", "SCH-1"])",
                             R"(["One step back", 5, 12, "s", "yes"])",
                             R"(["One step back", 6, 7, "s", "Weir Mill"])",
                             R"(["One step forward", 4, 8, "s", "Recipient"])",
                             R"(["One step forward", 5, 1, "s", "cheese roll, filled after the bake"])",
                             R"(["One step forward", 5, 2, "s", "24NOV"])",
                             R"(["One step forward", 5, 3, "n", 60])",
                             R"(["One step forward", 5, 4, "n", 5.4])",
                             R"(["One step forward", 5, 5, "s", "2026-11-16 03:40"])",
                             R"(["One step forward", 5, 6, "s", "customer"])",
                             R"(["One step forward", 5, 7, "s", "D-1"])",
                             R"(["One step forward", 5, 8, "s", "Station Deli"])",
                             R"(["One step forward", 5, 9, "s", "1 Station Square, Weir\n+00 555 0103"])",
                             R"(["One step forward", 5, 10, "s", "Weir Haulage"])",
                             R"(["One step forward", 6, 3, "n", 40])",
                             R"(["One step forward", 6, 6, "s", "own-shop"])",
                             R"("not in the book: carrier of WF-1: not stated"])"}) {
        INFO(cell);
        CHECK(book.find(cell) != std::string::npos);
    }
    CHECK(book.find(R"(["One step forward", 6, 8,)") == std::string::npos);  // nobody is named where nobody took it
    // Of the cheese itself, traced forward: its supplier, and nobody got it as it came.
    shop.must("trace forward SCH-1 --out forward.xlsx");
    book = read_back(shop.folder / "forward.xlsx");
    CHECK(book.find(R"(["One step back", 5, 7, "s", "Hill Dairy"])") != std::string::npos);
    CHECK(book.find(R"(["One step forward", 5, 1, "s", "none"])") != std::string::npos);
    CHECK(book.find(R"(["Customers", 6, 1, "s", "Station Deli"])") != std::string::npos);
}
