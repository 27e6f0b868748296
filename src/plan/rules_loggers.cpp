// Loggers: ids, zones, and that each column of values fits the point it is read for.
#include "base/time_format.h"
#include "base/zone.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

void check_zone(const Logger& logger, const std::string& path, Faults& faults) {
    if (logger.zone.empty() || utc_offset(logger.zone)) return;
    if (const Result<Zone> zone = Zone::named(logger.zone); !zone)
        faults.refuse(faults.spot(path + "/zone"), "logger " + quoted(logger.id) + " zone", zone.refusal());
}

void check_column(const Plan& plan, const Logger& logger, const LoggerColumn& column, const std::string& path,
                  Faults& faults) {
    const std::string what = "logger " + quoted(logger.id) + " values";
    check_known(faults, path + "/point", what, "point", column.point, ids_of(plan.points));
    const Point* point = plan.point(column.point);
    if (!point) return;
    if (!point->dimension)
        faults.error(path + "/point", what + ": point " + quoted(point->id) + " measures nothing",
                     "a point that is read as a number", "name another point");
    else if (dimension_of(column.unit) != *point->dimension)
        faults.error(path + "/unit",
                     what + ": unit " + quoted(std::string(symbol(column.unit))) + " is of " +
                         std::string(name_of(dimension_of(column.unit))) + ", but point " +
                         quoted(point->id) + " is of " + std::string(name_of(*point->dimension)),
                     "one and the same", "correct the unit or the point");
}

}  // namespace

void check_loggers(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.loggers.size(); ++i) {
        const Logger& logger = plan.loggers[i];
        const std::string path = path_at("logger", i);
        for (std::size_t j = 0; j < i; ++j)
            if (!logger.id.empty() && plan.loggers[j].id == logger.id)
                faults.error(path + "/id", "logger " + quoted(logger.id) + " is there twice", "each id once",
                             "rename one of the two, or take it out");
        check_zone(logger, path, faults);
        for (std::size_t n = 0; n < logger.columns.size(); ++n)
            check_column(plan, logger, logger.columns[n], path + "/values/" + std::to_string(n), faults);
    }
}

}  // namespace peelbook::plan
