#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "output/csv.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct ExportCsvGiven {
    std::string folder;
    Asking asking;
};

void set_up(Options& options, ExportCsvGiven& given) {
    options.text(given.folder, "--out", "DIR", "the folder for the files; made when it is not there", Need::wanted);
    add_asking(options, given.asking, false);
}

Result<Exit> act(Context& context, const ExportCsvGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const std::filesystem::path folder = context.here / given.folder;
    const auto tables = (*site)->tables();
    for (const auto& [name, table] : tables)
        if (context.files.exists(folder / (name + ".csv")))
            return Refusal{"folder '" + shown(given.folder) + "'",
                           "a folder without a " + name + ".csv: nothing is overwritten",
                           "name another folder, or move the old files away",
                           {}};
    context.files.make_folder(folder);
    for (const auto& [name, table] : tables) {
        context.files.create(folder / (name + ".csv"), output::to_csv(table));
        context.out << name << ".csv  " << table.rows.size() << " rows\n";
    }
    return Exit::done;
}

}  // namespace

extern const Command export_csv_command;
const Command export_csv_command{.name = "export csv",
                                 .group = Group::keeping,
                                 .about = "Write every table as a CSV file, the entries among them.",
                                 .more = {},
                                 .examples = "peelbook export csv --out tables",
                                 .takes_at = false,
                                 .body = body<ExportCsvGiven, set_up, act>()};

}  // namespace peelbook::cli
