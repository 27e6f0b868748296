// Source for quoting: RFC 8259, section 7.
#include "output/json.h"

#include <catch2/catch.hpp>
#include <limits>

using namespace peelbook;
using namespace peelbook::output;

TEST_CASE("JSON keeps the order in which it was set") {
    Json lot = Json::object();
    lot.set("code", "RYE-1").set("mass_mg", std::int64_t{90'000'000}).set("held", true).set("share", 0.25);
    lot.set("made_pieces", std::optional<std::int64_t>{}).set("code", "RYE-2");
    CHECK(lot.text(0) == R"({"code":"RYE-2","mass_mg":90000000,"held":true,"share":0.25,"made_pieces":null})");
    Json all;
    all.set("lots", Json::array().add(std::move(lot)).add(3)).set("names", std::vector<std::string>{"a", "b"});
    CHECK(all.text(0) ==
          R"({"lots":[{"code":"RYE-2","mass_mg":90000000,"held":true,"share":0.25,"made_pieces":null},3],"names":["a","b"]})");
    CHECK(Json::array().text(0) == "[]");
    CHECK(Json::object().text(0) == "{}");
    CHECK(Json(std::vector<int>{1}).text() == "[\n  1\n]");
}

TEST_CASE("JSON quotes what has to be quoted") {
    CHECK(Json("a\"b\\c\n\x01").text() == R"("a\"b\\c\n\u0001")");
    CHECK(Json("Br\xc3\xb6t").text() == "\"Br\xc3\xb6t\"");
    CHECK(Json("caf\xe9").text() == "\"caf\xef\xbf\xbd\"");
    CHECK(Json(std::numeric_limits<double>::quiet_NaN()).text() == "null");
    CHECK(Json(std::numeric_limits<double>::infinity()).text() == "null");
    CHECK(Json(std::int64_t{9'007'199'254'740'993}).text() == "9007199254740993");
}

TEST_CASE("A table becomes one object a row") {
    CHECK(to_json({{"lot", "kg"}, {{"RYE-1", 90.5}, {"S-3", {}}}}).text(0) == R"([{"lot":"RYE-1","kg":90.5},{"lot":"S-3","kg":null}])");
}
