#pragma once
// A check of an instrument against a reference, or in a bath that nature keeps: melting ice, boiling water (calc/thermometer.h).
#include <optional>
#include <string>

#include "plan/plan.h"
#include "record/payload.h"

namespace peelbook::fold {

struct Bath {
    std::optional<double> pascal;      // station pressure, for boiling water
    std::optional<double> altitude_m;  // height above the sea, when no pressure is known
};

// The calibration with its result and, in the note, the working; in a bath with its reference too:
//   method "ice"      reference 0 C (32 F)
//   method "boiling"  reference: the boiling point at the pressure or the height, to 0.01 degrees
//   result            by the instrument's tolerance in the plan; in a bath without one, that of the Food Code for a food thermometer
// `said`: what the person says of it, if they do: taken where there are no figures, and where it is worse than they are.
// Refused: no reading of a bath; boiling without pressure or height, or with both; a bath's pressure or height for another method;
// a reference stated otherwise than nature keeps it; passed said against the tolerance; neither figures nor a word.
Result<record::Calibrated> checked_in_bath(const plan::Plan& plan, record::Calibrated calibrated, const Bath& bath,
                                           std::optional<bool> said);

}  // namespace peelbook::fold
