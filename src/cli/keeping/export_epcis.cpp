#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "output/epcis.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct ExportEpcisGiven {
    std::string file;
    std::optional<Date> from, until;
    Asking asking;
};

void set_up(Options& options, ExportEpcisGiven& given) {
    options.text(given.file, "--out", "FILE", "the file to write", Need::wanted)
        .date(given.from, "--from", "the first day")
        .date(given.until, "--until", "the last day");
    add_asking(options, given.asking, false);
}

Result<Exit> act(Context& context, const ExportEpcisGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto file = context.free_file(given.file);
    if (!file) return file.refusal();
    const auto custody = (*site)->custody(given.from, given.until);
    if (!custody) return custody.refusal();
    context.files.create(*file, output::epcis_json(*custody));
    context.out << "wrote " << given.file << ": " << custody->events.size() << " events\n";
    if (custody->left_out > 0) context.out << custody->left_out << " shipments of any lot on hand are not in it: nobody knows which lot\n";
    return Exit::done;
}

}  // namespace

extern const Command export_epcis_command;
const Command export_epcis_command{.name = "export epcis",
                                   .group = Group::keeping,
                                   .about = "Write what came in, was made and went out as an EPCIS 2.0 document.",
                                   .more =
                                       "Lots, pallets and parties bear GS1 numbers where the plan and the partners state them, else "
                                       "names under the plan's web address.",
                                   .examples = "peelbook export epcis --out events.jsonld --from 2026-11-16 --until 2026-11-22",
                                   .takes_at = false,
                                   .body = body<ExportEpcisGiven, set_up, act>()};

}  // namespace peelbook::cli
