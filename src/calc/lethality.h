#pragma once
// Heat treatment: accumulated lethality from a core temperature series (Bigelow's model).
//   rate L = 10^((T - Tref) / z)         minutes at Tref that a minute at T is worth
//   F      = integral of L over time      equivalent minutes at Tref
//   log reduction = F / Dref
// Two sums are made. The trapezoid is the usual one and is shown, but L is convex in T, so it overstates. The
// verdict takes the lower end of each interval's rate: between readings the temperature is assumed to stay
// between the two.
// The higher end of each interval gives the other bound: a heat treatment that even it leaves short was short for
// certain, one that only the lower end leaves short is not proven.
// In an interval longer than `longest_gap` the food may have cooled and been warmed again, or been hotter, and nobody would have
// seen it: it counts nothing, and the other bound is gone.
// Studied range: below it a rate counts 0 in the verdict's sum, above it the rate at its top counts; both are
// flagged.
// At bread core temperatures the number explodes: give a cap (the log reduction that was validated) and print
// "at least N log" when it is reached.
// Units: one temperature unit throughout (degrees C, or degrees F with z in F); minutes.
// Sources: Bigelow 1921 and the General Method (from memory); D and z must come from a study of the same kind
// of food, which is the caller's to check. FSIS Appendix A rows and published D-values are in
// tests/calc/reference.txt.
#include <optional>
#include <vector>

#include "base/result.h"

namespace peelbook::calc {

struct HeatResistance {
    double t_ref = 0;
    double z = 0;                                    // above 0
    double d_ref_min = 0;                            // minutes at t_ref for one log, above 0
    std::optional<double> studied_from, studied_to;  // temperatures of the study; absent: no clamp
    std::optional<double> cap_log;                   // absent: no cap
    std::optional<double> longest_gap_min{};         // absent: no gap is too long
};

struct CoreReading {
    double minute = 0;
    double temperature = 0;
};

struct Lethality {
    double f_trapezoid_min = 0;  // for show: no clamp, no cap; without the gaps too long
    double f_lower_min = 0;      // for the verdict
    double f_upper_min = 0;      // the higher end of each interval, no clamp: more the readings do not allow
    double log_trapezoid = 0;
    double log_lower = 0;        // not capped
    double log_upper = 0;        // infinite with a gap too long
    double log_reduction = 0;    // log_lower, at most the cap: the number to compare with the log wanted
    bool capped = false;         // print "at least `log_reduction` log"
    bool below_studied = false;  // a reading lies under / over the studied range
    bool above_studied = false;
    int gaps = 0;         // intervals longer than longest_gap
    double gaps_min = 0;  // ... how long together
};

double lethal_rate(double temperature, double t_ref, double z);

// Refuses: z or D not above 0, a cap not above 0, a studied range upside down, fewer than two readings, times
// not in ascending order, a number that is not finite.
Result<Lethality> lethality(const HeatResistance& food, const std::vector<CoreReading>& readings);

}  // namespace peelbook::calc
