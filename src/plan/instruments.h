#pragma once
// What a critical reading may rest on (rule 57): an instrument that is calibrated again and again, against a tolerance that cannot
// swallow the limit it decides on.
#include <optional>
#include <string>

#include "plan/plan.h"

namespace peelbook::plan {

// How far off an instrument of this point may be at its calibrations, canonical. A quarter of the width of a range with both sides
// (a reading four times as sure as what it decides: common practice of calibration, JCGM 106:2012 on the capability index, from
// memory), and never more than 2 C, 0.1 pH or 0.02 of water activity (common practice; the Food Code, 4-203.11, asks 1 C of a food
// thermometer). None: nobody bounds it.
std::optional<std::int64_t> widest_tolerance(const Point& point, Dimension read);

// Why a reading of `point` with `instrument` proves nothing, whatever its calibrations: "states no tolerance". Empty: nothing
// stands against it, or the point needs no instrument.
std::string unfit_because(const Point& point, const Instrument& instrument);

}  // namespace peelbook::plan
