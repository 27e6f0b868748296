#pragma once
// A TOML 1.0 text as a small tree of plain values that know where they stand in the file. The plan and the
// report definitions read this tree; the parser behind it is known to toml.cpp alone.
//
//   TomlDocument d = parse_toml("workbook.toml", text);
//   if (d.broken) return d.broken->what;              // the first syntax error; `root` is then empty
//   if (const TomlValue* title = d.root.find("title")) use(title->text, title->at.line);
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace peelbook::plan {

struct Position {
    int line = 0;    // from 1; 0: nowhere
    int column = 0;  // from 1, in characters (not bytes)
    auto operator<=>(const Position&) const = default;
};

struct TomlEntry;

struct TomlValue {
    enum class Kind { table, array, text, whole, real, flag, date };
    Kind kind = Kind::table;
    Position at;                     // where the value begins; of a [table] its bracket
    std::string text;                // of text; of date (a date, time or both) its ISO 8601 form
    std::int64_t whole = 0;          // of whole
    double real = 0;                 // of real
    bool flag = false;               // of flag
    std::vector<TomlValue> items;    // of array, in order
    std::vector<TomlEntry> entries;  // of table, in the order of the file

    bool is(Kind k) const { return kind == k; }
    // Of a table: the value under `key`; nullptr when there is none or this is no table.
    const TomlValue* find(std::string_view key) const;
};

struct TomlEntry {
    std::string key;
    Position at;  // where the key begins
    TomlValue value;
};

// "a table" "a list" "a text" "a whole number" "a number with a point" "true or false" "a date"
std::string_view name_of(TomlValue::Kind kind);

struct TomlDocument {
    struct Broken {
        Position at;
        std::string what;
    };
    std::string name;  // file name, for messages
    std::string text;
    TomlValue root;
    std::optional<Broken> broken;

    std::string line(int number) const;  // without its line end; empty when there is no such line
};

TomlDocument parse_toml(std::string name, std::string text);

}  // namespace peelbook::plan
