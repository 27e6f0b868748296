#pragma once
// What the lists of fields (lists.h) leave to say about a table that is being read: what its keys must be together, and what is
// filled in for those that are absent. Faults go to the table. What must hold between tables is rules.h.
#include "plan/fields.h"
#include "plan/plan.h"

namespace peelbook::plan {

void complete(Fields& f, Site& site);
void complete(Fields& f, const Shift& shift);
void complete(Fields& f, Logger& logger);
void needs_columns(Fields& f, const Logger& logger);
void complete(Fields& f, const Equipment& piece);
void complete(Fields& f, const Cleaning& cleaning);
void complete(Fields& f, const ReferenceDose& dose);

void complete(Fields&, Material& material);
void is_of(Fields& f, const Material::Protein& protein, const Material& material);
void complete(Fields& f, const FormulaItem& item);
void complete(Fields& f, Product& product);
void complete(Fields& f, Label& label);

void complete(Fields& f, Point& point);
void complete(Fields& f, const CoolingLimit& cooling);
void complete(Fields& f, const LabelLimit& label);
bool has_bound(Fields& f, const std::string& example);  // one of least and most
void needs_study(Fields& f);
void needs_foods(Fields& f, const LethalityLimit& heat);

}  // namespace peelbook::plan
