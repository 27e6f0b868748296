// Bad input, rights and repeated commands: one clear refusal each, and the book as it was. `refused` compares
// the number of entries, the hash of the last one and the SHA-256 over all derived rows before and after.
#include <fstream>

#include "base/text.h"
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

Draft by(const std::string& initials, const record::Statement& says) { return {says, initials, {}, "", false, ""}; }

// A bakery with a flour lot, a batch under way and a finished one.
struct Working : Bakery {
    Working() {
        receive("WF-1", "wheat-flour", "100kg");
        loaf("L-1", "WF-1");
        start("L-2", "loaf");
        pass(minutes(5));
    }
};

}  // namespace

TEST_CASE("bad input: unknown codes, and the nearest are offered") {
    Working b;
    auto refusal = b.refused(Bakery::used("L-2", "WF-11", "1kg"));
    CHECK(refusal.given == "lot 'WF-11'");
    CHECK(refusal.nearest.front() == "WF-1");
    CHECK(b.refused(Bakery::used("L2", "WF-1", "1kg")).nearest.front() == "L-2");
    record::Started started;
    started.product = "loaff";
    CHECK(b.refused(started).nearest == std::vector<std::string>{"loaf"});
    CHECK(b.refused(record::StepDone{"L-2", "mixx", ""}).nearest == std::vector<std::string>{"mix"});
    CHECK(b.refused(Bakery::reading("L-2", "corr", "96C")).nearest == std::vector<std::string>{"core"});
    CHECK(b.refused(Bakery::reading("L-2", "core", "96C", "probes")).nearest == std::vector<std::string>{"probe"});
    CHECK(b.refused(Bakery::reading("ovenn", "core", "96C")).given == "'ovenn'");
    CHECK(b.refused(Bakery::packed("P-1", "L-1", 1, "K", "loaf-11")).nearest.front() == "loaf-1");
    CHECK(b.refused(Bakery::out("customer", "L-1", 1, "CAFFE")).nearest == std::vector<std::string>{"CAFE"});
    CHECK(b.refused(record::Stored{"L-1", "cold-stor"}).nearest == std::vector<std::string>{"cold-store"});
    record::Received received;
    received.material = "wheat-flor";
    received.supplier = "MILL";
    received.mass = measure("1kg");
    CHECK(b.refused(received).nearest == std::vector<std::string>{"wheat-flour"});
    received.material = "wheat-flour";
    received.supplier = "CAFE";  // a customer supplies nothing
    CHECK(b.refused(received).given == "supplier 'CAFE'");
    record::Filled filled;
    filled.vessel = "siloo";
    filled.lot = "WF-1";
    CHECK(b.refused(filled).nearest == std::vector<std::string>{"silo"});
    record::Acted act;
    act.finding = {3, "core", 0};
    act.product = "thrown away";
    CHECK(b.refused(act).given == "finding '3:core:0'");
    CHECK(b.refused(record::Reviewed{"W47", "", ""}).given == "'W47' to review");
    CHECK(b.refused(by("XX", record::StepDone{"L-2", "mix", ""})).given == "initials 'XX'");
    CHECK(b.refused(by("", record::StepDone{"L-2", "mix", ""})).given == "no initials");
    CHECK_FALSE(b.site->trace_forward("WF-9").ok());
    CHECK_FALSE(b.site->trace_back("").ok());
}

