// What is bought, made and labelled: materials, products, labels.
#include <utility>

#include "base/text.h"
#include "plan/boundaries.h"
#include "plan/complete.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

// A measure that is there and is zero.
void refuse_nothing(Fields& f, const std::string& key, Dimension dimension, const std::string& wanted, const std::string& what) {
    const TomlValue* value = f.find(key);
    if (!value || !value->is(TomlValue::Kind::text)) return;
    const Result<Measure> measure = parse_measure(value->text, dimension);
    if (measure && measure->value == 0) f.error(key, key + " is nothing", wanted, "correct it, or take the " + what + " out");
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

}  // namespace

void complete(Fields&, Material& material) {
    if (material.code.empty()) material.code = uppered(material.id);
}

void is_of(Fields& f, const Material::Protein& protein, const Material& material) {
    const auto& allergens = material.allergens;
    if (protein.allergen.empty() || among(allergens, protein.allergen)) return;
    f.error("allergen", "protein of " + quoted(protein.allergen) + ", which is not among its allergens", "an allergen of the material",
            remedy_with(nearest(protein.allergen, allergens), "add it to allergens, or take it out here"));
}

void complete(Fields& f, const FormulaItem&) {
    const bool percent = f.has("percent"), absolute = f.has("absolute");
    if (percent && absolute) f.error("absolute", "both percent and absolute are given", "one of the two", "take one of them out");
    if (!percent && !absolute) f.lacks("amount", "percent = \"62%\" or absolute = \"20kg\"", "write one of the two");
    refuse_nothing(f, "percent", Dimension::percent, "more than 0%", "item");
    refuse_nothing(f, "absolute", Dimension::mass, "more than 0kg", "item");
}

void complete(Fields& f, Product& product) {
    if (product.code.empty()) product.code = uppered(product.id);
    if (product.finish_step.empty()) product.finish_step = usual_finish(product.steps);
    for (const char* key : {"unit_mass", "usual_flour", "portion"}) refuse_nothing(f, key, Dimension::mass, "a mass above 0", "key");
    const TomlValue* formula = f.find("formula");
    if (formula && formula->is(TomlValue::Kind::array) && product.formula.empty())
        f.error("formula", "its formula is empty", "at least one item", "write what goes into it");
    if (!formula) f.lacks("formula", "formula = [ { item = \"...\", percent = \"100%\", flour = true } ]", "write what goes into it");
    if (!f.has("steps")) f.lacks("steps", "steps = [\"mix\", \"bake\", \"pack\"]", "write its steps in order");
}

// A claim is of gluten. A market without a rule for the words has no boundary to judge them by.
void complete(Fields& f, Label& label) {
    const std::vector<std::string> known(std::begin(gluten_claims), std::end(gluten_claims));
    const std::optional<Market> market = market_from(label.market);
    const std::string claim = std::exchange(label.claim, "");
    if (!claim.empty() && !among(known, claim))
        f.error("claim", "claim " + quoted(claim), "one of: " + joined(known, ", "),
                remedy_with(nearest(claim, known), "write what the printed label says of gluten, or take the key out"));
    else if (!claim.empty() && market && !claim_boundary(*market, claim))
        f.error("claim", "claim " + quoted(claim) + " on a label of market " + quoted(label.market) + ", which has no rule for it",
                "a claim that the market of the label defines", "take it out, or correct the market");
    else if (market)
        label.claim = claim;
    if (!f.has("declares"))
        f.lacks("declares", "declares = [\"wheat\", \"milk\"], or [] when the label declares nothing",
                "copy the allergens from the printed label, not from the formula");
}

}  // namespace peelbook::plan
