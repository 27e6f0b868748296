#include "simulate/table.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace peelbook::simulate {
namespace {

Table written_table() {
    std::ifstream file(PEELBOOK_SOURCE_DIR "/tests/site/gate/table.txt");
    if (!file) throw std::logic_error("the gate's table is not where it was");
    Table table;
    for (std::string line, word; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::istringstream words(line);
        words >> word;
        const std::string state = word;
        if (!table.acts.empty()) table.states.push_back(state);
        for (std::size_t i = 0; words >> word; ++i) {
            if (table.states.empty())
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
    static const Table table = written_table();
    return table;
}

}  // namespace peelbook::simulate
