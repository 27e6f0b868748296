#include "calc/loss.h"

#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

Check check_mass(double mass) {
    if (mass > 0 && mass < 1e15) return {};
    return Refusal{"a mass of " + number_text(mass), "a mass above 0", "weigh it", {}};
}

Check check_loss(double percent) {
    if (percent >= 0 && percent < 100) return {};
    return Refusal{
        "a loss of " + number_text(percent) + " %", "0 % or more and less than 100 %", "give the loss in percent of the dough", {}};
}

}  // namespace

Result<double> loss_percent(double before, double after) {
    if (auto checked = check_mass(before); !checked) return checked.refusal();
    if (auto checked = check_mass(after); !checked) return checked.refusal();
    if (after > before) {
        return Refusal{"a mass of " + number_text(after) + " after and " + number_text(before) + " before",
                       "no more after than before",
                       "check both weighings and the tare",
                       {}};
    }
    return (before - after) / before * 100;
}

Result<double> dough_for_baked(double baked, double loss) {
    if (auto checked = check_mass(baked); !checked) return checked.refusal();
    if (auto checked = check_loss(loss); !checked) return checked.refusal();
    return baked / (1 - loss / 100);
}

Result<double> baked_from_dough(double dough, double loss) {
    if (auto checked = check_mass(dough); !checked) return checked.refusal();
    if (auto checked = check_loss(loss); !checked) return checked.refusal();
    return dough * (1 - loss / 100);
}

}  // namespace peelbook::calc
