#include "cli/command.h"
#include "cli/recording.h"

namespace peelbook::cli {
namespace {

struct Given {
    record::Calibrated calibrated;
    std::string result;
    Recording recording;
};

void set_up(Options& options, Given& given) {
    given.calibrated.method = "reference";
    options.word(given.calibrated.instrument, "INSTRUMENT", "the thermometer, scale or meter")
        .one_of(given.result, "RESULT", {"passed", "failed"}, "whether it may be used", Need::wanted)
        .one_of(given.calibrated.method, "--method", {"ice", "boiling", "reference", "certificate"},
                "against what; else reference")
        .measure(given.calibrated.read, "--read", "what it showed: 0.3C")
        .measure(given.calibrated.reference, "--reference", "what it should have shown: 0C")
        .text(given.calibrated.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const Given& given) {
    record::Calibrated calibrated = given.calibrated;
    calibrated.passed = given.result == "passed";
    return record(context, given.recording, calibrated);
}

}  // namespace

extern const Command calibrate_command;
const Command calibrate_command{
    .name = "calibrate",
    .group = Group::quality,
    .about = "Check an instrument against a reference.",
    .more = "A failed one makes everything it read since the last good check unproven.",
    .examples = "peelbook calibrate probe-1 passed --method ice --read 0.2C --reference 0C --by QA",
    .takes_at = true,
    .body = body<Given, set_up, act>()};

}  // namespace peelbook::cli
