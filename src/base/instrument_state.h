#pragma once
// Whether what an instrument read counts.
#include <string_view>

namespace peelbook {

enum class InstrumentState {
    valid,           // in service, calibration in date
    none,            // no instrument was named
    out_of_service,  // unknown to the plan, or out of service
    lapsed,          // last good calibration too long ago
    uncalibrated,    // no good calibration yet
    failed,          // a later calibration failed: everything since the last good one
    unfit,           // none that this point may rest on, whatever its calibrations (plan/instruments.h); not of the instrument alone
};
constexpr std::string_view word(InstrumentState state) {
    switch (state) {
        case InstrumentState::valid:
            return "valid";
        case InstrumentState::none:
            return "none";
        case InstrumentState::out_of_service:
            return "out-of-service";
        case InstrumentState::lapsed:
            return "lapsed";
        case InstrumentState::uncalibrated:
            return "never-calibrated";
        case InstrumentState::failed:
            return "failed";
        case InstrumentState::unfit:
            return "unfit";
    }
    return {};
}

}  // namespace peelbook
