#pragma once
// What was done in a recall, an entry each.
#include <string_view>

namespace peelbook::book {

enum class RecallStepKind { opened, decided, widened, contacted, told, counted, closed };
constexpr std::string_view word(RecallStepKind kind) {
    switch (kind) {
        case RecallStepKind::opened:
            return "opened";
        case RecallStepKind::decided:
            return "decided";
        case RecallStepKind::widened:
            return "widened";
        case RecallStepKind::contacted:
            return "contacted";
        case RecallStepKind::told:
            return "told";
        case RecallStepKind::counted:
            return "counted";
        case RecallStepKind::closed:
            return "closed";
    }
    return {};
}

}  // namespace peelbook::book
