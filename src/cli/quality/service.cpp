#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct ServiceGiven {
    std::string instrument, state;
    Recording recording;
};

void set_up(Options& options, ServiceGiven& given) {
    options.word(given.instrument, "INSTRUMENT", "the thermometer, scale or meter")
        .one_of(given.state, "STATE", {"in", "out"}, "in service, or out of it", Need::wanted);
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const ServiceGiven& given) {
    return record(context, given.recording,
                  record::ServiceChanged{.instrument = given.instrument, .in_service = given.state == "in", .why = given.recording.why});
}

}  // namespace

extern const Command service_command;
const Command service_command{.name = "service",
                              .group = Group::quality,
                              .about = "Put an instrument in service or take it out.",
                              .more = {},
                              .examples = "peelbook service probe-1 out --why 'fell into the kettle' --by QA",
                              .takes_at = true,
                              .body = body<ServiceGiven, set_up, act>()};

}  // namespace peelbook::cli