TEST_CASE("bad input: quantities of the wrong kind, of nothing, or below nothing") {
    Working b;
    CHECK(b.refused(Bakery::used("L-2", "WF-1", "20C")).next.find("kg") != std::string::npos);
    CHECK(b.refused(Bakery::used("L-2", "WF-1", "0kg")).wanted == "more than nothing");
    auto negative = Bakery::used("L-2", "WF-1", "1kg");
    negative.mass->value = -1;
    CHECK(b.refused(negative).wanted == "more than nothing");
    CHECK(b.refused(Bakery::reading("L-2", "core", "96kg")).wanted.find("temperature") != std::string::npos);
    CHECK(b.refused(Bakery::packed("P-1", "L-1", -3, "K")).given == "-3 pieces");
    CHECK(b.refused(Bakery::out("own-shop", "L-1", -3)).given == "-3 pieces");
    CHECK(b.refused(record::Finished{"L-2", -1, measure("1kg"), ""}).given.find("no pieces") != std::string::npos);
    CHECK(b.refused(record::Finished{"L-2", 5, {}, ""}).given.find("no mass") != std::string::npos);
    CHECK(b.refused(record::Finished{"L-2", 5, measure("0kg"), ""}).wanted == "more than nothing");
    auto unpacked = Bakery::packed("P-1", "L-1", 10, "K");
    unpacked.pieces = -10;
    b.refused(unpacked);
    record::Counted counted;
    counted.lot = "WF-1";
    counted.why = "stock";
    CHECK(b.refused(counted).given == "no quantity");
    counted.mass = measure("-1C");
    b.refused(counted);
    counted.mass.reset();
    counted.pieces = 4;  // flour is not counted in pieces
    b.refused(counted);
    counted.pieces.reset();
    counted.mass = measure("1kg");
    counted.mass->value = -1'000'000;
    b.refused(counted);
    record::Received received;
    received.material = "wheat-flour";
    received.supplier = "MILL";
    CHECK(b.refused(received).given == "no quantity");
    received.pieces = -5;
    b.refused(received);
    record::Returned returned;
    returned.lot = "L-1";
    returned.partner = "CAFE";
    CHECK(b.refused(returned).given == "no quantity");
    returned.pieces = -1;
    b.refused(returned);
    record::Started started;
    started.product = "loaf";
    started.pieces = -1;
    b.refused(started);
    started.pieces = 10;
    started.flour = measure("1kg");
    CHECK(b.refused(started).given == "more than one size");
}

TEST_CASE("bad input: a piece of a lot that weighs nothing it has, and huge numbers") {
    Working b;
    record::Received received;
    received.material = "wheat-flour";
    received.supplier = "MILL";
    received.pieces = INT64_MAX;
    b.refused(received);
    received.pieces = 0;
    received.mass = measure("1kg");
    received.mass->value = INT64_MAX;
    b.refused(received);
    b.refused(record::Finished{"L-2", INT64_MAX, measure("1kg"), ""});
    b.refused(Bakery::packed("P-1", "L-1", INT64_MAX, "K"));
    auto many = Bakery::packed("P-1", "L-1", 1, "K");
    many.pieces = INT64_MAX;
    b.refused(many);
    record::Started started;
    started.product = "loaf";
    started.pieces = INT64_MAX;
    b.refused(started);
}

TEST_CASE("bad input: times in the future and before the lot was there") {
    Working b;
    auto future = b.draft(record::StepDone{"L-2", "mix", ""});
    future.happened = b.clock.now() + seconds(1);
    CHECK(b.refused(future).given.find("a time in the future") == 0);
    auto early = b.draft(Bakery::used("L-2", "WF-1", "1kg"));
    early.happened = Instant{b.lot("L-2").happened} - seconds(1);
    CHECK(b.refused(early).given.find("for lot L-2") != std::string::npos);
    early.says = Bakery::reading("L-2", "core", "96C");
    b.refused(early);
    early.says = record::Finished{"L-2", 5, measure("4kg"), ""};
    b.refused(early);
    record::Split split{"L-1", "", "rack-1", 5, {}};
    early.says = split;
    early.happened = Instant{b.lot("L-1").happened} - seconds(1);
    b.refused(early);
    record::Counted counted;
    counted.lot = "L-1";
    counted.pieces = 3;
    counted.why = "shelf";
    early.says = counted;
    b.refused(early);
    record::Filled filled;
    filled.vessel = "silo";
    filled.lot = "WF-1";
    filled.mass = measure("10kg");
    filled.until = b.clock.now() + minutes(10);
    b.refused(filled);
    filled.until = b.clock.now() - minutes(10);
    b.refused(filled);
    // A batch cannot be packed or split before its pieces were counted.
    early.says = Bakery::packed("P-1", "L-1", 5, "K");
    early.happened = Instant{*b.lot("L-1").finished} - seconds(1);
    b.refused(early);
    early.says = split;
    b.refused(early);
}

