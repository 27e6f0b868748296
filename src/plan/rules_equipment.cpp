// Equipment, cleanings and reference doses against the rest of the plan.
#include <algorithm>

#include "base/text.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

void check_piece(const Plan& plan, std::size_t i, Faults& faults) {
    const Equipment& piece = plan.equipment[i];
    const std::string path = path_at("equipment", i), what = "equipment " + quoted(piece.id);
    for (std::size_t j = 0; j < plan.places.size(); ++j)
        if (plan.places[j].id == piece.id && faults.written(path_at("place", j) + "/id"))
            faults.error(path + "/id", what + " is also a place", "an id of its own: a piece is read as a place by itself",
                         "take the [[place]] out, or rename one of the two");
    check_all_known(faults, path + "/lines", what + " lines", "place", piece.lines, ids_of(plan.places));
    check_all_known(faults, path + "/products", what + " products", "product", piece.products, ids_of(plan.products));
    if (piece.step.empty() || piece.step == "pack") return;
    const bool known = std::any_of(plan.products.begin(), plan.products.end(),
                                   [&](const Product& p) { return among(piece.lines, p.line) && among(p.steps, piece.step); });
    if (!known) {
        std::vector<std::string> steps;
        for (const Product& p : plan.products)
            for (const std::string& step : p.steps)
                if (among(piece.lines, p.line) && !among(steps, step)) steps.push_back(step);
        faults.error(path + "/step", what + " step: no product of its lines has a step " + quoted(piece.step), "a step of what runs there",
                     remedy_with(nearest(piece.step, steps), "correct it, or take it out"));
    }
}

void check_cleaning(const Plan& plan, std::size_t i, Faults& faults) {
    const Cleaning& cleaning = plan.cleanings[i];
    const std::string path = path_at("cleaning", i), what = "cleaning " + quoted(cleaning.id);
    check_all_known(faults, path + "/equipment", what + " equipment", "equipment", cleaning.equipment, ids_of(plan.equipment));
    check_all_known(faults, path + "/verify", what + " verify", "point", cleaning.verify, ids_of(plan.points));
    if (cleaning.verify.empty()) return;
    for (const std::string& id : cleaning.equipment) {
        if (!plan.piece(id)) continue;
        const bool verified = std::any_of(cleaning.verify.begin(), cleaning.verify.end(), [&](const std::string& point) {
            const Point* known = plan.point(point);
            return known && known->place == id;
        });
        if (!verified)
            faults.error(path + "/verify", what + " is verified on " + quoted(id) + " by none of its points",
                         "a point with place = " + quoted(id), "add one: residue stays until a verified cleaning");
    }
}

// Once the plan names equipment, what it packs runs over some: a product on no line would leave no residue
// and meet none.
void check_lines(const Plan& plan, Faults& faults) {
    if (plan.equipment.empty()) return;
    for (std::size_t i = 0; i < plan.products.size(); ++i) {
        const Product& product = plan.products[i];
        if (product.line.empty() && !product.label.empty())
            faults.error(path_at("product", i), "product " + quoted(product.id) + " is on no line",
                         "line = \"...\", so that its changeovers are judged", "write the place it runs on");
    }
}

}  // namespace

void check_equipment(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.equipment.size(); ++i) check_piece(plan, i, faults);
    for (std::size_t i = 0; i < plan.cleanings.size(); ++i) check_cleaning(plan, i, faults);
    for (std::size_t i = 0; i < plan.reference_doses.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (plan.reference_doses[i].allergen == plan.reference_doses[j].allergen)
                faults.error(path_at("reference_dose", i) + "/allergen",
                             "a second reference dose of " + quoted(plan.reference_doses[i].allergen), "one an allergen",
                             "take one of the two out");
    check_lines(plan, faults);
}

}  // namespace peelbook::plan
