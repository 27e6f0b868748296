// The sections about what residue lies on and how it is taken off: equipment, cleanings, reference doses.
#include "plan/allergens.h"
#include "plan/sections.h"

namespace peelbook::plan {

Equipment read_equipment(Fields& f) {
    Equipment piece;
    piece.id = f.id();
    piece.name = f.name("name", Need::yes);
    piece.lines = f.codes("lines");
    piece.products = f.codes("products");
    piece.step = f.code("step", Need::no);
    piece.residue = f.measure("residue", Dimension::mass);
    if (piece.lines.empty())
        f.lacks("lines", "lines = [\"line-1\"], those whose products touch it",
                "write the places of its lines");
    return piece;
}

Cleaning read_cleaning(Fields& f) {
    Cleaning cleaning;
    cleaning.id = f.id();
    cleaning.name = f.name("name", Need::yes);
    cleaning.kind = f.choice("kind", {"dry", "wet"}, Need::yes);
    cleaning.equipment = f.codes("equipment");
    cleaning.clears = read_allergens(f, "clears");
    cleaning.time = f.period("time", Need::yes).value_or(Duration{});
    cleaning.cost = f.whole("cost", 0).value_or(0);
    cleaning.verify = f.codes("verify");
    if (cleaning.equipment.empty())
        f.lacks("equipment", "equipment = [\"slicer\"], the pieces it is for", "write them");
    if (cleaning.clears.empty())
        f.error("clears", "it clears nothing",
                "clears = [\"hazelnut\"], what its validation shows that it takes off",
                "write them, or take the cleaning out");
    if (cleaning.verify.empty())
        f.error("verify", "nothing verifies it", "verify = [\"slicer-seen\"], the points that show it worked",
                "write a point for each piece: residue stays until a verified cleaning");
    return cleaning;
}

ReferenceDose read_reference_dose(Fields& f) {
    ReferenceDose dose;
    dose.allergen = f.name("allergen", Need::yes);
    if (!dose.allergen.empty())
        if (const Check bad = check_allergen(dose.allergen)) f.refuse("allergen", *bad);
    if (const auto mass = f.measure("dose", Dimension::mass, Need::yes)) dose.dose = *mass;
    if (f.has("dose") && dose.dose.value <= 0)
        f.error("dose", "a dose of nothing", "more than 0mg of protein", "write it like dose = \"2mg\"");
    dose.source = f.prose("source", Need::yes);
    return dose;
}

}  // namespace peelbook::plan
