#include "calc/loss.h"

#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

Check check_mass(double mass) {
    if (mass > 0 && mass < 1e15) return std::nullopt;
    return Refusal{"a mass of " + number_text(mass), "a mass above 0", "weigh it", {}};
}

Check check_loss(double percent) {
    if (percent >= 0 && percent < 100) return std::nullopt;
    return Refusal{"a loss of " + number_text(percent) + " %",
                   "0 % or more and less than 100 %",
                   "give the loss in percent of the dough",
                   {}};
}

}  // namespace

Result<double> loss_percent(double before, double after) {
    if (auto refusal = check_mass(before)) return *refusal;
    if (auto refusal = check_mass(after)) return *refusal;
    if (after > before) {
        return Refusal{"a mass of " + number_text(after) + " after and " + number_text(before) + " before",
                       "no more after than before",
                       "check both weighings and the tare",
                       {}};
    }
    return (before - after) / before * 100;
}

Result<double> dough_for_baked(double baked, double loss) {
    if (auto refusal = check_mass(baked)) return *refusal;
    if (auto refusal = check_loss(loss)) return *refusal;
    return baked / (1 - loss / 100);
}

Result<double> baked_from_dough(double dough, double loss) {
    if (auto refusal = check_mass(dough)) return *refusal;
    if (auto refusal = check_loss(loss)) return *refusal;
    return dough * (1 - loss / 100);
}

}  // namespace peelbook::calc
