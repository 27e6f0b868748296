#include "simulate/table.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace peelbook::simulate {
namespace {

// Without `acts` they stand in the first line.
Table written_table(const std::string& path, std::vector<std::string> acts = {}) {
    std::ifstream file(PEELBOOK_SOURCE_DIR + path);
    if (!file) throw std::logic_error("there is no table " + path);
    Table table;
    const bool headed = acts.empty();
    table.acts = std::move(acts);
    for (std::string line, word; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::istringstream words(line);
        words >> word;
        const std::string state = word;
        const bool head = headed && table.acts.empty();
        if (!head) table.states.push_back(state);
        for (std::size_t i = 0; words >> word; ++i) {
            if (head)
                table.acts.push_back(word);
            else
                table.answers[{table.acts.at(i), state}] = word;
        }
    }
    return table;
}

}  // namespace

const std::string& Table::answer(const std::string& act, const std::string& state) const {
    const auto found = answers.find({act, state});
    return found == answers.end() ? answers.at({"customer", state}) : found->second;
}

const Table& gate_table() {
    static const Table table = written_table("/tests/site/gate/table.txt");
    return table;
}

const Table& ratchet_table() {
    static const Table table = written_table("/tests/fold/ratchet/table.txt", {"point", "check", "formula", "label", "residue", "done"});
    return table;
}

}  // namespace peelbook::simulate
