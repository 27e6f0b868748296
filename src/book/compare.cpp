// Derived tables of two books, row by row in key order.
#include <sqlite3.h>

#include "base/text.h"
#include "book/book_impl.h"

namespace peelbook::book {
namespace {

Statement rows_of(const Book& book, const Layout& layout) {
    return book.impl().sql->prepared("SELECT " + layout.column_list + " FROM " + layout.table + " ORDER BY " + layout.key_list);
}

// A value so that different values make different text: its type, its length, its bytes.
void append_value(std::string& out, Statement& row, int column) {
    const int type = row.type(column);
    const std::string_view bytes = row.text(column);
    out += std::to_string(type) + ":" + std::to_string(bytes.size()) + ":";
    out += bytes;
    out += ';';
}

std::string whole(Statement& row) {
    std::string out;
    for (int i = 0; i < row.columns(); ++i) append_value(out, row, i);
    return out;
}

std::string key_in_words(const Layout& layout, Statement& row) {
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < layout.keys; ++i) parts.push_back(layout.columns[i] + " " + std::string(row.text(static_cast<int>(i))));
    return joined(parts, ", ");
}

// Negative: the first row's key comes before the second's, in SQLite's order (numbers by value, texts by
// bytes).
int compare_keys(const Layout& layout, Statement& a, Statement& b) {
    for (std::size_t i = 0; i < layout.keys; ++i) {
        const int column = static_cast<int>(i);
        const bool number = a.type(column) == SQLITE_INTEGER;
        const auto order = number ? a.number(column) <=> b.number(column) : a.text(column) <=> b.text(column);
        if (order != 0) return order < 0 ? -1 : 1;
    }
    return 0;
}

std::string difference(const Layout& layout, Statement& kept, Statement& remade) {
    for (int i = static_cast<int>(layout.keys); i < kept.columns(); ++i) {
        const bool kept_none = kept.type(i) == SQLITE_NULL;
        const bool remade_none = remade.type(i) == SQLITE_NULL;
        if (kept_none == remade_none && kept.text(i) == remade.text(i)) continue;
        return layout.columns[static_cast<std::size_t>(i)] + " is " + (kept_none ? "none" : "'" + std::string(kept.text(i)) + "'") +
               ", and the entries make it " + (remade_none ? "none" : "'" + std::string(remade.text(i)) + "'");
    }
    return "it differs";
}

std::optional<Fault> first_difference(const Layout& layout, const Book& kept_book, const Book& remade_book) {
    Statement kept = rows_of(kept_book, layout);
    Statement remade = rows_of(remade_book, layout);
    const auto fault = [&](Statement& row, const std::string& what) {
        return Fault{{}, layout.table, "Table " + layout.table + ", row " + key_in_words(layout, row) + ": " + what + "."};
    };
    while (true) {
        const bool has_kept = kept.step();
        const bool has_remade = remade.step();
        if (!has_kept && !has_remade) return {};
        const int order = !has_kept ? 1 : !has_remade ? -1 : compare_keys(layout, kept, remade);
        if (order < 0) return fault(kept, "the entries make no such row");
        if (order > 0) return fault(remade, "it is missing, and the entries make it");
        if (whole(kept) != whole(remade)) return fault(kept, difference(layout, kept, remade));
    }
}

}  // namespace

std::vector<Fault> compare_derived(const Book& kept, const Book& remade) {
    std::vector<Fault> faults;
    for (const Layout* layout : all_layouts())
        if (auto fault = first_difference(*layout, kept, remade)) faults.push_back(*std::move(fault));
    return faults;
}

// Chained row by row: digest = SHA-256 (digest before || row), so that a large book need not stand in memory.
std::string derived_digest(const Book& book) {
    record::Hash digest = record::no_hash;
    for (const Layout* layout : all_layouts()) {
        digest = record::chained(digest, layout->table);
        Statement row = rows_of(book, *layout);
        while (row.step()) digest = record::chained(digest, whole(row));
    }
    return record::to_hex(digest);
}

}  // namespace peelbook::book
