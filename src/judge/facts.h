#pragma once
// What the judge is told about one batch, received lot or place: plain values, effective (as last amended), in time order.
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/instant.h"
#include "base/instrument_state.h"
#include "base/measure.h"

namespace peelbook::judge {

using peelbook::InstrumentState;

// A record that an entry brings or takes away which waits for a countersign is there in one world and not in another (worlds.h).
struct InWorlds {
    std::optional<std::int64_t> only_with, only_without;  // seq of that entry
};

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
    std::optional<Instant> written{};    // when a person typed it; absent: a machine wrote it when it was taken
    std::string slip{};                  // number of the paper original made at the time; empty: none
    InWorlds in{};
    std::optional<Instant> or_at{};  // or then: a logger's row of the hour that its clock showed twice (hours.h)
    bool logged = false;             // a row of a logger's file
};

struct InspectionFact {
    std::int64_t seq = 0;
    Instant at;
    std::string point, unit;
    bool passed = false;
    InstrumentState instrument = InstrumentState::none;
    bool voided = false;
    std::optional<Instant> written{};
    std::string slip{};
    InWorlds in{};
};

struct StepFact {
    std::int64_t seq = 0;
    std::string step;
    Instant at;          // its end
    bool again = false;  // or, when it goes on after an end: the moment it was begun again
    InWorlds in{};
};

// A stretch in which a step was worked on.
struct Work {
    std::optional<Instant> from;   // when it was begun again; absent: from the first
    std::optional<Instant> until;  // its recorded end; absent: none yet
};

// A batch, or a received lot (then only `started`, readings and inspections, and the only step is "receive").
struct Facts {
    std::vector<std::string> steps;  // of the product, in order; {"receive"} for a received lot
    Instant started;
    std::optional<std::pair<Instant, std::int64_t>> started_before{};  // as stated before an amendment of the time that waits
    std::optional<Instant> finished;                                   // the end of finish_step, where no step entry had ended that by then
    bool finish_ends = true;                                           // false: taken to end no step (ends.h)
    std::string finish_step;
    std::string product;                            // id; empty for a received lot
    std::string label;                              // that a pack is packed under; empty for all else
    std::string food;                               // the product's sort: "pan bread"; empty when it has none
    std::optional<std::int64_t> input_mg, made_mg;  // all that went in, once something did; what `finish` weighed
    std::vector<StepFact> steps_done;
    std::vector<StepFact> steps_taken_back;  // ends that were voided: where one starts the clock of a cooling, it still counts against
    std::vector<Instant> packed, shipped;    // each time part of it was packed, or left
    std::vector<ReadingFact> readings;
    std::vector<InspectionFact> inspections;
    // How far the book knows: the last time that somebody wrote of the batch. For ever: what is not told did not happen.
    Instant as_of{std::numeric_limits<std::int64_t>::max()};
    Duration late_after = minutes(15);  // of the site
    std::string ends{};  // which of several recorded ends of a step these facts go by (ends.h), a sentence; empty: no step has two

    // Every recorded end of a step and every time it was begun again, in order of time; of one moment the end comes first.
    std::vector<StepFact> told_of(std::string_view step) const;
    // The end of a step: the last record of it; `finish` ends finish_step, if nobody else had; a received lot's "receive" ends at
    // `started`.
    // Absent when there is none, or the step was begun again and has not ended anew.
    std::optional<Instant> end_of(std::string_view step) const;
    // The same, but the earlier end of a step that was begun again stays until there is a new one: it was hot then.
    std::optional<Instant> last_end_of(std::string_view step) const;
    // The stretches in which a step was worked on, in order, at least one; each ends with the first end that was recorded of it.
    // Begun again counts up to `read_on` after an end: later, what is done is no part of this step any more.
    std::vector<Work> works(std::string_view step, Duration read_on) const;
    // When it was over that a step takes readings, as far as the book knows; absent: it still takes them. It does until it has
    // passed and, where its end is recorded and nothing was packed or left since, `read_on` longer.
    std::optional<Instant> over_at(std::string_view step, Duration read_on) const;
    // True once `step` must have ended: it is recorded, or a later step, finish (for steps up to finish_step), packing or
    // leaving is. Packing passes every step before "pack"; leaving passes all. Once a step is begun again, only what is
    // recorded after that moment ends it; packing and leaving count whenever they were.
    bool passed(std::string_view step) const;
    // The first moment that shows it: for `missing`, when it became missing.
    std::optional<Instant> passed_at(std::string_view step) const;
    // "start" "finish" "pack" "ship" or a step, as time limits name them: first packing, last leaving.
    std::optional<Instant> event(std::string_view name) const;
    // The same, or the first moment that shows that it is over, where nobody recorded it.
    std::optional<Instant> event_over(std::string_view name) const;
    // As they had happened by a moment, and nothing is known after it.
    Facts known_at(Instant moment) const;
};

}  // namespace peelbook::judge
