#include <ostream>

#include "base/text.h"
#include "base/zone.h"
#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct PersonGiven {
    record::PersonAdded person;
    bool left = false, back = false, list = false;
    Recording recording;
};

void set_up(Options& options, PersonGiven& given) {
    options.word(given.person.initials, "INITIALS", "how the person signs from now on", Need::optional)
        .word(given.person.name, "NAME", "the full name; or --name", Need::optional)
        .text(given.person.name, "--name", "NAME", "the full name")
        .text(given.person.role, "--role", "ROLE", "a role of the plan; what is not stated stays")
        .flag(given.left, "--left", "they are no longer here, and sign nothing from now on")
        .flag(given.back, "--back", "they are here again")
        .flag(given.list, "--list", "show everybody, and write nothing");
    add_recording(options, given.recording);
}

Result<Exit> list_people(Context& context, const Recording& recording) {
    const auto site = context.site(recording.site, Context::Mode::read);
    if (!site) return site.refusal();
    Table table{{"initials", "name", "role", "left"}, {}};
    for (const auto& one : (*site)->people()) {
        table.rows.push_back({one.initials, one.name, one.role, one.left ? to_text((*site)->zone(), {*one.left}) : ""});
    }
    context.out << (recording.json ? output::to_json(table).text() + "\n" : output::text_table(table));
    return Exit::done;
}

Result<Exit> act(Context& context, const PersonGiven& given) {
    if (given.list) return list_people(context, given.recording);
    if (given.left && given.back) return Refusal{"--left and --back", "one of the two", "leave one of them out", {}};
    record::PersonAdded person = given.person;
    person.state = given.left ? "left" : given.back ? "back" : "";
    return record(context, given.recording, person);
}

}  // namespace

extern const Command person_command;
const Command person_command{.name = "person",
                             .group = Group::keeping,
                             .about = "Add a person who may sign entries, or say that one changed role, left or is back.",
                             .more = {},
                             .examples =
                                 "peelbook person MK 'Mirek Kolar' --role baker --by AB\n"
                                 "peelbook person MK --role store --by AB\n"
                                 "peelbook person MK --left --by AB\n"
                                 "peelbook person --list",
                             .takes_at = true,
                             .body = body<PersonGiven, set_up, act>()};

}  // namespace peelbook::cli
