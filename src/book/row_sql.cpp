#include "book/row_sql.h"

namespace peelbook::book {
namespace {

template <class... Rows> std::vector<const Layout*> layouts() { return {&layout_of<Rows>()...}; }

std::string listed(const std::vector<std::string>& names, std::size_t count) {
    std::string list;
    for (std::size_t i = 0; i < count; ++i) list += (i == 0 ? "" : ", ") + names[i];
    return list;
}

// "key1 = ?N AND key2 = ?N+1 ..."
std::string key_matches(const Layout& layout, std::size_t first) {
    std::string where;
    for (std::size_t i = 0; i < layout.keys; ++i) where += (i == 0 ? "" : " AND ") + layout.columns[i] + " = ?" + std::to_string(first + i);
    return where;
}

}  // namespace

void FieldRef::bind(Statement& statement, int index) const {
    std::visit([&](const auto& bound) { statement.bind(index, bound); }, value);
}

void FieldRef::append_to(std::string& key) const {
    if (const auto* text = std::get_if<std::string_view>(&value))
        key += *text;
    else if (const auto& number = std::get<std::optional<Int>>(value))
        key += std::to_string(*number);
    key += '\0';
}

Layout::Layout(std::string_view table, std::vector<std::string> columns, std::size_t keys)
    : table(table),
      columns(std::move(columns)),
      keys(keys),
      column_list(listed(this->columns, this->columns.size())),
      key_list(listed(this->columns, keys)),
      insertion("INSERT INTO " + this->table + " (" + column_list + ") VALUES (" +
                listed(std::vector<std::string>(this->columns.size(), "?"), this->columns.size()) + ")") {}

std::string Layout::key_of(const FieldRefs& row) const {
    std::string key;
    for (std::size_t i = 0; i < keys; ++i) row[i].append_to(key);
    return key;
}

const std::vector<const Layout*>& all_layouts() {
    static const auto all =
        layouts<Fact, Touch, Person, Partner, PlanVersion, PlanPoint, PlanItem, PlanCompiled, Lot, Use, LineFeed, Stay, Move, StockCount,
                Stock, Reading, Series, SeriesFault, SeriesDay, SeriesRow, Finding, Waits, Waiting, Hold, Action, Unsettled, LotAllergen,
                Run, Residue, CarryOver, InstrumentSpan, Outage, Owed, Correction, Review, Recall, RecallLot, RecallDelivery, RecallStep,
                RecallToldCode, RecallCount, RecallOut, SpentCode, Keeping, Clock>();
    return all;
}

void insert_row(Sql& sql, const Layout& layout, const FieldRefs& row) {
    Statement statement = sql.prepared(layout.insertion);
    for (std::size_t i = 0; i < row.size(); ++i) row[i].bind(statement, static_cast<int>(i) + 1);
    statement.run();
}

void delete_row(Sql& sql, const Layout& layout, const FieldRefs& row) {
    Statement statement = sql.prepared("DELETE FROM " + layout.table + " WHERE " + key_matches(layout, 1));
    for (std::size_t i = 0; i < layout.keys; ++i) row[i].bind(statement, static_cast<int>(i) + 1);
    statement.run();
}

void change_row(Sql& sql, const Layout& layout, const FieldRefs& before, const FieldRefs& after) {
    std::vector<std::size_t> changed;
    std::string text = "UPDATE " + layout.table + " SET ";
    for (std::size_t i = layout.keys; i < after.size(); ++i) {
        if (before[i] == after[i]) continue;
        text += (changed.empty() ? "" : ", ") + layout.columns[i] + " = ?" + std::to_string(changed.size() + 1);
        changed.push_back(i);
    }
    if (changed.empty()) return;
    Statement statement = sql.prepared(text + " WHERE " + key_matches(layout, changed.size() + 1));
    int index = 0;
    for (const std::size_t i : changed) after[i].bind(statement, ++index);
    for (std::size_t i = 0; i < layout.keys; ++i) after[i].bind(statement, ++index);
    statement.run();
}

}  // namespace peelbook::book
