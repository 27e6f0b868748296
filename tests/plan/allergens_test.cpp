// The vocabulary against the published lists. Regulation (EU) No 1169/2011 Annex II was read in public
// copies; the US and Codex lists are from memory and say so.
#include "plan/allergens.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

using namespace peelbook;
using namespace peelbook::plan;

namespace {

std::set<std::string> listed_by(Market m) {
    std::set<std::string> ids;
    for (const Allergen& a : allergens())
        if (listed(a, m)) ids.insert(std::string(a.id));
    return ids;
}

std::vector<std::string> meant_by(const std::string& word) {
    const Check checked = check_allergen(word);
    REQUIRE_FALSE(checked.ok());
    return checked.refusal().nearest;
}

}  // namespace

TEST_CASE("EU: the fourteen groups of Annex II with each cereal and each nut by name") {
    // Regulation (EU) No 1169/2011 Annex II points 1 to 14.
    REQUIRE(listed_by(Market::eu) == std::set<std::string>{"wheat",       "spelt",     "khorasan", "rye",     "barley", "oats",
                                                           "crustaceans", "egg",       "fish",     "peanut",  "soy",    "milk",
                                                           "almond",      "hazelnut",  "walnut",   "cashew",  "pecan",  "brazil-nut",
                                                           "pistachio",   "macadamia", "celery",   "mustard", "sesame", "sulphites",
                                                           "lupin",       "molluscs"});
    std::set<std::string_view> groups;
    for (const Allergen& a : allergens())
        if (a.eu) groups.insert(a.group);
    REQUIRE(groups.size() == 14);
}

TEST_CASE("US: nine major allergens, and sulphites by a rule of their own") {
    // FALCPA 2004 and the FASTER Act 2021, tree nuts after the guidance of January 2025: from memory. Sulphites are none of the
    // nine: 21 CFR 101.100(a)(4), from memory, wants them declared from 10 ppm on, as 130.9(a) does for standardized food.
    REQUIRE(listed_by(Market::us) == std::set<std::string>{"milk",       "egg",       "fish",      "crustaceans", "peanut",
                                                           "soy",        "sesame",    "wheat",     "spelt",       "khorasan",  // all wheats
                                                           "almond",     "hazelnut",  "walnut",    "cashew",      "pecan",
                                                           "brazil-nut", "pistachio", "macadamia", "pine-nut",    "sulphites"});
    std::set<std::string_view> groups;
    for (const Allergen& a : allergens())
        if (a.us && a.id != "sulphites") groups.insert(a.group);
    REQUIRE(groups.size() == 9);
}

TEST_CASE("Codex: the list for everywhere and the one a region may add") {
    // CXS 1-1985 as amended 2024: from memory.
    REQUIRE(listed_by(Market::codex) == std::set<std::string>{"wheat", "spelt", "khorasan", "rye", "barley", "crustaceans", "egg", "fish",
                                                              "peanut", "milk", "sesame", "almond", "cashew", "hazelnut", "pecan",
                                                              "pistachio", "walnut", "sulphites"});
    std::set<std::string> regional;
    for (const Allergen& a : allergens())
        if (a.codex_regional) regional.insert(std::string(a.id));
    REQUIRE(regional == std::set<std::string>{"buckwheat", "celery", "lupin", "mustard", "oats", "soy", "brazil-nut", "macadamia",
                                              "pine-nut", "molluscs"});
}

TEST_CASE("rye: an allergen of Annex II, none of the US nine") {
    REQUIRE(listed(*allergen("rye"), Market::eu));        // Annex II point 1
    REQUIRE_FALSE(listed(*allergen("rye"), Market::us));  // FALCPA: wheat only; from memory
}

