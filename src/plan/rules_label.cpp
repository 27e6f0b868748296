// Labels against what the formula brings, and limits that the market of a label sets: which labels judge a point, and whether anything
// measures what a label claims.
#include <algorithm>

#include "base/text.h"
#include "plan/allergens.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

void check_declared(const Plan& plan, const Label& label, const std::string& path, Faults& faults) {
    const Product* product = plan.product(label.product);
    const std::optional<Market> market = market_from(label.market);
    if (!product || !market) return;
    const std::vector<std::string> present = allergens_of_formula(plan, *product);
    const std::string what = "label " + quoted(label.id);
    std::vector<std::string> missing;
    for (const std::string& id : present) {
        const Allergen* known = allergen(id);
        if (known && listed(*known, *market) && !among(label.declares, id)) missing.push_back(id);
    }
    if (!missing.empty())
        faults.warn(path + "/declares",
                    what + " does not declare " + all_of(missing) + ", which the formula of " + quoted(product->id) + " brings",
                    "every allergen that market " + quoted(label.market) + " lists",
                    "correct the label, or the allergens of the material, before anything is packed under it");
    for (std::size_t i = 0; i < label.declares.size(); ++i)
        if (allergen(label.declares[i]) && !among(present, label.declares[i]))
            faults.warn(path + "/declares/" + std::to_string(i),
                        what + " declares " + label.declares[i] + ", which nothing in the formula of " + quoted(product->id) + " brings",
                        "what is in it; what may be there by accident is may_contain",
                        "check the label against the formula and the specifications");
}

bool measures_of(const Point& point, std::string_view content, std::string_view product) {
    const auto* limit = std::get_if<MarketLimit>(&point.limit);
    return limit && limit->of == content && among(point.products, product);
}

void check_food_as_sold(const Point& point, const MarketLimit& limit, const std::string& path, Faults& faults) {
    if (point.materials.empty() && point.place.empty()) return;
    faults.error(path + "/limit/market",
                 "point " + quoted(point.id) + " judges " + limit.of + " by the labels of a product and is read on " +
                     (point.place.empty() ? "materials" : "a place"),
                 "products = [\"...\"]: the law's boundary is of the food as sold",
                 "read it on the products that are packed; what is bought has a limit of its own, like limit = { most = \"20mg/kg\" }");
}

// Without a label nobody knows the market; without a claim gluten has no boundary.
void check_labels_judge(const Plan& plan, const Point& point, const MarketLimit& limit, const std::string& path, Faults& faults) {
    for (std::size_t i = 0; i < point.products.size(); ++i) {
        const std::string& product = point.products[i];
        if (!plan.product(product)) continue;  // told already
        const std::string what = "point " + quoted(point.id) + " judges " + limit.of + ", and no label of product " + quoted(product);
        const auto of_product = [&](const MarketLimit::OfLabel& label) { return label.product == product; };
        const auto claims = [&](const MarketLimit::OfLabel& label) { return of_product(label) && !label.claim.empty(); };
        if (std::none_of(limit.labels.begin(), limit.labels.end(), of_product))
            faults.error(path + "/products/" + std::to_string(i), what + " is in the plan",
                         "a [[label]] with product = \"" + product + "\": its market sets the boundary",
                         "write the label it is packed under, or take the product out");
        else if (limit.of == "gluten" && std::none_of(limit.labels.begin(), limit.labels.end(), claims))
            faults.error(path + "/products/" + std::to_string(i), what + " claims anything of gluten",
                         "claim = \"gluten-free\" or \"very-low-gluten\" on one of them: only a claim has a boundary",
                         "write the claim as it is printed, or take the product out");
    }
}

void check_claim(const Plan& plan, const Label& label, const std::string& path, Faults& faults) {
    const Product* product = plan.product(label.product);
    if (label.claim.empty() || !product) return;
    const std::string what = "label " + quoted(label.id) + " claims " + label.claim;
    std::vector<std::string> cereals;
    for (const std::string& id : allergens_of_formula(plan, *product)) {
        const Allergen* known = allergen(id);
        if (known && known->group == "gluten-cereals") cereals.push_back(id);
    }
    if (label.claim == "gluten-free" && !cereals.empty())
        faults.warn(path + "/claim", what + ", and the formula of " + quoted(product->id) + " brings " + all_of(cereals),
                    "none that is not specially processed, and oats only where they are kept pure (Regulation (EU) No 828/2014)",
                    "correct the claim, or the allergens of the material");
    const bool measured =
        std::any_of(plan.points.begin(), plan.points.end(), [&](const Point& point) { return measures_of(point, "gluten", product->id); });
    if (!measured)
        faults.warn(path + "/claim", what + ", and no control point measures gluten of " + quoted(product->id),
                    "a point with limit = { market = { of = \"gluten\" } }", "write one, or the claim rests on nothing in the book");
}

}  // namespace

void check_labels(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.labels.size(); ++i) {
        const std::string path = path_at("label", i);
        check_known(faults, path + "/product", "label " + quoted(plan.labels[i].id) + " product", "product", plan.labels[i].product,
                    ids_of(plan.products));
        if (faults.written(path + "/declares")) check_declared(plan, plan.labels[i], path, faults);
    }
}

void check_market_limits(const Plan& plan, Faults& faults) {
    for (std::size_t i = 0; i < plan.points.size(); ++i) {
        const Point& point = plan.points[i];
        const auto* limit = std::get_if<MarketLimit>(&point.limit);
        if (!limit) continue;
        check_food_as_sold(point, *limit, path_at("point", i), faults);
        check_labels_judge(plan, point, *limit, path_at("point", i), faults);
    }
    for (std::size_t i = 0; i < plan.labels.size(); ++i) check_claim(plan, plan.labels[i], path_at("label", i), faults);
}

}  // namespace peelbook::plan
