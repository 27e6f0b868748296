#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "cli/frame/help_text.h"
#include "cli/frame/registry.h"

namespace peelbook::cli {
namespace {

struct HelpGiven {
    std::vector<std::string> words;
};

void set_up_help(Options& options, HelpGiven& given) { options.words(given.words, "COMMAND", "the command to explain", Need::optional); }
Result<Exit> help(Context& context, const HelpGiven& given) {
    if (given.words.empty()) {
        context.out << program_help();
        return Exit::done;
    }
    const Named named = find_command(given.words);
    const std::string family = named.command == nullptr ? family_help(given.words.front()) : "";
    if (named.command == nullptr && family.empty()) return unknown_command(given.words);
    context.out << (named.command == nullptr ? family : command_help(*named.command));
    return Exit::done;
}

struct Nothing {};
void set_up_version(Options&, Nothing&) {}
Result<Exit> version(Context& context, const Nothing&) {
    context.out << "peelbook " PEELBOOK_VERSION "\n";
    return Exit::done;
}

}  // namespace

extern const Command help_command;
const Command help_command{.name = "help",
                           .group = Group::keeping,
                           .about = "Show all commands, or one with its options and examples.",
                           .more = {},
                           .examples = "peelbook help\npeelbook help plan adopt",
                           .takes_at = false,
                           .body = body<HelpGiven, set_up_help, help>()};

extern const Command version_command;
const Command version_command{.name = "version",
                              .group = Group::keeping,
                              .about = "Show the version of the program.",
                              .more = {},
                              .examples = "peelbook version",
                              .takes_at = false,
                              .body = body<Nothing, set_up_version, version>()};

}  // namespace peelbook::cli
