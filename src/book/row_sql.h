#pragma once
// Rows to SQL and back, driven by the `fields` lists of rows.h, so that a column is named once.
#include <algorithm>
#include <cassert>
#include <span>
#include <unordered_map>
#include <unordered_set>
#include <variant>
#include <vector>

#include "base/words.h"
#include "book/date_rows.h"
#include "book/recall_rows.h"
#include "book/rows.h"
#include "book/sql.h"

namespace peelbook::book {

template <class E>
concept Numbered = std::is_enum_v<E> && std::same_as<std::underlying_type_t<E>, Int>;
template <class E>
concept Spelled = Worded<E> && !Numbered<E>;

// A field of a row as its column holds it: a number or NULL, or a text. It must not outlive the row, whose texts it shows.
struct FieldRef {
    std::variant<std::optional<Int>, std::string_view> value;

    explicit FieldRef(Int number) : value(number) {}
    explicit FieldRef(const std::optional<Int>& number) : value(number) {}
    explicit FieldRef(const std::string& text) : value(text) {}
    template <Numbered E> explicit FieldRef(E one) : value(static_cast<Int>(one)) {}
    template <Spelled E> explicit FieldRef(E one) : value(word(one)) {}
    template <Spelled E> explicit FieldRef(std::optional<E> one) : value(one ? word(*one) : std::string_view()) {}

    void bind(Statement& statement, int index) const;
    void append_to(std::string& key) const;  // distinct values make distinct keys
    bool operator==(const FieldRef&) const = default;
};
using FieldRefs = std::vector<FieldRef>;

// A table: its columns in order, the leading `keys` of which are the primary key.
struct Layout {
    Layout(std::string_view table, std::vector<std::string> columns, std::size_t keys);

    std::string table;
    std::vector<std::string> columns;
    std::size_t keys;

