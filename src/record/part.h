#pragma once
// One of several lots that an entry takes from or speaks of.
#include <cstdint>
#include <optional>
#include <string>

#include "base/measure.h"

// A list of fields is a table, one member beside the next: laid out by hand.
// clang-format off
namespace peelbook::record {

struct Part {  // of a lot; with neither mass nor pieces: all that is left
    std::string lot;
    std::int64_t pieces = 0;
    std::optional<Measure> mass;
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("pieces", s.pieces); v("mass", s.mass);
    }
};

}  // namespace peelbook::record
// clang-format on
