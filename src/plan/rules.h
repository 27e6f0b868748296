#pragma once
// What must hold between the parts of a plan, once every part is read. Each function reports to `faults` by
// the path of the value (faults.h); none changes the plan.
#include "plan/faults.h"
#include "plan/plan.h"

namespace peelbook::plan {

void check_house(const Plan& plan, Faults& faults);  // zone, places, vessels, instruments, loggers, roles, hazards; ids there twice
void check_goods(const Plan& plan,
                 Faults& faults);                            // ids and codes of materials and products, steps, labels named
void check_formulas(const Plan& plan, Faults& faults);       // what a formula adds up to, and cycles
void check_labels(const Plan& plan, Faults& faults);         // declared against what the formula brings
void check_equipment(const Plan& plan, Faults& faults);      // equipment, cleanings, reference doses
void check_points(const Plan& plan, Faults& faults);         // where a point is read, by whom, with what
void check_limits(const Plan& plan, Faults& faults);         // limits that contradict themselves
void check_readings(const Plan& plan, Faults& faults);       // what a critical point is read with, and what a reading can be
void check_market_limits(const Plan& plan, Faults& faults);  // gluten and sulphites: labels to judge by, claims that are judged

// Ids of a list, for "did you mean".
template <class T> std::vector<std::string> ids_of(const std::vector<T>& list) {
    std::vector<std::string> ids;
    for (const T& item : list) ids.push_back(item.id);
    return ids;
}
std::vector<std::string> item_ids(const Plan& plan);  // materials, then products

// Path of the i-th table of a section: "point/3".
std::string path_at(std::string_view section, std::size_t i);

// Reports a name that is not among `known`: "product 'x' line: no place 'lien-1'".
void check_known(Faults& faults, const std::string& path, const std::string& what, std::string_view kind, const std::string& name,
                 const std::vector<std::string>& known);

void check_all_known(Faults& faults, const std::string& path, const std::string& what, std::string_view kind,
                     const std::vector<std::string>& names, const std::vector<std::string>& known);  // path/0, path/1, ...

// Allergen ids that the formula's materials specify, through every depth. A product used in itself counts
// once.
std::vector<std::string> allergens_of_formula(const Plan& plan, const Product& product);

}  // namespace peelbook::plan
