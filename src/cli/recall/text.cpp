// A recall or drill as text and as JSON; the workbook is the report "recall".
#include "base/text.h"

#include <algorithm>

#include "base/measure.h"
#include "base/told_table.h"
#include "base/words.h"
#include "cli/recall/recall.h"
#include "output/text_table.h"
#include "site/report/recall_tables.h"

namespace peelbook::cli {
namespace {

using output::Json;
using site::RecallView;

const output::TextTableStyle style{.indent = 2, .most_width = 60, .headings = true};

std::string time_or_none(const Zone& zone, const std::optional<std::int64_t>& at) {
    return at ? to_text(zone, Instant{*at}) : std::string();
}

std::string timeline(const RecallView& view, const Zone& zone) {
    const Table table = table_of(view.timings, [&](TableRow& row, const site::RecallTiming& t) {
        row("step", t.step)("done", time_or_none(zone, t.done));
        row("after word came", t.done ? elapsed_text(*t.done - view.recall.aware) : "");
        row("due", time_or_none(zone, t.due))("state", t.state)("deadline from", t.basis);
    });
    return "\nsteps\n" + output::text_table(table, style);
}

std::string amount(std::int64_t n, bool mg) {
    if (!mg) return std::to_string(n);
    return n == 0 ? "0" : (n < 0 ? "-" : "") + mass_text(n < 0 ? -n : n);
}

struct AccountRow {
    std::string name;
    bool mg = true;
    trace::Account account;
};

void tell_account(TableRow& row, const AccountRow& one) {
    const trace::Account& a = one.account;
    const auto said = [&](std::int64_t n) { return amount(n, one.mg); };
    row("of", one.name)("in", one.mg ? "mass" : "pieces")("made", said(a.made))("on hand", said(a.on_hand));
    row("shipped", said(a.shipped))("moved on", said(a.moved_on))("used", said(a.rework))("waste", said(a.waste));
    row("samples", said(a.samples))("OPEN", said(a.unaccounted()))("returned", said(a.returned));
    row("destroyed", said(a.destroyed))("used up", said(a.consumed))("found", said(a.found_there));
    row("SHIPPED, OPEN", said(a.shipped_unaccounted()));
}

// Totals, then every lot with something missing in the house; shipped goods are told by customer below.
std::string reconciliation(const RecallView& view) {
    std::vector<AccountRow> rows;
    const auto add = [&](const std::string& name, const trace::Account& a, bool mg) {
        if (a.made != 0 || !a.closes()) rows.push_back({name, mg, a});
    };
    const auto& r = view.reconciliation;
    for (const bool mg : {true, false}) {
        add("goods", mg ? r.goods.mg : r.goods.pieces, mg);
        add("materials", mg ? r.materials.mg : r.materials.pieces, mg);
        add("all", mg ? r.all.mg : r.all.pieces, mg);
    }
    std::int64_t others = 0;
    for (const auto& lot : r.lots) {
        const bool closes = (!lot.mg || lot.mg->unaccounted() == 0) && (!lot.pieces || lot.pieces->unaccounted() == 0);
        others += closes ? 1 : 0;
        if (closes) continue;
        if (lot.mg) add(lot.code, *lot.mg, true);
        if (lot.pieces) add(lot.code, *lot.pieces, false);
    }
    return "\nreconciliation: made = on hand + shipped + moved on + used + waste + samples + open; shipped = "
           "returned + destroyed + used up + found + open\n" +
           output::text_table(table_of(rows, tell_account), style) + "  " + counted(others, "lot adds", "lots add") +
           " up in the house; --json and --out list every lot\n";
}

// "12 pcs", else the mass; "0" for nothing.
std::string left(const trace::Amounts& of) {
    return of.pieces != 0 ? std::to_string(of.pieces) + " pcs" : of.mg != 0 ? amount(of.mg, true) : "0";
}

struct GoodsRow {
    const site::RecallPartner* of = nullptr;  // in its first row
    bool missed = false;                      // somebody tried, and nobody answered
    site::RecallGoods goods;
};

void tell_goods(TableRow& row, const site::RecallGoods& goods) {
    const auto& d = goods.delivery;
    row("printed code", d.code())("product", d.item_name)("pieces", d.pieces)("mass", amount(d.mass_mg, true));
    row("back", d.returned_pieces != 0 ? std::optional(d.returned_pieces) : std::nullopt);
}

void tell_left(TableRow& row, const site::RecallGoods& goods) {
    row("open", left(goods.open));
    row("more than was sent: ask", goods.excess == trace::Amounts{} ? "" : left(goods.excess) + (goods.asked ? ", asked" : ""));
}

std::string customers(const RecallView& view) {
    std::vector<GoodsRow> rows;
    for (const auto& one : view.partners) {
        const bool missed = one.last_try && std::none_of(one.had.begin(), one.had.end(), [](const auto& goods) { return goods.told; });
        for (const auto& goods : one.had) rows.push_back({&goods == &one.had.front() ? &one : nullptr, missed, goods});
    }
    const Table named = table_of(rows, [](TableRow& row, const GoodsRow& line) {
        static const site::RecallPartner again;
        const auto& one = line.of ? *line.of : again;
        const auto& p = one.partner;
        row("customer", p.code)("name", p.name)("telephone", p.phone.empty() ? p.email : p.phone);
        tell_goods(row, line.goods);
        const std::string& way = line.goods.delivery.way;
        row("way", line.goods.repacked != trace::Amounts{} ? way + ", back packed " + left(line.goods.repacked)
                   : way == word(Way::customer)            ? ""
                                                           : way);
        row("certain", line.goods.delivery.certain ? "" : "possible")("reached", line.goods.told       ? "yes"
                                                                                 : line.goods.left_out ? "left out"
                                                                                 : line.missed         ? "MISSED"
                                                                                                       : "NO");
        row("check", one.to_check ? (one.checked ? "done" : "to ask") : "");
        tell_left(row, line.goods);
    });
    std::string text;
    if (!rows.empty()) text = "\nwho has it, by printed code\n" + output::text_table(named, style);
    if (!view.unnamed.empty()) {
        const Table own = table_of(view.unnamed, [](TableRow& row, const site::RecallGoods& goods) {
            row("way", goods.delivery.way);
            tell_goods(row, goods);
            tell_left(row, goods);
        });
        text += "\nwithout a customer's name\n" + output::text_table(own, style);
    }
    if (view.ways.empty()) return text;
    const Table ways = table_of(view.ways, [](TableRow& row, const site::RecallWay& one) {
        row("way", word(one.way))("pieces", one.went.pieces)("mass", amount(one.went.mg, true))("open", left(one.open));
    });
    return text + "\nleft the house, by the way\n" + output::text_table(ways, style);
}

std::string changes(const RecallView& view) {
    if (view.changes.empty()) return "\nsince the snapshot: nothing was added or removed\n";
    const Table table = table_of(view.changes, [](TableRow& row, const site::RecallChange& c) {
        row("what", c.what)("lot or delivery", c.text)("by entry", site::entries_text(c.by));
    });
    return "\nsince the snapshot\n" + output::text_table(table, {.indent = 2, .most_width = 110, .headings = true});
}

std::string log(const RecallView& view, const Zone& zone) {
    const Table table = table_of(view.steps, [&](TableRow& row, const book::RecallStep& s) {
        row("when", to_text(zone, Instant{s.happened}))("what", s.checks != 0 ? "check" : in_words(s.kind))("whom", s.whom)("how", s.how);
        row("reached", s.kind != book::RecallStepKind::contacted ? ""
                       : s.reached != 0                          ? "yes"
                                                                 : "no")("said", s.text)("by", s.by)("entry", s.seq);
    });
    return "\nlog\n" + output::text_table(table, style);
}

bool is_time(std::string_view column) {
    return column == "happened" || column == "done" || column == "due" || column == "first" || column == "last" || column == "tried" ||
           column == "told";
}
bool is_truth(std::string_view column) {
    return column == "asked" || column == "certain" || column == "held" || column == "reached" || column == "checks" ||
           column == "to_check" || column == "closes" || column == "left_out";
}

Json rows_of(const Table& table, const Zone& zone) {
    auto list = Json::array();
    for (const auto& row : table.rows) {
        auto object = Json::object();
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string& column = table.columns[i];
            const auto* number = std::get_if<std::int64_t>(&row[i]);
            if (column == "ord") continue;
            if (number && is_time(column))
                object.set(column, to_iso(zone, Instant{*number}));
            else if (number && is_truth(column))
                object.set(column, *number != 0);
            else
                object.set(column, Json(row[i]));
        }
        list.add(std::move(object));
    }
    return list;
}

}  // namespace

