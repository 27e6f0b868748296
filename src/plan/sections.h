#pragma once
// One function a section of the plan: reads one table into one value. Faults go to the Fields' collector;
// what is absent or wrong is left at its default, so that reading goes on. Cross rules are rules.h.
#include "plan/fields.h"
#include "plan/plan.h"

namespace peelbook::plan {

Site read_site(Fields& f);
Material read_material(Fields& f);
Product read_product(Fields& f);
Label read_label(Fields& f);
Vessel read_vessel(Fields& f);
Place read_place(Fields& f);
Instrument read_instrument(Fields& f);
Logger read_logger(Fields& f);
Role read_role(Fields& f);
Hazard read_hazard(Fields& f);
Equipment read_equipment(Fields& f);
Cleaning read_cleaning(Fields& f);
ReferenceDose read_reference_dose(Fields& f);
Point read_point(Fields& f);
Deadline read_deadline(Fields& f);

// A list of allergens; a word that is not of the vocabulary is a fault where it stands.
std::vector<std::string> read_allergens(Fields& f, const std::string& key);

// A point's limit. Nothing when it is absent or cannot be told; the fault is then noted.
std::optional<Limit> read_limit(Fields& point);

}  // namespace peelbook::plan