TEST_CASE("bad input: a code that is taken, a second start, a second finish, use after finish") {
    Working b;
    record::Started again;
    again.lot = "L-1";
    again.product = "loaf";
    CHECK(b.refused(again).given.find("already loaf") != std::string::npos);
    again.lot = "WF-1";
    CHECK(b.refused(again).given.find("already wheat-flour") != std::string::npos);
    again.lot = "silo";  // would be mistaken for the vessel
    b.refused(again);
    again.lot = "L 3";
    b.refused(again);
    b.refused(record::Finished{"L-1", 54, measure("43kg"), ""});
    CHECK(b.refused(Bakery::used("L-1", "WF-1", "1kg")).given.find("after it was finished") != std::string::npos);
    b.refused(Bakery::packed("P-1", "L-2", 5, "K"));  // not finished
    b.refused(Bakery::packed("P-1", "WF-1", 0, "K"));
    b.refused(Bakery::used("L-2", "L-2", "1kg"));
    b.refused(record::PersonAdded{"QA", "Another One", "quality"});
    b.refused(record::PersonAdded{"ZZ", "Another One", "queen"});
    b.refused(record::PersonAdded{"ZZ", "  ", "quality"});
    b.refused(record::PartnerAdded{"NEW", "New", {"friend"}, "", "", "", ""});
    b.refused(record::PartnerAdded{"NEW", "New", {}, "", "", "", ""});
    b.refused(record::PartnerAdded{"NEW", "New", {"customer"}, "", "", "", "9520000470013"});  // GS1 check digit: 2
}

