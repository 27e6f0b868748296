#include <algorithm>

#include "plan/allergens.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

bool has(const std::vector<std::string>& list, const std::string& id) {
    return std::find(list.begin(), list.end(), id) != list.end();
}

void check_declared(const Plan& plan, const Label& label, const std::string& path, Faults& faults) {
    const Product* product = plan.product(label.product);
    const std::optional<Market> market = market_from(label.market);
    if (!product || !market) return;
    const std::vector<std::string> present = allergens_of_formula(plan, *product);
    const std::string what = "label " + quoted(label.id);
    std::vector<std::string> missing;
    for (const std::string& id : present) {
        const Allergen* known = allergen(id);
        if (known && listed(*known, *market) && !has(label.declares, id)) missing.push_back(id);
    }
    if (!missing.empty())
        faults.warn(
            path + "/declares",
            what + " does not declare " + all_of(missing) + ", which the formula of " + quoted(product->id) +
                " brings",
            "every allergen that market " + quoted(label.market) + " lists",
            "correct the label, or the allergens of the material, before anything is packed under it");
    for (std::size_t i = 0; i < label.declares.size(); ++i)
        if (allergen(label.declares[i]) && !has(present, label.declares[i]))
            faults.warn(path + "/declares/" + std::to_string(i),
                        what + " declares " + label.declares[i] + ", which nothing in the formula of " +
                            quoted(product->id) + " brings",
                        "what is in it; what may be there by accident is may_contain",
                        "check the label against the formula and the specifications");
}

}  // namespace

void check_labels(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.labels.size(); ++i) {
        const std::string path = path_at("label", i);
        check_known(faults, path + "/product", "label " + quoted(plan.labels[i].id) + " product", "product",
                    plan.labels[i].product, ids_of(plan.products));
        if (faults.written(path + "/declares")) check_declared(plan, plan.labels[i], path, faults);
    }
}

}  // namespace peelbook::plan
