#pragma once
// How near a lot of a trace stands to what was asked for. Screen, JSON and workbook all sort a trace's lots by this.
#include <string_view>

#include "trace/trace.h"

namespace peelbook::trace {

enum class Near {
    asked_for,
    direct,      // a lot asked for was used into it or, going back, it into one of them
    further,     // through other lots only
    carry_over,  // the same, and its inputs are expected to be of the lots asked for by less than the plan's carry-over share
};

// `carry_over_ppm` of the plan, in millionths of the inputs. A share that nobody knows is further, also each one going back.
Near near(const Reached& reached, std::int64_t carry_over_ppm);
// "asked for" "direct" "further" "carry-over"
std::string_view to_text(Near near);

}  // namespace peelbook::trace
