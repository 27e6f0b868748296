#pragma once
// What a staged cooling came to, in words: durations, never clock times.
#include <string>
#include <vector>

#include "calc/cooling.h"
#include "judge/facts.h"
#include "plan/plan.h"

namespace peelbook::judge {

inline constexpr std::string_view cooling_assumption = "Temperature assumed to fall strictly between readings.";

struct CoolingStory {
    const plan::CoolingLimit& limit;
    const std::vector<const ReadingFact*>& readings;  // at least one
    const calc::CoolingResult& result;
    std::string_view assumption = cooling_assumption;

    std::size_t deciding_stage() const;  // the first of the worst
    std::string measured() const;        // "2:00 to 21C, 6:00 to 5C"; of the deciding stage alone when not within
    std::string detail() const;          // the arithmetic of the deciding stage (all when within), and the assumption
    std::string next() const;            // the next target and the time left at the last reading; empty when nothing is open
    std::string contradiction() const;   // "From 57C to 4C in 0:30 is faster than such a product falls"; empty: none
    Instant decided() const;             // the reading that ended the deciding stage, else the last one

  private:
    Unit typed() const { return readings.back()->value.unit; }
    std::string start_text(std::size_t stage) const;
    std::string took_text(std::size_t stage) const;
    std::string stage_text(std::size_t stage) const;
    std::string crossing_text(const calc::Crossing& crossing) const;
    std::string spare_text() const;  // what a reading must have to spare: " less 0.5C for the instrument"
    std::string reading_text(Instant at) const;
};

// What a baker is told before the first reading.
std::string first_target(const plan::CoolingLimit& limit);

}  // namespace peelbook::judge
