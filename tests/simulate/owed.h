#pragma once
// What is owed of the places of plan/site.toml, counted minute by minute (rule 11): slow, and with a clock and a calendar of its own.
// It knows shifts, closed days and intervals by heart, as the judge knows the limits.
#include <optional>
#include <set>
#include <string>

#include "simulate/facts.h"

namespace peelbook::simulate {

struct Owed {
    Instant since, due;
    bool never = false;   // not checked yet
    bool closed = false;  // a highest reading of closed hours is wanted
};

class SlowCount {
  public:
    explicit SlowCount(const Facts& facts) : facts_(facts) {}

    // The next check of a place as it stands at a moment; none: nobody asked for it yet.
    std::optional<Owed> next_of(const std::string& place, Instant now) const;
    // The entries from which it took too long to the next check: checks, or the adoption where none was before.
    std::set<Seq> gaps_of(const std::string& place) const;
    // From a check to the next one, if that took too long.
    bool is_gap(const std::string& place, Instant check, Instant next) const;

  private:
    struct Answerable {
        Instant since, due;
        int version = 0;
    };
    std::optional<Instant> begins(int version) const;  // its first shift; none: it never counted
    std::optional<Answerable> after(const std::string& place, std::optional<Instant> check) const;
    Instant due(const std::string& place, int version, Instant since) const;
    bool asked_in(const std::string& place, Instant minute) const;
    std::vector<Read> moments(const std::string& place, Instant until) const;  // one for each moment of checks, of its last entry
    // Closed hours between two moments that nothing shows: by when they could be.
    std::optional<Instant> unshown(const std::string& place, Instant check, Instant next) const;

    const Facts& facts_;
};

}  // namespace peelbook::simulate
