// The sections about what is bought, made and labelled: materials, products, labels.
#include <algorithm>

#include "base/gs1.h"
#include "base/text.h"
#include "plan/allergens.h"
#include "plan/boundaries.h"
#include "plan/sections.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

DateKind read_date_kind(Fields& f) {
    return f.choice("date", {"best-before", "use-by"}, Need::no) == "use-by" ? DateKind::use_by
                                                                             : DateKind::best_before;
}

std::string read_lot_prefix(Fields& f, const std::string& id) {
    const std::string code = f.code("code", Need::no);
    return code.empty() ? uppered(id) : code;
}

bool is_zero(const Measure& m) {
    return m.value == 0;
}

FormulaItem read_formula_item(Fields& f) {
    FormulaItem item;
    item.item = f.code("item", Need::yes);
    const auto percent = f.measure("percent", Dimension::percent);
    item.absolute = f.measure("absolute", Dimension::mass);
    item.flour = f.flag("flour", false);
    item.optional = f.flag("optional", false);
    if (percent) item.micro_percent = percent->typed_micro;
    if (f.has("percent") && f.has("absolute"))
        f.error("absolute", "both percent and absolute are given", "one of the two", "take one of them out");
    if (!f.has("percent") && !f.has("absolute"))
        f.lacks("amount", "percent = \"62%\" or absolute = \"20kg\"", "write one of the two");
    if (percent && is_zero(*percent))
        f.error("percent", "percent is nothing", "more than 0%", "correct it, or take the item out");
    if (item.absolute && is_zero(*item.absolute))
        f.error("absolute", "absolute is nothing", "more than 0kg", "correct it, or take the item out");
    return item;
}

std::optional<Measure> read_mass(Fields& f, const std::string& key) {
    const std::optional<Measure> mass = f.measure(key, Dimension::mass);
    if (mass && is_zero(*mass))
        f.error(key, key + " is nothing", "a mass above 0", "correct it, or take the key out");
    return mass;
}

// The step whose end is the end of the making: the last before packing, else the last.
std::string usual_finish(const std::vector<std::string>& steps) {
    std::string last;
    for (const std::string& step : steps) {
        if (step == "pack" && !last.empty()) break;
        last = step;
    }
    return last;
}

// One, or a list: goods of several suppliers bear several numbers.
std::vector<std::string> read_gtins(Fields& f) {
    const std::vector<std::string> gtins = f.one_or_more("gtin", "\"4012345000009\"");
    for (std::size_t i = 0; i < gtins.size(); ++i)
        if (const Check bad = check_gtin(gtins[i])) f.refuse("gtin/" + std::to_string(i), *bad);
    return gtins;
}

}  // namespace

std::vector<std::string> read_allergens(Fields& f, const std::string& key) {
    const std::vector<std::string> ids = f.names(key);
    for (std::size_t i = 0; i < ids.size(); ++i)
        if (const Check bad = check_allergen(ids[i])) f.refuse(key + "/" + std::to_string(i), *bad);
    return ids;
}

Material read_material(Fields& f) {
    Material material;
    material.id = f.id();
    material.name = f.name("name", Need::yes);
    material.code = read_lot_prefix(f, material.id);
    material.allergens = read_allergens(f, "allergens");
    material.may_contain = read_allergens(f, "may_contain");
    material.date_kind = read_date_kind(f);
    material.supply = f.flag("supply", false);
    material.packaging = f.flag("packaging", false);
    material.traceability_list = f.flag("traceability_list", false);
    material.gtins = read_gtins(f);
    material.suppliers = f.codes("suppliers");
    f.each("protein", "protein", [&](Fields& one) {
        Material::Protein protein;
        protein.allergen = one.name("allergen", Need::yes);
        if (const auto percent = one.measure("percent", Dimension::percent, Need::yes)) protein.milli_percent = percent->value;
        if (!protein.allergen.empty() && std::find(material.allergens.begin(), material.allergens.end(), protein.allergen) ==
                                             material.allergens.end())
            one.error("allergen", "protein of " + quoted(protein.allergen) + ", which is not among its allergens",
                      "an allergen of the material", remedy_with(nearest(protein.allergen, material.allergens),
                                                                 "add it to allergens, or take it out here"));
        material.protein.push_back(protein);
    });
    return material;
}

