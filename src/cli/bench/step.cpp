#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct StepGiven {
    record::StepDone done;
    Recording recording;
};

void set_up(Options& options, StepGiven& given) {
    options.word(given.done.lot, "BATCH", "the batch")
        .word(given.done.step, "STEP", "the step that is done: mix, proof, bake, ...")
        .flag(given.done.again, "--again", "the step goes on after its end: back in the oven")
        .text(given.done.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const StepGiven& given) { return record(context, given.recording, given.done); }

}  // namespace

extern const Command step_command;
const Command step_command{.name = "step",
                           .group = Group::bench,
                           .about = "Say that a step of a batch is done, or goes on.",
                           .more =
                               "The time is the end of the step: times between steps and cooling clocks count from it.\n"
                               "With --again it is when the step went on after its end, as loaves go back in the oven that\n"
                               "were not done. That corrects a reading if it is in the time that the plan gives the point\n"
                               "after the end of its step (read_on); say the end anew when it is over.",
                           .examples =
                               "peelbook step PAN-1 bake --by MK\n"
                               "peelbook step PAN-1 bake --at 05:45 --by MK\n"
                               "peelbook step PAN-1 bake --again --by MK",
                           .takes_at = true,
                           .body = body<StepGiven, set_up, act>()};

}  // namespace peelbook::cli
