#include "site/ask/allergen_reasons.h"

#include <algorithm>

#include "base/text.h"
#include "calc/allergen_dose.h"
#include "site/ask/trace_answer.h"

namespace peelbook::site {
namespace {

constexpr double mg_per_kg = 1'000'000.0, milli_percent_whole = 100'000.0;

using Level = book::AllergenLevel;
std::optional<book::Int> mass_of(const book::Lot& lot) { return lot.made_mg ? lot.made_mg : lot.input_mg; }

std::optional<std::int64_t> protein_of(const plan::Material* material, const std::string& allergen) {
    if (!material) return {};
    for (const auto& one : material->protein) {
        if (one.allergen == allergen) return one.milli_percent;
    }
    return {};
}

}  // namespace

LotBehind::LotBehind(fold::Ledger& ledger, const book::Lot& lot) : ledger_(ledger), lot_(lot), behind_(ledger.rows().back({lot.id})) {
    for (const auto& one : behind_.lots) {
        by_id_[one.id] = &one;
        trace::Lot node = traced(one, one.item);
        const auto* material = ledger.plan_version(one.plan_seq).plan->material(one.item);
        node.packaging = material && material->packaging;
        graph_.lots.push_back(std::move(node));
    }
    for (const auto& use : behind_.uses) graph_.uses.push_back(traced(use));
}

bool LotBehind::brings(const book::Lot& lot, const std::string& allergen, Level level) {
    if (lot.kind != LotKind::received) return false;
    const auto made = ledger_.effective(lot.id);
    const auto* received = std::get_if<record::Received>(&made.says);
    if (!received) return false;
    if (level == Level::not_stated) return !received->allergens.stated;
    const auto governing = ledger_.plan_version(lot.plan_seq);
    const auto* material = governing.plan->material(lot.item);
    const bool stated = received->allergens.stated;
    if (!stated && !material) return false;
    const auto& contains = stated ? received->allergens.contains : material->allergens;
    const auto& may_contain = stated ? received->allergens.may_contain : material->may_contain;
    return among(contains, allergen) || (level == Level::may_contain && among(may_contain, allergen));
}

std::vector<const book::Lot*> LotBehind::bringing(const std::string& allergen, Level level) {
    std::vector<const book::Lot*> out;
    for (const auto& lot : behind_.lots) {
        if (brings(lot, allergen, level)) out.push_back(&lot);
    }
    return out;
}

std::string LotBehind::way_from(book::LotId from) {
    std::vector<std::string> codes;
    for (const auto id : trace::path(graph_, from, lot_.id))
        codes.push_back(by_id_.contains(id) ? by_id_.at(id)->code : "entry " + std::to_string(id));
    return joined(codes, " > ");
}

std::optional<double> LotBehind::protein_mg_per_kg(const std::string& allergen) {
    const auto made = mass_of(lot_);
    if (!made || *made <= 0) return {};
    double protein_mg = 0;
    for (const auto* source : bringing(allergen, Level::contains)) {
        const auto governing = ledger_.plan_version(source->plan_seq);
        const auto percent = protein_of(governing.plan->material(source->item), allergen);
        if (!percent) return {};
        for (const auto& reached : trace::forward(graph_, {source->id})) {
            if (reached.lot != lot_.id) continue;
            if (!reached.suspect_mg) return {};
            protein_mg += static_cast<double>(*reached.suspect_mg) * static_cast<double>(*percent) / milli_percent_whole;
        }
    }
    return protein_mg / static_cast<double>(*made) * mg_per_kg;
}

// The first residue met on the way, and the most protein that it can bring: the residue of the piece, all of
// the product before.
void LotBehind::tell_residue(AllergenReason& out) {
    for (const auto& lot : behind_.lots) {
        for (const auto& met : ledger_.rows().carry_over(lot.id)) {
            if (met.allergen != out.allergen) continue;
            const auto from = ledger_.rows().lot(met.from_lot);
            out.source = from ? from->code : "";
            out.reason = "residue of " + out.source + " on " + met.equipment + " since " + to_text(ledger_.zone(), {met.since}) +
                         (lot.id == lot_.id ? "" : ", in " + way_from(lot.id));
            const auto governing = ledger_.plan_version(lot.plan_seq);
            const auto* piece = governing.plan->piece(met.equipment);
            const auto mass = mass_of(lot);
            if (!from || !piece || !piece->residue || !mass || *mass <= 0) return;
            if (const auto before = LotBehind(ledger_, *from).protein_mg_per_kg(out.allergen)) {
                out.protein_mg_per_kg = *before * static_cast<double>(piece->residue->value) / static_cast<double>(*mass);
            }
            return;
        }
    }
}

AllergenReason LotBehind::reason(const book::LotAllergen& row) {
    AllergenReason out{row.allergen, row.level, lot_.code, "", "", {}, {}, ""};
    if (row.level == Level::carry_over) {
        tell_residue(out);
        const auto governing = ledger_.plan_version(lot_.plan_seq);
        const auto* product = governing.plan->product(lot_.item);
        for (const auto& dose : governing.plan->reference_doses) {
            if (dose.allergen != row.allergen || !product || !product->portion) continue;
            const auto level = calc::action_level(in_unit(dose.dose.value, Unit::mg), in_unit(product->portion->value, Unit::g));
            if (level) out.action_level_mg_per_kg = *level;
            out.dose_source = dose.source;
        }
        return out;
    }
    const auto sources = bringing(row.allergen, row.level);
    if (sources.empty()) return out;
    out.source = sources.front()->code;
    out.reason = way_from(sources.front()->id);
    if (sources.size() > 1) out.reason += ", and " + std::to_string(sources.size() - 1) + " more lots that bring it";
    if (row.level == Level::contains) out.protein_mg_per_kg = protein_mg_per_kg(row.allergen);
    return out;
}

std::vector<AllergenReason> LotBehind::reasons() {
    std::vector<AllergenReason> out;
    for (const auto& row : ledger_.rows().allergens(lot_.id)) out.push_back(reason(row));
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.level > b.level; });
    return out;
}

}  // namespace peelbook::site
