#include "calc/dough_water.h"

#include <algorithm>
#include <cmath>

#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

double sum_of(const std::vector<double>& numbers) {
    double sum = 0;
    for (double n : numbers) sum += n;
    return sum;
}

Check check_question(const WaterQuestion& q) {
    if (!(q.water_kg > 0)) {
        return Refusal{number_text(q.water_kg) + " kg of water", "a mass above 0", "give the water of the formula", {}};
    }
    if (!(q.tap_c >= 0 && q.tap_c <= 100)) {
        return Refusal{"tap water of " + number_text(q.tap_c) + " C", "0 to 100 C", "measure the tap", {}};
    }
    if (q.hot_tap_c && !(*q.hot_tap_c > q.tap_c && *q.hot_tap_c <= 100)) {
        return Refusal{"a hot tap of " + number_text(*q.hot_tap_c) + " C",
                       "warmer than the tap's " + number_text(q.tap_c) + " C, up to 100 C",
                       "measure the hot tap",
                       {}};
    }
    if (!(q.most_ice_share >= 0 && q.most_ice_share <= 1)) {
        return Refusal{"an ice share of " + number_text(q.most_ice_share), "0 to 1", "give a part of the water", {}};
    }
    if (!(q.mixer_kj >= 0)) {
        return Refusal{number_text(q.mixer_kj) + " kJ from the mixer", "0 or more", "a mixer only warms", {}};
    }
    for (const HeatShare& h : q.others) {
        if (!(h.kg >= 0) || !(h.kj_per_kg_k >= 0) || !std::isfinite(h.celsius)) {
            return Refusal{"an ingredient of " + number_text(h.kg) + " kg, " + number_text(h.kj_per_kg_k) + " kJ/kgK",
                           "masses and specific heats of 0 or more",
                           "correct that ingredient",
                           {}};
        }
    }
    return {};
}

double dough_temperature(const WaterQuestion& q, const WaterAnswer& a) {
    double heat = q.mixer_kj - a.ice_kg * ice_latent_kj_per_kg;
    double capacity = q.water_kg * water_kj_per_kg_k;
    heat += water_kj_per_kg_k * (a.tap_kg * q.tap_c + a.hot_kg * q.hot_tap_c.value_or(q.tap_c));
    for (const HeatShare& h : q.others) {
        heat += h.kg * h.kj_per_kg_k * h.celsius;
        capacity += h.kg * h.kj_per_kg_k;
    }
    return heat / capacity;
}

}  // namespace

double factor_water(double wanted_dough, const std::vector<double>& others, double friction) {
    return static_cast<double>(others.size() + 1) * wanted_dough - sum_of(others) - friction;
}

double friction_factor(double measured_dough, const std::vector<double>& all) {
    return static_cast<double>(all.size()) * measured_dough - sum_of(all);
}

std::optional<double> ice_kg(double water_kg, double tap_c, double need_c, double melting) {
    if (need_c >= tap_c) return 0;
    if (need_c < -melting) return std::nullopt;
    return water_kg * (tap_c - need_c) / (tap_c + melting);
}

double specific_heat(double water_percent) { return 4.19 * water_percent / 100 + 0.84 * (100 - water_percent) / 100; }

Result<WaterAnswer> balance_water(const WaterQuestion& q) {
    if (auto checked = check_question(q); !checked) return checked.refusal();
    double need_heat = -q.mixer_kj;  // that the water must bring, above 0 C
    for (const HeatShare& h : q.others) need_heat += h.kg * h.kj_per_kg_k * (q.wanted_c - h.celsius);
    need_heat += q.water_kg * water_kj_per_kg_k * q.wanted_c;

    WaterAnswer answer;
    answer.water_c = need_heat / (q.water_kg * water_kj_per_kg_k);
    answer.reached = true;
    if (answer.water_c <= q.tap_c) {
        const auto ice = ice_kg(q.water_kg, q.tap_c, answer.water_c);
        const double most = q.most_ice_share * q.water_kg;
        answer.reached = ice && *ice <= most;
        answer.ice_kg = ice ? std::min(*ice, most) : most;
    } else {
        const double span = q.hot_tap_c.value_or(q.tap_c) - q.tap_c;
        const double share = span > 0 ? (answer.water_c - q.tap_c) / span : 2;
        answer.reached = share <= 1;
        answer.hot_kg = span > 0 ? std::min(share, 1.0) * q.water_kg : 0;
    }
    answer.tap_kg = q.water_kg - answer.ice_kg - answer.hot_kg;
    answer.dough_c = dough_temperature(q, answer);
    return answer;
}

}  // namespace peelbook::calc
