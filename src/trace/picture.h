#pragma once
// The genealogy of lots as text in the DOT language of Graphviz, to be drawn by `dot`. Black on white: shapes tell kinds
// apart, a double border marks the start, a dashed arrow a possible use, and a legend says so.
//
// Up to `most_single` lots each is a node of its own. Above that, lots are gathered by product (or material), kind and day,
// into nodes that say how many they are; where that still leaves more than `most_gathered`, by ISO week, then over all time.
// Start lots always stand alone. Nothing is left out in silence: uses of lots that are not in the graph are counted under the
// title.
//
// Names and codes are shown as they are: quotes, backslashes and entities are escaped, control characters and bytes that are
// not UTF-8 become "?". The same graph gives the same text.
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "trace/trace.h"

namespace peelbook::trace {

struct PictureOptions {
    std::string title;
    std::vector<LotId> start;
    std::size_t most_single = 60;
    std::size_t most_gathered = 120;
    // The (production) day of an instant, in days since 1970-01-01; without it the day in UTC.
    std::function<std::int64_t(std::int64_t)> day;
};

std::string genealogy_dot(const Graph& graph, const PictureOptions& options);

// A quoted DOT string that shows `text`; its line feeds break lines.
std::string dot_string(std::string_view text);

}  // namespace peelbook::trace
