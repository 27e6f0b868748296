#include <ostream>

#include "base/text.h"
#include "base/zone.h"
#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "plan/starter.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct NewSiteGiven {
    std::string folder, name, zone, person, starter{plan::starters[0]};
    Recording recording;
};

void set_up(Options& options, NewSiteGiven& given) {
    options.word(given.folder, "DIR", "the folder of the new site; made when it is not there")
        .text(given.recording.by, "--by", "INITIALS", "the first person, who may do everything; else PEELBOOK_BY")
        .text(given.person, "--person", "NAME", "that person's full name")
        .text(given.name, "--name", "NAME", "the name of the bakery; else that of the folder")
        .one_of(given.starter, "--starter", {plan::starters, std::end(plan::starters)},
                "the plan to begin with: small, for six people or so; else full, with all that a plan can say")
        .text(given.zone, "--zone", "ZONE", "the time zone: Europe/Berlin, America/Chicago; else TZ, else UTC");
}

std::string folder_name(const std::filesystem::path& folder) {
    const std::filesystem::path last = folder.lexically_normal().filename();
    return last.empty() ? folder.lexically_normal().parent_path().filename().string() : last.string();
}

Result<Exit> act(Context& context, const NewSiteGiven& given) {
    const auto by = who(context, given.recording);
    if (!by) return by.refusal();
    const std::string from_environment = context.environment("TZ");
    std::string zone = given.zone;
    if (zone.empty() && !from_environment.empty() && Zone::named(from_environment)) zone = from_environment;
    if (zone.empty()) zone = "UTC";
    const std::filesystem::path folder = context.here / given.folder;
    const auto site = site::Site::create(folder, given.name.empty() ? folder_name(folder) : given.name, zone, *by,
                                         given.person.empty() ? *by : given.person, context.clock, context.files, given.starter);
    if (!site) return site.refusal();
    context.out << "opened the book of a new site in " << given.folder << ", signed by " << *by << ", time zone " << zone
                << "\nplan files, yours to edit:\n";
    for (const auto& file : (*site)->plan_files()) context.out << "  " << file.name << '\n';
    context.out << "next: peelbook --site " << given.folder << " plan check\n"
                << "next: peelbook --site " << given.folder << " plan adopt --by " << *by << '\n'
                << caution << '\n';
    return Exit::done;
}

}  // namespace

extern const Command new_site_command;
const Command new_site_command{.name = "new",
                               .group = Group::keeping,
                               .about = "Begin a site: an empty book and a commented plan to start from.",
                               .more = {},
                               .examples =
                                   "peelbook new my-bakery --by AB --person 'Ada Brandt' --name 'Weir Lane Bakery' "
                                   "--zone Europe/Berlin",
                               .takes_at = false,
                               .body = body<NewSiteGiven, set_up, act>()};

}  // namespace peelbook::cli
