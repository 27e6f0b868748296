// Who has it, who knows, and what adds up, through the public face. A loaf weighs 0.8 kg, so a pack of 40 is 32 kg. Common practice.
#include <unistd.h>

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

using Texts = std::vector<std::string>;

// Of WF-1 a batch of 54 loaves, 40 of them packed as P-1 under K1: 30 to CAFE, 10 to SHOP. P-2 of another batch stands here under K2.
struct Recalled : Bakery {
    std::string code;

    explicit Recalled(bool drill = false) {
        receive("WF-1", "wheat-flour", "100kg", "W-1");
        receive("WF-2", "wheat-flour", "100kg", "W-2");
        did(metal(true));
        loaf("L-1", "WF-1");
        loaf("L-2", "WF-1");
        did(packed("P-1", "L-1", 40, "K1"));
        did(packed("P-2", "L-2", 40, "K2"));
        end_of_run();
        ship();
        record::RecallOpened opening;
        opening.drill = drill;
        opening.lots = {"MILL:W-1"};
        opening.hazard = "stones";
        opening.why = "the miller called";
        pass(minutes(1));
        did(opening);
        code = site->recalls().front().code;
    }
    void ship() {
        did(out("customer", "P-1", 30, "CAFE"));
        did(out("customer", "P-1", 10, "SHOP"));
    }

    RecallView view() const {
        auto found = site->recall(code);
        REQUIRE(found.ok());
        return *found;
    }
    record::RecallCounted said(const std::string& printed, const std::string& what, std::int64_t pieces, const std::string& partner,
                               const std::string& way = "") const {
        record::RecallCounted c;
        c.recall = code;
        c.code = printed;
        c.what = what;
        c.pieces = pieces;
        c.partner = partner;
        c.way = way;
        return c;
    }
    record::Contacted called(const std::string& partner, bool reached = true, Texts codes = {}) {
        pass(minutes(1));
        record::Contacted c;
        c.recall = code;
        c.partner = partner;
        c.reached = reached;
        c.codes = std::move(codes);
        return c;
    }
    // "CAFE K1 told, 30 open" of every customer and code, "+45" for what is more than was sent.
    Texts goods() const {
        Texts out;
        const auto add = [&](const std::string& who, const RecallGoods& one) {
            out.push_back(who + " " + one.delivery.code() + (one.told ? " told" : "") + ", " + std::to_string(one.open.pieces) + " open" +
                          (one.excess.pieces != 0 ? " +" + std::to_string(one.excess.pieces) + (one.asked ? " asked" : "") : ""));
        };
        const auto now = view();
        for (const auto& one : now.unnamed) add(one.delivery.way, one);
        for (const auto& partner : now.partners) {
            for (const auto& one : partner.had) add(partner.partner.code, one);
        }
        return out;
    }
    RecallTiming timing(const std::string& step) const {
        for (const auto& t : view().timings) {
            if (t.step == step) return t;
        }
        FAIL(step);
        return {};
    }
};

bool told_in(const Receipt& receipt, const std::string& note) {
    return std::find(receipt.next.begin(), receipt.next.end(), note) != receipt.next.end();
}

}  // namespace

