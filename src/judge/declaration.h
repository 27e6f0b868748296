#pragma once
// What the supplier declared of a received lot, against the material's specification. Pure.
//   not stated                                       unproven: not the same as free
//   an allergen that the specification does not name deviation, critical: also where it was only "may contain", and is now contained
//   one that it names and the lot does not           deviation, operating: nothing is missing on the label, yet the recipe changed
//   the same                                         within
#include <string>
#include <vector>

#include "judge/judge.h"

namespace peelbook::judge {

struct Declared {
    bool stated = false;
    std::vector<std::string> contains, may_contain;
};

struct JudgedDeclaration {
    Finding finding;
    plan::Grade grade = plan::Grade::critical;
};
JudgedDeclaration judge_declaration(const plan::Material& material, const Declared& declared, Instant received);

}  // namespace peelbook::judge
