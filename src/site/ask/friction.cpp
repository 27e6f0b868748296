#include "site/ask/friction.h"

#include <algorithm>

#include "base/text.h"
#include "base/units.h"
#include "calc/dough_water.h"
#include "calc/summary.h"
#include "fold/weigh_sheet.h"
#include "site/impl.h"

namespace peelbook::site {
namespace {

struct Seen {
    double celsius = 0;
    Instant at;
};

double celsius_of(const book::Reading& r) { return in_unit(r.value, Unit::celsius); }

// The last effective reading of a point on a batch.
std::optional<Seen> of_batch(const std::vector<book::Reading>& readings, const std::string& point) {
    std::optional<Seen> last;
    for (const auto& r : readings) {
        if (r.point == point && !r.voided_by) last = Seen{celsius_of(r), Instant{r.happened}};
    }
    return last;
}

// The same of a point that may be read on a place instead: the last there before `at`.
std::optional<Seen> of_batch_or_place(fold::Ledger& ledger, const plan::Plan& plan, const std::vector<book::Reading>& readings,
                                      const std::string& id, Instant at) {
    const auto* point = plan.point(id);
    if (!point || point->place.empty()) return of_batch(readings, id);
    const auto last = ledger.rows().reading_before(point->place, id, at.ms, 0);
    if (!last || at - Instant{last->happened} > oldest_temperature) return {};
    return Seen{celsius_of(*last), Instant{last->happened}};
}

std::vector<std::string> other_points(const plan::DoughAim& aim) {
    std::vector<std::string> points = {aim.flour, aim.room};
    if (!aim.preferment.empty()) points.push_back(aim.preferment);
    return points;
}

std::optional<record::Started> started_of(fold::Ledger& ledger, book::LotId lot) {
    const auto e = ledger.effective(lot);
    const auto* started = std::get_if<record::Started>(&e.says);
    return started && !e.voided_by ? std::optional(*started) : std::nullopt;
}

bool alike(const plan::Product& product, const record::Started& started, std::int64_t dough_mg) {
    if (dough_mg == 0) return true;
    const auto sheet = fold::weigh_sheet(product, started);
    if (!sheet) return false;
    const std::int64_t apart = sheet->dough_mg > dough_mg ? sheet->dough_mg - dough_mg : dough_mg - sheet->dough_mg;
    return apart * 100 <= dough_mg * alike_percent;
}

std::optional<Friction::Batch> learned_from(fold::Ledger& ledger, const plan::Plan& plan, const plan::DoughAim& aim, const book::Lot& lot) {
    const auto readings = ledger.rows().readings(lot.id);
    const auto dough = of_batch(readings, aim.dough);
    const auto water = of_batch(readings, aim.water);
    if (!dough || !water) return {};
    std::vector<double> all = {water->celsius};
    for (const auto& point : other_points(aim)) {
        const auto seen = of_batch_or_place(ledger, plan, readings, point, dough->at);
        if (!seen) return {};
        all.push_back(seen->celsius);
    }
    double sum = 0;
    for (const double one : all) sum += one;
    return Friction::Batch{lot.code, Instant{lot.happened}, dough->celsius, sum, calc::friction_factor(dough->celsius, all)};
}

// "19.8C read 01:20 (tin-flour)": the last one on a place, or on the batches before.
struct Temperature {
    double celsius = 0;
    std::string text;
};
std::optional<Temperature> last_temperature(fold::Ledger& ledger, const plan::Plan& plan, const std::vector<book::Lot>& batches,
                                            const std::string& id, Instant at) {
    const auto* point = plan.point(id);
    std::optional<Seen> seen;
    if (point && !point->place.empty()) seen = of_batch_or_place(ledger, plan, {}, id, at);
    for (auto lot = batches.rbegin(); !seen && lot != batches.rend(); ++lot) {
        if (at - Instant{lot->happened} > oldest_temperature) break;
        seen = of_batch(ledger.rows().readings(lot->id), id);
    }
    if (!seen) return {};
    return Temperature{seen->celsius, to_text(to_canonical(seen->celsius, Unit::celsius), Unit::celsius, 1) + " read " +
                                          clock_text(ledger.zone(), seen->at) + " (" + id + ")"};
}

std::vector<book::Lot> batches_before(fold::Ledger& ledger, const std::string& product, Instant before) {
    std::vector<book::Lot> out;
    for (auto& lot : ledger.rows().lots_started(before.ms - learned_back.ms, before.ms)) {
        if (lot.item == product) out.push_back(std::move(lot));
    }
    return out;
}

std::string celsius_text(double c) { return to_text(to_canonical(c, Unit::celsius), Unit::celsius, 1); }

}  // namespace

Friction friction_before(fold::Ledger& ledger, const plan::Plan& plan, const plan::Product& product, const std::string& line,
                         std::int64_t dough_mg, Instant before) {
    Friction out;
    out.product = product.id;
    out.line = line.empty() ? product.line : line;
    out.dough_mg = dough_mg;
    const plan::DoughAim& aim = *product.dough;
    out.factors = aim.preferment.empty() ? 3 : 4;
    auto batches = batches_before(ledger, product.id, before);
    std::vector<double> values;
    for (auto lot = batches.rbegin(); lot != batches.rend() && out.batches.size() < most_batches_learned_from; ++lot) {
        const auto started = started_of(ledger, lot->id);
        if (!started || (started->line.empty() ? product.line : started->line) != out.line) continue;
        if (!alike(product, *started, dough_mg)) continue;
        if (auto learned = learned_from(ledger, plan, aim, *lot)) {
            values.push_back(learned->friction_c);
            out.batches.push_back(std::move(*learned));
        }
    }
    const auto summary = calc::summarise(values);
    out.mean_c = summary.mean;
    out.sd_c = summary.sd;
    return out;
}

std::optional<WaterAdvice> water_advice(fold::Ledger& ledger, const record::Started& started, Instant at) {
    const auto governing = ledger.plan_at(at);
    const auto* product = governing.plan->product(started.product);
    if (!product || !product->dough) return {};
    const plan::DoughAim& aim = *product->dough;
    WaterAdvice advice;
    advice.wanted = aim.wanted;
    const auto sheet = fold::weigh_sheet(*product, started);
    const auto friction = friction_before(ledger, *governing.plan, *product, started.line, sheet ? sheet->dough_mg : 0, at);
    const std::string wanted = to_text(aim.wanted);
    if (friction.batches.size() < least_batches_to_learn) {
        advice.text = "water for a dough of " + wanted + ": not reckoned, " + std::to_string(friction.batches.size()) + " of " +
                      std::to_string(least_batches_to_learn) + " batches of this size have every temperature read (" +
                      joined({aim.dough, aim.flour, aim.room, aim.water}, ", ") + ")";
        return advice;
    }
    const auto batches = batches_before(ledger, product->id, at);
    std::vector<double> others;
    std::vector<std::string> texts;
    for (const auto& point : other_points(aim)) {
        const auto temperature = last_temperature(ledger, *governing.plan, batches, point, at);
        if (!temperature) {
            advice.text =
                "water for a dough of " + wanted + ": not reckoned, no " + point + " in the last " + to_text(oldest_temperature) + " h";
            return advice;
        }
        others.push_back(temperature->celsius);
        texts.push_back(temperature->text);
    }
    const double water = calc::factor_water(in_unit(aim.wanted.value, Unit::celsius), others, friction.mean_c);
    const double sd = friction.sd_c.value_or(0);
    advice.water_c = water;
    advice.from_c = water - sd;
    advice.until_c = water + sd;
    advice.text = "water " + celsius_text(water) + " (" + celsius_text(water - sd) + " to " + celsius_text(water + sd) +
                  ") for a dough of " + wanted + " = " + std::to_string(friction.factors) + " x " + wanted + " - (" + joined(texts, " + ") +
                  ") - friction " + celsius_text(friction.mean_c) + " of " + std::to_string(friction.batches.size()) + " batches";
    if (water < 0) advice.text += "; colder than ice water: see peelbook calc water --balance";
    return advice;
}

Result<Friction> Site::learned_friction(const std::string& product_id, const std::string& line, std::int64_t dough_mg) const {
    const auto plan = plan_in_force();
    if (!plan) return plan.refusal();
    const auto* product = plan->product(product_id);
    std::vector<std::string> known;
    for (const auto& p : plan->products) {
        if (p.dough) known.push_back(p.id);
    }
    if (!product || !product->dough) {
        return Refusal{"product '" + shown(product_id) + "'",
                       product ? "a product whose plan says dough = { wanted = ..., read = ... }" : "a product of the plan",
                       known.empty() ? "write dough into the product's plan: which points read its temperatures"
                                     : "known with it: " + joined(known, ", "),
                       nearest(product_id, known)};
    }
    return friction_before(impl_->ledger, *plan, *product, line, dough_mg, impl_->clock.now());
}

}  // namespace peelbook::site
