#include <ostream>

#include "cli/frame/command.h"
#include "output/json.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct VerifyGiven {
    bool derived = false;
    Asking asking;
};

void set_up(Options& options, VerifyGiven& given) {
    options.flag(given.derived, "--derived", "also make the derived tables anew from the entries and compare them");
    add_asking(options, given.asking);
}

std::string place(const book::Fault& fault) {
    if (fault.entry) return "entry " + std::to_string(*fault.entry) + ": ";
    return fault.table.empty() ? "" : fault.table + ": ";
}

Json verify_json(const site::Status& status, const std::vector<book::Fault>& faults) {
    auto list = Json::array();
    for (const auto& fault : faults) list.add(Json::object().set("entry", fault.entry).set("table", fault.table).set("text", fault.text));
    auto json = Json::object();
    json.set("entries", status.entries).set("head", status.head).set("faults", std::move(list));
    return json;
}

Result<Exit> act(Context& context, const VerifyGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto faults = (*site)->verify(given.derived);
    const site::Status status = (*site)->status();
    if (given.asking.json) context.out << verify_json(status, faults).text() << '\n';
    for (const auto& fault : faults) context.err << "damaged: " << place(fault) << fault.text << '\n';
    if (!faults.empty()) return Exit::damaged;
    if (!given.asking.json)
        context.out << "verified " << status.entries << " entries" << (given.derived ? " and the derived tables" : "")
                    << ": nothing wrong\nhead " << status.head << '\n';
    return Exit::done;
}

}  // namespace

extern const Command verify_command;
const Command verify_command{.name = "verify",
                             .group = Group::keeping,
                             .about = "Hash every entry again and check the guards and rules of the book.",
                             .more =
                                 "It cannot see a tail that was cut off or a book forged from start to end: compare the head with\n"
                                 "one that was given away before (peelbook seal).",
                             .examples = "peelbook verify\npeelbook verify --derived",
                             .takes_at = false,
                             .body = body<VerifyGiven, set_up, act>()};

}  // namespace peelbook::cli
