#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct OutageGiven {
    record::Outage outage;
    std::string from, until;
    Recording recording;
};

void set_up(Options& options, OutageGiven& given) {
    options.words(given.outage.places, "PLACE", "a place where nothing could be checked; left out: the whole house", Need::optional)
        .text(given.from, "--from", "TIME", "when it began", Need::wanted)
        .text(given.until, "--until", "TIME", "when it was over", Need::wanted);
    add_recording_now(options, given.recording, Need::wanted);
}

// It is stated once it is over, so that is when it happened.
Result<Exit> act(Context& context, const OutageGiven& given) {
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    const auto from = when(context, **site, given.from);
    if (!from) return from.refusal();
    const auto until = when(context, **site, given.until);
    if (!until) return until.refusal();
    record::Outage outage = given.outage;
    outage.from = **from;
    outage.until = **until;
    outage.why = given.recording.why;
    Recording recording = given.recording;
    recording.at = given.until;
    return record(context, **site, recording, outage);
}

}  // namespace

extern const Command outage_command;
const Command outage_command{
    .name = "outage",
    .group = Group::bench,
    .about = "State that nothing could be checked for a time, and why.",
    .more =
        "Checks that fell due in it and were not made are one finding, unproven, which one `act` answers. Checks on\n"
        "paper slips are recorded with their own --at and stand beside it.",
    .examples =
        "peelbook outage --from 04:10 --until 06:15 --why 'power out' --by RS\n"
        "peelbook outage line-1 --from 04:10 --until 06:15 --why 'flooded' --by RS",
    .takes_at = false,
    .body = body<OutageGiven, set_up, act>()};

}  // namespace peelbook::cli
