#pragma once
// Reads tests/calc/reference.txt: checks that a technologist can read, and add to, without C++. The format is
// described at the top of that file. Trouble in the file throws std::runtime_error with the line number.
#include <map>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace reference {

// The inputs of one step. Each must be read by the operation, so that a misspelt name is found.
class Inputs {
  public:
    void set(const std::string& name, const std::string& value) { values_[name] = value; }
    bool has(const std::string& name) const { return values_.count(name) != 0; }

    std::string text(const std::string& name) const;
    double number(const std::string& name) const;
    std::vector<double> numbers(const std::string& name) const;                             // "1 2 3"
    std::vector<std::pair<std::string, std::string>> pairs(const std::string& name) const;  // "a=1 b=2"
    std::vector<std::pair<double, double>> number_pairs(const std::string& name) const;

    std::string first_unread() const;  // empty when all were read
    void forget_reads() const { read_.clear(); }

  private:
    std::map<std::string, std::string> values_;
    mutable std::set<std::string> read_;
};

double to_number(const std::string& text);  // the whole text must be one number

// What an operation answers, by name: a number, or a word such as a verdict. A refusal answers only
// "refused".
using Answer = std::variant<double, std::string>;
using Answers = std::map<std::string, Answer>;

struct Step {
    int line = 0;
    Inputs inputs;
    std::string name;      // of the answer
    std::string expected;  // a word, or a number when there is a tolerance
    bool numeric = false;
    double tolerance = 0;
};

struct Case {
    int line = 0;
    std::string id, title, source, operation;
    std::vector<Step> steps;
};

std::vector<Case> read_cases(const std::string& text);

}  // namespace reference