TEST_CASE("rule 64: reached is said of a customer and a code; a code that comes later opens the customer again") {
    Recalled b;
    CHECK(b.goods() == Texts{"CAFE K1, 30 open", "SHOP K1, 10 open"});
    b.did(b.called("SHOP"));
    b.did(b.called("CAFE", false));
    CHECK(b.goods() == Texts{"CAFE K1, 30 open", "SHOP K1 told, 10 open"});
    b.did(b.called("CAFE"));
    const auto all_reached = b.clock.now().ms;
    CHECK(b.timing("every customer reached").done == all_reached);
    // A shipment that nobody had written down: they have K2 as well, and were never told of it.
    b.already_done(Bakery::out("customer", "P-2", 20, "CAFE"), "left at six, the note lay in the van");
    CHECK(b.goods() == Texts{"CAFE K1 told, 30 open", "CAFE K2, 20 open", "SHOP K1 told, 10 open"});
    CHECK_FALSE(b.timing("every customer reached").done.has_value());
    CHECK(told_in(b.did(b.called("CAFE", true, {"K1"})), "not told yet of K2"));
    CHECK_FALSE(b.timing("every customer reached").done.has_value());
    CHECK(told(b.refused(b.called("CAFE", true, {"K3"}))).find("code 'K3' of CAFE | one of K1, K2 | ") == 0);
    const auto second = b.did(b.called("CAFE", true, {"K2"}));
    CHECK(b.timing("every customer reached").done == b.clock.now().ms);
    // Taken back, it told nobody.
    b.did(Draft{record::Voided{second.seq, "nobody answered, it was the other shop"}, "QA", {}, "", false, ""});
    CHECK(b.goods()[1] == "CAFE K2, 20 open");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 64: a call that is written down later tells nothing that nobody could know when it was made") {
    Recalled b;
    b.pass(minutes(10));
    const auto call = b.draft(b.called("CAFE"));
    b.pass(minutes(20));
    b.already_done(Bakery::out("customer", "P-2", 20, "CAFE"), "left at six, the note lay in the van");
    auto late = call;
    late.happened = b.clock.now() - minutes(20);
    CHECK(told_in(b.did(late), "not told yet of K2"));
    CHECK(b.goods() == Texts{"CAFE K1 told, 30 open", "CAFE K2, 20 open", "SHOP K1, 10 open"});
    late.says = b.called("CAFE", true, {"K2"});  // who called knew it all the same, and says so
    b.did(late);
    CHECK(b.goods()[1] == "CAFE K2 told, 20 open");
}

TEST_CASE("rule 64: a partner who had nothing of it is told of nothing, and a later delivery to them is open") {
    Recalled b;
    b.did(record::PartnerAdded{"INN", "The Inn", {"customer"}, "", "+00 555 0109", "", ""});
    CHECK(told_in(b.did(b.called("INN")), "INN had nothing of it"));
    b.already_done(Bakery::out("customer", "P-2", 4, "INN"), "left at six");
    CHECK(b.goods()[1] == "INN K2, 4 open");
}

