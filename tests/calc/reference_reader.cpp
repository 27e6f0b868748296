#include "calc/reference_reader.h"

#include <charconv>
#include <sstream>
#include <stdexcept>

namespace reference {
namespace {

[[noreturn]] void trouble(int line, const std::string& what) {
    throw std::runtime_error("reference.txt line " + std::to_string(line) + ": " + what);
}

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(" \t\r");
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

// "water 87 +- 0.5" or "class assessment"
Step read_expectation(int line, const std::string& text) {
    Step step;
    step.line = line;
    const auto gap = text.find(' ');
    if (gap == std::string::npos) trouble(line, "expect wants a name and a value");
    step.name = text.substr(0, gap);
    std::string rest = trimmed(text.substr(gap));
    if (const auto sign = rest.find("+-"); sign != std::string::npos) {
        step.numeric = true;
        step.tolerance = to_number(trimmed(rest.substr(sign + 2)));
        rest = trimmed(rest.substr(0, sign));
        to_number(rest);
    }
    step.expected = rest;
    return step;
}

Case begin_case(int line, const std::string& text) {
    const auto close = text.find(']');
    if (close == std::string::npos) trouble(line, "a case begins with [name] and a title");
    Case c;
    c.line = line;
    c.id = text.substr(1, close - 1);
    c.title = trimmed(text.substr(close + 1));
    return c;
}

void check_complete(const Case& c) {
    if (c.source.empty()) trouble(c.line, "case " + c.id + " names no source");
    if (c.operation.empty()) trouble(c.line, "case " + c.id + " names no operation (do ...)");
    if (c.steps.empty()) trouble(c.line, "case " + c.id + " expects nothing");
}

}  // namespace

double to_number(const std::string& text) {
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size()) {
        throw std::runtime_error("'" + text + "' is not a number");
    }
    return number;
}

std::string Inputs::text(const std::string& name) const {
    const auto found = values_.find(name);
    if (found == values_.end()) throw std::runtime_error("the input '" + name + "' is wanted");
    read_.insert(name);
    return found->second;
}

double Inputs::number(const std::string& name) const { return to_number(text(name)); }

std::vector<double> Inputs::numbers(const std::string& name) const {
    std::istringstream words(text(name));
    std::vector<double> out;
    for (std::string word; words >> word;) out.push_back(to_number(word));
    return out;
}

std::vector<std::pair<std::string, std::string>> Inputs::pairs(const std::string& name) const {
    std::istringstream words(text(name));
    std::vector<std::pair<std::string, std::string>> out;
    for (std::string word; words >> word;) {
        const auto equals = word.find('=');
        if (equals == std::string::npos) throw std::runtime_error("'" + word + "' wants the form a=b");
        out.emplace_back(word.substr(0, equals), word.substr(equals + 1));
    }
    return out;
}

std::vector<std::pair<double, double>> Inputs::number_pairs(const std::string& name) const {
    std::vector<std::pair<double, double>> out;
    for (const auto& [left, right] : pairs(name)) out.emplace_back(to_number(left), to_number(right));
    return out;
}

std::string Inputs::first_unread() const {
    for (const auto& [name, value] : values_) {
        if (read_.count(name) == 0) return name;
    }
    return "";
}

std::vector<Case> read_cases(const std::string& text) {
    std::vector<Case> cases;
    Inputs inputs;
    std::istringstream lines(text);
    int number = 0;
    for (std::string raw; std::getline(lines, raw);) {
        ++number;
        const std::string line = trimmed(raw);
        if (line.empty() || line[0] == '#') continue;
        if (line[0] == '[') {
            if (!cases.empty()) check_complete(cases.back());
            cases.push_back(begin_case(number, line));
            inputs = Inputs{};
            continue;
        }
        if (cases.empty()) trouble(number, "a case begins with [name] and a title");
        const auto gap = line.find(' ');
        if (gap == std::string::npos) trouble(number, "a line wants a word and a value");
        const std::string word = line.substr(0, gap), value = trimmed(line.substr(gap));
        Case& c = cases.back();
        if (word == "source") {
            c.source += (c.source.empty() ? "" : " ") + value;
        } else if (word == "do") {
            c.operation = value;
        } else if (word == "expect") {
            Step step = read_expectation(number, value);
            step.inputs = inputs;
            c.steps.push_back(step);
        } else {
            inputs.set(word, value);
        }
    }
    if (!cases.empty()) check_complete(cases.back());
    return cases;
}

}  // namespace reference
