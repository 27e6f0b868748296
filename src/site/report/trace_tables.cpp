#include "site/report/trace_tables.h"

#include <map>
#include <optional>
#include <unordered_map>

#include "base/measure.h"
#include "base/text.h"
#include "base/words.h"
#include "site/report/cells.h"

namespace peelbook::site {
namespace {

using Int = std::int64_t;
using Lots = std::unordered_map<trace::LotId, const trace::Lot*>;

std::string state_of(const trace::Reached& reached) {
    if (reached.depth == 0) return "asked for";
    return reached.direct || reached.depth == 1 ? "direct" : "further";
}

std::string code_of(const Lots& lots, trace::LotId id) {
    const auto found = lots.find(id);
    return found == lots.end() ? "entry " + std::to_string(id) : found->second->code;
}

std::string name_of_lot(const Lots& lots, trace::LotId id) {
    const auto found = lots.find(id);
    return found == lots.end() ? "" : found->second->name;
}

Table lot_table(const TraceAnswer& answer, const Lots& lots) {
    Table table{{"ord", "code", "kind", "item", "name", "happened", "state", "depth", "certain", "direct", "share",
                 "share_largest", "suspect_mg", "made_mg", "made_pieces", "on_hand_mg", "on_hand_pieces", "held", "printed_code",
                 "label", "supplier", "supplier_lot", "vessel"}, {}};
    Int ord = 0;
    for (const auto& reached : answer.reached) {
        const auto found = lots.find(reached.lot);
        if (found == lots.end()) continue;
        const trace::Lot& lot = *found->second;
        table.rows.push_back({++ord, lot.code, in_words(lot.kind), lot.item, lot.name, lot.happened, state_of(reached), Int{reached.depth},
                              flag(reached.certain), flag(reached.direct), cell(reached.share_expected),
                              cell(reached.share_largest), cell(reached.suspect_mg), cell(lot.made_mg), cell(lot.made_pieces),
                              lot.on_hand_mg, lot.on_hand_pieces, flag(lot.held), lot.printed_code, lot.label, lot.supplier,
                              lot.supplier_lot, lot.vessel});
    }
    for (const auto& lot : answer.possible) {
        table.rows.push_back({++ord, lot.code, in_words(lot.kind), lot.item, lot.item, lot.happened, "possible", {}, flag(false), flag(false),
                              {}, {}, {}, cell(lot.made_mg), cell(lot.made_pieces), {}, {}, {}, lot.printed_code, lot.label,
                              lot.partner, lot.supplier_lot, lot.vessel});
    }
    return table;
}

Table edge_table(const TraceAnswer& answer, const Lots& lots) {
    Table table{{"from_code", "from_name", "into_code", "into_name", "mass_mg", "largest_mg", "pieces", "sure", "happened", "seq"}, {}};
    for (const auto& use : answer.graph.uses) {
        table.rows.push_back({code_of(lots, use.from), name_of_lot(lots, use.from), code_of(lots, use.into),
                              name_of_lot(lots, use.into), cell(use.mass_mg), cell(use.largest_mg), cell(use.pieces), flag(use.sure), use.happened,
                              use.seq});
    }
    return table;
}

Table customer_table(const TraceAnswer& answer, const std::vector<book::Partner>& partners) {
    std::map<std::string, const book::Partner*> by_code;
    for (const auto& partner : partners) by_code[partner.code] = &partner;
    Table table{{"partner", "name", "address", "phone", "email", "way", "printed_code", "lot", "item", "pieces", "mass_mg",
                 "returned_pieces", "returned_mg", "first", "last", "certain", "document"}, {}};
    static const book::Partner nobody;
    for (const auto& d : answer.customers) {
        const auto found = by_code.find(d.partner);
        const book::Partner& partner = found == by_code.end() ? nobody : *found->second;
        table.rows.push_back({d.partner, d.partner_name, partner.address, partner.phone, partner.email, d.way, d.printed_code,
                              d.lot_code, d.item_name, d.pieces, d.mass_mg, d.returned_pieces, d.returned_mg, d.first, d.last,
                              flag(d.certain), d.document});
    }
    return table;
}

// "customer 120 pieces, 48kg; waste 2 pieces, 0.8kg"
std::string ways_out(const trace::Balance& balance) {
    std::vector<std::string> texts;
    for (const auto& [way, mg, pieces] : balance.out) {
        std::vector<std::string> amounts;
        if (pieces.value_or(0) != 0) amounts.push_back(std::to_string(*pieces) + " pieces");
        if (mg.value_or(0) != 0) amounts.push_back(mass_text(*mg));
        if (!amounts.empty()) texts.push_back(in_words(way) + " " + joined(amounts, ", "));
    }
    return joined(texts, "; ");
}

Table balance_table(const TraceAnswer& answer, const Lots& lots) {
    Table table{{"ord", "code", "made_mg", "used_mg", "out_mg", "on_hand_mg", "gap_mg", "returned_mg", "unaccounted_mg",
                 "made_pieces", "used_pieces", "out_pieces", "on_hand_pieces", "gap_pieces", "returned_pieces",
                 "unaccounted_pieces", "ways", "closes"}, {}};
    Int ord = 0;
    for (const auto& b : answer.balances) {
        table.rows.push_back({++ord, code_of(lots, b.lot), b.made_mg, b.used_mg, b.out_mg(), b.on_hand_mg, b.gap_mg,
                              b.returned_mg, b.unaccounted_mg(), b.made_pieces, b.used_pieces, b.out_pieces(),
                              b.on_hand_pieces, b.gap_pieces, b.returned_pieces, b.unaccounted_pieces(), ways_out(b),
                              flag(b.closes())});
    }
    return table;
}

// Its name, and how it is reached: the address, and on a line below it telephone and e-mail.
void add_firm(std::vector<Cell>& row, const Firm& firm) {
    const std::string calls = firm.phone + (firm.phone.empty() || firm.email.empty() ? "" : ", ") + firm.email;
    const std::string contact = firm.address + (firm.address.empty() || calls.empty() ? "" : "\n") + calls;
    row.emplace_back(firm.name.empty() ? firm.code : firm.name);
    row.emplace_back(contact);
}

Table step_back_table(const OneStep& step) {
    Table table{{"ord", "lot", "item", "name", "supplier_lot", "gtin", "mass_mg", "pieces", "received", "document", "certain",
                 "supplier", "supplier_contact", "carrier", "carrier_contact"}, {}};
    Int ord = 0;
    for (const auto& s : step.sources) {
        std::vector<Cell> row{++ord, s.lot.code, s.lot.item, s.name, s.lot.supplier_lot, s.lot.gtin, cell(s.lot.made_mg),
                              cell(s.lot.made_pieces), s.lot.happened, s.lot.document, flag(s.certain)};
        add_firm(row, s.from);
        add_firm(row, s.carrier);
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table step_forward_table(const OneStep& step) {
    Table table{{"ord", "departed", "way", "lot", "printed_code", "name", "pieces", "mass_mg", "document", "certain", "recipient",
                 "recipient_contact", "carrier", "carrier_contact"}, {}};
    Int ord = 0;
    for (const auto& r : step.recipients) {
        std::vector<Cell> row{++ord, r.happened, in_words(r.way), r.lot, r.printed_code, r.name, cell(r.pieces), cell(r.mass_mg), r.document,
                              flag(r.certain)};
        add_firm(row, r.to);
        add_firm(row, r.carrier);
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table note_table(const TraceAnswer& answer, const OneStep& step) {
    Table notes{{"ord", "note"}, {}};
    const auto add = [&](const std::string& note) { notes.rows.push_back({static_cast<Int>(notes.rows.size() + 1), note}); };
    for (const auto& note : answer.notes) add(note);
    for (const auto& missing : step.missing) add("not in the book: " + missing);
    return notes;
}

}  // namespace

NamedTables trace_report_tables(const TraceAnswer& answer, const OneStep& step, const std::vector<book::Partner>& partners) {
    Lots lots;
    for (const auto& lot : answer.graph.lots) lots[lot.id] = &lot;
    return {{"trace_lot", lot_table(answer, lots)},
            {"trace_edge", edge_table(answer, lots)},
            {"customer", customer_table(answer, partners)},
            {"trace_balance", balance_table(answer, lots)},
            {"trace_note", note_table(answer, step)},
            {"step_back", step_back_table(step)},
            {"step_forward", step_forward_table(step)}};
}

}  // namespace peelbook::site
