#include "plan/allergens.h"

#include <algorithm>

namespace peelbook::plan {
namespace {

constexpr bool yes = true;
constexpr bool no = false;

}  // namespace

std::optional<Market> market_from(std::string_view word) {
    const auto* found = std::find(std::begin(markets), std::end(markets), word);
    return found == std::end(markets) ? std::nullopt : std::optional(static_cast<Market>(found - markets));
}

std::string_view word(Market m) { return markets[static_cast<std::size_t>(m)]; }

const std::vector<Allergen>& allergens() {
    // In the order of Annex II, then what only other lists have.
    static const std::vector<Allergen> list = {
        // id, group, name, EU, US, Codex, Codex regional
        {"wheat", "gluten-cereals", "wheat (gluten)", yes, yes, yes},
        {"spelt", "gluten-cereals", "spelt (a wheat, gluten)", yes, yes, yes},
        {"khorasan", "gluten-cereals", "khorasan (a wheat, gluten)", yes, yes, yes},
        {"rye", "gluten-cereals", "rye (gluten)", yes, no, yes},
        {"barley", "gluten-cereals", "barley (gluten)", yes, no, yes},
        {"oats", "gluten-cereals", "oats (gluten)", yes, no, no, yes},
        {"crustaceans", "crustaceans", "crustaceans", yes, yes, yes},
        {"egg", "egg", "egg", yes, yes, yes},
        {"fish", "fish", "fish", yes, yes, yes},
        {"peanut", "peanut", "peanut", yes, yes, yes},
        {"soy", "soy", "soybean", yes, yes, no, yes},
        {"milk", "milk", "milk (with lactose)", yes, yes, yes},
        {"almond", "nuts", "almond (nut)", yes, yes, yes},
        {"hazelnut", "nuts", "hazelnut (nut)", yes, yes, yes},
        {"walnut", "nuts", "walnut (nut)", yes, yes, yes},
        {"cashew", "nuts", "cashew (nut)", yes, yes, yes},
        {"pecan", "nuts", "pecan (nut)", yes, yes, yes},
        {"brazil-nut", "nuts", "Brazil nut (nut)", yes, yes, no, yes},
        {"pistachio", "nuts", "pistachio (nut)", yes, yes, yes},
        {"macadamia", "nuts", "macadamia or Queensland nut (nut)", yes, yes, no, yes},
        {"celery", "celery", "celery", yes, no, no, yes},
        {"mustard", "mustard", "mustard", yes, no, no, yes},
        {"sesame", "sesame", "sesame", yes, yes, yes},
        {"sulphites", "sulphites", "sulphur dioxide and sulphites", yes, yes, yes},
        {"lupin", "lupin", "lupin", yes, no, no, yes},
        {"molluscs", "molluscs", "molluscs", yes, no, no, yes},
        {"pine-nut", "nuts", "pine nut (nut)", no, yes, no, yes},
        {"buckwheat", "buckwheat", "buckwheat", no, no, no, yes},
    };
    return list;
}

const Allergen* allergen(std::string_view id) {
    for (const Allergen& a : allergens())
        if (a.id == id) return &a;
    return nullptr;
}

bool listed(const Allergen& a, Market m) { return m == Market::eu ? a.eu : m == Market::us ? a.us : a.codex; }

std::vector<std::string> allergen_ids() {
    std::vector<std::string> ids;
    for (const Allergen& a : allergens()) ids.emplace_back(a.id);
    return ids;
}

std::string allergen_name(std::string_view id) {
    const Allergen* known = allergen(id);
    return std::string(known ? known->name : id);
}

bool covers(std::string_view declared, std::string_view present) { return declared == present; }

const std::vector<AnnexException>& annex_exceptions() {
    // Regulation (EU) No 1169/2011 Annex II, points 1, 4, 6, 7 and 8.
    static const std::vector<AnnexException> list = {
        {"gluten-cereals", "wheat-based glucose syrups including dextrose"},
        {"gluten-cereals", "wheat-based maltodextrins"},
        {"gluten-cereals", "glucose syrups based on barley"},
        {"gluten-cereals", "cereals used for making alcoholic distillates including ethyl alcohol of agricultural origin"},
        {"fish", "fish gelatine used as carrier for vitamin or carotenoid preparations"},
        {"fish", "fish gelatine or isinglass used as fining agent in beer and wine"},
        {"soy", "fully refined soybean oil and fat"},
        {"soy", "natural mixed tocopherols (E306) and natural D-alpha tocopherols from soybean sources"},
        {"soy", "vegetable oils derived phytosterols and phytosterol esters from soybean sources"},
        {"soy", "plant stanol ester produced from vegetable oil sterols from soybean sources"},
        {"milk", "whey used for making alcoholic distillates including ethyl alcohol of agricultural origin"},
        {"milk", "lactitol"},
        {"nuts", "nuts used for making alcoholic distillates including ethyl alcohol of agricultural origin"},
    };
    return list;
}

}  // namespace peelbook::plan
