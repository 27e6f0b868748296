#pragma once
// When a product that cools will be read at a target, as a range of times that is right nine times of ten.
//
//   fall of temperature    dT/dt = -k (T - room)^p
//   so straight in time    u = ((T - room)^(1 - p) - 1) / (1 - p), weighted by (T - room)^(2p)
//
// p = 1 is Newton's law. Free convection has 1.25 (Dulong and Petit), steam from a hot surface makes it steeper, a core that lags
// behind the crust flatter; the air round a product is not quite the room's. Readings of one cooling cannot tell these apart, so the
// line is fitted for each power and several rooms, each is believed as far as the readings bear it out, and the range covers them all.
// The scatter of readings by hand is taken as 0.7 C beforehand, which counts as much as four readings would.
//
// It predicts and never judges. Degrees C and minutes. Sources: Newton; Dulong and Petit 1817; weighted least squares and Student's t
// (all from memory). That it covers nine of ten is tested on curves it does not know: two terms of conduction, and a measured one.
#include <optional>
#include <vector>

#include "calc/lethality.h"

namespace peelbook::calc {

struct Rooms {
    double coldest = 0, warmest = 0;
};

struct Forecast {
    double room = 0;  // as the readings bear out
    // On the clock of the readings: of ten such times one in twenty comes before `earliest`, one half before `expected`, one in twenty
    // after `latest`. Absent: not within a week.
    std::optional<double> earliest, expected, latest;
};

// From three readings on, in order of time, that fall; absent with fewer, or when they fall in none of these rooms.
std::optional<Forecast> forecast_cooling(const std::vector<CoreReading>& readings, double target, Rooms rooms);

}  // namespace peelbook::calc