TEST_CASE("rule 64: a count is worth what that customer got of that code; what is more is a question and hides nobody's gap") {
    Recalled b;
    CHECK(told_in(b.did(b.said("K1", "destroyed", 75, "CAFE")),
                  "45 pieces of K1 more than the records have at CAFE: it credits nobody. Ask: is a shipment not recorded, or was another "
                  "code read?"));
    CHECK(b.goods() == Texts{"CAFE K1, 0 open +45", "SHOP K1, 10 open"});
    CHECK(b.ask("SELECT pieces, excess_pieces, excess_mg FROM recall_count") == Texts{"75 45 0"});
    CHECK(b.view().missing_pieces() == 10);
    CHECK(b.view().missing_mg() == 8'000'000);
    // They say more of a code that they never got: a line of its own, of nothing.
    b.did(b.said("K2", "found", 5, "CAFE"));
    CHECK(b.goods() == Texts{"CAFE K1, 0 open +45", "CAFE K2, 0 open +5", "SHOP K1, 10 open"});
    b.did(b.called("CAFE"));
    CHECK(b.goods() == Texts{"CAFE K1 told, 0 open +45 asked", "CAFE K2 told, 0 open +5 asked", "SHOP K1, 10 open"});
    // The note of a second van turns up: five of K2 were there, and are found.
    b.already_done(Bakery::out("customer", "P-2", 5, "CAFE"), "left at six");
    CHECK(b.goods()[1] == "CAFE K2 told, 0 open");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 64: what comes back in a recall is booked up to what was sent") {
    Recalled b;
    b.did(b.said("K1", "returned", 36, "CAFE"));
    CHECK(b.ask("SELECT pieces FROM move WHERE way = 'returned'") == Texts{"30"});
    CHECK(b.ask("SELECT returned_pieces FROM stock JOIN lot ON id = lot WHERE code = 'P-1'") == Texts{"30"});
    CHECK(b.goods() == Texts{"CAFE K1, 0 open +6", "SHOP K1, 10 open"});
    b.did(b.said("K1", "returned", 2, "CAFE"));
    CHECK(b.ask("SELECT count(*) FROM move WHERE way = 'returned'") == Texts{"1"});
    CHECK(b.goods()[0] == "CAFE K1, 0 open +8");
    CHECK(b.view().missing_mg() == 8'000'000);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 65: what was sold over our own counter comes back by its way, at most what went out so") {
    struct WithShop : Recalled {
        void sell() {
            already_done(out("own-shop", "P-2", 12), "sold before the miller called");
            already_done(out("staff-shop", "P-2", 3), "sold before the miller called");
        }
    } b;
    b.sell();
    CHECK(b.goods() == Texts{"own-shop K2, 12 open", "staff-shop K2, 3 open", "CAFE K1, 30 open", "SHOP K1, 10 open"});
    record::Returned back{"P-2", "", 5, {}, "", "", "own-shop"};
    b.did(back);
    CHECK(b.held("P-2"));
    CHECK(b.goods()[0] == "own-shop K2, 7 open");
    back.pieces = 8;
    CHECK(told(b.refused(back)).find("8 pieces of P-2 back from own-shop | at most what went there and has not come back: 7 pieces") == 0);
    back.partner = "CAFE";
    CHECK(b.refused(back).given == "CAFE and own-shop");
    back.partner = back.way = "";
    CHECK(b.refused(back).given == "goods of nobody");
    back.way = "donation";  // names who has it
    CHECK(b.refused(back).wanted == "a way out that names nobody: own-shop, staff-shop");
    b.did(b.said("K2", "destroyed", 3, "", "staff-shop"));
    b.did(b.said("K2", "returned", 4, "", "own-shop"));
    CHECK(b.goods()[0] == "own-shop K2, 3 open");
    CHECK(b.goods()[1] == "staff-shop K2, 0 open");
    CHECK(told(b.refused(b.said("K2", "used", 3, "", "own-shop"))) ==
          "used by nobody | the customer who says so: without a name it stays not accounted for | add --from PARTNER");
    CHECK(b.refused(b.said("K2", "destroyed", 3, "")).given == "destroyed by nobody");
    Texts ways;
    for (const auto& way : b.view().ways)
        ways.push_back(std::string(word(way.way)) + " " + std::to_string(way.went.pieces) + " " + std::to_string(way.open.pieces));
    CHECK(ways == Texts{"customer 40 40", "own-shop 12 3", "staff-shop 3 0"});
    CHECK(b.faults() == "");
}

TEST_CASE("rule 65: what a co-packer sent back packed is no longer there; they are asked for the rest") {
    struct WithCoPacker : Recalled {
        WithCoPacker() : Recalled(true) {
            did(record::PartnerAdded{"CO", "A co-packer", {"carrier"}, "", "+00 555 0108", "", ""});
            did(out("co-packer", "L-2", 10, "CO"));  // the 14 loaves that were not packed weigh 11.2 kg
            record::CoPacked back;
            back.lot = "C-1";
            back.product = "loaf";
            back.partner = "CO";
            back.from = {"L-2"};
            back.pieces = 6;
            back.mass = measure("5kg");
            back.printed_code = "K9";
            did(back);
        }
    } b;
    CHECK(b.goods()[1] == "CO L-2, 4 open");
    const auto view = b.view();
    const auto& at = view.partners.at(1).had.front();
    CHECK(at.delivery.pieces == 10);
    CHECK(at.repacked == trace::Amounts{5'000'000, 6});
    CHECK(at.open == trace::Amounts{3'000'000, 4});
    for (const auto& lot : view.reconciliation.lots) {
        if (lot.code != "L-2") continue;
        CHECK(lot.pieces->shipped == 4);
        CHECK(lot.pieces->moved_on == 46);  // 40 packed here, 6 there
        CHECK(lot.pieces->unaccounted() == 0);
    }
    CHECK(view.reconciliation.goods.pieces.made == 108);  // 54 loaves of each batch, whoever packed them
    CHECK(view.missing_pieces() == 30 + 10 + 4);
    b.did(b.said("L-2", "found", 4, "CO"));
    CHECK(b.view().missing_pieces() == 40);
    CHECK(b.goods()[1] == "CO L-2, 0 open");
}