TEST_CASE("bad input: control characters, notes without end, invalid UTF-8") {
    Working b;
    for (const std::string& bad : {std::string("a\nb"), std::string("a\0b", 3), std::string("\x1b[31m"), std::string(10'000, 'x'),
                                   std::string("\xff"), std::string("\xed\xa0\x80"), std::string("\xc0\xaf")}) {
        INFO(shown(bad));
        b.refused(record::StepDone{"L-2", "mix", bad});
        b.refused(record::StepDone{"L-2", bad, ""});
        b.refused(record::StepDone{bad, "mix", ""});
        b.refused(record::Held{{"WF-1"}, bad, {}});
        b.refused(Bakery::packed("P-1", "L-1", 1, bad));
        b.refused(Bakery::packed(bad, "L-1", 1, "K"));
        b.refused(record::PersonAdded{"ZZ", bad, "quality"});
        record::Received received;
        received.material = "wheat-flour";
        received.supplier = "MILL";
        received.mass = measure("1kg");
        received.supplier_lot = bad;
        b.refused(received);
        auto draft = b.draft(record::StepDone{"L-2", "mix", ""});
        draft.already_done = true;
        draft.why = bad;
        b.refused(draft);
        draft = b.draft(record::StepDone{"L-2", "mix", ""});
        draft.token = bad;
        b.refused(draft);
        draft.token.clear();
        draft.by = bad;
        b.refused(draft);
        CHECK_FALSE(b.site->amend(b.lot("L-2").id, record::Started{"L-2", "loaf", {}, {}, 0, ""}, {}, "MK", bad).ok());
        CHECK_FALSE(b.site->void_entry(b.lot("L-2").id, "MK", bad).ok());
    }
    b.did(record::StepDone{"L-2", "mix", "Gärkammer 3 \xe2\x80\x94 étagère"});  // any language is fine
    CHECK(b.faults() == "");
}

TEST_CASE("bad input: one bad line among several writes none of them") {
    Working b;
    const auto before = b.state();
    const auto all = b.site->record_all({b.draft(record::StepDone{"L-2", "mix", ""}), b.draft(Bakery::used("L-2", "WF-1", "5kg")),
                                         b.draft(Bakery::used("L-2", "WF-1", "500kg"))});
    REQUIRE_FALSE(all.ok());
    CHECK(b.state() == before);
    // What was read inside the failed command is forgotten with it.
    const auto next = b.did(Bakery::used("L-2", "WF-1", "70kg"));
    CHECK(next.seq == before.entries + 1);
    CHECK(b.faults() == "");
}

TEST_CASE("bad input: a folder that is missing, holds no site, or another program's database") {
    Bakery b;
    CHECK_FALSE(Site::open(b.folder / "nothing", b.clock, b.files).ok());
    const auto other = b.folder / "other";
    b.files.make_folder(other);
    b.files.create(other / "site.toml", "");
    CHECK_FALSE(Site::open(other, b.clock, b.files).ok());
    b.files.create(other / "book.db", "this is a text and no book");
    CHECK_THROWS_AS(Site::open(other, b.clock, b.files), MachineFailed);
    CHECK_FALSE(Site::create(b.folder, "Another", "Europe/Berlin", "AB", "A B", b.clock, b.files).ok());
    CHECK_FALSE(Site::create(b.folder / "new", "Another", "Europe/Berlim", "AB", "A B", b.clock, b.files).ok());
    CHECK_FALSE(Site::create(b.folder / "new", "", "Europe/Berlin", "AB", "A B", b.clock, b.files).ok());
    CHECK_FALSE(std::filesystem::exists(b.folder / "new"));
    CHECK(b.faults() == "");
}

TEST_CASE("a site opened for reading records nothing") {
    Working b;
    const auto before = b.state();
    auto reading = Site::open(b.folder, b.clock, b.files, book::Book::Mode::read);
    REQUIRE(reading.ok());
    CHECK((*reading)->status().entries == before.entries);
    CHECK((*reading)->trace_forward("WF-1").ok());
    CHECK_THROWS_AS((*reading)->record(b.draft(record::StepDone{"L-2", "mix", ""})),
                    std::logic_error);  // the caller's own slip
    CHECK(b.state() == before);
}

TEST_CASE("a repeated command answers with the first receipt and writes nothing") {
    Working b;
    auto draft = b.draft(Bakery::used("L-2", "WF-1", "5kg"));
    draft.token = "till-7-0001";
    const auto first = b.did(draft);
    const auto before = b.state();
    b.pass(minutes(3));
    const auto again = b.did(draft);
    CHECK(again.repeated);
    CHECK(again.seq == first.seq);
    CHECK(again.happened == first.happened);
    CHECK(again.written == first.written);
    CHECK(again.said == first.said);
    CHECK(b.state() == before);
    record::Started started;
    started.product = "loaf";
    auto start = b.draft(started);
    start.token = "till-7-0002";
    const auto made = b.did(start);
    CHECK(b.did(start).code == made.code);
    const auto amended = b.site->amend(first.seq, Bakery::used("L-2", "WF-1", "6kg"), {}, "MK", "weighed again", "till-7-0003");
    REQUIRE(amended.ok());
    const auto once_more = b.site->amend(first.seq, Bakery::used("L-2", "WF-1", "6kg"), {}, "MK", "weighed again", "till-7-0003");
    REQUIRE(once_more.ok());
    CHECK(once_more->repeated);
    CHECK(once_more->seq == amended->seq);
    CHECK(once_more->kind == amended->kind);
    CHECK(b.faults() == "");
}

TEST_CASE("rights go by role") {
    Working b;
    b.did(by("BA", Bakery::used("L-2", "WF-1", "5kg")));
    auto refusal = b.refused(by("BA", Bakery::packed("P-1", "L-1", 1, "K")));
    CHECK(refusal.given == "'pack' by BA, role baker");
    CHECK(refusal.wanted.find("manager") != std::string::npos);
    b.did(by("BA", record::Held{{"WF-1"}, "wet", {}}));  // stopping never needs a right
    b.refused(by("QA", Bakery::used("L-2", "WF-1", "5kg")));
    b.did(by("QA", record::Held{{"WF-1"}, "wet", {}}));
    b.refused(by("BA", record::Released{{"WF-1"}, "dry again"}));
    b.did(by("QA", record::Released{{"WF-1"}, "dry again"}));
    const auto used = b.did(by("BA", Bakery::used("L-2", "WF-1", "5kg")));
    const auto before = b.state();
    CHECK_FALSE(b.site->amend(used.seq, Bakery::used("L-2", "WF-1", "6kg"), {}, "BA", "weighed again").ok());
    CHECK_FALSE(b.site->void_entry(used.seq, "BA", "typed twice").ok());
    CHECK_FALSE(b.site->adopt_plan("BA").ok());
    CHECK(b.state() == before);
    CHECK(b.site->amend(used.seq, Bakery::used("L-2", "WF-1", "6kg"), {}, "QA", "weighed again").ok());
    // An automatic hold is the program's, whoever took the reading.
    b.did(by("BA", Bakery::reading("L-2", "core", "80C")));
    b.did(by("BA", record::StepDone{"L-2", "bake", ""}));
    CHECK(b.held("L-2"));
}

TEST_CASE("without an adopted plan nothing is recorded that it would judge") {
    HandClock clock(Instant{1'794'787'200'000});
    DiskFiles files;
    const auto folder = std::filesystem::temp_directory_path() / ("peelbook-new-" + std::to_string(::getpid()));
    auto made = Site::create(folder, "New", "Europe/Berlin", "AB", "A B", clock, files);
    REQUIRE(made.ok());
    auto& site = **made;
    record::Started started;
    started.product = "loaf";
    const auto refusal = site.record(by("AB", started));
    REQUIRE_FALSE(refusal.ok());
    CHECK(refusal.refusal().given == "no plan in force");
    CHECK(site.status().entries == 2);
    std::ofstream(folder / "site.toml") << "[site]\nname = 3\n";
    CHECK_FALSE(site.adopt_plan("AB").ok());
    CHECK(site.status().entries == 2);
    made->reset();
    std::filesystem::remove_all(folder);
}

TEST_CASE("what stands for ever is neither amended nor voided") {
    Working b;
    const auto hold = b.did(record::Held{{"WF-1"}, "wet", {}});
    const auto release = b.did(record::Released{{"WF-1"}, "dry"});
    const auto before = b.state();
    for (const Seq seq : {Seq{1}, Seq{2}, Seq{3}, hold.seq, release.seq, Seq{0}, Seq{-4}, Seq{100'000}}) {
        INFO(seq);
        CHECK_FALSE(b.site->void_entry(seq, "MK", "a slip").ok());
        CHECK_FALSE(b.site->amend(seq, record::Held{{"WF-1"}, "wet", {}}, {}, "MK", "a slip").ok());
    }
    CHECK_FALSE(b.site->amend(b.lot("L-2").id, record::StepDone{"L-2", "mix", ""}, {}, "MK", "another kind").ok());
    CHECK_FALSE(b.site->amend(b.lot("L-2").id, record::Started{"L-9", "loaf", {}, {}, 0, ""}, {}, "MK", "another code").ok());
    CHECK_FALSE(b.site->amend(b.lot("L-2").id, record::Started{"L-2", "loaf", {}, {}, 20, ""}, {}, "MK", "").ok());
    CHECK(b.state() == before);
}
