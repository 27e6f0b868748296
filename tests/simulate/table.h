#pragma once
// The gate's table as it was written and reviewed, tests/site/gate/table.txt: what the judge goes by, and the cells that a long run is
// to reach. The program has its own.
#include <map>
#include <string>
#include <vector>

namespace peelbook::simulate {

struct Table {
    std::vector<std::string> acts, states;
    std::map<std::pair<std::string, std::string>, std::string> answers;  // by act and state: "yes", "along", "no", "why", "-"

    // Of acts that the table does not name, as of shipping to a customer.
    const std::string& answer(const std::string& act, const std::string& state) const;
};

const Table& gate_table();

// The ratchet's table as it was written and reviewed, tests/fold/ratchet/table.txt: by matter and kind of entry "time", "yes" or "-".
const Table& ratchet_table();

}  // namespace peelbook::simulate
