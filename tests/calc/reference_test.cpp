// Runs every line of tests/calc/reference.txt.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include "calc/reference_operations.h"

using namespace reference;

namespace {

std::string reference_text() {
    std::ifstream file(std::string(PEELBOOK_SOURCE_DIR) + "/tests/calc/reference.txt");
    REQUIRE(file.good());
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

const Operation& operation_of(const Case& c) {
    for (const auto* table : {&food_operations(), &statistics_operations()}) {
        const auto found = table->find(c.operation);
        if (found != table->end()) return found->second;
    }
    throw std::runtime_error("no operation is called '" + c.operation + "'");
}

// Empty when the step holds; else what is wrong with it.
std::string trouble_with(const Case& c, const Step& step) {
    step.inputs.forget_reads();
    const Answers answers = operation_of(c)(step.inputs);
    if (const auto unread = step.inputs.first_unread(); !unread.empty()) return "input '" + unread + "' is not used";
    const auto found = answers.find(step.name);
    if (found == answers.end()) {
        std::string names;
        for (const auto& [name, value] : answers) names += " " + name;
        return "no answer '" + step.name + "'; there are:" + names;
    }
    if (!step.numeric) {
        const auto* word = std::get_if<std::string>(&found->second);
        if (word == nullptr) return "the answer is a number: give it a tolerance, '+- 0' for exact";
        return *word == step.expected ? "" : "got '" + *word + "', expected '" + step.expected + "'";
    }
    const auto* number = std::get_if<double>(&found->second);
    if (number == nullptr) return "got '" + std::get<std::string>(found->second) + "', expected " + step.expected;
    // A hair for the rounding of the decimal texts themselves.
    const double expected = to_number(step.expected);
    const double hair = 1e-15 * std::max(std::fabs(expected), 1.0);
    if (std::fabs(*number - expected) <= step.tolerance + hair) return "";
    std::ostringstream text;
    text.precision(15);
    text << "got " << *number << ", expected " << expected << " +- " << step.tolerance;
    return text.str();
}

}  // namespace

TEST_CASE("every reference value is met") {
    const auto cases = read_cases(reference_text());
    std::set<std::string> ids, used;
    for (const Case& c : cases) {
        CHECK(ids.insert(c.id).second);
        used.insert(c.operation);
        for (const Step& step : c.steps) {
            INFO("reference.txt line " << step.line << ": [" << c.id << "] " << c.title << ", " << step.name << " (" << c.source << ")");
            CHECK(trouble_with(c, step) == "");
        }
    }
    for (const auto* table : {&food_operations(), &statistics_operations()}) {
        for (const auto& [name, operation] : *table) {
            INFO("operation '" << name << "' has no reference value");
            CHECK(used.count(name) == 1);
        }
    }
}

TEST_CASE("the reference reader finds mistakes in the text and in the values") {
    const std::string good = "[a] salt\nsource none: a test of the reader\ndo loss\nbefore 100\nafter 88\nexpect loss 12 +- 0\n";
    const Case c = read_cases(good).at(0);
    CHECK(trouble_with(c, c.steps.at(0)) == "");
    const auto trouble = [](const std::string& text) {
        const Case changed = read_cases(text).at(0);
        return trouble_with(changed, changed.steps.at(0));
    };
    CHECK(trouble("[a] b\nsource s\ndo loss\nbefore 100\nafter 87\nexpect loss 12 +- 0.5\n") == "got 13, expected 12 +- 0.5");
    CHECK(trouble("[a] b\nsource s\ndo loss\nbefore 100\nafter 88\nexpect los 12 +- 0\n") == "no answer 'los'; there are: loss");
    CHECK(trouble("[a] b\nsource s\ndo loss\nbefore 100\nafter 88\nafter_ 1\nexpect loss 12 +- 0\n") == "input 'after_' is not used");
    CHECK(trouble("[a] b\nsource s\ndo loss\nbefore 100\nafter 88\nexpect loss 12\n") ==
          "the answer is a number: give it a tolerance, '+- 0' for exact");
    CHECK_THROWS_WITH(trouble("[a] b\nsource s\ndo lose\nx 1\nexpect loss 12 +- 0\n"), "no operation is called 'lose'");
    CHECK_THROWS_WITH(read_cases("[a] b\ndo loss\nx 1\nexpect loss 12 +- 0\n"), "reference.txt line 1: case a names no source");
    CHECK_THROWS_WITH(read_cases("[a] b\nsource s\ndo loss\nx 1\n"), "reference.txt line 1: case a expects nothing");
    CHECK_THROWS_WITH(read_cases("before 100\n"), "reference.txt line 1: a case begins with [name] and a title");
}
