#include "site/report/trace_tables.h"

#include <map>
#include <unordered_map>

#include "base/measure.h"
#include "base/text.h"
#include "base/told_table.h"
#include "base/words.h"
#include "site/ask/delivery_row.h"
#include "site/ask/trace_answer.h"
#include "trace/near.h"

namespace peelbook::site {
namespace {

using Lots = std::unordered_map<trace::LotId, const trace::Lot*>;

// A lot that was reached or, with nothing reached, one that is possible.
struct LotRow {
    trace::Lot lot;
    std::optional<trace::Reached> reached;
};

std::vector<LotRow> lot_rows(const TraceAnswer& answer, const Lots& lots) {
    std::vector<LotRow> rows;
    for (const auto& reached : answer.reached) {
        if (const auto found = lots.find(reached.lot); found != lots.end()) rows.push_back({*found->second, reached});
    }
    for (const auto& lot : answer.possible) rows.push_back({traced(lot, lot.item), std::nullopt});
    return rows;
}

Table lot_table(const TraceAnswer& answer, const Lots& lots) {
    return numbered_table_of(lot_rows(answer, lots), [&](TableRow& row, const LotRow& one) {
        const auto& [lot, reached] = one;
        // Of a possible one the trace does not know how it is reached and what is on hand.
        const auto if_reached = [&](auto value) { return reached ? cell_of(value) : Cell{}; };
        const trace::Reached way = reached.value_or(trace::Reached{});
        row("code", lot.code)("kind", in_words(lot.kind))("item", lot.item)("name", lot.name)("happened", lot.happened);
        row("state", reached ? to_text(near(way, answer.carry_over_ppm)) : "possible")("depth", if_reached(way.depth));
        row("certain", way.certain)("direct", way.direct)("share", way.share_expected)("share_largest", way.share_largest);
        row("suspect_mg", way.suspect_mg)("made_mg", lot.made_mg)("made_pieces", lot.made_pieces);
        row("on_hand_mg", if_reached(lot.on_hand_mg))("on_hand_pieces", if_reached(lot.on_hand_pieces));
        row("held", if_reached(lot.held))("printed_code", lot.printed_code)("label", lot.label);
        row("supplier", lot.supplier)("supplier_lot", lot.supplier_lot)("vessel", lot.vessel);
    });
}

std::string code_of(const Lots& lots, trace::LotId id) {
    const auto found = lots.find(id);
    return found == lots.end() ? "entry " + std::to_string(id) : found->second->code;
}

std::string name_of_lot(const Lots& lots, trace::LotId id) {
    const auto found = lots.find(id);
    return found == lots.end() ? "" : found->second->name;
}

Table edge_table(const TraceAnswer& answer, const Lots& lots) {
    return table_of(answer.graph.uses, [&](TableRow& row, const trace::Use& use) {
        row("from_code", code_of(lots, use.from))("from_name", name_of_lot(lots, use.from));
        row("into_code", code_of(lots, use.into))("into_name", name_of_lot(lots, use.into));
        row("mass_mg", use.mass_mg)("largest_mg", use.largest_mg)("pieces", use.pieces);
        row("sure", use.sure)("happened", use.happened)("seq", use.seq);
    });
}

Table customer_table(const TraceAnswer& answer, const std::vector<book::Partner>& partners) {
    std::map<std::string, book::Partner> by_code;
    for (const auto& partner : partners) by_code[partner.code] = partner;
    return table_of(answer.customers, [&](TableRow& row, const trace::Delivery& d) {
        const auto& partner = by_code[d.partner];
        row("partner", d.partner)("name", d.partner_name);
        row("address", partner.address)("phone", partner.phone)("email", partner.email);
        tell_delivery(row, d);
    });
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
    return numbered_table_of(answer.balances, [&](TableRow& row, const trace::Balance& b) {
        row("code", code_of(lots, b.lot));
        row("made_mg", b.made_mg)("used_mg", b.used_mg)("out_mg", b.out_mg())("on_hand_mg", b.on_hand_mg);
        row("gap_mg", b.gap_mg)("returned_mg", b.returned_mg)("unaccounted_mg", b.unaccounted_mg());
        row("made_pieces", b.made_pieces)("used_pieces", b.used_pieces)("out_pieces", b.out_pieces());
        row("on_hand_pieces", b.on_hand_pieces)("gap_pieces", b.gap_pieces)("returned_pieces", b.returned_pieces);
        row("unaccounted_pieces", b.unaccounted_pieces())("ways", ways_out(b))("closes", b.closes());
    });
}

// Its name, or its code where the book does not know it.
std::string name_of_firm(const Firm& firm) { return firm.name.empty() ? firm.code : firm.name; }

// The address, and on a line below it telephone and e-mail.
std::string contact_of(const Firm& firm) {
    const std::string calls = firm.phone + (firm.phone.empty() || firm.email.empty() ? "" : ", ") + firm.email;
    return firm.address + (firm.address.empty() || calls.empty() ? "" : "\n") + calls;
}

Table step_back_table(const OneStep& step) {
    return numbered_table_of(step.sources, [](TableRow& row, const Source& s) {
        row("lot", s.lot.code)("item", s.lot.item)("name", s.name)("supplier_lot", s.lot.supplier_lot)("gtin", s.lot.gtin);
        row("mass_mg", s.lot.made_mg)("pieces", s.lot.made_pieces)("received", s.lot.happened)("document", s.lot.document);
        row("certain", s.certain)("supplier", name_of_firm(s.from))("supplier_contact", contact_of(s.from));
        row("carrier", name_of_firm(s.carrier))("carrier_contact", contact_of(s.carrier));
    });
}

Table step_forward_table(const OneStep& step) {
    return numbered_table_of(step.recipients, [](TableRow& row, const Recipient& r) {
        row("departed", r.happened)("way", in_words(r.way))("lot", r.lot)("printed_code", r.printed_code)("name", r.name);
        row("pieces", r.pieces)("mass_mg", r.mass_mg)("document", r.document)("certain", r.certain);
        row("recipient", name_of_firm(r.to))("recipient_contact", contact_of(r.to));
        row("carrier", name_of_firm(r.carrier))("carrier_contact", contact_of(r.carrier));
    });
}

Table note_table(const TraceAnswer& answer, const OneStep& step) {
    std::vector<std::string> notes = answer.notes;
    for (const auto& missing : step.missing) notes.push_back("not in the book: " + missing);
    return numbered_table_of(notes, [](TableRow& row, const std::string& note) { row("note", note); });
}

}  // namespace

NamedTables trace_report_tables(const TraceAnswer& answer, const OneStep& step, const std::vector<book::Partner>& partners) {
    Lots lots;
    for (const auto& lot : answer.graph.lots) lots[lot.id] = &lot;
    return {{"trace_lot", lot_table(answer, lots)},         {"trace_edge", edge_table(answer, lots)},
            {"customer", customer_table(answer, partners)}, {"trace_balance", balance_table(answer, lots)},
            {"trace_note", note_table(answer, step)},       {"step_back", step_back_table(step)},
            {"step_forward", step_forward_table(step)}};
}

}  // namespace peelbook::site
