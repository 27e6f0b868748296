// The rows of a trace, once for text and JSON.
#include <map>
#include <unordered_map>

#include "cli/trace_text.h"

namespace peelbook::cli {
namespace {

using Lots = std::unordered_map<trace::LotId, const trace::Lot*>;

Cell cell(std::optional<std::int64_t> n) {
    return n ? Cell{*n} : Cell{};
}
Cell cell(std::optional<double> n) {
    return n ? Cell{*n} : Cell{};
}
Cell yes(bool b) {
    return std::string(b ? "yes" : "no");
}

// How near a lot stands to what was asked for. What it came into through others only is told apart at the plan's carry-over; a
// share that nobody knows counts as above.
std::string step_word(const trace::Reached& reached, std::int64_t carry_over_ppm) {
    if (reached.depth == 0) return "asked for";
    if (reached.direct || reached.depth == 1) return "direct";
    const auto share = reached.share_expected;
    return share && *share * 1'000'000 < static_cast<double>(carry_over_ppm) ? "carry-over" : "further";
}

// Pieces mean nothing for a lot that is not counted in pieces.
Cell pieces(bool counted, std::int64_t n) {
    return counted ? Cell{n} : Cell{};
}

Table lot_table(const site::TraceAnswer& answer, const Lots& lots, const Zone& zone,
                std::int64_t carry_over_ppm) {
    Table table{{"code", "kind", "item", "name", "happened", "step", "depth", "certain", "made_mg",
                 "made_pieces", "on_hand_mg", "on_hand_pieces", "held", "share_expected", "share_largest",
                 "suspect_mg", "mg_per_kg", "printed_code", "supplier", "supplier_lot"},
                {}};
    for (const trace::Reached& reached : answer.reached) {
        const auto found = lots.find(reached.lot);
        if (found == lots.end()) continue;
        const trace::Lot& lot = *found->second;
        table.rows.push_back({lot.code, lot.kind, lot.item, lot.name, to_text(zone, Instant{lot.happened}),
                              step_word(reached, carry_over_ppm), std::int64_t{reached.depth},
                              yes(reached.certain), cell(lot.made_mg), cell(lot.made_pieces), lot.on_hand_mg,
                              pieces(lot.made_pieces.has_value(), lot.on_hand_pieces), yes(lot.held),
                              cell(reached.share_expected), cell(reached.share_largest),
                              cell(reached.suspect_mg), cell(reached.mg_per_kg), lot.printed_code,
                              lot.supplier, lot.supplier_lot});
    }
    return table;
}

Table customer_table(const site::TraceAnswer& answer, const Zone& zone) {
    Table table{{"partner", "name", "way", "printed_code", "lot", "item", "pieces", "mass_mg",
                 "returned_pieces", "returned_mg", "first", "last", "certain", "document"},
                {}};
    for (const trace::Delivery& d : answer.customers)
        table.rows.push_back({d.partner, d.partner_name, d.way, d.printed_code, d.lot_code, d.item_name,
                              d.pieces, d.mass_mg, d.returned_pieces, d.returned_mg,
                              to_text(zone, Instant{d.first}), to_text(zone, Instant{d.last}), yes(d.certain),
                              d.document});
    return table;
}

Lots by_id(const site::TraceAnswer& answer) {
    Lots lots;
    lots.reserve(answer.graph.lots.size());
    for (const trace::Lot& lot : answer.graph.lots) lots[lot.id] = &lot;
    return lots;
}

}  // namespace

Table trace_uses(const site::TraceAnswer& answer, const Zone& zone) {
    const Lots lots = by_id(answer);
    const auto code = [&lots](trace::LotId id) {
        const auto found = lots.find(id);
        return found == lots.end() ? std::to_string(id) : found->second->code;
    };
    Table table{{"from_lot", "into_lot", "mass_mg", "largest_mg", "pieces", "certain", "happened", "entry"}, {}};
    for (const trace::Use& use : answer.graph.uses)
        table.rows.push_back({code(use.from), code(use.into), cell(use.mass_mg), cell(use.largest_mg), cell(use.pieces),
                              yes(use.sure), to_text(zone, Instant{use.happened}), use.seq});
    return table;
}

namespace {

std::int64_t total(const std::map<std::string, std::int64_t>& by_way) {
    std::int64_t sum = 0;
    for (const auto& [way, amount] : by_way) sum += amount;
    return sum;
}

}  // namespace

Table trace_balances(const site::TraceAnswer& answer, const std::vector<trace::Balance>& balances) {
    const Lots lots = by_id(answer);
    Table table{{"lot", "made_mg", "used_mg", "out_mg", "on_hand_mg", "gap_mg", "returned_mg",
                 "unaccounted_mg", "made_pieces", "used_pieces", "out_pieces", "on_hand_pieces", "gap_pieces",
                 "returned_pieces", "unaccounted_pieces", "closes"},
                {}};
    for (const trace::Balance& b : balances) {
        const auto found = lots.find(b.lot);
        const bool counted = b.made_pieces != 0 || b.used_pieces != 0 || !b.out_pieces.empty();
        table.rows.push_back({found == lots.end() ? std::to_string(b.lot) : found->second->code, b.made_mg,
                              b.used_mg, total(b.out_mg), b.on_hand_mg, b.gap_mg, b.returned_mg,
                              b.unaccounted_mg(), pieces(counted, b.made_pieces),
                              pieces(counted, b.used_pieces), pieces(counted, total(b.out_pieces)),
                              pieces(counted, b.on_hand_pieces), pieces(counted, b.gap_pieces),
                              pieces(counted, b.returned_pieces), pieces(counted, b.unaccounted_pieces()),
                              yes(b.closes())});
    }
    return table;
}

TraceTables trace_tables(const site::TraceAnswer& answer, const Zone& zone, std::int64_t carry_over_ppm) {
    const Lots lots = by_id(answer);
    TraceTables tables{.lots = lot_table(answer, lots, zone, carry_over_ppm),
                       .customers = customer_table(answer, zone),
                       .possible = {{"code", "item", "happened"}, {}}};
    for (const book::Lot& lot : answer.possible)
        tables.possible.rows.push_back({lot.code, lot.item, to_text(zone, Instant{lot.happened})});
    return tables;
}

}  // namespace peelbook::cli
