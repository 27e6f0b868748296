#pragma once
// What a line must be cleaned of between two products, and how, from the plan alone. Pure.
//
// The line is cleaned as one: before a product starts, every piece of its line is cleared of whatever that product neither declares
// nor surely brings itself, also pieces that it does not touch. So nothing that a product may meet depends on what ran before the
// one before it: a piece hands on at most what its last product declares, of that which can lie there at all.
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "plan/plan.h"

namespace peelbook::site {

using Lying = std::map<std::string, std::set<std::string>>;  // piece to allergens

struct LineCleaning {
    struct Piece {
        std::string piece;
        std::vector<std::string> cleanings;  // of the plan
        std::vector<std::string> clears;     // what it is for
    };
    std::vector<Piece> pieces;
    std::vector<std::string> cannot;  // "hazelnut on slicer": no cleaning of the plan clears it there
    std::int64_t minutes = 0;         // of all pieces, one after the other; for what cannot be cleared, the longest cleaning there is
    std::int64_t cost = 0;
    bool possible() const { return cannot.empty(); }
};

// Allergens of the formula through every depth, items that are optional too; true: contained, false: may contain.
std::map<std::string, bool> brought_by(const plan::Plan& plan, const std::string& product);
// Residue of it is no undeclared carry-over in the product.
bool may_meet(const plan::Plan& plan, const std::string& product, const std::string& allergen);

// What can ever lie on the line's pieces: `now`, and what `products` bring to the pieces they touch.
Lying can_lie(const plan::Plan& plan, const std::string& line, const std::vector<std::string>& products, const Lying& now);
// What at most lies there once `product` has run, of what can lie there.
Lying left_by(const plan::Plan& plan, const std::string& line, const std::string& product, const Lying& at_all);
LineCleaning cleaning_before(const plan::Plan& plan, const std::string& line, const Lying& lying, const std::string& product);

}  // namespace peelbook::site
