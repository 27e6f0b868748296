#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct InspectGiven {
    record::Inspected inspected;
    std::string answer;
    Recording recording;
};

void set_up(Options& options, InspectGiven& given) {
    options.word(given.inspected.subject, "SUBJECT", "the batch, lot, place or device that was looked at")
        .word(given.inspected.point, "POINT", "the control point, as the plan names it")
        .one_of(given.answer, "ANSWER", {"yes", "no"}, "yes: it is as it must be; no: it is not", Need::wanted)
        .text(given.inspected.unit, "--unit", "UNIT", "which one, where the point has several")
        .text(given.inspected.instrument, "--with", "INSTRUMENT", "what it was checked with")
        .text(given.inspected.slip, "--slip", "NUMBER", "the paper original that was made at the time")
        .text(given.inspected.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const InspectGiven& given) {
    record::Inspected inspected = given.inspected;
    inspected.passed = given.answer == "yes";
    return record(context, given.recording, inspected);
}

}  // namespace

extern const Command inspect_command;
const Command inspect_command{.name = "inspect",
                              .group = Group::bench,
                              .about = "Record a yes/no inspection at a control point.",
                              .more = {},
                              .examples =
                                  "peelbook inspect metal-detector metal-check yes --by MK\n"
                                  "peelbook inspect PAN-1 label-check no --note 'old film on the packer' --by MK",
                              .takes_at = true,
                              .body = body<InspectGiven, set_up, act>()};

}  // namespace peelbook::cli
