#include "plan/toml.h"

#include <toml++/toml.h>

#include <algorithm>
#include <sstream>

namespace peelbook::plan {
namespace {

Position position_of(const ::toml::source_region& region) {
    return {static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

TomlValue converted(const ::toml::node& node);

TomlValue converted_table(const ::toml::table& table) {
    TomlValue value;
    value.kind = TomlValue::Kind::table;
    for (const auto& [key, child] : table) value.entries.push_back({std::string(key.str()), position_of(key.source()), converted(child)});
    // The parser keeps keys sorted by name; people read them in the order of the file.
    std::stable_sort(value.entries.begin(), value.entries.end(), [](const TomlEntry& a, const TomlEntry& b) { return a.at < b.at; });
    return value;
}

template <class T> std::string iso(const T& date_or_time) {
    std::ostringstream out;
    out << date_or_time;
    return out.str();
}

TomlValue converted(const ::toml::node& node) {
    TomlValue value;
    if (const auto* table = node.as_table()) {
        value = converted_table(*table);
    } else if (const auto* array = node.as_array()) {
        value.kind = TomlValue::Kind::array;
        for (const auto& item : *array) value.items.push_back(converted(item));
    } else if (const auto* text = node.as_string()) {
        value.kind = TomlValue::Kind::text;
        value.text = text->get();
    } else if (const auto* whole = node.as_integer()) {
        value.kind = TomlValue::Kind::whole;
        value.whole = whole->get();
    } else if (const auto* real = node.as_floating_point()) {
        value.kind = TomlValue::Kind::real;
        value.real = real->get();
    } else if (const auto* flag = node.as_boolean()) {
        value.kind = TomlValue::Kind::flag;
        value.flag = flag->get();
    } else {
        value.kind = TomlValue::Kind::date;
        if (const auto* date = node.as_date()) value.text = iso(date->get());
        if (const auto* time = node.as_time()) value.text = iso(time->get());
        if (const auto* both = node.as_date_time()) value.text = iso(both->get());
    }
    value.at = position_of(node.source());
    return value;
}

}  // namespace

const TomlValue* TomlValue::find(std::string_view key) const {
    for (const TomlEntry& entry : entries)
        if (entry.key == key) return &entry.value;
    return nullptr;
}

std::string_view name_of(TomlValue::Kind kind) {
    static constexpr std::string_view names[] = {"a table",       "a list", "a text", "a whole number", "a number with a point",
                                                 "true or false", "a date"};
    return names[static_cast<std::size_t>(kind)];
}

std::string TomlDocument::line(int number) const {
    if (number < 1) return {};
    std::size_t begin = 0;
    for (int n = 1; n < number; ++n) {
        const std::size_t end = text.find('\n', begin);
        if (end == std::string::npos) return {};
        begin = end + 1;
    }
    std::string line = text.substr(begin, text.find('\n', begin) - begin);
    if (!line.empty() && line.back() == '\r') line.pop_back();
    return line;
}

TomlDocument parse_toml(std::string name, std::string text) {
    TomlDocument document;
    document.name = std::move(name);
    document.text = std::move(text);
    try {
        document.root = converted(::toml::parse(document.text, document.name));
    } catch (const ::toml::parse_error& error) {
        document.broken = {position_of(error.source()), std::string(error.description())};
    }
    return document;
}

}  // namespace peelbook::plan
