#include "site/report/recall_tables.h"

#include <map>

#include "base/measure.h"
#include "base/text.h"
#include "base/told_table.h"
#include "base/words.h"
#include "site/ask/delivery_row.h"

namespace peelbook::site {
namespace {

Table timings(const RecallView& view) {
    return numbered_table_of(view.timings, [](TableRow& row, const RecallTiming& t) {
        row("step", t.step)("done", t.done)("due", t.due)("basis", t.basis)("state", t.state);
    });
}

Table scope(const RecallView& view) {
    return numbered_table_of(view.lots, [](TableRow& row, const RecallLotLine& line) {
        const auto& lot = line.lot;
        row("code", lot.code)("state", in_words(line.state))("asked", line.asked)("certain", line.certain)(
            "kind", line.gone ? "" : in_words(lot.kind));
        row("name", lot.name)("happened", lot.happened)("made_mg", lot.made_mg)("made_pieces", lot.made_pieces);
        row("on_hand_mg", lot.on_hand_mg)("on_hand_pieces", lot.on_hand_pieces)("held", lot.held);
        row("printed_code", lot.printed_code)("supplier", lot.supplier)("supplier_lot", lot.supplier_lot);
        row("by", entries_text(line.by));
    });
}

void tell_partner(TableRow& row, const book::Partner& p, const std::string& name) {
    row("name", name)("address", p.address)("phone", p.phone)("email", p.email);
}

Table customers(const RecallView& view) {
    struct Line {
        RecallPartner partner;
        RecallGoods goods;
    };
    std::vector<Line> lines;
    for (const auto& goods : view.unnamed) lines.push_back({{}, goods});
    for (const auto& one : view.partners) {
        RecallPartner who = one;
        who.had.clear();
        for (const auto& goods : one.had) lines.push_back({who, goods});
    }
    return numbered_table_of(lines, [](TableRow& row, const Line& line) {
        const auto& [one, goods] = line;
        const trace::Delivery& d = goods.delivery;
        row("partner", d.partner);
        tell_partner(row, one.partner, d.partner.empty() ? d.way : one.partner.name);
        tell_delivery(row, d, "lots");
        row("reached", d.partner.empty() ? Cell{} : cell_of(goods.told.has_value()))("told", goods.told)("to_check", one.to_check);
        row("repacked_pieces", goods.repacked.pieces)("repacked_mg", goods.repacked.mg);
        row("open_pieces", goods.open.pieces)("open_mg", goods.open.mg);
        row("excess_pieces", goods.excess.pieces)("excess_mg", goods.excess.mg)("asked", goods.asked)("left_out", goods.left_out);
    });
}

Table ways(const RecallView& view) {
    return numbered_table_of(view.ways, [](TableRow& row, const RecallWay& one) {
        row("way", word(one.way))("pieces", one.went.pieces)("mass_mg", one.went.mg)("open_pieces", one.open.pieces)("open_mg",
                                                                                                                     one.open.mg);
    });
}

struct AccountRow {
    std::string lot, name, quantity;
    trace::Account account;
};

std::vector<AccountRow> account_rows(const trace::Reconciliation& r) {
    std::vector<AccountRow> rows;
    const auto add = [&](const std::string& lot, const std::string& name, const auto& mg, const auto& pieces) {
        if (mg) rows.push_back({lot, name, "mg", *mg});
        if (pieces) rows.push_back({lot, name, "pieces", *pieces});
    };
    const auto total = [&](const std::string& word, const trace::Total& of) {
        add(word, counted(of.lots, "lot", "lots"), &of.mg, &of.pieces);
    };
    total("all", r.all);
    total("goods", r.goods);
    total("materials", r.materials);
    for (const auto& lot : r.lots) add(lot.code, lot.name, lot.mg, lot.pieces);
    return rows;
}

Table accounts(const RecallView& view) {
    return numbered_table_of(account_rows(view.reconciliation), [](TableRow& row, const AccountRow& of) {
        const trace::Account& a = of.account;
        row("lot", of.lot)("name", of.name)("quantity", of.quantity)("made", a.made)("on_hand", a.on_hand);
        row("shipped", a.shipped)("moved_on", a.moved_on)("used", a.rework)("waste", a.waste)("samples", a.samples);
        row("open", a.unaccounted())("returned", a.returned)("destroyed", a.destroyed)("consumed", a.consumed);
        row("found", a.found_there)("shipped_open", a.shipped_unaccounted())("closes", a.closes());
    });
}

Table log(const RecallView& view) {
    std::map<std::string, std::string> names;
    for (const auto& one : view.partners) names[one.partner.code] = one.partner.name;
    return numbered_table_of(view.steps, [&](TableRow& row, const book::RecallStep& s) {
        row("happened", s.happened)("kind", in_words(s.kind))("whom", s.whom)("name", names[s.whom])("how", s.how);
        row("reached", s.kind == book::RecallStepKind::contacted ? cell_of(s.reached) : Cell{})("checks", s.checks != 0)("text", s.text);
        row("by", s.by)("entry", s.seq);
    });
}

// What is asked back, in the words that stand on the packs.
std::string goods_of(const RecallPartner& one) {
    std::vector<std::string> goods;
    for (const auto& [d, told, repacked, open, excess, asked, left_out] : one.had) {
        goods.push_back(d.item_name + ", " + (d.printed_code.empty() ? "our lot " + d.lot_code : "printed code " + d.printed_code) + ": " +
                        (d.pieces != 0 ? std::to_string(d.pieces) + " pieces" : mass_text(d.mass_mg)) +
                        (left_out ? ", left out by decision"
                         : told   ? ""
                                  : ", not told yet"));
    }
    return joined(goods, "\n");
}

// One letter a partner.
Table letters(const RecallView& view) {
    return numbered_table_of(view.partners, [](TableRow& row, const RecallPartner& one) {
        row("partner", one.partner.code);
        tell_partner(row, one.partner, one.partner.name);
        row("goods", goods_of(one))("pieces", one.shipped.pieces)("mass_mg", one.shipped.mg);
        row("missing_pieces", one.open.pieces)("missing_mg", one.open.mg);
        row("reached", one.reached().has_value())("tried", one.last_try);
    });
}

Table changes(const RecallView& view) {
    return numbered_table_of(view.changes,
                             [](TableRow& row, const RecallChange& c) { row("what", c.what)("text", c.text)("by", entries_text(c.by)); });
}

Table notes(const RecallView& view) {
    return numbered_table_of(view.notes, [](TableRow& row, const std::string& note) { row("note", note); });
}

Table facts(const RecallView& view, const Zone& zone) {
    return numbered_table_of(recall_facts(view, zone),
                             [](TableRow& row, const auto& fact) { row("name", fact.first)("value", fact.second); });
}

}  // namespace

std::string entries_text(const std::vector<Seq>& by) {
    std::vector<std::string> texts;
    for (const Seq seq : by) texts.push_back(std::to_string(seq));
    return joined(texts, ", ");
}

std::string percent_of_thousandths(std::int64_t thousandths) { return to_text(thousandths, Unit::percent, 3); }

std::vector<std::pair<std::string, std::string>> recall_facts(const RecallView& view, const Zone& zone) {
    const auto& r = view.recall;
    std::size_t reached = 0, to_tell = 0, possible = 0;
    for (const auto& one : view.partners) reached += one.reached() ? 1 : 0;
    for (const auto& one : view.partners) to_tell += one.to_tell() ? 1 : 0;
    for (const auto& line : view.lots) possible += line.certain ? 0 : 1;
    std::vector<std::pair<std::string, std::string>> out;
    const auto add = [&](const char* name, const std::string& value) {
        if (!value.empty()) out.emplace_back(name, value);
    };
    add(r.drill != 0 ? "drill" : "recall", r.code + (r.drill != 0 ? ", DRILL: nothing is held" : ""));
    add("hazard", r.hazard);
    add("class", r.grade);
    add("decision", r.decision);
    add("began with", r.scope);
    add("reason", r.why);
    add("word came", to_text(zone, Instant{r.aware}));
    add("opened", to_text(zone, Instant{r.happened}) + " by " + r.by + ", entry " + std::to_string(r.seq));
    if (r.closed) add("closed", to_text(zone, Instant{*r.closed}) + " by " + r.closed_by + ", entry " + std::to_string(*r.closed_seq));
    if (!r.closed) add("closed", "no, it is open");
    add("closed why", r.closed_why);
    for (const auto& open : split(r.closed_open, '\n')) add("left open", open);
    add("covers", counted(view.lots.size(), "lot", "lots") + ", " + std::to_string(possible) + " of them possible");
    add("customers", std::to_string(reached) + " of " + std::to_string(to_tell) + " reached");
    if (!r.check_level.empty()) {
        add("effectiveness check", "level " + r.check_level + ": " + counted(view.sample.size(), "customer", "customers") +
                                       " to ask, seed " + std::to_string(r.seed));
    }
    const char* hold = r.drill != 0 ? "a recall would hold" : "to be held still";
    add(hold, view.to_hold.empty() ? "nothing" : counted(view.to_hold.size(), "lot", "lots"));
    add("in the records", percent_of_thousandths(view.placed()) + " of what was made");
    add("accounted for", percent_of_thousandths(view.found()) + " of what was made");
    if (view.unfinished != 0) add("in no sum", counted(view.unfinished, "batch", "batches") + " not finished");
    add("snapshot", r.digest);
    return out;
}

std::vector<std::pair<std::string, Table>> recall_report_tables(const RecallView& view, const Zone& zone) {
    return {{"recall_fact", facts(view, zone)}, {"recall_timing", timings(view)},
            {"recall_scope", scope(view)},      {"recall_customer", customers(view)},
            {"recall_way", ways(view)},         {"recall_account", accounts(view)},
            {"recall_log", log(view)},          {"recall_letter", letters(view)},
            {"recall_change", changes(view)},   {"recall_note", notes(view)}};
}

}  // namespace peelbook::site
