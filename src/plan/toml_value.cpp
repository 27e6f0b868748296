#include "plan/toml.h"

namespace peelbook::plan {

const TomlValue* TomlValue::find(std::string_view key) const {
    for (const TomlEntry& entry : entries)
        if (entry.key == key) return &entry.value;
    return nullptr;
}

std::string TomlValue::text_or(std::string_view key, std::string_view otherwise) const {
    const TomlValue* value = find(key);
    return std::string(value && value->is(Kind::text) ? std::string_view(value->text) : otherwise);
}

std::int64_t TomlValue::whole_or(std::string_view key, std::int64_t otherwise) const {
    const TomlValue* value = find(key);
    return value && value->is(Kind::whole) ? value->whole : otherwise;
}

bool TomlValue::flag_or(std::string_view key, bool otherwise) const {
    const TomlValue* value = find(key);
    return value && value->is(Kind::flag) ? value->flag : otherwise;
}

std::vector<std::string> TomlValue::texts(std::string_view key) const {
    std::vector<std::string> found;
    if (const TomlValue* value = find(key))
        for (const TomlValue& item : value->items)
            if (item.is(Kind::text)) found.push_back(item.text);
    return found;
}

std::vector<TomlValue> TomlValue::tables(std::string_view key) const {
    std::vector<TomlValue> found;
    if (const TomlValue* value = find(key))
        for (const TomlValue& item : value->items)
            if (item.is(Kind::table)) found.push_back(item);
    return found;
}

std::string_view name_of(TomlValue::Kind kind) {
    switch (kind) {
        case TomlValue::Kind::table:
            return "a table";
        case TomlValue::Kind::array:
            return "a list";
        case TomlValue::Kind::text:
            return "a text";
        case TomlValue::Kind::whole:
            return "a whole number";
        case TomlValue::Kind::real:
            return "a number with a point";
        case TomlValue::Kind::flag:
            return "true or false";
        case TomlValue::Kind::date:
            break;
    }
    return "a date";
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

}  // namespace peelbook::plan
