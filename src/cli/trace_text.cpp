#include "cli/trace_text.h"

#include "base/measure.h"
#include "base/text.h"
#include "output/text_table.h"

namespace peelbook::cli {
namespace {

using output::Json;

std::int64_t whole(const Cell& cell) {
    const auto* n = std::get_if<std::int64_t>(&cell);
    return n == nullptr ? 0 : *n;
}

// For people: masses in kg, columns that are empty in every row left out.
struct Shown {
    std::string column, heading;
};

std::string cell_text(const std::string& column, const Cell& cell) {
    if (std::holds_alternative<std::monostate>(cell)) return {};
    if (column.ends_with("_mg")) return whole(cell) == 0 ? "0" : mass_text(whole(cell));
    if (column == "share_expected") {
        const double share = std::get<double>(cell);
        return to_text(static_cast<std::int64_t>(share * 100'000 + 0.5), Unit::percent,
                       share < 0.001 ? 3 : 1);
    }
    return to_text(cell);
}

std::string chosen(const Table& table, const std::vector<Shown>& columns, std::string_view only_step = {}) {
    Table out;
    std::vector<std::string> headings;
    std::vector<std::size_t> from;
    std::size_t step = table.columns.size();
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (table.columns[i] == "step") step = i;
    const auto wanted = [&](const std::vector<Cell>& row) {
        return only_step.empty() || (step < row.size() && to_text(row[step]) == only_step);
    };
    for (const Shown& show : columns)
        for (std::size_t i = 0; i < table.columns.size(); ++i) {
            if (table.columns[i] != show.column) continue;
            bool filled = false;
            for (const auto& row : table.rows) {
                const std::string text = wanted(row) ? cell_text(show.column, row[i]) : "";
                filled = filled || (!text.empty() && text != "0" && text != "no");
            }
            if (!filled) continue;
            out.columns.push_back(show.column);
            headings.push_back(show.heading);
            from.push_back(i);
        }
    for (const auto& row : table.rows) {
        if (!wanted(row)) continue;
        auto& cells = out.rows.emplace_back();
        for (const std::size_t i : from) {
            const bool number =
                std::holds_alternative<std::int64_t>(row[i]) && !table.columns[i].ends_with("_mg");
            cells.push_back(number ? row[i] : Cell{cell_text(table.columns[i], row[i])});
        }
    }
    if (out.rows.empty()) return {};
    return output::text_table(out, headings,
                              output::TextTableStyle{.indent = 2, .most_width = 40, .headings = true});
}

std::size_t rows_at(const Table& table, std::string_view step_word) {
    std::size_t count = 0;
    for (const auto& row : table.rows)
        for (std::size_t i = 0; i < row.size(); ++i)
            if (table.columns[i] == "step" && to_text(row[i]) == step_word) ++count;
    return count;
}

std::string balances_text(const site::TraceAnswer& answer, const Table& table) {
    const std::vector<Shown> columns{{"lot", "lot"},
                                     {"made_mg", "made"},
                                     {"used_mg", "used"},
                                     {"out_mg", "out"},
                                     {"on_hand_mg", "on hand"},
                                     {"gap_mg", "gap"},
                                     {"returned_mg", "returned"},
                                     {"made_pieces", "made pcs"},
                                     {"used_pieces", "used pcs"},
                                     {"out_pieces", "out pcs"},
                                     {"on_hand_pieces", "on hand pcs"},
                                     {"gap_pieces", "gap pcs"},
                                     {"returned_pieces", "returned pcs"},
                                     {"closes", "closes"}};
    std::size_t open = 0;
    for (const trace::Balance& balance : answer.balances) open += balance.closes() ? 0 : 1;
    std::string text = "\nmass balance: made = used + out + on hand - gap\n" + chosen(table, columns);
    for (const trace::Balance& balance : answer.balances) {
        if (balance.closes()) continue;
        for (const trace::Lot& lot : answer.graph.lots)
            if (lot.id == balance.lot)
                text += "  GAP: " + lot.code + ": unaccounted " + mass_text(balance.unaccounted_mg()) + ", " +
                        std::to_string(balance.unaccounted_pieces()) + " pieces\n";
    }
    return text + (open == 0 ? "  every balance closes\n" : "");
}

}  // namespace

std::string trace_text(const site::TraceAnswer& answer, const Zone& zone) {
    const TraceTables tables = trace_tables(answer, zone);
    const std::vector<Shown> lot_columns{{"code", "lot"},
                                         {"kind", "kind"},
                                         {"name", "what"},
                                         {"happened", "since"},
                                         {"made_mg", "made"},
                                         {"made_pieces", "pcs"},
                                         {"on_hand_mg", "on hand"},
                                         {"on_hand_pieces", "on hand pcs"},
                                         {"held", "held"},
                                         {"certain", "certain"},
                                         {"share_expected", "share"},
                                         {"printed_code", "printed"},
                                         {"supplier", "supplier"},
                                         {"supplier_lot", "supplier lot"}};
    std::string text = answer.forward ? "traced forward\n" : "traced back\n";
    text += chosen(tables.lots, lot_columns, "asked for");
    for (const auto& [word, heading] :
         {std::pair{"direct", answer.forward ? "made with it directly" : "used in it directly"},
          std::pair{"further", "through other lots"}}) {
        const std::size_t count = rows_at(tables.lots, word);
        if (count > 0)
            text += "\n" + std::string(heading) + ": " + std::to_string(count) + "\n" +
                    chosen(tables.lots, lot_columns, word);
    }
    if (!answer.customers.empty())
        text +=
            "\nwho has it, by printed code\n" + chosen(tables.customers, {{"partner", "to"},
                                                                          {"name", "name"},
                                                                          {"way", "way"},
                                                                          {"printed_code", "printed"},
                                                                          {"lot", "lot"},
                                                                          {"item", "what"},
                                                                          {"pieces", "pcs"},
                                                                          {"mass_mg", "mass"},
                                                                          {"returned_pieces", "returned pcs"},
                                                                          {"returned_mg", "returned"},
                                                                          {"first", "first"},
                                                                          {"last", "last"},
                                                                          {"certain", "certain"},
                                                                          {"document", "document"}});
    if (!answer.possible.empty())
        text += "\npossible: a use is missing, and they were made while the lot was in house\n" +
                chosen(tables.possible, {{"code", "lot"}, {"item", "what"}, {"happened", "since"}});
    text += balances_text(answer, tables.balance);
    for (const std::string& note : answer.notes) text += "note: " + note + "\n";
    return text + std::string(caution) + "\n";
}

Json trace_json(const site::TraceAnswer& answer, const Zone& zone) {
    const TraceTables tables = trace_tables(answer, zone);
    auto lots = Json::array();
    for (const auto& row : tables.lots.rows) {
        auto lot = Json::object();
        for (std::size_t i = 0; i < row.size(); ++i)
            lot.set(tables.lots.columns[i] == "made_mg" ? "mass_mg" : tables.lots.columns[i], Json(row[i]));
        lots.add(std::move(lot));
    }
    std::vector<std::string> start;
    for (const book::Lot& lot : answer.start) start.push_back(lot.code);
    auto json = Json::object();
    json.set("direction", answer.forward ? "forward" : "back").set("start", start);
    json.set("lots", std::move(lots)).set("customers", output::to_json(tables.customers));
    json.set("balance", output::to_json(tables.balance)).set("uses", output::to_json(tables.uses));
    json.set("possible", output::to_json(tables.possible)).set("notes", answer.notes).set("caution", caution);
    return json;
}

}  // namespace peelbook::cli
