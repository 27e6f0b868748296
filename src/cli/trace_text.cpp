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
                          {"share_largest", "at most"},
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

// How a column is told: masses in kg and the like, a word only for what stands out.
enum class Telling { as_it_is, mass, share, held, certain };

Telling telling_of(std::string_view column) {
    if (column.ends_with("_mg")) return Telling::mass;
    if (column.starts_with("share_")) return Telling::share;
    if (column == "held") return Telling::held;
    return column == "certain" ? Telling::certain : Telling::as_it_is;
}

std::string cell_text(Telling telling, const Cell& cell) {
    if (std::holds_alternative<std::monostate>(cell)) return {};
    switch (telling) {
        case Telling::mass: {
            const std::int64_t mg = std::get<std::int64_t>(cell);
            return mg == 0 ? "0" : mass_text(mg);
        }
        case Telling::share: {
            const double percent = std::get<double>(cell) * 100;
            return to_text(to_canonical(percent, Unit::percent), Unit::percent, percent < 0.1 ? 3 : 1);
        }
        case Telling::held:
            return std::get<std::string>(cell) == "yes" ? "HELD" : "";
        case Telling::certain:
            return std::get<std::string>(cell) == "yes" ? "" : "possible";
        case Telling::as_it_is:
            break;
    }
    return to_text(cell);
}

using Rows = std::vector<const std::vector<Cell>*>;

// What a column shows of each row; no cells when it says nothing in any. Numbers stand right, amounts with their unit left.
output::TextColumn text_column(const Rows& rows, const Shown& show, std::size_t at) {
    output::TextColumn column{show.heading, {}, false};
    column.cells.reserve(rows.size());
    const Telling telling = telling_of(show.column);
    bool says_something = false, any_text = false;
    for (const auto* row : rows) {
        const Cell& cell = (*row)[at];
        std::string text = cell_text(telling, cell);
        const bool number = std::holds_alternative<std::int64_t>(cell) && telling != Telling::mass;
        any_text = any_text || (!number && !text.empty());
        column.right = column.right || number;
        says_something = says_something || (!text.empty() && text != "0");
        column.cells.push_back(std::move(text));
    }
    column.right = column.right && !any_text;
    if (!says_something) column.cells.clear();
    return column;
}

// Columns that say nothing in any row are left out.
std::string table_text(const Table& table, const Rows& rows, const Columns& columns) {
    if (rows.empty()) return {};
    std::vector<output::TextColumn> shown_columns;
    for (const Shown& show : columns) {
        auto column = text_column(rows, show, column_of(table, show.column));
        if (!column.cells.empty()) shown_columns.push_back(std::move(column));
    }
    return output::text_table(std::move(shown_columns),
                              output::TextTableStyle{.indent = 2, .most_width = 60, .headings = true});
}

std::string table_text(const Table& table, const Columns& columns) {
    Rows rows;
    for (const auto& row : table.rows) rows.push_back(&row);
    return table_text(table, rows, columns);
}

// The lots of one group.
Rows in_group(const Table& lots, const std::string& word) {
    const std::size_t step = column_of(lots, "step");
    Rows rows;
    for (const auto& row : lots.rows)
        if (std::get<std::string>(row[step]) == word) rows.push_back(&row);
    return rows;
}

std::string group(const Table& lots, const std::string& word, const std::string& heading) {
    const Rows rows = in_group(lots, word);
    if (rows.empty()) return {};
    return "\n" + heading + ": " + std::to_string(rows.size()) + "\n" + table_text(lots, rows, lot_columns);
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
std::string balances(const site::TraceAnswer& answer) {
    std::set<trace::LotId> asked;
    for (const book::Lot& lot : answer.start) asked.insert(lot.id);
    std::vector<trace::Balance> told;
    bool with_gap = false;
    for (const trace::Balance& balance : answer.balances) {
        const bool gap = !balance.closes() || balance.gap_mg != 0 || balance.gap_pieces != 0;
        if (gap || asked.contains(balance.lot)) told.push_back(balance);
        with_gap = with_gap || (gap && !asked.contains(balance.lot));
    }
    std::string text = "\nmass balance: made = used + out + on hand - gap\n" +
                       table_text(trace_balances(answer, told), balance_columns);
    const std::size_t others = answer.balances.size() - told.size();
    if (others > 0)
        text += "  the other " + std::to_string(others) +
                " lots close without a gap; --json and --out list them\n";
    if (with_gap) text += "  a gap comes from a stock count\n";
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
        headline(answer, tables.lots) + table_text(tables.lots, in_group(tables.lots, "asked for"), lot_columns);
    text += group(tables.lots, "direct", answer.forward ? "made with it directly" : "used in it directly");
    const std::string threshold = to_text(carry_over_ppm / 10, Unit::percent, 2) + " of the inputs";
    text += group(tables.lots, "further",
                  answer.forward ? "carry-over through other lots, a share of " + threshold + " or more, or not known" : "through other lots");
    text += group(tables.lots, "carry-over", "carry-over through other lots, a share below " + threshold);
    if (!answer.customers.empty())
        text += "\nwho has it, by printed code\n" + table_text(tables.customers, customer_columns);
    if (!answer.possible.empty())
        text += "\npossible: a use is missing, and they were made while the lot was in house\n" +
                table_text(tables.possible, possible_columns);
    text += balances(answer);
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
    json.set("balance", rows_json(trace_balances(answer, answer.balances)));
    json.set("uses", rows_json(trace_uses(answer, zone)));
    json.set("possible", rows_json(tables.possible)).set("notes", answer.notes).set("caution", caution);
    return json;
}

}  // namespace peelbook::cli
