#pragma once
// Collects what is wrong with the texts of a plan, and remembers where each of its values was written, so
// that rules which look at the whole plan can still point at the line.
//
// A value is named by a path of list names, indices from 0 and keys: "point/3/limit/least",
// "product/0/formula/2/item".
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "plan/reader.h"
#include "plan/toml.h"

namespace peelbook::plan {

struct Spot {
    int file = -1;  // index of the document; -1: the plan as a whole
    Position at;
};

class Faults {
  public:
    explicit Faults(const std::vector<TomlDocument>& documents) : documents_(documents) {}

    void mark(const std::string& path, Spot spot) { spots_.emplace(path, spot); }
    // Where `path` was written; of a path that is not there, the nearest one that encloses it.
    Spot spot(std::string_view path) const;
    bool written(std::string_view path) const { return spots_.find(path) != spots_.end(); }

    void error(Spot spot, std::string found, std::string wanted, std::string remedy);
    void error(std::string_view path, std::string found, std::string wanted, std::string remedy);
    void warn(std::string_view path, std::string found, std::string wanted, std::string remedy);
    // `what` says whose value was refused: "point 'bake-core' basis".
    void refuse(Spot spot, const std::string& what, const Refusal& refusal);

    std::vector<Fault> in_order() const;  // of files, then lines

  private:
    void add(Spot spot, Fault fault);

    const std::vector<TomlDocument>& documents_;
    std::map<std::string, Spot, std::less<>> spots_;
    struct Placed {
        Spot spot;
        Fault fault;
    };
    std::vector<Placed> faults_;
};

// "did you mean 'wheat'? If not: ..." when there is a name near; else `otherwise` alone.
std::string remedy_with(const std::vector<std::string>& near, const std::string& otherwise);

}  // namespace peelbook::plan
