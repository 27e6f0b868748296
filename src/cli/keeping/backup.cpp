#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct BackupGiven {
    std::string file;
    Asking asking;
};

void set_up(Options& options, BackupGiven& given) {
    options.word(given.file, "FILE", "the copy; must not exist yet");
    add_asking(options, given.asking, false);
}

Result<Exit> act(Context& context, const BackupGiven& given) {
    const std::filesystem::path file = context.here / given.file;
    if (context.files.exists(file))
        return Refusal{
            "file '" + shown(given.file) + "'", "a file that does not exist yet: nothing is overwritten", "name another file", {}};
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    (*site)->back_up(file);
    const site::Status status = (*site)->status();
    context.out << "backed up " << status.entries << " entries to " << given.file << "\nhead " << status.head << '\n';
    return Exit::done;
}

}  // namespace

extern const Command backup_command;
const Command backup_command{.name = "backup",
                             .group = Group::keeping,
                             .about = "Copy the book, whole and consistent, while others may go on recording.",
                             .more = "The copy opens in a read-only folder too.",
                             .examples = "peelbook backup book-2026-11-22.db",
                             .takes_at = false,
                             .body = body<BackupGiven, set_up, act>()};

}  // namespace peelbook::cli
