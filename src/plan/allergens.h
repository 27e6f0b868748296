#pragma once
// The vocabulary of the published lists: which words there are and which market's law lists them.
//   EU     Regulation (EU) No 1169/2011 Annex II: 14 groups, each cereal and each nut by name
//   US     FALCPA 2004 with FASTER Act 2021: nine major allergens, tree nuts by name
//   Codex  CXS 1-1985 as amended 2024 (from memory)
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace peelbook::plan {

enum class Market { eu, us, codex };
std::optional<Market> market_from(std::string_view word);  // "eu" "us" "codex"
std::string_view word(Market m);

struct Allergen {
    std::string_view id;     // "wheat", "hazelnut", "milk", "molluscs"
    std::string_view group;  // "gluten-cereals", "nuts", or its own id
    std::string_view name;   // for people: "wheat (gluten)"
    bool eu, us, codex;      // listed there
};

const std::vector<Allergen>& allergens();
const Allergen* allergen(std::string_view id);
bool listed(const Allergen& a, Market m);
std::vector<std::string> allergen_ids();

// True when declaring `declared` covers `present` on a label: the same id only. A generic group word ("nuts", "gluten") never
// covers a named species (traps 28).
bool covers(std::string_view declared, std::string_view present);

}  // namespace peelbook::plan