std::optional<DoughAim> read_dough_aim(Fields& f) {
    const auto wanted = f.measure("wanted", Dimension::temperature, Need::yes);
    DoughAim aim;
    aim.dough = f.code("read", Need::yes);
    aim.flour = f.code("flour", Need::yes);
    aim.water = f.code("water", Need::yes);
    aim.room = f.code("room", Need::yes);
    aim.preferment = f.code("preferment", Need::no);
    if (!wanted) return std::nullopt;
    aim.wanted = *wanted;
    return aim;
}

Product read_product(Fields& f) {
    Product product;
    product.id = f.id();
    product.name = f.name("name", Need::yes);
    product.code = read_lot_prefix(f, product.id);
    product.sort = f.name("sort", Need::no);
    const bool list = f.each("formula", "formula item",
                             [&](Fields& item) { product.formula.push_back(read_formula_item(item)); });
    if (list && product.formula.empty())
        f.error("formula", "its formula is empty", "at least one item", "write what goes into it");
    product.unit_mass = read_mass(f, "unit_mass");
    product.pieces = f.whole("pieces", 1).value_or(0);
    product.usual_flour = read_mass(f, "usual_flour");
    if (const auto tolerance = f.measure("tolerance", Dimension::percent))
        product.tolerance_milli_percent = tolerance->value;
    product.steps = f.codes("steps");
    product.finish_step = f.code("finish_step", Need::no);
    if (product.finish_step.empty()) product.finish_step = usual_finish(product.steps);
    product.line = f.code("line", Need::no);
    product.label = f.code("label", Need::no);
    product.date_kind = read_date_kind(f);
    product.shelf_life = f.period("shelf_life");
    product.gtin = f.name("gtin", Need::no);
    if (!product.gtin.empty())
        if (const Check bad = check_gtin(product.gtin)) f.refuse("gtin", *bad);
    product.traceability_list = f.flag("traceability_list", false);
    f.inside("dough", [&](Fields& dough) { product.dough = read_dough_aim(dough); });
    product.portion = read_mass(f, "portion");
    product.sold = f.choice("sold", {"packed", "loose", "direct"}, Need::no);
    if (!f.has("formula"))
        f.lacks("formula", "formula = [ { item = \"...\", percent = \"100%\", flour = true } ]",
                "write what goes into it");
    if (!f.has("steps"))
        f.lacks("steps", "steps = [\"mix\", \"bake\", \"pack\"]", "write its steps in order");
    return product;
}

// Of gluten. A market without a rule for the words has no boundary to judge them by.
std::string read_claim(Fields& f, const std::string& market) {
    const std::string claim = f.name("claim", Need::no);
    if (claim.empty()) return "";
    const std::vector<std::string> known(std::begin(gluten_claims), std::end(gluten_claims));
    if (std::find(known.begin(), known.end(), claim) == known.end()) {
        f.error("claim", "claim " + quoted(claim), "one of: " + joined(known, ", "),
                remedy_with(nearest(claim, known), "write what the printed label says of gluten, or take the key out"));
        return "";
    }
    const std::optional<Market> of = market_from(market);
    if (!of || claim_boundary(*of, claim)) return of ? claim : "";
    f.error("claim", "claim " + quoted(claim) + " on a label of market " + quoted(market) + ", which has no rule for it",
            "a claim that the market of the label defines",
            "take it out, or correct the market");
    return "";
}

Label read_label(Fields& f) {
    Label label;
    label.id = f.id();
    label.name = f.name("name", Need::yes);
    label.product = f.code("product", Need::yes);
    label.market = f.choice("market", {"eu", "us", "codex"}, Need::yes);
    label.declares = read_allergens(f, "declares");
    label.may_contain = read_allergens(f, "may_contain");
    label.claim = read_claim(f, label.market);
    if (!f.has("declares"))
        f.lacks("declares", "declares = [\"wheat\", \"milk\"], or [] when the label declares nothing",
                "copy the allergens from the printed label, not from the formula");
    return label;
}

}  // namespace peelbook::plan
