#include <catch2/catch.hpp>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;

namespace {

struct Open {
    Book book = Book::in_memory();
    Book::Work work = book.begin();
    Derived& rows = book.derived();

    Int changes() const { return std::get<Int>(book.query("SELECT total_changes()", {})->rows[0][0]); }
};

Reading reading_of(Seq seq, std::optional<LotId> lot, const std::string& place, Int happened) {
    return {seq, 0, lot, place, "core", "", "T-1", 93400, "C", "93.4C", happened, "AB", {}};
}

Finding finding_of(Seq anchor, LotId lot, Verdict verdict) {
    Finding f;
    f.anchor = anchor;
    f.point = "core";
    f.lot = lot;
    f.grade = Grade::critical;
    f.verdict = f.raised = verdict;
    f.happened = anchor;
    return f;
}

template <class Row> std::vector<Seq> seqs(const std::vector<Row>& rows) {
    std::vector<Seq> found;
    for (const Row& row : rows) found.push_back(row.seq);
    return found;
}

}  // namespace

TEST_CASE_METHOD(Open, "Writing what stands there already writes nothing") {
    Lot lot = lot_of(1, "A");
    lot.made_mg = 5000;
    rows.put(lot);
    rows.set_uses_into(1, {Use{1, 2, 3, 100, {}, {}, 1, 1, {}, 5, ""}, Use{1, 4, 3, {}, 7, {}, 1, 0, {}, 5, "x"}});
    const Int before = changes();
    rows.put(lot);
    rows.set_uses_into(1, {Use{1, 4, 3, {}, 7, {}, 1, 0, {}, 5, "x"}, Use{1, 2, 3, 100, {}, {}, 1, 1, {}, 5, ""}});
    CHECK(changes() == before);
    CHECK(rows.lot(1) == lot);

    lot.status = LotStatus::open;
    rows.put(lot);
    CHECK(changes() == before + 1);
    CHECK(rows.lot("A") == lot);

    rows.set_uses_into(
        1, {Use{1, 2, 3, 200, {}, {}, 1, 1, {}, 5, ""}, Use{1, 9, 8, 1, {}, {}, 1, 1, {}, 6, ""}});  // one of each: changed, gone, new
    CHECK(changes() == before + 4);
    CHECK(rows.uses_into(1) == std::vector<Use>{Use{1, 2, 3, 200, {}, {}, 1, 1, {}, 5, ""}, Use{1, 9, 8, 1, {}, {}, 1, 1, {}, 6, ""}});
    rows.set_uses_into(1, {});
    CHECK(rows.uses_into(1).empty());
    CHECK_THROWS_AS(rows.set_uses_into(1, {Use{1, 2, 3, {}, {}, {}, 1, 1, {}, 5, ""}, Use{1, 2, 3, 7, {}, {}, 1, 1, {}, 5, ""}}),
                    std::logic_error);
}

TEST_CASE_METHOD(Open, "Facts and tokens") {
    rows.put(Fact{1, "opened", 10, 11, "AB", "", 0, {}, {}});
    rows.put(Fact{2, "reading", 20, 21, "AB", "k7", 1, {}, {}});
    rows.put(Fact{3, "reading", 20, 21, "AB", "", 0, 4, 5});
    CHECK(rows.seq_of_token("k7") == 2);
    CHECK_FALSE(rows.seq_of_token("k8"));
    CHECK_FALSE(rows.seq_of_token(""));
    CHECK(rows.fact(3)->amended_by == 4);
    CHECK_THROWS(rows.put(Fact{4, "reading", 20, 21, "AB", "k7", 0, {}, {}}));
}

TEST_CASE_METHOD(Open, "Touches come in the order things happened, and by windows") {
    using enum SubjectKind;
    rows.set_touches({}, {{place, "cold-room#air", 100, 5}, {instrument, "T-1", 100, 5}});
    rows.set_touches({}, {{place, "cold-room#air", 50, 6}});
    rows.set_touches({}, {{place, "cold-room#air", 100, 7}});
    rows.set_touches({}, {{place, "cold-room#air", 200, 8}});
    CHECK(rows.touching(place, "cold-room#air") == std::vector<Seq>{6, 5, 7, 8});
    CHECK(rows.touching(place, "cold-room#air", 100) == std::vector<Seq>{5, 7, 8});
    CHECK(rows.touching_before(place, "cold-room#air", 100, 2) == std::vector<Seq>{7, 5});
    CHECK(rows.touching_after(place, "cold-room#air", 100, 9) == std::vector<Seq>{8});
    CHECK(rows.touching(lot, "cold-room#air").empty());
    rows.set_touches(rows.touches_of(5), {{instrument, "T-1", 300, 5}});
    CHECK(rows.touches_of(5) == std::vector<Touch>{{instrument, "T-1", 300, 5}});
}

