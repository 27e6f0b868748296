// Equipment, changeovers, labels on a line and declarations through the public face. Expected verdicts are
// worked out by hand from the rules of the trade (common practice): residue stays until a verified cleaning;
// what came in undeclared stops at the door.
#include <random>

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

struct Line : Bakery {
    explicit Line(const std::string& equipment = std::string(equipment_plan)) {
        adopt(std::string(bakery_plan) + equipment);
        receive("WF-1", "wheat-flour", "500kg");
        receive("RF-1", "rye-flour", "500kg");
        receive("MILK-1", "milk", "200kg");
    }
    // 20 kg of rye through the mixer.
    void rye(const std::string& code) {
        start(code, "rye");
        use(code, "RF-1", "20kg");
    }
    void wash(bool seen = true, const std::string& swab = "2ppm") {
        did(record::Cleaned{"mixer", "wet", ""});
        pass(minutes(5));
        did(record::Inspected{"mixer", "mixer-seen", "", "", seen, ""});
        did(record::ReadingTaken{"mixer", "mixer-swab", measure(swab), "", "", ""});
        pass(minutes(5));
    }
    std::string changeover(const std::string& lot) const {
        if (!has_finding(lot, "changeover")) return "none";
        const auto f = finding(lot, "changeover");
        return std::to_string(static_cast<int>(f.verdict)) + " " + f.measured;
    }
    Seq made_by(const std::string& code) const { return lot(code).id; }
};

constexpr const char *within = "0", *deviation = "3";

}  // namespace

TEST_CASE("residue of the batch before that the next does not declare is a critical deviation, and holds it") {
    Line b;
    b.rye("R-1");
    b.pass(minutes(20));
    const auto receipt = b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    CHECK(b.changeover("L-1") == std::string(deviation) + " residue not declared: rye on mixer");
    CHECK(b.held("L-1"));
    CHECK(receipt.judged_bad());
    CHECK(b.allergens("L-1") == std::vector<std::string>{"rye", "wheat"});
    CHECK(b.ask("SELECT level FROM lot_allergen JOIN lot ON id = lot WHERE code = 'L-1' AND allergen = 'rye'").front() == "carry-over");
    CHECK(b.faults() == "");
}

TEST_CASE("a verified cleaning between clears it; one that failed its swab does not") {
    Line b;
    b.rye("R-1");
    b.pass(minutes(20));
    b.wash();
    b.start("L-1", "loaf");
    CHECK(b.changeover("L-1") == "none");
    b.use("L-1", "WF-1", "30kg");
    b.rye("R-2");  // the label of rye does not declare wheat
    CHECK(b.changeover("R-2") == std::string(deviation) + " residue not declared: wheat on mixer");
    b.pass(minutes(20));
    b.wash(true, "9ppm");
    b.start("L-2", "loaf");
    CHECK(b.changeover("L-2") == std::string(deviation) + " residue not declared: rye on mixer");
    CHECK(b.faults() == "");
}

TEST_CASE("residue that an input met is carried on into what is made of it, also where it brings nothing new itself") {
    Line b;
    b.start("B-1", "bun");  // wheat and milk, same mixer
    b.use("B-1", "MILK-1", "6kg");
    b.pass(minutes(10));
    b.start("B-2", "bun");
    b.use("B-2", "WF-1", "10kg");
    b.finish("B-2", 10, "9kg", "a trial of ten");
    CHECK(b.changeover("B-2") == std::string(within) + " residue is declared");
    b.pass(minutes(20));
    b.wash();
    b.start("B-3", "bun");
    b.use("B-3", "WF-1", "10kg");
    auto rework = Bakery::used("B-3", "B-2", "1kg");
    rework.mass.reset();
    rework.pieces = 1;
    b.did(rework);
    CHECK(b.ask("SELECT allergen || ' ' || level FROM lot_allergen JOIN lot ON id = lot WHERE code = 'B-3' ORDER BY allergen") ==
          std::vector<std::string>{"milk carry-over", "wheat contains"});
    CHECK(b.faults() == "");
}

