#pragma once
// JSON for `--json`: values are built in any order of one's own and printed once. Keys keep the order in which they were set.
//
//   Json answer = Json::object();
//   answer.set("lot", lot.code).set("mass_mg", lot.made_mg);     // an absent optional becomes null
//   Json lots = Json::array();
//   for (...) lots.add(Json::object().set("code", code));
//   answer.set("lots", std::move(lots));
//   out << answer.text() << '\n';
#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/table.h"

namespace peelbook::output {

class Json {
  public:
    Json() = default;  // null
    Json(bool value) : value_(value) {}
    Json(double value) : value_(value) {}  // NaN and infinity are written as null: JSON has no word for them
    Json(const char* value) : value_(std::string(value)) {}
    Json(std::string value) : value_(std::move(value)) {}
    Json(std::string_view value) : value_(std::string(value)) {}
    template <std::integral T>
    requires(!std::same_as<T, bool>) Json(T value) : value_(static_cast<std::int64_t>(value)) {}
    template <class T> Json(const std::optional<T>& value) {
        if (value) *this = Json(*value);
    }
    Json(const Cell& cell);
    template <class T> Json(const std::vector<T>& values) {
        *this = array();
        for (const auto& value : values) add(Json(value));
    }

    static Json object();
    static Json array();

    // Adds a member, or replaces the one of that name. Only on an object; on null makes it one.
    Json& set(std::string key, Json value);
    // Adds an element. Only on an array; on null makes it one.
    Json& add(Json value);

    // UTF-8; bytes that are not become U+FFFD. `indent` blanks a level, 0: all on one line. No line end after it.
    std::string text(int indent = 2) const;

  private:
    using Array = std::vector<Json>;
    using Object = std::vector<std::pair<std::string, Json>>;
    friend struct JsonWriter;

    std::variant<std::monostate, bool, std::int64_t, double, std::string, Array, Object> value_;
};

// One object a row, keyed by column.
Json to_json(const Table& table);

}  // namespace peelbook::output
