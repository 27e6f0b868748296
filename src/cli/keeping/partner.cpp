#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct PartnerGiven {
    record::PartnerAdded partner;
    Recording recording;
};

void set_up(Options& options, PartnerGiven& given) {
    record::PartnerAdded& p = given.partner;
    options.word(p.code, "CODE", "a short code: MILL-1")
        .word(p.name, "NAME", "the name; or --name", Need::optional)
        .text(p.name, "--name", "NAME", "the name")
        .list(p.roles, "--role", "supplier, customer, carrier, authority: one or more")
        .text(p.address, "--address", "TEXT", "where they are")
        .text(p.phone, "--phone", "TEXT", "whom a recall calls")
        .text(p.email, "--email", "TEXT", "whom a recall writes to")
        .text(p.gln, "--gln", "DIGITS", "global location number, 13 digits");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const PartnerGiven& given) {
    if (given.partner.roles.empty())
        return Refusal{"no --role", "what they are to the bakery", "add --role supplier, customer, carrier or authority", {}};
    return record(context, given.recording, given.partner);
}

}  // namespace

extern const Command partner_command;
const Command partner_command{.name = "partner",
                              .group = Group::keeping,
                              .about = "Add a supplier, customer, carrier or authority, or change what is known of one.",
                              .more = {},
                              .examples = "peelbook partner MILL-1 'Weir Mill' --role supplier --phone '+00 555 0101' --by AB",
                              .takes_at = true,
                              .body = body<PartnerGiven, set_up, act>()};

}  // namespace peelbook::cli
