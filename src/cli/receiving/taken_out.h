#pragma once
// discard and sample differ in one word only: the way out.
#include "cli/frame/recording.h"

namespace peelbook::cli {

struct TakenOut {
    std::string lot;
    Amount amount;  // nothing typed: all that is left
    std::int64_t pieces = 0;
    std::optional<Measure> mass;
    bool of_returned = false;
    Recording recording;
};

void set_up_taken_out(Options& options, TakenOut& given);
Result<Exit> record_taken_out(Context& context, const TakenOut& given, std::string_view way);

}  // namespace peelbook::cli
