#include "cli/frame/command.h"
#include "cli/frame/height.h"
#include "cli/frame/recording.h"
#include "fold/calibration.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct CalibrateGiven {
    record::Calibrated calibrated;
    std::string result, altitude;
    std::optional<Measure> pressure;
    Recording recording;
};

void set_up(Options& options, CalibrateGiven& given) {
    given.calibrated.method = "reference";
    const auto take_pressure = [&given](const std::vector<std::string>& typed) -> Check {
        auto measure = parse_measure(typed.front(), Dimension::pressure);
        if (!measure) return measure.refusal();
        given.pressure = *measure;
        return {};
    };
    options.word(given.calibrated.instrument, "INSTRUMENT", "the thermometer, scale or meter")
        .one_of(given.result, "RESULT", {"passed", "failed"}, "whether it may be used; reckoned from the figures", Need::optional)
        .one_of(given.calibrated.method, "--method", {"ice", "boiling", "reference", "certificate"}, "against what; else reference")
        .measure(given.calibrated.read, "--read", "what it showed: 0.3C")
        .measure(given.calibrated.reference, "--reference", "what it should have shown: 0C")
        .row({"--pressure", "PRESSURE", "boiling: station pressure, not reduced to sea level: 1004hPa", false, false, take_pressure})
        .text(given.altitude, "--altitude", "HEIGHT", "boiling: height above the sea when no pressure is known: 300m")
        .text(given.calibrated.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const CalibrateGiven& given) {
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    const auto at = when(context, **site, given.recording.at);
    if (!at) return at.refusal();
    const auto plan = (*site)->plan_in_force(*at);
    if (!plan) return plan.refusal();
    fold::Bath bath;
    if (given.pressure) bath.pascal = static_cast<double>(given.pressure->value);
    if (!given.altitude.empty()) {
        const auto metres = height_metres("--altitude", given.altitude);
        if (!metres) return metres.refusal();
        bath.altitude_m = *metres;
    }
    const auto said = given.result.empty() ? std::nullopt : std::optional<bool>(given.result == "passed");
    const auto calibrated = fold::checked_in_bath(*plan, given.calibrated, bath, said);
    if (!calibrated) return calibrated.refusal();
    return record(context, **site, given.recording, *calibrated);
}

}  // namespace

extern const Command calibrate_command;
const Command calibrate_command{
    .name = "calibrate",
    .group = Group::quality,
    .about = "Check an instrument against a reference.",
    .more =
        "A failed one makes everything it read since the last good check unproven. Figures decide, by the\n"
        "tolerance in the plan: without --read and a reference a pass shows nothing. In melting ice or boiling\n"
        "water the reference is nature's. A good check puts a spare in service from then on.",
    .examples =
        "peelbook calibrate probe-1 --method ice --read 0.2C --by QA\n"
        "peelbook calibrate probe-1 --method boiling --read 99.4C --pressure 1004hPa --by QA\n"
        "peelbook calibrate meter-ph --read 4.02pH --reference 4.01pH --by QA",
    .takes_at = true,
    .body = body<CalibrateGiven, set_up, act>()};

}  // namespace peelbook::cli
