#include "judge/by_unit.h"

#include "judge/window.h"

namespace peelbook::judge {

std::string instrument_fault(InstrumentState state) {
    switch (state) {
        case InstrumentState::valid:
            return "";
        case InstrumentState::none:
            return "but no instrument was named";
        case InstrumentState::out_of_service:
            return "but the instrument was out of service";
        case InstrumentState::lapsed:
            return "but the calibration of the instrument had lapsed";
        case InstrumentState::uncalibrated:
            return "but the instrument was never calibrated";
        case InstrumentState::unfit:
            return "but the instrument is none that this point may rest on";
        case InstrumentState::failed:
            break;
    }
    return "but the instrument has failed a calibration since its last good one";
}

bool lacks_instrument(const plan::Point& point, InstrumentState state) {
    return point.instrument_needed && state != InstrumentState::valid;
}

std::string guard_fault(const ReadingFact& reading) {
    if (!reading.guard || reading.guard->dimension() != reading.value.dimension())
        return "but how far the instrument may be off is not known";
    return "but the instrument may be off by " + to_text(*reading.guard);
}

std::int64_t unit_place(const plan::Point& point, std::string_view unit) {
    return std::find(point.units.begin(), point.units.end(), unit) - point.units.begin();
}

std::string name_of(const plan::Point& point) {
    if (!point.measures.empty()) return point.measures;
    return point.name.empty() ? point.id : point.name;
}

Outcome missing_or_open(const plan::Point& point, const Facts& facts, std::string_view what) {
    Outcome outcome;
    const auto over = closed_at(point, facts);
    if (!over) {
        outcome.next = name_of(point) + (point.limit_text.empty() ? "" : ", " + point.limit_text);
        return outcome;
    }
    Finding finding;
    finding.verdict = Verdict::missing;
    finding.happened = *over;
    finding.measured = "no " + std::string(what);
    finding.detail = "The step " + (point.step.empty() ? "" : point.step + " ") + "has passed without " +
                     (what == "inspection" ? "an " : "a ") + std::string(what) + " of " + name_of(point) + ".";
    outcome.finding = std::move(finding);
    return outcome;
}

void append_sentence(std::string& text, std::string_view sentence) {
    if (sentence.empty()) return;
    if (!text.empty()) text += ' ';
    text += sentence;
    if (text.back() != '.') text += '.';
}

}  // namespace peelbook::judge
