#include "simulate/run.h"

#include <algorithm>
#include <atomic>
#include <iterator>

#include "simulate/properties.h"

namespace peelbook::simulate {
namespace {

std::filesystem::path next_folder(const Folders& folders) {
    static std::atomic<int> number = 0;
    return folders.scratch / ("site-" + std::to_string(++number));
}

// A check of a place that is amended to another time counts at the old one while that waits, also where the new one would be worse
// (DEVELOPERS.md, Where it falls short).
bool is_of_place(const std::string& key) {
    return key.find(", unchecked") != std::string::npos || key.find(", device-bad") != std::string::npos;
}

std::string first_word(const std::string& text) { return text.substr(0, text.find(' ')); }

}  // namespace

Run::Run(const Folders& folders) : house_(std::make_unique<House>(next_folder(folders), folders.plan)) {}

void Run::found(const std::string& key, const std::string& told, Instant at) {
    const auto known = std::any_of(violations.begin(), violations.end(), [&](const auto& v) { return v.key == key; });
    if (!known) violations.push_back({key, told, history_.empty() ? 0 : history_.size() - 1, at, 0});
}

void Run::count(const std::vector<Attempt>& attempts) {
    for (const auto& attempt : attempts) {
        std::set<std::string> met;
        for (const auto& state : judge().states_of(attempt)) met.insert(state.substr(0, state.find(':')));
        for (const auto& state : met) ++cells[{attempt.act, state}];
    }
}

bool Run::type(const std::string& text, Instant clock) { return type({last_line() + 1, clock, text}); }

bool Run::type(const Line& line) {
    const auto outcome = house_->type(line);
    history_.push_back(line);
    typed_.push_back(outcome.typed);
    accepted_.push_back(outcome.accepted);
    if (outcome.broken) found("fails: " + first_word(outcome.typed), outcome.told);
    if (!outcome.accepted) ++refused_lines;
    entries += std::ssize(outcome.entries);
    count(attempts_of(outcome.typed, line.clock, facts_, house_->zone()));
    if (outcome.entries.empty()) return outcome.accepted;
    for (Facts* world : {&facts_, &settled_, &unmoved_}) {  // the program goes by the worst of them, of places by the last
        const auto attempts = attempts_of(outcome.typed, line.clock, *world, house_->zone());
        for (const auto& violation : no_way_out(Judge(*world, house_->zone()), attempts, outcome.typed))
            if (world == &unmoved_ || !is_of_place(violation.key)) found(violation.key, violation.told);
        for (const auto& entry : outcome.entries) world->take(entry);
    }
    for (const auto& entry : outcome.entries)
        if (std::holds_alternative<record::Amended>(entry.payload)) amending_.insert(entry.seq);
    check_ratchet(outcome);
    for (const auto& violation : recalls_.after(*house_, outcome)) found(violation.key, outcome.typed + ": " + violation.told);
    return outcome.accepted;
}

void Run::check_ratchet(const Outcome& outcome) {
    auto now = standings_of(*house_);
    auto waits = waiting_of(*house_);
    for (const auto& slip : ratchet_slips(*house_, outcome.typed, {outcome.entries, standings_, now, waiting_, waits}))
        found(slip.key, slip.told);
    standings_ = std::move(now);
    waiting_ = std::move(waits);
    facts_.leave_out(waiting_.refused);
    auto amending = waiting_.refused;
    std::set_intersection(waiting_.open.begin(), waiting_.open.end(), amending_.begin(), amending_.end(),
                          std::inserter(amending, amending.end()));
    unmoved_.leave_out(std::move(amending));
    auto unsettled = waiting_.open;
    unsettled.insert(waiting_.refused.begin(), waiting_.refused.end());
    settled_.leave_out(std::move(unsettled));
}

void Run::check_rebuild() {
    for (const auto& fault : house_->site().verify(true)) found("rebuild: " + fault.table, fault.text);
}

void Run::check_owed(Instant now) {
    for (const auto& fault : owed_otherwise(*house_, unmoved_, now)) found("owed: " + fault.key, fault.told, now);
}

std::string as_file(const Run& run, const Violation& violation) {
    std::string out = "# " + violation.key + "\n# " + violation.told + "\n";
    if (violation.at != Instant{}) out += std::string(asked_mark) + to_iso(run.zone(), violation.at) + "\n";
    for (std::size_t i = 0; i < run.history().size(); ++i) {
        const bool marked = run.history()[i].id == violation.retold && violation.retold != 0;
        out += (marked ? mark_of(violation.key.substr(0, violation.key.find(':'))) + "\n" : "") +
               stamped(run.zone(), run.history()[i].clock, run.typed()[i]) + "\n";
    }
    return out;
}

}  // namespace peelbook::simulate
