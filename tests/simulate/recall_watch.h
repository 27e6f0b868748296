#pragma once
// What must hold after every entry while a recall is open (rules 43 and 44): all that it covers and that is here is held, and what it covers
// goes nowhere but into the bin, to the laboratory, back to the supplier, or where it went all the same, as a deviation.
//
// What is covered is found here anew each time, the slow way, from what was used into what; that this is so the second tracer says
// (tests/trace_peer), and which batches lack a use.
#include <map>
#include <set>

#include "simulate/house.h"
#include "simulate/violation.h"

namespace peelbook::simulate {

class RecallWatch {
  public:
    std::vector<Violation> after(House& house, const Outcome& outcome);

  private:
    using Lots = std::set<std::int64_t>;
    struct Ground {  // of a narrowing, which falls with it; what is made of the lot later rests on it
        Seq since = 0;
        std::string hazard;
        bool certain = false;
    };
    struct Open {
        std::string hazard, vessel, material, supplier;
        bool taken = false;  // its time is of what was taken out of the lots that it began with; else of when they came
        std::optional<Instant> from, until;
        bool in_time(Instant at) const { return (!from || at >= *from) && (!until || at <= *until); }
        Lots asked, covered;  // once covered, a lot stays so
        std::map<std::int64_t, Ground> left_out;
        std::set<std::string> deliveries;  // supplier, material and code of what it began with, as they stood then
    };
    struct World;

    void hear(const World& world, const record::Entry& entry);
    static Lots reached(const World& world, const Open& recall, bool sure_only);
    static void ask(const World& world, Open& recall, std::int64_t lot);
    static bool begins_with(const World& world, const Open& recall, std::int64_t lot);
    static void walk(const World& world, Open& recall);
    void watch_sent(const World& world, const record::Entry& entry, std::vector<Violation>& out) const;
    void watch_held(const World& world, std::vector<Violation>& out) const;
    const Open* covering(std::int64_t lot) const;

    std::map<std::string, Open> open_;             // recalls, by code; no drills
    std::set<std::pair<Seq, std::int64_t>> sent_;  // before the entry, while one is open
};

}  // namespace peelbook::simulate
