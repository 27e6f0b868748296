#include "cli/trace_text.h"

#include <set>

#include "base/measure.h"
#include "base/text.h"
#include "output/text_table.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct Shown {
    std::string column, heading;
};
using Columns = std::vector<Shown>;

const Columns lot_columns{{"code", "lot"},
                          {"kind", "kind"},
                          {"name", "what"},
                          {"happened", "since"},
                          {"made_mg", "made"},
                          {"made_pieces", "pcs"},
                          {"on_hand_mg", "on hand"},
                          {"on_hand_pieces", "on hand pcs"},
                          {"held", "held"},
                          {"certain", "sure"},
                          {"share_expected", "share"},
                          {"printed_code", "printed"},
                          {"supplier", "supplier"},
                          {"supplier_lot", "supplier lot"}};
const Columns customer_columns{
    {"partner", "to"},           {"name", "name"},        {"way", "way"},
    {"printed_code", "printed"}, {"lot", "lot"},          {"item", "what"},
    {"pieces", "pcs"},           {"mass_mg", "mass"},     {"returned_pieces", "returned pcs"},
    {"returned_mg", "returned"}, {"first", "first"},      {"last", "last"},
    {"certain", "sure"},         {"document", "document"}};
const Columns balance_columns{{"lot", "lot"},
                              {"made_mg", "made"},
                              {"used_mg", "used"},
                              {"out_mg", "out"},
                              {"on_hand_mg", "on hand"},
                              {"gap_mg", "gap"},
                              {"returned_mg", "returned"},
                              {"unaccounted_mg", "unaccounted"},
                              {"made_pieces", "made pcs"},
                              {"used_pieces", "used pcs"},
                              {"out_pieces", "out pcs"},
                              {"on_hand_pieces", "on hand pcs"},
                              {"gap_pieces", "gap pcs"},
                              {"returned_pieces", "returned pcs"},
                              {"unaccounted_pieces", "unaccounted pcs"},
                              {"closes", "closes"}};
const Columns possible_columns{{"code", "lot"}, {"item", "what"}, {"happened", "since"}};

std::size_t column_of(const Table& table, std::string_view name) {
    std::size_t i = 0;
    while (i < table.columns.size() && table.columns[i] != name) ++i;
    return i;
}

// The rows whose column holds one of the words.
Table only(const Table& table, std::string_view column, const std::set<std::string>& words) {
    Table out{table.columns, {}};
    const std::size_t at = column_of(table, column);
    for (const auto& row : table.rows)
        if (words.contains(to_text(row[at]))) out.rows.push_back(row);
    return out;
}

// Masses in kg and the like, a word only for what stands out.
std::string cell_text(const std::string& column, const Cell& cell) {
    if (std::holds_alternative<std::monostate>(cell)) return {};
    if (column.ends_with("_mg")) {
        const std::int64_t mg = std::get<std::int64_t>(cell);
        return mg == 0 ? "0" : mass_text(mg);
    }
    if (column == "share_expected") {
        const double percent = std::get<double>(cell) * 100;
        return to_text(to_canonical(percent, Unit::percent), Unit::percent, percent < 0.1 ? 3 : 1);
    }
    const std::string text = to_text(cell);
    if (column == "held") return text == "yes" ? "HELD" : "";
    if (column == "certain") return text == "yes" ? "" : "possible";
    return text;
}

// Columns that say nothing in any row are left out.
std::string shown(const Table& table, const Columns& columns) {
    if (table.rows.empty()) return {};
    Table out;
    out.rows.resize(table.rows.size());
    std::vector<std::string> headings;
    for (const Shown& show : columns) {
        const std::size_t at = column_of(table, show.column);
        bool says_something = false;
        for (const auto& row : table.rows) {
            const std::string text = cell_text(show.column, row[at]);
            says_something = says_something || (!text.empty() && text != "0");
        }
        if (!says_something) continue;
        out.columns.push_back(show.column);
        headings.push_back(show.heading);
        for (std::size_t i = 0; i < table.rows.size(); ++i) {
            const Cell& cell = table.rows[i][at];
            const bool number = std::holds_alternative<std::int64_t>(cell) && !show.column.ends_with("_mg");
            out.rows[i].push_back(number ? cell : Cell{cell_text(show.column, cell)});
        }
    }
    return output::text_table(out, headings,
                              output::TextTableStyle{.indent = 2, .most_width = 60, .headings = true});
}

std::string group(const Table& lots, const std::string& word, const std::string& heading) {
    const Table rows = only(lots, "step", {word});
    if (rows.rows.empty()) return {};
    return "\n" + heading + ": " + std::to_string(rows.rows.size()) + "\n" + shown(rows, lot_columns);
}