std::string recall_text(const RecallView& view, const Zone& zone) {
    const std::string stamp = view.stamp();
    const std::string mark = stamp.empty() ? "" : "*** " + stamp + " ***\n";
    std::string text = mark + output::text_pairs(site::recall_facts(view, zone));
    text += timeline(view, zone) + reconciliation(view) + customers(view);
    if (!view.sample.empty()) text += "\neffectiveness check asks: " + joined(view.sample, ", ") + "\n";
    if (!view.recall.closed_seq) {
        for (const auto& open : view.still_open()) text += "to do: " + open + "\n";
    }
    if (!view.to_hold.empty())
        text += std::string(view.recall.drill != 0 ? "\na recall would hold: " : "\nTO HOLD: ") + joined(view.to_hold, ", ") + "\n";
    text += changes(view) + log(view, zone);
    for (const auto& note : view.notes) text += "note: " + note + "\n";
    return text + std::string(caution) + "\n" + mark;
}

Json recall_json(const RecallView& view, const Zone& zone) {
    const auto& r = view.recall;
    auto json = Json::object();
    json.set("code", r.code).set("drill", r.drill != 0).set("stamp", view.stamp()).set("open", !r.closed_seq.has_value());
    json.set("hazard", r.hazard).set("class", r.grade).set("decision", r.decision).set("scope", r.scope).set("why", r.why);
    json.set("aware", to_iso(zone, Instant{r.aware})).set("opened", to_iso(zone, Instant{r.happened})).set("by", r.by).set("entry", r.seq);
    json.set("closed", r.closed ? Json(to_iso(zone, Instant{*r.closed})) : Json()).set("closed_why", r.closed_why);
    json.set("snapshot_digest", r.digest).set("check_level", r.check_level).set("seed", r.seed).set("sample", view.sample);
    json.set("placed_percent", static_cast<double>(view.placed()) / 1000).set("found_percent", static_cast<double>(view.found()) / 1000);
    json.set("missing_mg", view.missing_mg()).set("missing_pieces", view.missing_pieces()).set("unfinished", view.unfinished);
    json.set("to_hold", view.to_hold).set("still_open", view.still_open());
    json.set("left_open", r.closed_open.empty() ? std::vector<std::string>{} : split(r.closed_open, '\n'));
    for (const auto& [name, table] : site::recall_report_tables(view, zone)) {
        if (name == "recall_fact" || name == "recall_note") continue;
        constexpr std::string_view prefix = "recall_";
        json.set(name.substr(prefix.size()), rows_of(table, zone));
    }
    return json.set("notes", view.notes).set("caution", caution);
}

}  // namespace peelbook::cli
