#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct ReadingGiven {
    record::ReadingTaken reading;
    std::string value;
    Recording recording;
};

void set_up(Options& options, ReadingGiven& given) {
    options.word(given.reading.subject, "SUBJECT", "the batch, lot, place or device that was measured")
        .word(given.reading.point, "POINT", "the control point, as the plan names it")
        .word(given.value, "VALUE", "what was read, with its unit: 96.4C, 205F, 5.6pH, 12min")
        .text(given.reading.unit, "--unit", "UNIT", "which oven, deck or rack, where the point has several")
        .text(given.reading.instrument, "--with", "INSTRUMENT", "the thermometer, scale or meter")
        .text(given.reading.slip, "--slip", "NUMBER", "the paper original that was made at the time")
        .flag(given.reading.sure, "--sure", "it really reads so, beyond what the plan says it can: unproven until a second reading agrees")
        .text(given.reading.note, "--note", "TEXT", "anything worth keeping");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const ReadingGiven& given) {
    record::ReadingTaken reading = given.reading;
    const auto value = parse_measure(given.value);
    if (!value) return value.refusal();
    reading.value = *value;
    return record(context, given.recording, reading);
}

}  // namespace

extern const Command reading_command;
const Command reading_command{.name = "reading",
                              .group = Group::bench,
                              .about = "Record a reading at a control point; says at once whether it holds.",
                              .more =
                                  "A broken limit is recorded all the same, and the plan's corrective action is printed. Typed after its\n"
                                  "point had fallen missing, a critical reading counts only from a slip, a numbered paper original.\n"
                                  "What no loaf or room can read is asked about first: nothing is written without --sure.",
                              .examples =
                                  "peelbook reading PAN-1 bake-core 96.4C --with probe-1 --by MK\n"
                                  "peelbook reading chill-room chill-air 3.8C --with chill-logger --by MK",
                              .takes_at = true,
                              .body = body<ReadingGiven, set_up, act>()};

}  // namespace peelbook::cli