TEST_CASE("molluscs, lupin, celery and mustard are of the EU list alone, sesame of both") {
    for (const char* id : {"molluscs", "lupin", "celery", "mustard"}) {
        INFO(id);
        REQUIRE(listed(*allergen(id), Market::eu));        // Annex II points 14, 13, 9, 10
        REQUIRE_FALSE(listed(*allergen(id), Market::us));  // FALCPA, FASTER
    }
    REQUIRE(listed(*allergen("sesame"), Market::eu));  // Annex II point 11
    REQUIRE(listed(*allergen("sesame"), Market::us));  // FASTER Act 2021, from memory
}

TEST_CASE("the exceptions of Annex II stand under their groups") {
    const auto count = [](std::string_view group) {
        return std::count_if(annex_exceptions().begin(), annex_exceptions().end(),
                             [&](const AnnexException& e) { return e.group == group; });
    };
    // Annex II: points 1 (a) to (d), 4 (a) and (b), 6 (a) to (d), 7 (a) and (b), 8.
    REQUIRE(count("gluten-cereals") == 4);
    REQUIRE(count("fish") == 2);
    REQUIRE(count("soy") == 4);
    REQUIRE(count("milk") == 2);
    REQUIRE(count("nuts") == 1);
    REQUIRE(annex_exceptions().size() == 13);
    for (const AnnexException& e : annex_exceptions())
        REQUIRE(std::any_of(allergens().begin(), allergens().end(), [&](const Allergen& a) { return a.eu && a.group == e.group; }));
}

TEST_CASE("rule 38: a group word never covers a species, and one species never another") {
    REQUIRE(covers("hazelnut", "hazelnut"));
    REQUIRE_FALSE(covers("nuts", "hazelnut"));
    REQUIRE_FALSE(covers("gluten", "rye"));
    REQUIRE_FALSE(covers("wheat", "spelt"));
    REQUIRE_FALSE(covers("almond", "hazelnut"));
    REQUIRE(allergen("nuts") == nullptr);
    REQUIRE(allergen("gluten") == nullptr);
}

TEST_CASE("words of other lists and of the trade lead to the word of this list") {
    // Facts of the trade, common practice.
    REQUIRE(meant_by("squid") == std::vector<std::string>{"molluscs"});
    REQUIRE(meant_by("squid ink") == std::vector<std::string>{"molluscs"});
    REQUIRE(meant_by("gluten") == std::vector<std::string>{"wheat", "rye", "barley", "oats", "spelt", "khorasan"});
    REQUIRE(meant_by("tree nuts").size() == 8);
    REQUIRE(meant_by("shellfish") == std::vector<std::string>{"crustaceans", "molluscs"});
    REQUIRE(meant_by("butter") == std::vector<std::string>{"milk"});
    REQUIRE(meant_by("Soya") == std::vector<std::string>{"soy"});
    REQUIRE(meant_by("soybeans") == std::vector<std::string>{"soy"});
    REQUIRE(meant_by("peanuts") == std::vector<std::string>{"peanut"});
    REQUIRE(meant_by("Brazil nuts") == std::vector<std::string>{"brazil-nut"});
    REQUIRE(meant_by("sulfites") == std::vector<std::string>{"sulphites"});
    REQUIRE(meant_by("malt") == std::vector<std::string>{"barley"});
    REQUIRE(meant_by("EGGS") == std::vector<std::string>{"egg"});
    REQUIRE(meant_by("hazlenut") == std::vector<std::string>{"hazelnut"});
    REQUIRE(meant_by("granite").empty());
}

TEST_CASE("each word of the vocabulary is accepted, and each that a message offers is one of it") {
    for (const std::string& id : allergen_ids()) REQUIRE(check_allergen(id).ok());
    for (const char* word : {"gluten", "nuts", "shellfish", "triticale", "kamut", "filbert", "tahini", "lupine", "cheese"})
        for (const std::string& id : meant_by(word)) REQUIRE(allergen(id) != nullptr);
}

TEST_CASE("markets have one word each") {
    for (const Market m : {Market::eu, Market::us, Market::codex}) REQUIRE(market_from(word(m)) == m);
    REQUIRE_FALSE(market_from("EU"));
    REQUIRE_FALSE(market_from("uk"));
}
