#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct LineFeedGiven {
    record::LineFed fed;
    Recording recording;
};

void set_up(Options& options, LineFeedGiven& given) {
    options.word(given.fed.lot, "LOT", "dusting flour, oil, egg wash, glaze, topping, film")
        .word(given.fed.line, "LINE", "the line, a place of the plan")
        .text(given.fed.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> put_on(Context& context, const LineFeedGiven& given) { return record(context, given.recording, given.fed); }

Result<Exit> take_off(Context& context, const LineFeedGiven& given) {
    record::LineFed fed = given.fed;
    fed.off = true;
    return record(context, given.recording, fed);
}

}  // namespace

extern const Command line_on_command;
const Command line_on_command{.name = "line on",
                              .group = Group::bench,
                              .about = "Put a lot on a line that takes it as it runs.",
                              .more = "Nobody weighs it into a batch: every batch that runs there until it is taken off may hold it.",
                              .examples = "peelbook line on RYE-DUST-3 line-1 --by MK",
                              .takes_at = true,
                              .body = body<LineFeedGiven, set_up, put_on>()};

extern const Command line_off_command;
const Command line_off_command{.name = "line off",
                               .group = Group::bench,
                               .about = "Take a lot off a line.",
                               .more = {},
                               .examples = "peelbook line off RYE-DUST-3 line-1 --by MK",
                               .takes_at = true,
                               .body = body<LineFeedGiven, set_up, take_off>()};

}  // namespace peelbook::cli
