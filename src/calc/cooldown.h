#pragma once
// Newton's law of cooling fitted to the readings so far: T = room + (start - room) e^(-k t). It predicts when
// a target is reached, so that someone can act in time. It never judges: the verdict is calc/cooling.h's,
// from readings alone.
// Fit: least squares of the temperature (calc/curve_fit.h) over start and k, and over the room too when it is
// not given.
// Prediction interval: the times at which the curve's prediction limits (delta method, Student t) reach the
// target. Absent without degrees of freedom: 3 readings with a known room, 4 with a fitted one are the least
// that give an interval.
// Valid for a product much smaller than the room and a room that stays the same; a loaf's core lags at first,
// so start from readings taken after the core has begun to fall. Units: any one temperature unit, minutes.
#include <optional>
#include <vector>

#include "base/result.h"
#include "calc/curve_fit.h"
#include "calc/lethality.h"

namespace peelbook::calc {

struct Cooldown {
    double room = 0;
    double rate_per_min = 0;  // k
    double first_minute = 0;  // of the readings; `start` is the fitted temperature then
    double start = 0;
    bool room_fitted = false;
    CurveFit fit;  // parameters: start, k, and the room when it is fitted

    double at(double minute) const;
};

struct Arrival {
    double minute = 0;  // best estimate, on the clock of the readings
    // Prediction interval; absent: no degrees of freedom, or never for certain.
    std::optional<double> earliest, latest;
};

// `room`: absent to fit it. Refuses: fewer than 2 readings (3 without the room), times not ascending,
// readings that do not fall, a room not below the readings.
Result<Cooldown> fit_cooldown(const std::vector<CoreReading>& readings, std::optional<double> room);

// Refuses a target that is not above the room (it would never be reached) or not below the start.
Result<Arrival> predict_arrival(const Cooldown& cooldown, double target, double confidence = 0.95);

}  // namespace peelbook::calc