TEST_CASE("what verified a cleaning was no good: a failed calibration lets the batch after it meet the residue") {
    std::string critical(equipment_plan);
    const auto swab = critical.find("id = \"mixer-swab\"");
    const std::string grade = "class = \"operating\"";
    critical.replace(critical.find(grade, swab), grade.size(),
                     "class = \"critical\"\nbasis = \"invented for this test\"\n"
                     "action = { product = \"Hold.\", process = \"Clean again.\" }");
    Line b(critical + "[[instrument]]\nid = \"kit\"\nname = \"swab kit\"\ntolerance = \"0.5ppm\"\ncalibrate_every = \"28days\"\n");
    const auto against_standard = [&b](const std::string& read, bool good) {
        b.did(record::Calibrated{"kit", "reference", measure(read), measure("5ppm"), good, ""});
    };
    against_standard("5.2ppm", true);
    b.rye("R-1");
    b.pass(minutes(20));
    b.did(record::Cleaned{"mixer", "wet", ""});
    b.did(record::Inspected{"mixer", "mixer-seen", "", "", true, ""});
    b.did(record::ReadingTaken{"mixer", "mixer-swab", measure("1ppm"), "", "kit", ""});
    b.pass(minutes(5));
    b.start("L-1", "loaf");
    CHECK(b.changeover("L-1") == "none");
    b.pass(minutes(5));
    against_standard("2ppm", false);
    CHECK(b.changeover("L-1") == std::string(deviation) + " residue not declared: rye on mixer");
    CHECK(b.held("L-1"));
    CHECK(b.faults() == "");
}

TEST_CASE("a product that declares the residue may run, and takes nothing away") {
    Line b;
    b.start("B-1", "bun");  // wheat and milk, same mixer
    b.use("B-1", "MILK-1", "6kg");
    b.use("B-1", "WF-1", "10kg");
    b.pass(minutes(10));
    b.start("L-1", "loaf");
    CHECK(b.changeover("L-1").find("milk on mixer") != std::string::npos);
    b.pass(minutes(10));
    b.start("B-2", "bun");
    CHECK(b.changeover("B-2") == std::string(within) + " residue is declared");
    b.pass(minutes(10));
    b.start("L-2", "loaf");
    CHECK(b.changeover("L-2") == std::string(deviation) + " residue not declared: milk on mixer");
}

TEST_CASE("a verification written late, and voided, moves what the batches after it met") {
    Line b;
    b.rye("R-1");
    b.pass(minutes(20));
    b.did(record::Cleaned{"mixer", "wet", ""});
    b.did(record::Inspected{"mixer", "mixer-seen", "", "", true, ""});
    b.pass(minutes(10));
    b.start("L-1", "loaf");
    CHECK(b.finding("L-1", "changeover").verdict == Verdict::deviation);
    b.pass(minutes(10));
    auto late = b.draft(record::ReadingTaken{"mixer", "mixer-swab", measure("1ppm"), "", "", ""});
    late.happened = b.clock.now() - minutes(15);
    const auto swab = b.did(late).seq;
    CHECK(b.finding("L-1", "changeover").cleared_by == swab);
    CHECK(b.allergens("L-1").empty());
    REQUIRE(b.site->void_entry(swab, "QA", "the swab was of the divider").ok());
    CHECK(b.finding("L-1", "changeover").verdict == Verdict::deviation);
    CHECK(b.faults() == "");
}

TEST_CASE("an allergen taken out of a declaration by an amendment leaves every descendant and the equipment") {
    Line b;
    record::Received r;
    r.lot = "RF-9";
    r.material = "rye-flour";
    r.supplier = "MILL";
    r.mass = measure("100kg");
    r.allergens = {true, {"rye"}, {"milk"}};
    const auto seq = b.did(r).seq;
    CHECK(b.held("RF-9"));  // milk is new
    b.start("R-1", "rye");
    b.already_done(Bakery::used("R-1", "RF-9", "20kg"), "it was in the bowl before anyone read the paper");
    b.pass(minutes(10));
    b.start("L-1", "loaf");
    CHECK(b.allergens("L-1") == std::vector<std::string>{"milk", "rye"});
    r.allergens = {true, {"rye"}, {}};
    const auto amended = b.amended(seq, r, "the declaration was of another lot");
    CHECK(b.allergens("L-1") == std::vector<std::string>{"milk", "rye"});  // rule 59: until another person has said so
    b.countersigned(amended.seq);
    CHECK(b.allergens("R-1") == std::vector<std::string>{"rye"});
    CHECK(b.allergens("L-1") == std::vector<std::string>{"rye"});
    CHECK(b.ask("SELECT allergen FROM residue ORDER BY allergen") == std::vector<std::string>{"rye"});
    CHECK(b.faults() == "");  // as a full recomputation has it
}

TEST_CASE("a declaration that differs from the specification is told at receipt, and stops there when it is new") {
    Line b;
    record::Received r;
    r.material = "wheat-flour";
    r.supplier = "MILL";
    r.mass = measure("100kg");
    r.lot = "WF-NEW";
    r.allergens = {true, {"wheat", "soy"}, {}};
    const auto receipt = b.did(r);
    CHECK(receipt.judged_bad());
    CHECK(b.finding("WF-NEW", "declaration").measured == "new: soy");
    CHECK(b.held("WF-NEW"));
    b.start("L-1", "loaf");
    CHECK(told(b.refused(Bakery::used("L-1", "WF-NEW", "1kg"))).find("held") != std::string::npos);
    r.lot = "WF-SILENT";
    r.allergens = {};
    b.did(r);
    CHECK(b.finding("WF-SILENT", "declaration").verdict == Verdict::unproven);  // unproven, not free
    CHECK_FALSE(b.held("WF-SILENT"));
}

