#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct PersonGiven {
    record::PersonAdded person;
    Recording recording;
};

void set_up(Options& options, PersonGiven& given) {
    options.word(given.person.initials, "INITIALS", "how the person signs from now on")
        .word(given.person.name, "NAME", "the full name; or --name", Need::optional)
        .text(given.person.name, "--name", "NAME", "the full name")
        .text(given.person.role, "--role", "ROLE", "a role of the plan", Need::wanted);
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const PersonGiven& given) { return record(context, given.recording, given.person); }

}  // namespace

extern const Command person_command;
const Command person_command{.name = "person",
                             .group = Group::keeping,
                             .about = "Add a person who may sign entries.",
                             .more = {},
                             .examples = "peelbook person MK 'Mirek Kolar' --role baker --by AB",
                             .takes_at = true,
                             .body = body<PersonGiven, set_up, act>()};

}  // namespace peelbook::cli
