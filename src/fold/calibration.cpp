#include "fold/calibration.h"

#include <cmath>

#include "base/units.h"
#include "calc/thermometer.h"

namespace peelbook::fold {
namespace {

constexpr std::int64_t micro_in_hundredth = 10'000;
constexpr std::int64_t nature_may_differ_micro = 100'000;  // a reference typed within 0.1 degrees is the bath's own

// Rounded to 0.01 of the unit, so that what is kept is what is shown.
Measure bath_measure(double celsius, Unit unit) {
    const double degrees = unit == Unit::fahrenheit ? celsius * 1.8 + 32 : celsius;
    const std::int64_t micro = std::llround(degrees * 100) * micro_in_hundredth;
    return Measure{static_cast<std::int64_t>(canonical_of(micro, row_of(unit))), micro, unit};
}

struct BathPoint {
    Measure reference;
    std::string working;
};

Result<BathPoint> boiling(const Bath& bath, Unit unit) {
    if (bath.pascal.has_value() == bath.altitude_m.has_value()) {
        return Refusal{bath.pascal ? "both --pressure and --altitude" : "--method boiling without a pressure or a height",
                       "one of the two; the station pressure is the better one",
                       "add --pressure 1004hPa or --altitude 300m",
                       {}};
    }
    double pascal = bath.pascal.value_or(0);
    std::string from;
    if (bath.altitude_m) {
        const auto standard = calc::standard_pressure(*bath.altitude_m);
        if (!standard) return standard.refusal();
        pascal = *standard;
        from = decimal_text(std::llround(*bath.altitude_m), 0, true) + " m above the sea, standard air there ";
    }
    const auto celsius = calc::boiling_celsius(pascal);
    if (!celsius) return celsius.refusal();
    const Measure reference = bath_measure(*celsius, unit);
    return BathPoint{
        reference, "boiling water, " + from + decimal_text(std::llround(pascal), 2, true) + "hPa: " + to_text(reference) + " (IAPWS-IF97)"};
}

// Inclusive, in millionths of the unit that was read. None: the plan states none, and no bath brings one along.
std::optional<std::int64_t> tolerance_micro(const plan::Instrument* instrument, Unit unit, bool bath) {
    if (instrument && instrument->tolerance && instrument->tolerance->dimension() == dimension_of(unit))
        return difference_in(*instrument->tolerance, unit);
    constexpr std::int64_t micro_in_milli = 1000;
    if (!bath) return std::nullopt;
    return micro_in_milli * (unit == Unit::fahrenheit ? calc::food_code_tolerance_milli_f : calc::food_code_tolerance_milli_c);
}

std::string micro_text(std::int64_t micro, Unit unit) { return decimal_text(micro, 6, true) + std::string(symbol(unit)); }

// The result that the figures show. What a person says of it is believed where it is worse: a cracked lead reads right in ice.
Result<record::Calibrated> reckoned(const plan::Plan& plan, record::Calibrated c, std::optional<bool> said, const std::string& working) {
    const bool bath = !working.empty();
    const Unit unit = c.read->unit;
    if (c.reference->unit != unit)
        return Refusal{"a reference of " + to_text(*c.reference) + " for a reading of " + to_text(*c.read),
                       "one unit for both",
                       "type both in " + std::string(symbol(unit)),
                       {}};
    const auto within = tolerance_micro(plan.instrument(c.instrument), unit, bath);
    if (!within && !said)
        return Refusal{"a calibration of " + c.instrument + " without a result",
                       "a tolerance of it in the plan, by which it is reckoned",
                       "type passed or failed; a pass shows nothing until the plan states tolerance",
                       {}};
    if (!within) {
        c.passed = *said;
        return c;
    }
    const auto check = calc::check_probe(c.read->typed_micro, c.reference->typed_micro, *within);
    const std::string offset = to_text(*c.read) + " - " + to_text(*c.reference) + " = " + micro_text(check.offset, unit) + ", tolerance " +
                               micro_text(*within, unit);
    if (said.value_or(false) && !check.within)
        return Refusal{
            c.instrument + " passed at " + offset, "failed: it is outside its tolerance", "leave the result out, and it is reckoned", {}};
    c.passed = check.within && said.value_or(true);
    if (bath || !said) c.note += (c.note.empty() ? "" : "; ") + working + (bath ? "; " : "") + offset;
    return c;
}

}  // namespace

Result<record::Calibrated> checked_in_bath(const plan::Plan& plan, record::Calibrated c, const Bath& bath, std::optional<bool> said) {
    const bool ice = c.method == "ice", boils = c.method == "boiling";
    if (!boils && (bath.pascal || bath.altitude_m)) {
        return Refusal{"a pressure or a height with --method " + c.method, "--method boiling", "leave it out, or change the method", {}};
    }
    const bool bare = (ice || boils) && !c.read && said && !bath.pascal && !bath.altitude_m;
    if ((!ice && !boils) || bare) {
        if (!bare && c.read && c.reference) return reckoned(plan, std::move(c), said, "");
        if (!said) {
            return Refusal{"a calibration without a result",
                           "its figures, or passed or failed",
                           "add --read and --reference; or type failed behind the instrument's name",
                           {}};
        }
        c.passed = *said;
        return c;
    }
    if (!c.read || c.read->dimension() != Dimension::temperature) {
        return Refusal{
            c.read ? to_text(*c.read) + " in a bath" : "no reading in the bath", "the temperature that it showed", "add --read 0.2C", {}};
    }
    const Unit unit = c.read->unit;
    Result<BathPoint> point = BathPoint{bath_measure(0, unit), "melting ice: " + to_text(bath_measure(0, unit))};
    const bool told_boiling = boils && c.reference && !bath.pascal && !bath.altitude_m;  // worked out by the person
    if (told_boiling)
        point = BathPoint{*c.reference, "boiling water: " + to_text(*c.reference) + " as stated"};
    else if (boils)
        point = boiling(bath, unit);
    if (!point) return point.refusal();
    if (c.reference && c.reference->unit == unit &&
        std::llabs(c.reference->typed_micro - point->reference.typed_micro) > nature_may_differ_micro) {
        return Refusal{"a reference of " + to_text(*c.reference), point->working, "leave --reference out: the bath gives it", {}};
    }
    if (!c.reference) c.reference = point->reference;
    return reckoned(plan, std::move(c), said, point->working);
}

}  // namespace peelbook::fold
