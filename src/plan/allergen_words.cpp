// What people write on a specification when they mean an allergen of the vocabulary: words of other lists, of
// the trade and of other spellings. Facts of the trade, common practice.
#include <algorithm>

#include "base/text.h"
#include "plan/allergens.h"

namespace peelbook::plan {
namespace {

struct Meant {
    std::vector<std::string_view> words;  // lower case, without a plural s, '-' for spaces
    std::vector<std::string> ids;
    std::string_view because;
};

const std::vector<Meant>& meanings() {
    static const std::vector<Meant> list = {
        {{"gluten", "gluten-cereal", "cereal", "cereals-containing-gluten", "cereals-with-gluten", "malt-flour", "flour"},
         {"wheat", "rye", "barley", "oats", "spelt", "khorasan"},
         "a group word covers no cereal: name each cereal"},
        {{"nut", "tree-nut", "treenut"},
         {"almond", "hazelnut", "walnut", "cashew", "pecan", "brazil-nut", "pistachio", "macadamia"},
         "a group word covers no nut: name each nut"},
        {{"shellfish"}, {"crustaceans", "molluscs"}, "the lists keep the two kinds of shellfish apart"},
        {{"squid", "squid-ink", "cuttlefish", "cuttlefish-ink", "sepia", "octopu", "mussel", "clam", "oyster", "scallop", "snail",
          "mollusc", "mollusk", "mollusks"},
         {"molluscs"},
         "it is a mollusc"},
        {{"shrimp", "prawn", "crab", "lobster", "crayfish", "crustacea", "crustacean", "crustacean-shellfish"},
         {"crustaceans"},
         "it is a crustacean"},
        {{"durum", "semolina", "emmer", "einkorn", "seitan", "bulgur", "couscou", "farro"}, {"wheat"}, "it is a wheat"},
        {{"dinkel"}, {"spelt"}, "it is spelt"},
        {{"kamut"}, {"khorasan"}, "it is khorasan wheat"},
        {{"triticale"}, {"wheat", "rye"}, "it is a hybrid of wheat and rye"},
        {{"malt", "barley-malt", "malted-barley", "malt-extract"}, {"barley"}, "malt is barley unless its maker says otherwise"},
        {{"oat", "oatmeal"}, {"oats"}, "the list says oats"},
        {{"dairy", "lactose", "butter", "cream", "whey", "casein", "cheese", "yoghurt", "yogurt", "quark", "milk-powder"},
         {"milk"},
         "it is milk"},
        {{"soya", "soybean", "soya-bean", "soja", "tofu", "lecithin", "soy-lecithin"}, {"soy"}, "it is soy"},
        {{"groundnut", "arachi", "monkey-nut"}, {"peanut"}, "it is peanut"},
        {{"sulfite", "sulphite", "sulphur-dioxide", "sulfur-dioxide", "so2", "e220"}, {"sulphites"}, "the list says sulphites"},
        {{"filbert", "cobnut"}, {"hazelnut"}, "it is hazelnut"},
        {{"marzipan", "frangipane"}, {"almond"}, "it is made of almond"},
        {{"queensland-nut"}, {"macadamia"}, "it is macadamia"},
        {{"pinenut", "pinon", "pignoli"}, {"pine-nut"}, "it is pine nut"},
        {{"tahini", "sesame-seed"}, {"sesame"}, "it is sesame"},
        {{"celeriac"}, {"celery"}, "it is celery"},
        {{"lupine", "lupin-flour"}, {"lupin"}, "it is lupin"},
        {{"anchovy", "anchovie", "isinglas"}, {"fish"}, "it is fish"},
        {{"albumen", "egg-white", "egg-yolk", "mayonnaise"}, {"egg"}, "it is egg"},
    };
    return list;
}

std::string plain_form(std::string_view word) {
    std::string plain = lowered(trimmed(word));
    std::replace(plain.begin(), plain.end(), ' ', '-');
    std::replace(plain.begin(), plain.end(), '_', '-');
    if (plain.size() > 3 && plain.back() == 's') plain.pop_back();
    return plain;
}

const Meant* meaning_of(const std::string& plain) {
    for (const Meant& meant : meanings())
        if (std::find(meant.words.begin(), meant.words.end(), plain) != meant.words.end()) return &meant;
    return nullptr;
}

// "Hazelnuts", "Brazil nut", "EGG": the vocabulary's own word in another form.
const Allergen* other_form_of(const std::string& plain) {
    for (const Allergen& a : allergens())
        if (plain_form(a.id) == plain) return &a;
    return nullptr;
}

}  // namespace

Check check_allergen(std::string_view id) {
    if (allergen(id)) return {};
    const std::string given = "allergen '" + shown(id) + "'";
    const std::string plain = plain_form(id);
    if (const Allergen* form = other_form_of(plain))
        return Refusal{given, "a word of the published lists", "write it as the list has it", {std::string(form->id)}};
    if (const Meant* meant = meaning_of(plain))
        return Refusal{given, "a word of the published lists; " + std::string(meant->because), "write what is in the material", meant->ids};
    return Refusal{given, "a word of the published lists", "see the words with: plan show allergens", nearest(id, allergen_ids())};
}

}  // namespace peelbook::plan
