#pragma once
// The vocabulary of the published lists: which words there are and which market's law lists them.
//   EU     Regulation (EU) No 1169/2011 Annex II: 14 groups, each cereal and each nut by name
//   US     FALCPA 2004 with FASTER Act 2021: nine major allergens, tree nuts by name (from memory; the
//   species are those of
//          the food agency's guidance of January 2025, which no longer names coconut); and sulphites, which are
//          none of the nine and must be declared from 10 ppm on (21 CFR 101.100(a)(4), from memory)
//   Codex  CXS 1-1985 as amended 2024 (from memory): a list for everywhere and one that a region may add
// A law must be re-read at its official source before anyone relies on these lists.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace peelbook::plan {

enum class Market { eu, us, codex };
inline constexpr std::string_view markets[] = {"eu", "us", "codex"};
std::optional<Market> market_from(std::string_view word);  // "eu" "us" "codex"
std::string_view word(Market m);

struct Allergen {
    std::string_view id;          // "wheat", "hazelnut", "milk", "molluscs"
    std::string_view group;       // "gluten-cereals", "nuts", or its own id
    std::string_view name;        // for people: "wheat (gluten)"
    bool eu, us, codex;           // a label there must name it
    bool codex_regional = false;  // on the Codex list that a region may add
};

const std::vector<Allergen>& allergens();
const Allergen* allergen(std::string_view id);
bool listed(const Allergen& a, Market m);
std::vector<std::string> allergen_ids();
// Of an id outside the vocabulary: the id itself.
std::string allergen_name(std::string_view id);

// True when declaring `declared` covers `present` on a label: the same id only. A generic group word ("nuts",
// "gluten") never covers a named species (rule 38).
bool covers(std::string_view declared, std::string_view present);

// Refuses a word that is not in the vocabulary. `nearest` then holds the ids that are meant by it in another
// list's or the trade's wording ("squid": molluscs; "gluten": each cereal), else those spelled much like it.
Check check_allergen(std::string_view id);

// What Annex II excepts, in its own scope: not to be entered as that allergen on an EU label.
struct AnnexException {
    std::string_view group;  // the group of Annex II, as in Allergen::group
    std::string_view text;
};
const std::vector<AnnexException>& annex_exceptions();

}  // namespace peelbook::plan
