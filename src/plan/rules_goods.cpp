#include <algorithm>
#include <map>

#include "base/gs1.h"
#include "base/text.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

struct Good {
    std::string section, id, code;
    std::size_t index;
};

// Materials and products share one name space, since either can be an item of a formula; so do the prefixes
// of lot codes.
std::vector<Good> goods_of(const Plan& plan) {
    std::vector<Good> goods;
    for (std::size_t i = 0; i < plan.materials.size(); ++i) goods.push_back({"material", plan.materials[i].id, plan.materials[i].code, i});
    for (std::size_t i = 0; i < plan.products.size(); ++i) goods.push_back({"product", plan.products[i].id, plan.products[i].code, i});
    return goods;
}

void check_names(const Plan& plan, Faults& faults) {
    std::map<std::string, Good> ids, codes;
    for (const Good& good : goods_of(plan)) {
        if (good.id.empty()) continue;
        const std::string path = path_at(good.section, good.index);
        const auto [same, is_new] = ids.emplace(good.id, good);
        if (!is_new) {
            faults.error(path + "/id", good.section + " " + quoted(good.id) + " is there twice, also as a " + same->second.section,
                         "each id once among materials and products", "rename one of the two, or take it out");
            continue;
        }
        const auto [owner, is_free] = codes.emplace(uppered(good.code), good);
        if (!is_free)
            faults.error(path + "/code",
                         good.section + " " + quoted(good.id) + ": its lot codes begin " + quoted(good.code) + " like those of " +
                             owner->second.section + " " + quoted(owner->second.id),
                         "a beginning of its own", "write code = \"...\" for one of the two");
    }
}

// Without a step that kills, what goes in with a use-by date ends the product with it, and a leaven is as old as the first of its kind.
void check_ages(const Plan& plan, const Product& product, const std::string& path, Faults& faults) {
    if (!product.kill_step.empty() || (!product.shelf_life && !product.use_within)) return;
    for (const FormulaItem& item : product.formula) {
        const Material* material = plan.material(item.item);
        const Product* made = plan.product(item.item);
        if (!(material && material->date_kind == DateKind::use_by) && !(made && made->use_within)) continue;
        faults.warn(path, "product " + quoted(product.id) + " lasts no longer than the " + quoted(item.item) + " in it",
                    "the step that kills what went in before it, if there is one",
                    "write kill_step = \"bake\" (or the souring, of a leaven); without one the date of " + quoted(item.item) + " counts");
        return;
    }
}

void check_product(const Plan& plan, const Product& product, const std::string& path, Faults& faults) {
    const std::string what = "product " + quoted(product.id);
    check_known(faults, path + "/line", what + " line", "place", product.line, ids_of(plan.places));
    check_known(faults, path + "/label", what + " label", "label", product.label, ids_of(plan.labels));
    if (!product.steps.empty())
        check_known(faults, path + "/finish_step", what + " finish_step", "step", product.finish_step, product.steps);
    check_known(faults, path + "/kill_step", what + " kill_step", "step", product.kill_step, product.steps);
    check_ages(plan, product, path, faults);
    const Label* label = plan.label(product.label);
    if (label && label->product != product.id)
        faults.error(path + "/label", what + ": label " + quoted(label->id) + " is of product " + quoted(label->product),
                     "a label of this product", "name another label, or correct the label's product");
}

// A scan must lead to one material and one product.
void check_gtins(const Plan& plan, Faults& faults) {
    std::map<std::string, std::string> owners;
    const auto check = [&](const std::string& gtin, const std::string& what, const std::string& path) {
        if (gtin.empty()) return;
        const auto [owner, is_new] = owners.emplace(gtin14(gtin), what);
        if (!is_new)
            faults.error(path, what + ": GTIN " + gtin + " is that of " + owner->second + " too", "a number of its own",
                         "compare both with the goods, and correct one");
    };
    for (std::size_t i = 0; i < plan.materials.size(); ++i)
        for (std::size_t n = 0; n < plan.materials[i].gtins.size(); ++n)
            check(plan.materials[i].gtins[n], "material " + quoted(plan.materials[i].id),
                  path_at("material", i) + "/gtin/" + std::to_string(n));
    for (std::size_t i = 0; i < plan.products.size(); ++i)
        check(plan.products[i].gtin, "product " + quoted(plan.products[i].id), path_at("product", i) + "/gtin");
}

}  // namespace

std::vector<std::string> item_ids(const Plan& plan) {
    std::vector<std::string> ids = ids_of(plan.materials);
    for (const Product& product : plan.products) ids.push_back(product.id);
    return ids;
}

void check_goods(const Plan& plan, Faults& faults) {
    check_names(plan, faults);
    check_gtins(plan, faults);
    for (std::size_t i = 0; i < plan.products.size(); ++i) check_product(plan, plan.products[i], path_at("product", i), faults);
}

}  // namespace peelbook::plan
