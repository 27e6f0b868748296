#include "calc/thermometer.h"

#include <cmath>

#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

// IAPWS-IF97 table 34, coefficients n1 to n10 of the saturation equation.
constexpr double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2, n4 = 0.12020824702470e5,
                 n5 = -0.32325550322333e7, n6 = 0.14915108613530e2, n7 = -0.48232657361591e4, n8 = 0.40511340542057e6,
                 n9 = -0.23855557567849, n10 = 0.65017534844798e3;

constexpr double lowest_pascal = 611.213, highest_pascal = 22.064e6;
constexpr double pascal_per_megapascal = 1e6;
constexpr double zero_celsius = 273.15;

}  // namespace

Result<double> saturation_kelvin(double pascal) {
    if (!(pascal >= lowest_pascal && pascal <= highest_pascal)) {
        return Refusal{"a pressure of " + number_text(pascal) + " Pa",
                       "611.213 Pa to 22.064 MPa",
                       "give the station pressure, about 600 to 1080 hPa on land",
                       {}};
    }
    const double beta = std::pow(pascal / pascal_per_megapascal, 0.25);
    const double e = beta * beta + n3 * beta + n6;
    const double f = n1 * beta * beta + n4 * beta + n7;
    const double g = n2 * beta * beta + n5 * beta + n8;
    const double d = 2 * g / (-f - std::sqrt(f * f - 4 * e * g));
    return (n10 + d - std::sqrt((n10 + d) * (n10 + d) - 4 * (n9 + n10 * d))) / 2;
}

Result<double> boiling_celsius(double station_pascal) {
    const auto kelvin = saturation_kelvin(station_pascal);
    if (!kelvin) return kelvin.refusal();
    return *kelvin - zero_celsius;
}

Result<double> standard_pressure(double altitude_m) {
    if (!(altitude_m >= -1000 && altitude_m <= 11000)) {
        return Refusal{
            "an altitude of " + number_text(altitude_m) + " m", "-1000 to 11000 m", "give the altitude of the bakery above sea level", {}};
    }
    constexpr double sea_level_pascal = 101325, sea_level_kelvin = 288.15, lapse_k_per_m = 0.0065;
    constexpr double exponent = 9.80665 * 0.0289644 / (8.31432 * lapse_k_per_m);  // 5.25588
    return sea_level_pascal * std::pow(1 - lapse_k_per_m * altitude_m / sea_level_kelvin, exponent);
}

ProbeCheck check_probe(std::int64_t reading, std::int64_t bath, std::int64_t tolerance) {
    const std::int64_t offset = reading - bath;
    return {offset, offset <= tolerance && offset >= -tolerance};
}

}  // namespace peelbook::calc