TEST_CASE_METHOD(Open, "People, partners and the plan in force") {
    rows.put(Person{"CD", "C Dough", "baker", 2});
    rows.put(Person{"AB", "A Baker", "baker", 1});
    rows.put(Person{"AB", "A Baker", "manager", 3});
    CHECK(rows.person("AB")->role == "manager");
    CHECK(rows.people().size() == 2);
    CHECK_FALSE(rows.plan_in_force(50));
    PlanPoint point;
    point.plan_seq = 4;
    point.id = "core";
    point.grade = Grade::critical;
    rows.put(PlanVersion{4, 100, "x", "AB"}, {point}, {PlanItem{4, "product", "rye", "Rye", "", "", 0}});
    rows.put(PlanVersion{9, 200, "y", "AB"}, {}, {});
    CHECK(rows.plan_in_force(50)->seq == 4);  // the first also governs what happened before it
    CHECK(rows.plan_in_force(199)->seq == 4);
    CHECK(rows.plan_in_force(200)->seq == 9);
    CHECK(rows.plan_versions().size() == 2);
    rows.put(PlanCompiled{4, "kept"});
    CHECK(rows.plan_compiled(4)->text == "kept");
    CHECK_FALSE(rows.plan_compiled(9));
    CHECK(book.whole_table("plan_item").rows.size() == 1);
}

TEST_CASE_METHOD(Open, "Lots by every name they go by") {
    Lot flour = lot_of(1, "F-1", LotKind::received);
    flour.supplier_lot = "M77";
    flour.item = "wheat-flour";
    Lot again = flour;
    again.id = 2;
    again.code = "F-2";
    again.happened = 9000;
    Lot blend = lot_of(3, "S-1", LotKind::blend);
    blend.vessel = "silo";
    Lot later = lot_of(4, "S-2", LotKind::blend);
    later.vessel = "silo";
    Lot pack = lot_of(5, "P-1", LotKind::pack);
    pack.printed_code = "L24";
    for (const Lot& lot : {again, flour, blend, later, pack, lot_of(6, "B-1"), lot_of(7, "B-10")}) rows.put(lot);
    CHECK(rows.lots_by_supplier("M77") == std::vector<Lot>{flour, again});
    CHECK(rows.lots_by_supplier("").empty());
    CHECK(rows.lots_of_item("wheat-flour") == std::vector<Lot>{flour, again});
    CHECK(rows.lots_with_printed_code("L24") == std::vector<Lot>{pack});
    CHECK(rows.lots_with_printed_code("").empty());
    CHECK(rows.blends_of("silo") == std::vector<Lot>{blend, later});
    CHECK(rows.blend_at("silo", 3999) == blend);
    CHECK(rows.blend_at("silo", 4000) == later);
    CHECK_FALSE(rows.blend_at("silo", 2999));
    CHECK(rows.lots_started(6000, 7000) == std::vector<Lot>{lot_of(6, "B-1")});
    CHECK(rows.lots_open(6000, 7000) == std::vector<Lot>{lot_of(6, "B-1")});
    Lot done = lot_of(6, "B-1");
    done.finished = 6500;
    rows.put(done);
    CHECK(rows.lots_started(6000, 7000) == std::vector<Lot>{done});
    CHECK(rows.lots_open(6000, 7000).empty());
    CHECK(rows.codes_like("B-1") == std::vector<std::string>{"B-1", "B-10"});
    CHECK(rows.codes_like("B-10") == std::vector<std::string>{"B-10"});
    CHECK(rows.all_codes(2) == std::vector<std::string>{"B-10", "B-1"});
    rows.erase_lot(7);
    CHECK_FALSE(rows.lot("B-10"));
    Lot same_code = lot_of(8, "B-1");
    CHECK_THROWS(rows.put(same_code));
}

TEST_CASE_METHOD(Open, "Ways out, counts and stock") {
    const Move sold{1, 5, Way::customer, "CAFE", 100, 2, 1, 0, 50, 1, "", "", "", ""};
    rows.set_moves(1, {sold});
    CHECK(rows.moves(1) == std::vector<Move>{sold});
    CHECK(rows.moves_to("CAFE") == std::vector<Move>{sold});
    CHECK(rows.moves_to("").empty());
    rows.set_counts(1, {{1, 6, 60, 70, {}, "weighed"}});
    CHECK(rows.counts(1)[0].counted_mg == 70);
    Stock stock;
    stock.lot = 1;
    stock.made_mg = 1000;
    stock.used_mg = 300;
    stock.out_mg = 100;
    stock.gap_mg = -30;  // 600 computed, 570 counted
    stock.on_hand_mg = 570;
    rows.put(stock);
    CHECK(rows.stock(1) == stock);
    stock.on_hand_mg = 571;
    CHECK_THROWS(rows.put(stock));  // does not add up
}

