#pragma once
// A history as it is typed into a house: each line is tried, read back from the book, and held against the properties.
#include <functional>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "simulate/attempt.h"
#include "simulate/house.h"
#include "simulate/ratchet.h"
#include "simulate/recall_watch.h"
#include "simulate/violation.h"

namespace peelbook::simulate {

// How often each act met each state of the gate.
using Cells = std::map<std::pair<std::string, std::string>, std::int64_t>;

// Where scratch sites and the plan are.
struct Folders {
    std::filesystem::path scratch, plan;
};

class Run {
  public:
    explicit Run(const Folders& folders);

    bool type(const std::string& text, Instant clock);  // the next line; whether it was accepted
    bool type(const Line& line);

    House& house() { return *house_; }
    const Zone& zone() const { return house_->zone(); }
    const Facts& facts() const { return facts_; }
    Judge judge() const { return Judge(facts_, house_->zone()); }
    int last_line() const { return history_.empty() ? 0 : history_.back().id; }

    const History& history() const { return history_; }
    const std::vector<std::string>& typed() const { return typed_; }  // with real numbers, beside history()
    const std::vector<bool>& accepted() const { return accepted_; }   // beside history()
    std::vector<Violation> violations;
    Cells cells;
    std::int64_t entries = 0, refused_lines = 0;

    void check_rebuild();                                                          // incremental equals rebuild
    void check_owed(Instant now);                                                  // what is owed of places, and was, equals a slow count
    void found(const std::string& key, const std::string& told, Instant at = {});  // each key once

  private:
    void count(const std::vector<Attempt>& attempts);
    void check_ratchet(const Outcome& outcome);

    std::unique_ptr<House> house_;
    Facts facts_;
    Facts settled_;           // without what waits for a countersign
    Facts unmoved_;           // without amendments that wait: so a check of a place counts at its old time
    std::set<Seq> amending_;  // the entries that amend
    Standings standings_;
    Waiting waiting_;
    RecallWatch recalls_;
    History history_;
    std::vector<std::string> typed_;
    std::vector<bool> accepted_;
};

// Stands before the line that is told otherwise, in the file of such a violation.
inline std::string mark_of(std::string_view variant) { return "# " + std::string(variant) + " is this line:"; }

// Stands before the time at which what is owed was asked.
inline constexpr std::string_view asked_mark = "# what is owed was asked at: ";

// The lines of a history with real numbers in them, as a file that can be run.
std::string as_file(const Run& run, const Violation& violation);

}  // namespace peelbook::simulate
