#include "judge/verdict.h"

namespace peelbook::judge {

std::string_view word(Verdict v) {
    switch (v) {
        case Verdict::within:
            return "within";
        case Verdict::unproven:
            return "unproven";
        case Verdict::missing:
            return "missing";
        case Verdict::deviation:
            break;
    }
    return "deviation";
}

}  // namespace peelbook::judge
