#pragma once
// A site in a folder of its own, at which lines are typed: the program's own command line, in this process, with a clock set by hand.
//
// A history is lines. A line may name the entry that another one made as {id}, so that it still means the same entry when lines before
// it are taken away; what was really typed stands in `typed`, and a file of those is what `--replay` and the example's recorder run.
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "base/clock.h"
#include "base/table.h"
#include "base/zone.h"
#include "cli/frame/context.h"
#include "fold/owed/duty.h"
#include "record/entry.h"
#include "site/site.h"

namespace peelbook::simulate {

struct Line {
    int id = 0;
    Instant clock;     // of the machine when it was typed
    std::string text;  // "use {12} 30kg --into L-1 --by BA"
};
using History = std::vector<Line>;

struct Outcome {
    bool accepted = false;
    bool broken = false;                 // the program failed or found its book damaged
    std::string typed;                   // the line with real numbers in it
    std::string told;                    // what the program answered
    std::vector<record::Entry> entries;  // that it wrote, in order; none when it was refused, or a repetition
};

class House {
  public:
    // `plan_folder` holds the plan that the first `plan adopt` takes; each further one takes the next version (plan_version).
    House(const std::filesystem::path& folder, const std::filesystem::path& plan_folder);
    ~House();
    House(const House&) = delete;
    House& operator=(const House&) = delete;

    Outcome type(const Line& line);
    void keep(const std::filesystem::path& folder);  // its book and its plan, as another program reads them
    site::Site& site() { return **context_.site(""); }
    std::vector<std::vector<Cell>> ask(const std::string& sql);
    std::optional<fold::Duty> duty(const std::string& place, const std::string& point, Instant now) const;
    int line_of(Seq seq) const;  // that wrote the entry; 0: none
    const Zone& zone() const { return zone_; }

  private:
    std::string resolved(const std::string& text) const;

    std::filesystem::path folder_, plan_folder_;
    Zone zone_;
    HandClock clock_;
    DiskFiles files_;
    cli::Context context_;
    std::map<int, Seq> entry_of_;  // by line
    std::map<Seq, int> line_of_;
    Seq last_ = 1;
    int adoptions_ = 0;
};

// The n-th version of the plan, from 0: every second one asks for a core of 95C, and for the air of the room every three hours.
std::string plan_version(std::string text, int n);

std::string stamped(const Zone& zone, Instant clock, const std::string& typed);
// Lines as they stand in a file, ids from 1; what cannot be read is passed over.
History read_history(const std::string& text);

}  // namespace peelbook::simulate