std::string counted(std::size_t number, const char* one, const char* many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
}

// The first line is what is asked on the telephone: how many lots, how many customers, what is still here.
std::string headline(const site::TraceAnswer& answer, const Table& lots) {
    std::size_t here = 0;
    for (const auto& row : lots.rows)
        here += std::get<std::int64_t>(row[column_of(lots, "on_hand_mg")]) > 0 ? 1 : 0;
    std::set<std::string> partners;
    for (const auto& delivery : answer.customers)
        if (!delivery.partner.empty()) partners.insert(delivery.partner);
    const std::string reached = counted(lots.rows.size() - answer.start.size(), "lot", "lots");
    std::string text = answer.forward ? "traced forward: " + reached + " made from it" : "traced back: " + reached + " behind it";
    text += ", " + counted(here, "lot", "lots") + " with some on hand, " +
            counted(answer.customers.size(), "delivery", "deliveries") + " to " + counted(partners.size(), "partner", "partners");
    return text + "\n";
}

// Those asked for, and every other one with a gap or without a close; the rest is counted.
std::string balances(const site::TraceAnswer& answer, const Table& table) {
    std::set<std::string> named;
    for (const book::Lot& lot : answer.start) named.insert(lot.code);
    const std::size_t asked_for = named.size();
    for (const trace::Balance& balance : answer.balances)
        if (!balance.closes() || balance.gap_mg != 0 || balance.gap_pieces != 0)
            for (const trace::Lot& lot : answer.graph.lots)
                if (lot.id == balance.lot) named.insert(lot.code);
    std::string text = "\nmass balance: made = used + out + on hand - gap\n" +
                       shown(only(table, "lot", named), balance_columns);
    const std::size_t others = table.rows.size() - std::min(table.rows.size(), named.size());
    if (others > 0)
        text += "  the other " + std::to_string(others) +
                " lots close without a gap; --json and --out list them\n";
    if (named.size() > asked_for) text += "  a gap comes from a stock count\n";
    return text;
}

// "yes" and "no" become true and false.
Json rows_json(const Table& table) {
    auto list = Json::array();
    for (const auto& row : table.rows) {
        auto object = Json::object();
        for (std::size_t i = 0; i < row.size(); ++i) {
            const std::string& column = table.columns[i];
            const bool truth = column == "certain" || column == "held" || column == "closes";
            object.set(column, truth ? Json(to_text(row[i]) == "yes") : Json(row[i]));
        }
        list.add(std::move(object));
    }
    return list;
}

}  // namespace

std::string trace_text(const site::TraceAnswer& answer, const Zone& zone, std::int64_t carry_over_ppm) {
    const TraceTables tables = trace_tables(answer, zone, carry_over_ppm);
    std::string text =
        headline(answer, tables.lots) + shown(only(tables.lots, "step", {"asked for"}), lot_columns);
    text += group(tables.lots, "direct", answer.forward ? "made with it directly" : "used in it directly");
    text += group(tables.lots, "further", "through other lots");
    text += group(
        tables.lots, "carry-over",
        "carry-over, a share below " + to_text(carry_over_ppm / 10, Unit::percent, 2) + " of the inputs");
    if (!answer.customers.empty())
        text += "\nwho has it, by printed code\n" + shown(tables.customers, customer_columns);
    if (!answer.possible.empty())
        text += "\npossible: a use is missing, and they were made while the lot was in house\n" +
                shown(tables.possible, possible_columns);
    text += balances(answer, tables.balance);
    for (const std::string& note : answer.notes) text += "note: " + note + "\n";
    return text + std::string(caution) + "\n";
}

Json trace_json(const site::TraceAnswer& answer, const Zone& zone, std::int64_t carry_over_ppm) {
    TraceTables tables = trace_tables(answer, zone, carry_over_ppm);
    tables.lots.columns[column_of(tables.lots, "made_mg")] = "mass_mg";
    std::vector<std::string> start;
    for (const book::Lot& lot : answer.start) start.push_back(lot.code);
    auto json = Json::object();
    json.set("direction", answer.forward ? "forward" : "back").set("start", start);
    json.set("lots", rows_json(tables.lots)).set("customers", rows_json(tables.customers));
    json.set("balance", rows_json(tables.balance)).set("uses", rows_json(tables.uses));
    json.set("possible", rows_json(tables.possible)).set("notes", answer.notes).set("caution", caution);
    return json;
}

}  // namespace peelbook::cli
