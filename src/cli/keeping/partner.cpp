#include <ostream>

#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct PartnerGiven {
    record::PartnerAdded partner;
    bool list = false;
    Recording recording;
};

void set_up(Options& options, PartnerGiven& given) {
    record::PartnerAdded& p = given.partner;
    options.word(p.code, "CODE", "a short code: MILL-1", Need::optional)
        .word(p.name, "NAME", "the name; or --name", Need::optional)
        .text(p.name, "--name", "NAME", "the name")
        .list(p.roles, "--role", "supplier, customer, carrier, authority: all that they are")
        .text(p.address, "--address", "TEXT", "where they are")
        .text(p.phone, "--phone", "TEXT", "whom a recall calls")
        .text(p.email, "--email", "TEXT", "whom a recall writes to")
        .text(p.gln, "--gln", "DIGITS", "global location number, 13 digits")
        .flag(given.list, "--list", "show all of them, and write nothing");
    add_recording(options, given.recording);
}

Result<Exit> list_partners(Context& context, const Recording& recording) {
    const auto site = context.site(recording.site, Context::Mode::read);
    if (!site) return site.refusal();
    Table table{{"code", "name", "roles", "phone", "email", "address", "gln"}, {}};
    for (const auto& one : (*site)->partners())
        table.rows.push_back({one.code, one.name, one.roles, one.phone, one.email, one.address, one.gln});
    context.out << (recording.json ? output::to_json(table).text() + "\n" : output::text_table(table));
    return Exit::done;
}

Result<Exit> act(Context& context, const PartnerGiven& given) {
    if (given.list) return list_partners(context, given.recording);
    return record(context, given.recording, given.partner);
}

}  // namespace

extern const Command partner_command;
const Command partner_command{.name = "partner",
                              .group = Group::keeping,
                              .about = "Add a supplier, customer, carrier or authority, or change what is known of one.",
                              .more = "What is not stated stays as it was; - takes a field away.",
                              .examples =
                                  "peelbook partner MILL-1 'Weir Mill' --role supplier --phone '+00 555 0101' --by AB\n"
                                  "peelbook partner MILL-1 --address '1 Weir Lane' --email - --by AB\n"
                                  "peelbook partner --list",
                              .takes_at = true,
                              .body = body<PartnerGiven, set_up, act>()};

}  // namespace peelbook::cli