TEST_CASE_METHOD(Open, "Readings of lots, places and instruments") {
    rows.set_readings(1, {reading_of(5, 1, "", 100), reading_of(6, 1, "", 50)});
    CHECK(seqs(rows.readings(1)) == std::vector<Seq>{6, 5});
    rows.set_reading_rows(7, {reading_of(7, {}, "room", 100)});
    rows.set_reading_rows(8, {reading_of(8, {}, "room", 200)});
    Reading voided = reading_of(9, {}, "room", 150);
    voided.voided_by = 10;
    rows.set_reading_rows(9, {voided});
    CHECK(rows.reading_before("room", "core", 200, 8)->seq == 7);
    CHECK(rows.reading_before("room", "core", 200, 0)->seq == 8);
    CHECK(rows.reading_after("room", "core", 100, 0)->seq == 8);
    CHECK_FALSE(rows.reading_after("room", "core", 200, 0));
    CHECK(seqs(rows.readings_of_place("room", "core", 100, 200)) == std::vector<Seq>{7, 9});
    CHECK(rows.lots_read_by("T-1", 0, 100) == std::vector<LotId>{1});
    CHECK(rows.lots_read_by("T-1", 101, 900).empty());
    CHECK_THROWS(rows.set_reading_rows(11, {reading_of(11, 1, "room", 1)}));  // of a lot or of a place, not both
}

TEST_CASE_METHOD(Open, "Findings, holds and actions") {
    rows.put(finding_of(5, 1, Verdict::deviation));
    rows.put(finding_of(6, 1, Verdict::within));
    Finding cleared = finding_of(7, 2, Verdict::within);
    cleared.raised = Verdict::deviation;
    cleared.cleared_by = 9;
    rows.put(cleared);
    CHECK(rows.findings(1).size() == 2);
    CHECK(rows.findings_at(7) == std::vector<Finding>{cleared});
    CHECK(rows.open_findings() == std::vector<Finding>{finding_of(5, 1, Verdict::deviation)});
    CHECK(rows.undecided_findings() == rows.open_findings());
    Finding decided = finding_of(5, 1, Verdict::deviation);
    decided.decided = record::Disposition::rework;
    rows.put(decided);
    CHECK(rows.open_findings() == std::vector<Finding>{decided});
    CHECK(rows.undecided_findings().empty());
    cleared.raised = Verdict::within;
    cleared.verdict = Verdict::unproven;
    CHECK_THROWS(rows.put(cleared));  // never below what it stands at
    rows.erase_finding(6, "core", 0);
    CHECK_FALSE(rows.finding(6, "core", 0));

    rows.set_holds(1, {{5, 1, 10, "too cold", 5, "core", 0, {}}});
    CHECK(rows.is_held(1));
    CHECK(rows.has_hold_for(5, "core", 0));
    CHECK_FALSE(rows.has_hold_for(5, "core", 1));
    CHECK(rows.open_holds().size() == 1);
    rows.set_holds(1, {{5, 1, 10, "too cold", 5, "core", 0, 8}});
    CHECK_FALSE(rows.is_held(1));
    CHECK(rows.open_holds().empty());
    CHECK(rows.has_hold_for(5, "core", 0));

    rows.put(Action{9, 5, "core", 0, "set aside", "", record::Disposition::discard, "", "", "AB", 12});
    CHECK(seqs(rows.actions(5, "core", 0)) == std::vector<Seq>{9});
    rows.erase_action(9);
    CHECK(rows.actions(5, "core", 0).empty());
}

TEST_CASE_METHOD(Open, "Allergens, spans, what is owed, corrections, reviews") {
    rows.set_allergens(1, {{1, "wheat", AllergenLevel::contains}, {1, "soy", AllergenLevel::may_contain}});
    rows.set_allergens(1, {{1, "wheat", AllergenLevel::contains}});
    CHECK(rows.allergens(1) == std::vector<LotAllergen>{{1, "wheat", AllergenLevel::contains}});

    rows.set_spans("T-1", {{"T-1", 100, 200, InstrumentState::valid, 5}, {"T-1", 300, {}, InstrumentState::lapsed, 6}});
    CHECK_FALSE(rows.span_at("T-1", 99));
    CHECK(rows.span_at("T-1", 100)->state == InstrumentState::valid);
    CHECK_FALSE(rows.span_at("T-1", 200));
    CHECK(rows.span_at("T-1", 900)->state == InstrumentState::lapsed);

    rows.set_owed(SubjectKind::lot, "B-1",
                  {{SubjectKind::lot, "B-1", "core", 0, 10, 90, "core"}, {SubjectKind::lot, "B-1", "cool", 0, 20, 30, "cooling"}});
    CHECK(rows.owed_until(10).size() == 1);
    CHECK(rows.owed_until(20)[0].point == "cool");

    rows.put(Correction{9, 5, "amended", "slip", "a", "b"});
    CHECK(seqs(rows.corrections(5)) == std::vector<Seq>{9});
    rows.put(Review{10, "B-1", "d", "QA", "", 20, {}});
    rows.put(Review{10, "B-1", "d", "QA", "", 20, 11});
    CHECK(rows.reviews("B-1")[0].reopened_by == 11);
}

TEST_CASE_METHOD(Open, "Emptying the derived tables leaves the entries") {
    book.append({1, {1}, {1}, "AB", "", record::Statement{record::Opened{"X"}}});
    rows.put(lot_of(1, "A"));
    book.clear_derived();
    for (const std::string& table : Book::derived_tables()) CHECK(book.whole_table(table).rows.empty());
    CHECK(book.next_seq() == 2);
}
