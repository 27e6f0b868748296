#pragma once
// Water and ice for a wanted dough temperature.
//
// Factor method (baking-school arithmetic): every ingredient is given the same weight.
//   T_water  = n x wanted dough temperature - (sum of the other temperatures) - friction
//   friction = n x measured dough temperature - (sum of all temperatures, the water's too)
//   n        = 1 + the number of other temperatures: 3 with flour and room, 4 with a preferment
// Heat balance: what really adds up.
//   T_dough = (sum over all of m c T + Q_mixer - m_ice L) / (sum over all of m c)
//   where ice counts as water of 0 C that also takes up L
// Ice in W kg of water, tap water being replaced by ice of 0 C:
//   m_ice = W (T_tap - T_need) / (T_tap + L/c)           in C
//   m_ice = W (T_tap - T_need) / (T_tap - 32 + 1.8 L/c)  in F: T_tap + 112 with the textbook L/c of 80 C
//
// Units: degrees C, kg, kJ, unless a function says "any unit". Valid: liquid water 0 to 100 C, ice at its
// melting point.
// Sources: heat balance; latent heat of ice 333.55 kJ/kg, water 4.19 kJ/(kg K) (from memory; textbooks round
// L/c to 80 C); specific heats from water content: Earle, Unit Operations in Food Processing, appendix 7.
#include <optional>
#include <vector>

#include "base/result.h"

namespace peelbook::calc {

inline constexpr double water_kj_per_kg_k = 4.19;
inline constexpr double ice_latent_kj_per_kg = 333.55;
inline constexpr double textbook_latent_over_c = 80.0;                             // degrees C that melting costs the same mass of water
inline constexpr double latent_over_c = ice_latent_kj_per_kg / water_kj_per_kg_k;  // 79.61

// Any one temperature unit. `others`: flour, room, and preferment when there is one.
double factor_water(double wanted_dough, const std::vector<double>& others, double friction);
// What the mixer adds, from a dough that was measured. `all`: every temperature used, the water's too.
double friction_factor(double measured_dough, const std::vector<double>& all);

// Ice that brings `water_kg` (ice included) from the tap's to the needed temperature. 0 when the tap is cold
// enough; absent when even ice alone is not cold enough, which is when `need` is below -`melting`.
std::optional<double> ice_kg(double water_kg, double tap_c, double need_c, double melting = latent_over_c);

// Mean specific heat above freezing from the share of water, 0 to 100 %: 4.19 p + 0.84 (1 - p). kJ/(kg K).
double specific_heat(double water_percent);

struct HeatShare {
    double kg = 0;
    double kj_per_kg_k = 0;  // flour 1.8, water 4.19, preferment by specific_heat()
    double celsius = 0;
};

struct WaterQuestion {
    double wanted_c = 0;
    std::vector<HeatShare> others;  // everything but the water and ice
    double water_kg = 0;            // water and ice together, above 0
    double mixer_kj = 0;            // heat that mixing adds, 0 or more
    double tap_c = 0;
    std::optional<double> hot_tap_c;  // hottest water at hand; absent: no warmer than the tap
    double most_ice_share = 1;        // of the water that may be ice, 0 to 1
};

struct WaterAnswer {
    double water_c = 0;  // the temperature that all the water would need to have (negative: ice must melt)
    double ice_kg = 0;
    double tap_kg = 0;
    double hot_kg = 0;     // from the hot tap
    bool reached = false;  // false: the masses above give the nearest dough temperature that can be had
    double dough_c = 0;    // that the masses above give
};

// Refuses: no water, a mass or specific heat below 0, a share outside 0 to 1, a tap outside 0 to 100 C, a hot
// tap not above it.
Result<WaterAnswer> balance_water(const WaterQuestion& question);

}  // namespace peelbook::calc
