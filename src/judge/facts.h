#pragma once
// What the judge is told about one batch, received lot or place: plain values, effective (as last amended), in time order.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/instant.h"
#include "base/instrument_state.h"
#include "base/measure.h"

namespace peelbook::judge {

using peelbook::InstrumentState;

struct ReadingFact {
    std::int64_t seq = 0;  // entry; evidence in findings
    std::int64_t row = 0;  // of a series
    Instant at;
    std::string point;
    Measure value;     // as typed
    std::string unit;  // which oven, deck, rack; empty
    InstrumentState instrument = InstrumentState::none;
    std::string by;
    bool voided = false;
    std::optional<Measure> tolerance{};  // of the instrument, a difference in either unit ("0.5C" "1F"); absent: none
    std::optional<Measure> guard{};      // of the instrument, for guarded acceptance: its uncertainty, else its tolerance
};

struct InspectionFact {
    std::int64_t seq = 0;
    Instant at;
    std::string point, unit;
    bool passed = false;
    InstrumentState instrument = InstrumentState::none;
    bool voided = false;
};

struct StepFact {
    std::int64_t seq = 0;
    std::string step;
    Instant at;  // its end
};

// A batch, or a received lot (then only `started`, readings and inspections, and the only step is "receive").
struct Facts {
    std::vector<std::string> steps;  // of the product, in order; {"receive"} for a received lot
    Instant started;
    std::optional<Instant> finished;  // the end of finish_step
    std::string finish_step;
    std::string product;                            // id; empty for a received lot
    std::string label;                              // that a pack is packed under; empty for all else
    std::string food;                               // the product's sort: "pan bread"; empty when it has none
    std::optional<std::int64_t> input_mg, made_mg;  // all that went in, once something did; what `finish` weighed
    std::vector<StepFact> steps_done;
    std::vector<Instant> packed, shipped;  // each time part of it was packed, or left
    std::vector<ReadingFact> readings;
    std::vector<InspectionFact> inspections;

    // The end of a step: the last record of it; `finish` ends finish_step; a received lot's "receive" ends at `started`.
    // Absent when there is none.
    std::optional<Instant> end_of(std::string_view step) const;
    // True once `step` must have ended: it is recorded, or a later step, finish (for steps up to finish_step), packing or
    // leaving is. Packing passes every step before "pack"; leaving passes all.
    bool passed(std::string_view step) const;
    // The first moment that shows it: for `missing`, when it became missing.
    std::optional<Instant> passed_at(std::string_view step) const;
    // "start" "finish" "pack" "ship" or a step, as time limits name them: first packing, last leaving.
    std::optional<Instant> event(std::string_view name) const;
};

}  // namespace peelbook::judge
