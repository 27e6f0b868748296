#pragma once
// Allergens of a lot and of what a period made, each with the reason it is there.
#include <optional>
#include <string>
#include <vector>

#include "base/instant.h"
#include "base/result.h"
#include "book/allergen_level.h"

namespace peelbook::site {

struct AllergenReason {
    std::string allergen;
    book::AllergenLevel level = book::AllergenLevel::not_stated;
    std::string lot;     // the lot it is in
    std::string source;  // the received lot that declares it, or the lot that left the residue; empty: the formula
    std::string reason;  // "OM-1 > SR-2 > QR-3", "residue of NB-1 on slicer since ...", "formula: material butter"
    // mg of protein per kg of the lot: expected, over what was made, else over what went in. Of carry-over: the most that the
    // plan's residue of the piece can bring. Absent: the plan does not know the protein, or a mass is not known.
    std::optional<double> protein_mg_per_kg;
    // Reference dose over the product's portion (calc/allergen_dose.h). Only for carry-over, and where the plan states both: a
    // decision aid that a qualified person validates.
    std::optional<double> action_level_mg_per_kg;
    std::string dose_source;
};

struct LotAllergens {
    std::string lot, item;
    std::vector<AllergenReason> allergens;  // contains first
};

struct ProductAllergens {
    std::string product, name, sold;  // sold: "packed" "loose" "direct"
    std::string label, market;        // usual label; empty: none
    std::int64_t lots = 0;            // batches and packs made in the period
    std::vector<AllergenReason> allergens;
    std::vector<std::string> declares, may_contain;  // of the label
    std::vector<std::string> surplus;                // declared, and nothing brings it
};

struct AllergenMatrix {
    Instant from, until;                     // until is not included
    std::vector<std::string> allergens;      // those met, in the order of the lists
    std::vector<ProductAllergens> products;  // those with a label, or sold loose, or made in the period and packed
};

// "Which products must never contain it, and how do you know": those whose label does not declare it and whose formula does not
// bring it.
struct NeverProduct {
    std::string product, name, label;
    std::int64_t lots = 0, with = 0, not_stated = 0;  // made in the period; with it at any level; with an input that stated nothing
    std::vector<std::string> found;                   // the reasons of those with it
    std::int64_t cleared = 0, lying = 0;  // runs of it on equipment where the allergen had lain and was cleared before; and still lay
};

}  // namespace peelbook::site
