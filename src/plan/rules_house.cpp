#include "base/text.h"
#include "base/time_format.h"
#include "base/zone.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

// What a role may do: the names of the commands that write an entry.
const std::vector<std::string>& rights() {
    static const std::vector<std::string> list = {
        "*",       "person", "partner", "plan",     "plan adopt", "receive",   "fill",    "empty",      "start",  "use",     "step",
        "reading", "series", "inspect", "finish",   "split",      "pack",      "move",    "ship",       "return", "discard", "sample",
        "count",   "hold",   "release", "act",      "review",     "calibrate", "service", "clean",      "amend",  "void",    "seal",
        "recall",  "drill",  "line",    "copacked", "renew",      "labels",    "outage",  "countersign"};
    return list;
}

template <class T> void check_unique(const std::vector<T>& list, std::string_view section, Faults& faults) {
    for (std::size_t i = 0; i < list.size(); ++i)
        for (std::size_t j = 0; j < i && !list[i].id.empty(); ++j)
            if (list[i].id == list[j].id) {
                faults.error(path_at(section, i) + "/id", std::string(section) + " " + quoted(list[i].id) + " is there twice",
                             "each id once", "rename one of the two, or take it out");
                break;
            }
}

void check_site(const Plan& plan, Faults& faults) {
    if (plan.site.zone.empty()) return;
    if (const Result<Zone> zone = Zone::named(plan.site.zone); !zone) faults.refuse(faults.spot("site/zone"), "site zone", zone.refusal());
}

void check_vessels(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.vessels.size(); ++i) {
        const Vessel& vessel = plan.vessels[i];
        const std::string what = "vessel " + quoted(vessel.id), path = path_at("vessel", i);
        check_known(faults, path + "/holds", what + " holds", "material or product", vessel.holds, item_ids(plan));
        if (vessel.model != "first-in") continue;
        if (vessel.validation.empty())
            faults.error(path + "/model", what + " is first-in without a validation",
                         "the document that shows it empties in the order it was filled",
                         "write validation = \"...\", or model = \"mixed\"");
        if (vessel.smear_mg == 0)
            faults.error(path + "/model", what + " is first-in without a smear",
                         "the mass on either side of a boundary that may be of both fills",
                         "write smear = \"25kg\" as the validation found it");
    }
}

void check_instruments(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.instruments.size(); ++i)
        check_known(faults, path_at("instrument", i) + "/place", "instrument " + quoted(plan.instruments[i].id) + " place", "place",
                    plan.instruments[i].place, ids_of(plan.places));
}

void check_roles(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.roles.size(); ++i) {
        const Role& role = plan.roles[i];
        if (role.may.empty())
            faults.error(path_at("role", i), "role " + quoted(role.id) + " may do nothing", "may = [\"reading\", \"use\"]",
                         "write what the role may do, or \"*\" for everything");
        for (std::size_t n = 0; n < role.may.size(); ++n)
            if (!among(rights(), role.may[n]))
                faults.warn(path_at("role", i) + "/may/" + std::to_string(n),
                            "role " + quoted(role.id) + " may: no command " + quoted(role.may[n]), "the name of a command, or \"*\"",
                            remedy_with(nearest(role.may[n], rights()), "take it out"));
    }
}

void check_hazards(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.hazards.size(); ++i) {
        const Hazard& hazard = plan.hazards[i];
        if (hazard.significant && hazard.control.empty())
            faults.warn(path_at("hazard", i), "hazard " + quoted(hazard.id) + " is significant and has no control", "what controls it",
                        "write control = \"...\"");
    }
}

void check_zone(const Logger& logger, const std::string& path, Faults& faults) {
    if (logger.zone.empty() || utc_offset(logger.zone)) return;
    if (const Result<Zone> zone = Zone::named(logger.zone); !zone)
        faults.refuse(faults.spot(path + "/zone"), "logger " + quoted(logger.id) + " zone", zone.refusal());
}

void check_column(const Plan& plan, const Logger& logger, const LoggerColumn& column, const std::string& path, Faults& faults) {
    const std::string what = "logger " + quoted(logger.id) + " values";
    check_known(faults, path + "/point", what, "point", column.point, ids_of(plan.points));
    const Point* point = plan.point(column.point);
    if (!point) return;
    if (!point->dimension)
        faults.error(path + "/point", what + ": point " + quoted(point->id) + " measures nothing", "a point that is read as a number",
                     "name another point");
    else if (dimension_of(column.unit) != *point->dimension)
        faults.error(path + "/unit",
                     what + ": unit " + quoted(std::string(symbol(column.unit))) + " is of " +
                         std::string(name_of(dimension_of(column.unit))) + ", but point " + quoted(point->id) + " is of " +
                         std::string(name_of(*point->dimension)),
                     "one and the same", "correct the unit or the point");
}

void check_loggers(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.loggers.size(); ++i) {
        const Logger& logger = plan.loggers[i];
        const std::string path = path_at("logger", i);
        check_zone(logger, path, faults);
        for (std::size_t n = 0; n < logger.columns.size(); ++n)
            check_column(plan, logger, logger.columns[n], path + "/values/" + std::to_string(n), faults);
    }
}

}  // namespace

std::string path_at(std::string_view section, std::size_t i) { return std::string(section) + "/" + std::to_string(i); }

void check_known(Faults& faults, const std::string& path, const std::string& what, std::string_view kind, const std::string& name,
                 const std::vector<std::string>& known) {
    if (name.empty() || among(known, name)) return;
    faults.error(path, what + ": no " + std::string(kind) + " " + quoted(name), "a " + std::string(kind) + " of this plan",
                 remedy_with(nearest(name, known), "add it to the plan"));
}

void check_all_known(Faults& faults, const std::string& path, const std::string& what, std::string_view kind,
                     const std::vector<std::string>& names, const std::vector<std::string>& known) {
    for (std::size_t i = 0; i < names.size(); ++i) check_known(faults, path + "/" + std::to_string(i), what, kind, names[i], known);
}

void check_house(const Plan& plan, Faults& faults) {
    check_site(plan, faults);
    check_unique(plan.shifts, "shift", faults);
    check_unique(plan.labels, "label", faults);
    check_unique(plan.vessels, "vessel", faults);
    check_unique(plan.places, "place", faults);
    check_unique(plan.instruments, "instrument", faults);
    check_unique(plan.possible, "possible", faults);
    check_unique(plan.roles, "role", faults);
    check_unique(plan.hazards, "hazard", faults);
    check_unique(plan.points, "point", faults);
    check_unique(plan.deadlines, "deadline", faults);
    check_unique(plan.loggers, "logger", faults);
    check_unique(plan.equipment, "equipment", faults);
    check_unique(plan.cleanings, "cleaning", faults);
    check_vessels(plan, faults);
    check_instruments(plan, faults);
    check_roles(plan, faults);
    check_hazards(plan, faults);
    check_loggers(plan, faults);
}

}  // namespace peelbook::plan
