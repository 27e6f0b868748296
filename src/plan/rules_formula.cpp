#include <algorithm>
#include <set>

#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

constexpr std::int64_t whole_percent = 100'000'000;  // 100 % in millionths

void check_items(const Plan& plan, const Product& product, const std::string& path, Faults& faults) {
    const std::string what = "product " + quoted(product.id);
    for (std::size_t i = 0; i < product.formula.size(); ++i) {
        const std::string& item = product.formula[i].item;
        const std::string place = path + "/formula/" + std::to_string(i) + "/item";
        check_known(faults, place, what + " formula", "material or product", item, item_ids(plan));
        const Material* material = plan.material(item);
        if (material && material->packaging)
            faults.error(place, what + " formula: " + quoted(item) + " is packaging", "what goes into the product",
                         "take it out: packaging counts pieces and is used when packing");
        for (std::size_t j = 0; j < i; ++j)
            if (product.formula[j].item == item && !item.empty())
                faults.error(place, what + " formula names " + quoted(item) + " twice", "each item once", "add the two together");
    }
}

// A formula is in baker's percent of its flour, or in masses of one usual batch; never both, or a weigh sheet
// for another size could not be worked out.
void check_amounts(const Product& product, const std::string& path, Faults& faults) {
    const std::string what = "product " + quoted(product.id);
    std::int64_t flour = 0;
    bool any_flour = false, any_percent = false, any_absolute = false;
    for (const FormulaItem& item : product.formula) {
        any_percent = any_percent || item.micro_percent > 0;
        any_absolute = any_absolute || item.absolute;
        any_flour = any_flour || item.flour;
        if (item.flour) flour += item.micro_percent;
    }
    if (any_percent && any_absolute) {
        faults.error(path + "/formula", what + ": its formula mixes percentages and masses", "all items in one way",
                     "write every item as percent, or every item as absolute");
    } else if (any_percent && !any_flour) {
        faults.error(path + "/formula", what + ": its formula has percentages and no flour", "flour = true on the items that are the 100%",
                     "mark the flour, or write masses: absolute = \"20kg\"");
    } else if (any_percent && flour != whole_percent) {
        faults.error(path + "/formula", what + ": its flour adds up to " + percent_text(flour), "100%",
                     "correct the percentages of the items marked flour");
    }
    if (any_absolute && product.usual_flour)
        faults.error(path + "/usual_flour", what + ": usual_flour with a formula in masses", "usual_flour for a formula in percent only",
                     "take usual_flour out: the masses are the usual batch");
}

// The cycle through which `id` reaches itself by way of other products; empty when there is none. Uses of a
// product in itself (a leaven) and optional items (rework) close no cycle.
std::vector<std::string> cycle_of(const Plan& plan, const std::string& id) {
    std::vector<std::vector<std::string>> open = {{id}};
    std::set<std::string> seen = {id};
    while (!open.empty()) {
        const std::vector<std::string> way = open.back();
        open.pop_back();
        const Product* product = plan.product(way.back());
        if (!product) continue;
        for (const FormulaItem& item : product->formula) {
            if (item.optional || item.item == way.back()) continue;
            std::vector<std::string> longer = way;
            longer.push_back(item.item);
            if (item.item == id) return longer;
            if (seen.insert(item.item).second) open.push_back(longer);
        }
    }
    return {};
}

void check_cycles(const Plan& plan, Faults& faults) {
    std::set<std::string> told;
    for (std::size_t i = 0; i < plan.products.size(); ++i) {
        const std::vector<std::string> way = cycle_of(plan, plan.products[i].id);
        if (way.empty() || told.count(way.front())) continue;
        told.insert(way.begin(), way.end());
        std::string words = way.front();
        for (std::size_t n = 1; n < way.size(); ++n) words += (n == 1 ? " is made of " : ", that of ") + way[n];
        faults.warn(path_at("product", i) + "/formula", "product " + quoted(way.front()) + " is made of itself: " + words,
                    "a product that is made of itself only directly (a leaven) or by optional items (rework)",
                    "mark the rework optional = true, or check the items");
    }
}

void collect(const Plan& plan, const Product& product, std::set<std::string>& seen, std::set<std::string>& found) {
    if (!seen.insert(product.id).second) return;
    for (const FormulaItem& item : product.formula) {
        if (const Material* material = plan.material(item.item))
            found.insert(material->allergens.begin(), material->allergens.end());
        else if (const Product* inner = plan.product(item.item))
            collect(plan, *inner, seen, found);
    }
}

}  // namespace

std::vector<std::string> allergens_of_formula(const Plan& plan, const Product& product) {
    std::set<std::string> seen, found;
    collect(plan, product, seen, found);
    return {found.begin(), found.end()};
}

void check_formulas(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.products.size(); ++i) {
        check_items(plan, plan.products[i], path_at("product", i), faults);
        check_amounts(plan.products[i], path_at("product", i), faults);
    }
    check_cycles(plan, faults);
}

}  // namespace peelbook::plan
