#include "base/text.h"
#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct CountGiven {
    std::string lot;
    std::vector<std::string> quantities;
    Recording recording;
};

void set_up(Options& options, CountGiven& given) {
    options.word(given.lot, "LOT", "the lot")
        .words(given.quantities, "QUANTITY", "what is there: 412kg, 38pcs, or both; 0kg when nothing is");
    add_recording(options, given.recording, Need::wanted);
}

Result<Exit> act(Context& context, const CountGiven& given) {
    record::Counted counted{.lot = given.lot, .pieces = {}, .mass = {}, .why = given.recording.why};
    for (const std::string& typed : given.quantities) {
        const auto measure = parse_measure(typed);
        if (!measure) return measure.refusal();
        const bool mass = measure->dimension() == Dimension::mass;
        if (!mass && measure->dimension() != Dimension::pieces)
            return Refusal{"'" + shown(typed) + "'", "a mass (412kg) or pieces (38pcs)", "type the quantity with its unit", {}};
        if (mass ? counted.mass.has_value() : counted.pieces.has_value())
            return Refusal{"'" + shown(typed) + "' after another of its kind",
                           "one mass and one number of pieces at most",
                           "leave one of them out",
                           {}};
        if (mass) counted.mass = *measure;
        if (!mass) counted.pieces = measure->value;
    }
    return record(context, given.recording, counted);
}

}  // namespace

extern const Command count_command;
const Command count_command{.name = "count",
                            .group = Group::receiving,
                            .about = "Record a stock count; the gap to the book stays visible in every mass balance.",
                            .more = {},
                            .examples =
                                "peelbook count FLOUR-1 412kg --why 'month-end count' --by RS\n"
                                "peelbook count PAN-1 38pcs --why 'rack recounted' --by RS",
                            .takes_at = true,
                            .body = body<CountGiven, set_up, act>()};

}  // namespace peelbook::cli
