#include "site/report/recall_tables.h"

#include <map>

#include "base/measure.h"
#include "base/text.h"
#include "base/words.h"
#include "site/report/cells.h"

namespace peelbook::site {
namespace {

using Int = std::int64_t;

std::string entries(const std::vector<Seq>& by) {
    std::vector<std::string> texts;
    for (const Seq seq : by) texts.push_back(std::to_string(seq));
    return joined(texts, ", ");
}

Table timings(const RecallView& view) {
    Table table{{"ord", "step", "done", "due", "basis", "state"}, {}};
    Int ord = 0;
    for (const auto& t : view.timings)
        table.rows.push_back({++ord, t.step, cell(t.done), cell(t.due), t.basis, t.state});
    return table;
}

Table scope(const RecallView& view) {
    Table table{
        {"ord", "code", "state", "asked", "certain", "kind", "name", "happened", "made_mg", "made_pieces",
         "on_hand_mg", "on_hand_pieces", "held", "printed_code", "supplier", "supplier_lot", "by"},
        {}};
    Int ord = 0;
    for (const auto& line : view.lots) {
        const auto& lot = line.lot;
        table.rows.push_back({++ord, lot.code, in_words(line.state), flag(line.asked), flag(line.certain), line.gone ? "" : in_words(lot.kind),
                              lot.name, lot.happened, cell(lot.made_mg), cell(lot.made_pieces),
                              lot.on_hand_mg, lot.on_hand_pieces, flag(lot.held), lot.printed_code,
                              lot.supplier, lot.supplier_lot, entries(line.by)});
    }
    return table;
}

Table customers(const RecallView& view) {
    Table table{
        {"ord",          "partner", "name",    "address",  "phone",   "email",           "way",
         "printed_code", "lots",    "item",    "pieces",   "mass_mg", "returned_pieces", "returned_mg",
         "first",        "last",    "certain", "document", "reached", "to_check"},
        {}};
    std::map<std::string, const RecallPartner*> partners;
    for (const auto& one : view.partners) partners.emplace(one.partner.code, &one);
    Int ord = 0;
    for (const auto& d : view.deliveries) {
        const auto found = partners.find(d.partner);
        const RecallPartner* one = found == partners.end() ? nullptr : found->second;
        const book::Partner p = one ? one->partner : book::Partner{};
        table.rows.push_back({++ord,
                              d.partner,
                              one ? p.name : d.way,
                              p.address,
                              p.phone,
                              p.email,
                              d.way,
                              d.printed_code,
                              d.lot_code,
                              d.item_name,
                              d.pieces,
                              d.mass_mg,
                              d.returned_pieces,
                              d.returned_mg,
                              d.first,
                              d.last,
                              flag(d.certain),
                              d.document,
                              one ? flag(one->reached) : Cell{},
                              flag(one && one->to_check)});
    }
    return table;
}

void add_account(Table& table, const std::string& lot, const std::string& name, const char* quantity,
                 const trace::Account& a) {
    table.rows.push_back({static_cast<Int>(table.rows.size()) + 1, lot, name, std::string(quantity), a.made,
                          a.on_hand, a.shipped, a.moved_on, a.rework, a.waste, a.samples, a.unaccounted(),
                          a.returned, a.destroyed, a.consumed, a.found_there, a.shipped_unaccounted(),
                          flag(a.closes())});
}

Table accounts(const RecallView& view) {
    Table table{{"ord", "lot", "name", "quantity", "made", "on_hand", "shipped", "moved_on", "used", "waste",
                 "samples", "open", "returned", "destroyed", "consumed", "found", "shipped_open", "closes"},
                {}};
    const auto& r = view.reconciliation;
    const std::pair<const char*, const trace::Total*> totals[] = {
        {"all", &r.all}, {"goods", &r.goods}, {"materials", &r.materials}};
    for (const auto& [word, total] : totals) {
        const std::string lots = std::to_string(total->lots) + (total->lots == 1 ? " lot" : " lots");
        add_account(table, word, lots, "mg", total->mg);
        add_account(table, word, lots, "pieces", total->pieces);
    }
    for (const auto& lot : r.lots) {
        if (lot.mg) add_account(table, lot.code, lot.name, "mg", *lot.mg);
        if (lot.pieces) add_account(table, lot.code, lot.name, "pieces", *lot.pieces);
    }
    return table;
}

Table log(const RecallView& view) {
    Table table{
        {"ord", "happened", "kind", "whom", "name", "how", "reached", "checks", "text", "by", "entry"}, {}};
    std::map<std::string, std::string> names;
    for (const auto& one : view.partners) names[one.partner.code] = one.partner.name;
    Int ord = 0;
    for (const auto& s : view.steps) {
        const auto name = names.find(s.whom);
        table.rows.push_back(
            {++ord, s.happened, in_words(s.kind), s.whom, name == names.end() ? std::string() : name->second, s.how,
             s.kind == book::RecallStepKind::contacted ? Cell{s.reached} : Cell{}, flag(s.checks != 0), s.text, s.by, s.seq});
    }
    return table;
}

// One letter a partner: what is asked back, in the words that stand on the packs.
Table letters(const RecallView& view) {
    Table table{{"ord", "partner", "name", "address", "phone", "email", "goods", "pieces", "mass_mg",
                 "missing_pieces", "missing_mg", "reached", "tried"},
                {}};
    Int ord = 0;
    for (const auto& one : view.partners) {
        std::vector<std::string> goods;
        for (const auto& d : one.had) {
            goods.push_back(
                d.item_name + ", " +
                (d.printed_code.empty() ? "our lot " + d.lot_code : "printed code " + d.printed_code) + ": " +
                (d.pieces != 0 ? std::to_string(d.pieces) + " pieces" : mass_text(d.mass_mg)));
        }
        const auto& p = one.partner;
        table.rows.push_back({++ord, p.code, p.name, p.address, p.phone, p.email, joined(goods, "\n"),
                              one.shipped_pieces, one.shipped_mg, one.missing_pieces, one.missing_mg,
                              flag(one.reached), cell(one.last_try)});
    }
    return table;
}

Table changes(const RecallView& view) {
    Table table{{"ord", "what", "text", "by"}, {}};
    Int ord = 0;
    for (const auto& c : view.changes) table.rows.push_back({++ord, c.what, c.text, entries(c.by)});
    return table;
}

Table notes(const RecallView& view) {
    Table table{{"ord", "note"}, {}};
    Int ord = 0;
    for (const auto& note : view.notes) table.rows.push_back({++ord, note});
    return table;
}

Table facts(const RecallView& view, const Zone& zone) {
    Table table{{"ord", "name", "value"}, {}};
    Int ord = 0;
    for (auto& [name, value] : recall_facts(view, zone)) table.rows.push_back({++ord, name, value});
    return table;
}

std::string counted(std::size_t n, const char* one, const char* many) {
    return std::to_string(n) + " " + (n == 1 ? one : many);
}

}  // namespace

std::string percent_of_thousandths(std::int64_t thousandths) {
    return to_text(thousandths, Unit::percent, 3);
}

std::vector<std::pair<std::string, std::string>> recall_facts(const RecallView& view, const Zone& zone) {
    const auto& r = view.recall;
    std::size_t reached = 0, possible = 0;
    for (const auto& one : view.partners) reached += one.reached ? 1 : 0;
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
    if (r.closed)
        add("closed", to_text(zone, Instant{*r.closed}) + " by " + r.closed_by + ", entry " +
                          std::to_string(*r.closed_seq));
    if (!r.closed) add("closed", "no, it is open");
    add("closed why", r.closed_why);
    add("covers",
        counted(view.lots.size(), "lot", "lots") + ", " + std::to_string(possible) + " of them possible");
    add("customers", std::to_string(reached) + " of " + std::to_string(view.partners.size()) + " reached");
    if (!r.check_level.empty()) {
        add("effectiveness check", "level " + r.check_level + ": " +
                                       counted(view.sample.size(), "customer", "customers") +
                                       " to ask, seed " + std::to_string(r.seed));
    }
    const char* hold = r.drill != 0 ? "a recall would hold" : "to be held still";
    add(hold, view.to_hold.empty() ? "nothing" : counted(view.to_hold.size(), "lot", "lots"));
    add("in the records", percent_of_thousandths(view.placed()) + " of what was made");
    add("accounted for", percent_of_thousandths(view.found()) + " of what was made");
    if (view.unfinished != 0)
        add("in no sum",
            counted(static_cast<std::size_t>(view.unfinished), "batch", "batches") + " not finished");
    add("snapshot", r.digest);
    return out;
}

std::vector<std::pair<std::string, Table>> recall_report_tables(const RecallView& view, const Zone& zone) {
    return {{"recall_fact", facts(view, zone)}, {"recall_timing", timings(view)},
            {"recall_scope", scope(view)},      {"recall_customer", customers(view)},
            {"recall_account", accounts(view)}, {"recall_log", log(view)},
            {"recall_letter", letters(view)},   {"recall_change", changes(view)},
            {"recall_note", notes(view)}};
}

}  // namespace peelbook::site
