#pragma once
// Checking a thermometer against the two points that nature gives: melting ice (0 C) and boiling water.
//
// Boiling point: saturation of water and steam, IAPWS-IF97 region 4 (IAPWS R7-97(2012), equation 31),
// valid from 611.213 Pa to 22.064 MPa (273.15 to 647.096 K); check values of its table 36 are in
// tests/calc/reference.txt.
// Pressure from altitude: U.S. Standard Atmosphere 1976, troposphere, p = 101325 (1 - 0.0065 H /
// 288.15)^5.25588 Pa, for a geopotential altitude H of -1000 to 11000 m (below 3000 m it differs from the
// map's altitude by less than 0.01 C here).
// Weather moves the pressure by 20 hPa, which is 0.55 C: use station pressure (not reduced to sea level) when
// it is known.
#include <cstdint>

#include "base/result.h"

namespace peelbook::calc {

Result<double> saturation_kelvin(double pascal);  // refused outside the range
Result<double> boiling_celsius(double station_pascal);
Result<double> standard_pressure(double altitude_m);  // pascal; refused outside the range

// A check of a probe in a bath of known temperature. Integers in the unit the tolerance is stated in, so that
// 1.0 C is exactly within 1 C. FDA Food Code 2022, 4-203.11: +-1 C (Celsius or dual scale), +-2 F (Fahrenheit
// only), inclusive.
inline constexpr std::int64_t food_code_tolerance_milli_c = 1'000;
inline constexpr std::int64_t food_code_tolerance_milli_f = 2'000;

struct ProbeCheck {
    std::int64_t offset = 0;  // reading minus bath: what the probe shows too much
    bool within = false;
};
ProbeCheck check_probe(std::int64_t reading, std::int64_t bath, std::int64_t tolerance);

}  // namespace peelbook::calc
