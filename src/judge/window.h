#pragma once
// The window of a point: what is read of it proves something from one event of the batch to another, and nothing outside (rule 52).
//
// It opens with the plan's `from`, else
//   - before packing: with the end of the step before its own, and at best unproven where nobody recorded that end;
//   - of what only has to be hot enough, of a lethality and an inspection: with the batch. Heat that was there was there;
//   - of all else: with the last end that a `step` recorded of an earlier step, else with the batch. A weighed yield is no such end.
// It closes with the plan's `until`, else with the end of the point's own step, or with what shows that this has passed; and `after` or
// `read_on` later, where the plan has neither the site's late_after. What is sought in the food as sold (pH and water activity, gluten,
// sulphites) has no close but the plan's; packing closes what is read before it. Coolings, sourings, times and losses have their events
// in the limit and no window.
//
// What lies outside proves nothing. It still counts against the batch where it breaks the limit, but for what is too low after the end,
// which cooled, and for anything before a beginning that the plan states.
#include "judge/judge.h"

namespace peelbook::judge {

struct Window {
    std::optional<Instant> from, until;  // what is read at either moment still counts; absent: from ever, or not closed yet
    std::string opened_by;               // in words: "the end of bake"
    bool stated = false;                 // the plan says what opens it
    std::string unrecorded;              // what should open it and nobody recorded, in words; empty: nothing
};
Window window_of(const plan::Point& point, const Facts& facts);

// When no reading of the point is to come any more, as far as the book knows: from then on it is missing. Absent: it still takes them.
std::optional<Instant> closed_at(const plan::Point& point, const Facts& facts);

// Whether an earlier step than the point's own may open its window without the plan saying so.
bool opens_after_earlier_step(const plan::Point& point);

// The facts without what proves nothing at this point, judged by `judge`, and told in the findings.
Judged judge_in_window(const plan::Point& point, const Facts& facts, Judged (*judge)(const plan::Point&, const Facts&));

}  // namespace peelbook::judge
