#include "output/json.h"

#include <cassert>
#include <cmath>
#include <nlohmann/json.hpp>

namespace peelbook::output {

using OrderedJson = nlohmann::ordered_json;

// Turns a value into the vendor's, which knows how to quote.
struct JsonWriter {
    OrderedJson operator()(std::monostate) const { return nullptr; }
    OrderedJson operator()(bool value) const { return value; }
    OrderedJson operator()(std::int64_t value) const { return value; }
    OrderedJson operator()(double value) const { return std::isfinite(value) ? OrderedJson(value) : OrderedJson(nullptr); }
    OrderedJson operator()(const std::string& value) const { return value; }
    OrderedJson operator()(const Json::Array& elements) const {
        OrderedJson out = OrderedJson::array();
        for (const auto& element : elements) out.push_back(std::visit(*this, element.value_));
        return out;
    }
    OrderedJson operator()(const Json::Object& members) const {
        OrderedJson out = OrderedJson::object();
        for (const auto& [key, member] : members) out[key] = std::visit(*this, member.value_);
        return out;
    }
    static OrderedJson of(const Json& json) { return std::visit(JsonWriter{}, json.value_); }
};

Json::Json(const Cell& cell) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell)) value_ = *whole;
    if (const auto* real = std::get_if<double>(&cell)) value_ = *real;
    if (const auto* text = std::get_if<std::string>(&cell)) value_ = *text;
}

Json Json::object() {
    Json json;
    json.value_ = Object{};
    return json;
}

Json Json::array() {
    Json json;
    json.value_ = Array{};
    return json;
}

Json& Json::set(std::string key, Json value) {
    if (std::holds_alternative<std::monostate>(value_)) value_ = Object{};
    assert(std::holds_alternative<Object>(value_));
    auto& members = std::get<Object>(value_);
    for (auto& [known, member] : members) {
        if (known == key) {
            member = std::move(value);
            return *this;
        }
    }
    members.emplace_back(std::move(key), std::move(value));
    return *this;
}

Json& Json::add(Json value) {
    if (std::holds_alternative<std::monostate>(value_)) value_ = Array{};
    assert(std::holds_alternative<Array>(value_));
    std::get<Array>(value_).push_back(std::move(value));
    return *this;
}

std::string Json::text(int indent) const {
    return JsonWriter::of(*this).dump(indent > 0 ? indent : -1, ' ', false, OrderedJson::error_handler_t::replace);
}

Json to_json(const Table& table) {
    Json rows = Json::array();
    for (const auto& row : table.rows) {
        Json object = Json::object();
        for (std::size_t i = 0; i < table.columns.size() && i < row.size(); ++i) object.set(table.columns[i], row[i]);
        rows.add(std::move(object));
    }
    return rows;
}

}  // namespace peelbook::output