TEST_CASE("what is left out stays in the sums, and what a correction cut off stays with its customers as possible") {
    Recalled b;
    const auto use = std::stoll(b.ask("SELECT seq FROM use JOIN lot ON lot.id = into_lot WHERE code = 'L-1' ORDER BY seq").front());
    const auto made = b.view().reconciliation.all.pieces.made;
    const auto amended = b.amended(use, Bakery::used("L-1", "WF-2", "30kg"), "the bag was WF-2");
    b.countersigned(amended.seq);
    CHECK(b.goods() == Texts{"CAFE K1, 30 open", "SHOP K1, 10 open"});
    CHECK_FALSE(b.view().deliveries.front().certain);
    b.did(record::RecallDecided{b.code, "", "", "stones", {"L-1", "P-1"}, "weigh sheet and bag label agree: WF-2"});
    CHECK(b.view().reconciliation.all.pieces.made == made);
    CHECK(b.view().missing_pieces() == 40);
    const auto open = b.view().still_open();  // nobody needs to be told of what was left out
    CHECK(std::none_of(open.begin(), open.end(), [](const auto& one) { return one.find("NOT TOLD") == 0; }));
    CHECK(b.timing("every customer reached").done.has_value());
}

TEST_CASE("closing names each step not done, each code not told, the gap and what nobody asked about") {
    Recalled b;
    b.did(b.said("K1", "destroyed", 33, "CAFE"));
    record::RecallClosed close;
    close.recall = b.code;
    CHECK(told(b.refused(close)) ==
          "RECALL-261116-1 closed with NOT ACCOUNTED FOR: 10 pieces, 8kg; NOT DONE: authority told; NOT DONE: public told; NOT DONE: "
          "supplier told; NOT TOLD: CAFE of K1; NOT TOLD: SHOP of K1; NOT ASKED: CAFE, 3 pieces of K1 more than was sent | a reason; it "
          "then stands on every page | do what is left (peelbook recall status RECALL-261116-1), or add --why \"...\"");
    b.did(b.called("CAFE"));
    b.did(record::RecallTold{b.code, "authority", "food office", "telephone", "case 17"});
    close.why = "the shop is shut for good";
    b.did(close);
    const auto view = b.view();
    CHECK(view.recall.closed_open ==
          "NOT ACCOUNTED FOR: 10 pieces, 8kg\nNOT DONE: public told\nNOT DONE: supplier told\nNOT TOLD: SHOP of K1");
    CHECK(view.stamp() ==
          "NOT ACCOUNTED FOR: 10 pieces, 8kg; NOT DONE: public told; NOT DONE: supplier told; NOT TOLD: SHOP of K1 (the shop is shut for "
          "good)");
    CHECK(view.stamp(false) == "NOT ACCOUNTED FOR: 10 pieces, 8kg; and 3 more");
    CHECK(b.faults() == "");
}

TEST_CASE("an older book: who was called was told of what the snapshot had there, and counts are read as they were said") {
    namespace fs = std::filesystem;
    const auto folder = fs::temp_directory_path() / ("peelbook-older-" + std::to_string(::getpid()));
    fs::remove_all(folder);
    fs::copy(fs::path(PEELBOOK_SOURCE_DIR) / "tests/samples/layout-2", folder);
    fs::permissions(folder / "book.db", fs::perms::owner_write, fs::perm_options::add);
    HandClock clock(Instant{1'795'000'000'000});
    DiskFiles files;
    {
        auto older = site::Site::open(folder, clock, files, book::Book::Mode::rebuild);
        REQUIRE(older.ok());
        (*older)->rebuild();
    }
    auto site = site::Site::open(folder, clock, files);
    REQUIRE(site.ok());
    const auto view = (*site)->recall("RECALL-261117-1");
    REQUIRE(view.ok());
    Texts told;
    for (const auto& one : view->partners) {
        if (one.partner.code != "SHOP") continue;
        for (const auto& goods : one.had)
            told.push_back(goods.delivery.code() + (goods.told ? " told, " : ", ") + std::to_string(goods.open.pieces) + " open");
    }
    CHECK(told == Texts{"R321 told, 0 open"});
    CHECK(view->recall.closed_open == "");
    site->reset();
    fs::remove_all(folder);
}
