// What a critical point is read with, and what a reading of it can be at all.
#include "base/text.h"
#include "plan/instruments.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

bool may_be_meant(const Point& point, const Instrument& instrument) {
    if (!point.instruments.empty()) return among(point.instruments, instrument.id);
    const bool here = instrument.place.empty() || instrument.place == point.place;
    return here && instrument.tolerance && is_read_in(point, instrument.tolerance->dimension());
}

void check_instruments_of(const Plan& plan, const Point& point, const std::string& path, Faults& faults) {
    const std::string what = "point " + quoted(point.id);
    check_all_known(faults, path + "/with", what + " with", "instrument", point.instruments, ids_of(plan.instruments));
    if (!point.instrument_needed || !is_measured(point) || point.limit_text.empty()) return;
    bool fit = false;
    std::vector<std::string> unfit;
    for (const Instrument& instrument : plan.instruments) {
        const std::string why = unfit_because(point, instrument);
        if (why.empty())
            fit = true;
        else if (may_be_meant(point, instrument))
            unfit.push_back(instrument.id + " " + why);
    }
    const bool named = !point.instruments.empty();
    if (!unfit.empty())
        faults.error(
            path + (named ? "/with" : ""), what + " rests on its readings, and " + joined(unfit, "; "),
            "instruments with calibrate_every and a tolerance that cannot swallow the limit",
            named ? "name others, or correct [[instrument]]" : "correct [[instrument]], or name those that read it: with = [\"...\"]");
    else if (!fit && !named && !plan.instruments.empty())
        faults.error(path, what + " rests on its readings, and no instrument of the plan can read it",
                     "an [[instrument]] with tolerance and calibrate_every", "add it");
}

void check_bounds(Faults& faults, const std::string& path, const std::string& what, const std::optional<Bound>& least,
                  const std::optional<Bound>& most) {
    if (!least || !most) return;
    const bool alike = least->first.dimension() == most->first.dimension();
    if (alike && least->first.value < most->first.value) return;
    faults.error(path, what + ": possible from " + to_text(*least) + " to " + to_text(*most),
                 "two measures of one kind, the lower one first", "swap the two, or correct one");
}

void check_possible(const Plan& plan, const Point& point, const std::string& point_path, Faults& faults) {
    const std::string what = "point " + quoted(point.id), path = point_path + "/possible";
    check_known(faults, path + "/kind", what, "[[possible]]", point.possible_kind, ids_of(plan.possible));
    check_bounds(faults, path, what, point.possible_least, point.possible_most);
    if (point.limit_text.empty()) return;
    if (point.grade == Grade::critical && is_measured(point) && !point.possible_least && !point.possible_most)
        faults.warn(point_path, what + " is critical and does not say what a reading can be at all",
                    "possible = { least = \"...\", most = \"...\" } or { kind = \"...\" }",
                    "write it, or a slip of the keys counts as read");
    const Bound* sides[] = {nullptr, nullptr};
    if (const auto* range = std::get_if<RangeLimit>(&point.limit)) {
        if (range->least) sides[0] = &*range->least;
        if (range->most) sides[1] = &*range->most;
    }
    for (const bool least : {true, false}) {
        const auto& possible = least ? point.possible_least : point.possible_most;
        if (!possible) continue;
        if (!is_read_in(point, possible->first.dimension()))
            faults.error(path, what + ": possible " + (least ? "from " : "to ") + to_text(*possible) + " is of nothing that it reads",
                         "a bound of what the limit measures", "correct the unit, or name another kind");
        for (const Bound* limit : sides) {
            if (!limit || limit->first.dimension() != possible->first.dimension()) continue;
            if (least ? limit->first.value >= possible->first.value : limit->first.value <= possible->first.value) continue;
            faults.error(path, what + ": its limit " + to_text(*limit) + " lies beyond what is possible, " + to_text(*possible),
                         "bounds of the possible outside the limit", "correct one of the two");
        }
    }
}

}  // namespace

void check_readings(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.possible.size(); ++i) {
        const Possible& kind = plan.possible[i];
        const std::string what = "[[possible]] " + quoted(kind.id), path = path_at("possible", i);
        if (!kind.least && !kind.most)
            faults.error(path, what + " has no bounds", "least = \"40C\", most = \"101C\" or both", "write what a reading can be");
        check_bounds(faults, path + "/most", what, kind.least, kind.most);
    }
    for (std::size_t i = 0; i < plan.points.size(); ++i) {
        check_instruments_of(plan, plan.points[i], path_at("point", i), faults);
        check_possible(plan, plan.points[i], path_at("point", i), faults);
    }
}

}  // namespace peelbook::plan