TEST_CASE("a cleaning of equipment names one of the plan's") {
    Line b;
    CHECK(told(b.refused(record::Cleaned{"mixer", "wett", ""})) ==
          "cleaning 'wett' of mixer | one of the plan's cleanings for it | add --how | wet");
    CHECK(told(b.refused(record::Cleaned{"mixer", "", ""})).find("no cleaning of mixer named") == 0);
    const auto receipt = b.did(record::Cleaned{"mixer", "wet", ""});
    REQUIRE(receipt.next.size() == 1);
    CHECK(receipt.next.front() ==
          "clears wheat, rye, milk, sesame, egg, molluscs once verified: mixer-seen, mixer-swab at mixer, "
          "before it runs again");
}

TEST_CASE("labels read on a line are held against every pack of the run; labels that are lost are told") {
    Line b;
    b.did(Bakery::metal(true));
    b.loaf("L-1", "WF-1");
    record::LabelChecked read;
    read.line = "line-1";
    read.moment = "start";
    read.label = "loaf-1";
    read.printed_code = "K7";
    b.did(read);
    b.pass(minutes(5));
    b.did(Bakery::packed("P-1", "L-1", 20, "K7"));
    CHECK(b.finding("P-1", "label-read").verdict == Verdict::within);
    b.pass(minutes(5));
    const auto wrong = b.did(Bakery::packed("P-2", "L-1", 20, "K8"));
    CHECK(b.finding("P-2", "label-read").measured == "loaf-1, code K7");
    CHECK(b.finding("P-2", "label-read").verdict == Verdict::deviation);
    CHECK(wrong.judged_bad());
    b.pass(minutes(5));
    read.moment = "start";
    read.label = "rye-1";
    b.did(read);  // another run begins, and nobody read the label at the end of the first
    CHECK(b.ask("SELECT count(*) FROM finding WHERE point = 'label-read' AND ord = 1 AND verdict = 2").front() == "2");
    record::LabelsCounted count;
    count.line = "line-1";
    count.label = "loaf-1";
    count.issued = 50;
    count.applied = 40;
    count.returned = 5;
    CHECK(b.did(count).judged_bad());
    CHECK(b.ask("SELECT measured FROM finding WHERE measured LIKE '%labels%'").front() == "5 labels not accounted for");
    CHECK(told(b.refused(record::LabelChecked{"line-2", "", "start", "bun-1", "", {}, "", ""})).find("line 'line-2'") == 0);
    CHECK(b.faults() == "");
}

TEST_CASE("a label that declares more than is there is a warning at the packing") {
    Line b;
    b.did(Bakery::metal(true));
    b.loaf("L-1", "WF-1");
    const auto receipt = b.did(Bakery::packed("P-1", "L-1", 20, "K7", "loaf-2"));
    REQUIRE_FALSE(receipt.next.empty());
    CHECK(receipt.next.front() ==
          "warning: label loaf-2 declares sesame, which nothing that was used and nothing in the formula "
          "brings");
}

TEST_CASE("the reasons of a lot's allergens, the matrix, and the products that must never contain one") {
    Line b;
    b.start("B-1", "bun");
    b.use("B-1", "MILK-1", "6kg");
    b.use("B-1", "WF-1", "10kg");
    b.pass(minutes(10));
    b.start("L-1", "loaf");
    b.use("L-1", "WF-1", "30kg");
    const auto lot = b.site->allergens_of("L-1");
    REQUIRE(lot.ok());
    REQUIRE(lot->allergens.size() == 2);
    CHECK(lot->allergens[0].reason == "WF-1 > L-1");
    CHECK(lot->allergens[1].level == book::AllergenLevel::carry_over);
    CHECK(lot->allergens[1].reason.find("residue of B-1 on mixer since") == 0);
    const auto matrix = b.site->allergen_matrix(b.at("00:00"), b.at("23:00"));
    CHECK(matrix.allergens == std::vector<std::string>{"wheat", "rye", "milk"});
    const auto never = b.site->never_contains("milk", b.at("00:00"), b.at("23:00"));
    REQUIRE(never.ok());
    REQUIRE(never->size() == 2);  // loaf and rye
    CHECK((*never)[0].product == "loaf");
    CHECK((*never)[0].with == 1);
    CHECK((*never)[0].lying == 1);
    CHECK((*never)[1].with == 0);
    CHECK_FALSE(b.site->never_contains("milch", b.at("00:00"), b.at("23:00")).ok());
}
