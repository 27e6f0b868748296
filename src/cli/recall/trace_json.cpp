// A trace as JSON: every row of it.
#include "base/text.h"
#include "cli/recall/trace_rows.h"
#include "cli/recall/trace_text.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct TellJson {
    const Zone& zone;
    Json row = Json::object();

    template <class Value> void operator()(std::string_view name, const Value& value) { row.set(std::string(name), Json(value)); }
    void operator()(std::string_view name, Instant at) { row.set(std::string(name), Json(to_text(zone, at))); }
};

// `tell_row(tell, one)` for each of `all`.
template <class All, class TellRow> Json rows(const All& all, const Zone& zone, const TellRow& tell_row) {
    auto list = Json::array();
    for (const auto& one : all) {
        TellJson tell{zone};
        tell_row(tell, one);
        list.add(std::move(tell.row));
    }
    return list;
}

Json lot_rows(const site::TraceAnswer& answer, const TracedLots& lots, const Zone& zone) {
    auto list = Json::array();
    for (const trace::Reached& reached : answer.reached) {
        const trace::Lot* lot = lots.find(reached.lot);
        if (!lot) continue;
        TellJson json{zone};
        const auto tell = [&json](std::string_view name, const auto& value) { json(name == "made_mg" ? "mass_mg" : name, value); };
        tell_lot(tell, *lot, reached, near(reached, answer.carry_over_ppm));
        list.add(std::move(json.row));
    }
    return list;
}

}  // namespace

Json trace_json(const site::TraceAnswer& answer, const Zone& zone) {
    const TracedLots lots(answer.graph);
    std::vector<std::string> start;
    for (const book::Lot& lot : answer.start) start.push_back(lot.code);
    auto json = Json::object();
    json.set("direction", answer.forward ? "forward" : "back").set("start", start);
    json.set("lots", lot_rows(answer, lots, zone));
    json.set("customers", rows(answer.customers, zone, [](auto& tell, const auto& d) { tell_customer(tell, d); }));
    json.set("balance", rows(answer.balances, zone, [&](auto& tell, const auto& b) { tell_balance(tell, b, lots.code(b.lot)); }));
    json.set("uses", rows(answer.graph.uses, zone, [&](auto& tell, const auto& use) { tell_use(tell, use, lots); }));
    json.set("possible", rows(answer.possible, zone, [](auto& tell, const auto& lot) { tell_possible(tell, lot); }));
    json.set("notes", answer.notes).set("caution", caution);
    return json;
}

}  // namespace peelbook::cli
