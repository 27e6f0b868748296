#pragma once
// When in a packing run the packer reads a label.
#include <string_view>

namespace peelbook {

enum class LabelMoment {
    start,
    reel,
    change,  // of date or product
    end,
};
constexpr std::string_view word(LabelMoment moment) {
    switch (moment) {
        case LabelMoment::start:
            return "start";
        case LabelMoment::reel:
            return "reel";
        case LabelMoment::change:
            return "change";
        case LabelMoment::end:
            return "end";
    }
    return {};
}

// What is packed from here on is another run.
constexpr bool begins_run(LabelMoment moment) { return moment == LabelMoment::start || moment == LabelMoment::change; }

}  // namespace peelbook
