// The temporary tables that reports read beside the derived ones.
#include <catch2/catch.hpp>

#include "site/report/limit_table.h"
#include "site/report/trace_tables.h"

using namespace peelbook;
using namespace peelbook::site;
using Int = std::int64_t;

namespace {

plan::Bound celsius(std::int64_t milli) { return {measure_of(milli, Unit::celsius), std::nullopt}; }

plan::Point point_of(const std::string& id, plan::Limit limit) {
    plan::Point point;
    point.id = id;
    point.dimension = Dimension::temperature;
    point.limit = std::move(limit);
    return point;
}

const Cell& at(const Table& table, std::size_t row, const std::string& column) {
    const auto found = std::find(table.columns.begin(), table.columns.end(), column);
    REQUIRE(found != table.columns.end());
    return table.rows.at(row).at(static_cast<std::size_t>(found - table.columns.begin()));
}

const Table& named(const NamedTables& tables, const std::string& name) {
    for (const auto& [known, table] : tables) {
        if (known == name) return table;
    }
    throw std::runtime_error("no table " + name);
}

}  // namespace

TEST_CASE("Limits become numbers, one row a bound or a stage") {
    plan::CoolingLimit cooling{celsius(57'000), {{celsius(21'000), hours(2)}, {celsius(5'000), hours(4)}}, true, ""};
    plan::Plan plan;
    plan.points = {point_of("core", plan::RangeLimit{celsius(94'000), std::nullopt}), point_of("cool", cooling),
                   point_of("chill", plan::BeforePackingLimit{celsius(7'000)}), point_of("look", plan::YesNoLimit{})};
    const Table table = limit_table({{5, &plan}});
    REQUIRE(table.rows.size() == 4);
    using Row = std::vector<Cell>;
    const std::string t = "temperature";
    CHECK(table.rows[0] == Row{Int{5}, "core", "range", t, Int{0}, {}, Int{94'000}, {}, {}});
    // Each stage from the one before: 2 h, then 2 h + 4 h.
    CHECK(table.rows[1] == Row{Int{5}, "cool", "cooling", t, Int{1}, Int{57'000}, {}, Int{21'000}, Int{7'200'000}});
    CHECK(table.rows[2] == Row{Int{5}, "cool", "cooling", t, Int{2}, Int{57'000}, {}, Int{5'000}, Int{21'600'000}});
    CHECK(table.rows[3] == Row{Int{5}, "chill", "before-packing", t, Int{0}, {}, {}, Int{7'000}, {}});

    cooling.each_from_previous = false;
    plan.points = {point_of("cool", cooling)};
    CHECK(at(limit_table({{5, &plan}}), 1, "by_ms") == Cell{Int{14'400'000}});  // 4 h from the start
}

TEST_CASE("An answer to a trace becomes rows") {
    TraceAnswer answer;
    trace::Lot flour, loaf;
    flour.id = 1;
    flour.code = "FLOUR-1";
    flour.kind = LotKind::received;
    flour.made_mg = 100'000;
    loaf.id = 2;
    loaf.code = "LOAF-2";
    loaf.kind = LotKind::batch;
    loaf.held = true;
    answer.graph.lots = {flour, loaf};
    answer.graph.uses = {{2, 1, 7, 60'000, {}, true, 1000}};
    trace::Reached start, reached;
    start.lot = 1;
    start.certain = true;
    start.share_expected = 1.0;
    reached.lot = 2;
    reached.depth = 1;
    reached.direct = true;
    answer.reached = {start, reached};
    trace::Delivery delivery;
    delivery.partner = "CAFE";
    delivery.partner_name = "Cafe Weir";
    delivery.pieces = 12;
    answer.customers = {delivery};
    trace::Balance balance;
    balance.lot = 1;
    balance.made_mg = 100'000;
    balance.used_mg = 60'000;
    balance.out = {{Way::sample, 0, {}}, {Way::waste, 30'000, {}}};
    balance.on_hand_mg = 10'000;
    answer.balances = {balance};
    book::Lot possible;
    possible.code = "LOAF-9";
    possible.item = "loaf";
    answer.possible = {possible};
    answer.notes = {"one", "two"};
    book::Partner cafe;
    cafe.code = "CAFE";
    cafe.phone = "555 0100";

    OneStep step;
    book::Lot salt;
    salt.code = "SALT-1";
    salt.made_mg = 25'000'000;
    salt.happened = 900;
    step.sources = {{salt, "salt", {"MILL", "Weir Mill", "1 Weir", "555 0101", ""}, {"", "Barge & Sons", "", "", ""}, false}};
    step.recipients = {{"PACK-3", "24NOV", "loaf", Way::own_shop, "", {}, {}, 12, {}, 2000, true}};
    step.missing = {"carrier of SALT-1: no address"};
    const auto tables = trace_report_tables(answer, step, {cafe});
    const Table& lots = named(tables, "trace_lot");
    REQUIRE(lots.rows.size() == 3);
    CHECK(at(lots, 0, "state") == Cell{"asked for"});
    CHECK(at(lots, 0, "share") == Cell{1.0});
    CHECK(at(lots, 1, "state") == Cell{"direct"});
    CHECK(at(lots, 1, "share") == Cell{});
    CHECK(at(lots, 1, "held") == Cell{Int{1}});
    CHECK(at(lots, 2, "code") == Cell{"LOAF-9"});
    CHECK(at(lots, 2, "state") == Cell{"possible"});
    const Table& edges = named(tables, "trace_edge");
    CHECK(at(edges, 0, "from_code") == Cell{"FLOUR-1"});
    CHECK(at(edges, 0, "into_code") == Cell{"LOAF-2"});
    CHECK(at(edges, 0, "mass_mg") == Cell{Int{60'000}});
    const Table& customers = named(tables, "customer");
    CHECK(at(customers, 0, "name") == Cell{"Cafe Weir"});
    CHECK(at(customers, 0, "phone") == Cell{"555 0100"});
    CHECK(at(customers, 0, "pieces") == Cell{Int{12}});
    const Table& balances = named(tables, "trace_balance");
    CHECK(at(balances, 0, "out_mg") == Cell{Int{30'000}});
    CHECK(at(balances, 0, "unaccounted_mg") == Cell{Int{0}});
    CHECK(at(balances, 0, "ways") == Cell{"waste 30g"});
    CHECK(at(balances, 0, "closes") == Cell{Int{1}});
    const Table& notes = named(tables, "trace_note");
    REQUIRE(notes.rows.size() == 3);
    CHECK(at(notes, 2, "note") == Cell{"not in the book: carrier of SALT-1: no address"});
    const Table& back = named(tables, "step_back");
    CHECK(at(back, 0, "mass_mg") == Cell{Int{25'000'000}});
    CHECK(at(back, 0, "pieces") == Cell{});
    CHECK(at(back, 0, "received") == Cell{Int{900}});
    CHECK(at(back, 0, "supplier_contact") == Cell{"1 Weir\n555 0101"});
    CHECK(at(back, 0, "carrier") == Cell{"Barge & Sons"});
    CHECK(at(back, 0, "carrier_contact") == Cell{""});
    CHECK(at(back, 0, "certain") == Cell{Int{0}});
    const Table& forward = named(tables, "step_forward");
    CHECK(at(forward, 0, "way") == Cell{"own-shop"});
    CHECK(at(forward, 0, "recipient") == Cell{""});
    CHECK(at(forward, 0, "pieces") == Cell{Int{12}});
    CHECK(at(forward, 0, "mass_mg") == Cell{});
    for (const auto& [name, table] : tables) {
        for (const auto& row : table.rows) CHECK(row.size() == table.columns.size());
    }
}