    std::string column_list, key_list;  // "a, b"
    std::string insertion;              // "INSERT INTO table (a, b) VALUES (?, ?)"
    std::string key_of(const FieldRefs& row) const;
};

// Columns of the primary key, by struct; they lead the field list. schema/02_derived.sql says the same.
template <class Row> inline constexpr std::size_t keys_of = 1;
template <> inline constexpr std::size_t keys_of<Touch> = 4;
template <> inline constexpr std::size_t keys_of<PlanPoint> = 2;
template <> inline constexpr std::size_t keys_of<PlanItem> = 3;
template <> inline constexpr std::size_t keys_of<Use> = 3;
template <> inline constexpr std::size_t keys_of<LineFeed> = 3;
template <> inline constexpr std::size_t keys_of<Stay> = 2;
template <> inline constexpr std::size_t keys_of<Keeping> = 2;
template <> inline constexpr std::size_t keys_of<Clock> = 2;
template <> inline constexpr std::size_t keys_of<Move> = 2;
template <> inline constexpr std::size_t keys_of<StockCount> = 2;
template <> inline constexpr std::size_t keys_of<Reading> = 2;
template <> inline constexpr std::size_t keys_of<SeriesFault> = 2;
template <> inline constexpr std::size_t keys_of<SeriesDay> = 2;
template <> inline constexpr std::size_t keys_of<SeriesRow> = 3;
template <> inline constexpr std::size_t keys_of<Finding> = 3;
template <> inline constexpr std::size_t keys_of<Waits> = 4;
template <> inline constexpr std::size_t keys_of<Hold> = 2;
template <> inline constexpr std::size_t keys_of<Unsettled> = 5;
template <> inline constexpr std::size_t keys_of<LotAllergen> = 2;
template <> inline constexpr std::size_t keys_of<Run> = 3;
template <> inline constexpr std::size_t keys_of<Residue> = 3;
template <> inline constexpr std::size_t keys_of<CarryOver> = 4;
template <> inline constexpr std::size_t keys_of<InstrumentSpan> = 2;
template <> inline constexpr std::size_t keys_of<Outage> = 2;
template <> inline constexpr std::size_t keys_of<Owed> = 4;

template <> inline constexpr std::size_t keys_of<RecallLot> = 2;
template <> inline constexpr std::size_t keys_of<RecallDelivery> = 2;
template <> inline constexpr std::size_t keys_of<RecallToldCode> = 2;
template <> inline constexpr std::size_t keys_of<RecallOut> = 2;

struct NameVisitor {
    std::vector<std::string>& names;
    template <class T> void operator()(std::string_view name, const T&) { names.emplace_back(name); }
};
struct RefVisitor {
    FieldRefs& refs;
    template <class T> void operator()(std::string_view, const T& value) { refs.emplace_back(value); }
};
// Fills a row from the columns of a statement, in order.
struct ColumnVisitor {
    const Statement& statement;
    int column = 0;
    void operator()(std::string_view, Int& value) { value = statement.number(column++); }
    void operator()(std::string_view, std::optional<Int>& value) { value = statement.maybe(column++); }
    void operator()(std::string_view, std::string& value) { value = statement.text(column++); }
    template <Numbered E> void operator()(std::string_view, E& value) { value = static_cast<E>(statement.number(column++)); }
    template <Spelled E> void operator()(std::string_view, E& value) { value = stored_word<E>(statement.text(column++)); }
    template <Spelled E> void operator()(std::string_view, std::optional<E>& value) {
        value = stored_word_or_none<E>(statement.text(column++));
    }
};

template <class Row> const Layout& layout_of() {
    static const Layout layout = [] {
        std::vector<std::string> columns;
        NameVisitor names{columns};
        const Row row;
        Row::fields(names, row);
        return Layout(Row::table, std::move(columns), keys_of<Row>);
    }();
    return layout;
}

template <class Row> FieldRefs refs_of(const Row& row) {
    FieldRefs refs;
    refs.reserve(layout_of<Row>().columns.size());
    RefVisitor visitor{refs};
    Row::fields(visitor, row);
    return refs;
}

// Every derived table, in the order of rows.h.
const std::vector<const Layout*>& all_layouts();

void insert_row(Sql& sql, const Layout& layout, const FieldRefs& row);
void delete_row(Sql& sql, const Layout& layout, const FieldRefs& row);
// Writes only the columns that differ, so that the indexes on the others stay untouched.
void change_row(Sql& sql, const Layout& layout, const FieldRefs& before, const FieldRefs& after);

// SELECT (all columns) FROM table `tail`.
template <class Row, class... Values> std::vector<Row> select(const Sql& sql, std::string_view tail, const Values&... values) {
    const Layout& layout = layout_of<Row>();
    std::string text;
    text.reserve(layout.column_list.size() + layout.table.size() + tail.size() + 16);
    text.append("SELECT ").append(layout.column_list).append(" FROM ").append(layout.table).append(" ").append(tail);
    Statement statement = sql.prepared(text);
    statement.with(values...);
    std::vector<Row> rows;
    while (statement.step()) {
        ColumnVisitor visitor{statement};
        Row::fields(visitor, rows.emplace_back());
    }
    return rows;
}

template <class Row, class... Values> std::optional<Row> select_one(const Sql& sql, std::string_view tail, const Values&... values) {
    std::vector<Row> rows = select<Row>(sql, tail, values...);
    if (rows.empty()) return {};
    return std::move(rows.front());
}

// Inserts the row where none stands under its key, else changes what stands; writes nothing when they are equal. True when it wrote.
template <class Row> bool put_row(Sql& sql, const Row& row) {
    const Layout& layout = layout_of<Row>();
    const FieldRefs wanted = refs_of(row);
    std::string tail = "WHERE (" + layout.key_list + ") = (";
    for (std::size_t i = 0; i < layout.keys; ++i) tail += i == 0 ? "?" : ", ?";
    Statement statement = sql.prepared("SELECT " + layout.column_list + " FROM " + layout.table + " " + tail + ")");
    for (std::size_t i = 0; i < layout.keys; ++i) wanted[i].bind(statement, static_cast<int>(i) + 1);
    std::optional<Row> standing;
    if (statement.step()) {
        ColumnVisitor visitor{statement};
        Row::fields(visitor, standing.emplace());
    }
    if (standing == row) return false;
    if (standing) {
        change_row(sql, layout, refs_of(*standing), wanted);
    } else {
        insert_row(sql, layout, wanted);
    }
    return true;
}

// Makes the rows `found` in the table equal to `wanted`, touching only those that differ; true unless the lists are the same.
// Throws std::logic_error when two wanted rows have one key.
template <class Row> bool make_equal(Sql& sql, const std::vector<Row>& found, const std::vector<Row>& wanted) {
    // Mostly one row has come to the end of many.
    const auto [old_from, new_from] = std::mismatch(found.begin(), found.end(), wanted.begin(), wanted.end());
    if (old_from == found.end() && new_from == wanted.end()) return false;
    const std::span<const Row> gone(old_from, found.end()), come(new_from, wanted.end());
    const Layout& layout = layout_of<Row>();
    std::unordered_map<std::string, const Row*> standing;
    for (const Row& row : gone) standing.emplace(layout.key_of(refs_of(row)), &row);
    std::vector<std::string> keys;
    std::unordered_set<std::string> kept;
    for (const Row& row : come) {
        keys.push_back(layout.key_of(refs_of(row)));
        if (!kept.insert(keys.back()).second) throw std::logic_error("two rows of " + layout.table + " under one key");
    }
    for (const auto& [key, row] : standing)
        if (!kept.contains(key)) delete_row(sql, layout, refs_of(*row));
    for (std::size_t i = 0; i < come.size(); ++i) {
        const auto before = standing.find(keys[i]);
        if (before == standing.end())
            insert_row(sql, layout, refs_of(come[i]));
        else if (!(*before->second == come[i]))
            change_row(sql, layout, refs_of(*before->second), refs_of(come[i]));
    }
    return true;
}

}  // namespace peelbook::book
