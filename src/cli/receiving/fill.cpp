#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct FillGiven {
    record::Filled filled;
    Amount amount;
    std::string until;
    Recording recording;
};

void set_up(Options& options, FillGiven& given) {
    options.word(given.filled.vessel, "VESSEL", "the silo, tank or tub")
        .word(given.filled.lot, "LOT", "the lot that goes in")
        .amount(given.amount, "AMOUNT", "how much: 8000kg, or rest for all that is left")
        .text(given.until, "--until", "TIME", "the end of the fill; --at is its start")
        .text(given.filled.blend, "--code", "CODE", "a code of your own for what the vessel now holds");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const FillGiven& given) {
    if (given.amount.pieces > 0) return Refusal{"AMOUNT in pieces", "a mass or rest: a vessel holds mass", "type it as 8000kg", {}};
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    record::Filled filled = given.filled;
    filled.mass = given.amount.mass;
    filled.rest = given.amount.rest;
    const auto until = when(context, **site, given.until);
    if (!until) return until.refusal();
    filled.until = *until;
    return record(context, **site, given.recording, filled);
}

}  // namespace

extern const Command fill_command;
const Command fill_command{.name = "fill",
                           .group = Group::receiving,
                           .about = "Put a lot into a silo, tank or tub.",
                           .more = "What the vessel then holds is a lot of its own, made of what was left and what went in.",
                           .examples =
                               "peelbook fill silo-1 FLOUR-1 rest --by RS\n"
                               "peelbook fill silo-1 FLOUR-1 8000kg --at 06:10 --until 06:50 --by RS",
                           .takes_at = true,
                           .body = body<FillGiven, set_up, act>()};

}  // namespace peelbook::cli
