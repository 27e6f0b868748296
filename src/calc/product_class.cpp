#include "calc/product_class.h"

#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

bool needs_none_in_table_a(std::int64_t ph, std::int64_t aw) {
    if (aw <= 920'000) return true;
    if (aw <= 950'000) return ph <= 5'600;
    return ph <= 4'600;
}

bool needs_none_in_table_b(std::int64_t ph, std::int64_t aw) {
    if (aw < 880'000) return true;
    if (aw <= 900'000) return ph <= 5'000;
    if (aw <= 920'000) return ph <= 4'600;
    return ph < 4'200;
}

}  // namespace

Result<ProductClass> classify(ClassTable table, std::int64_t ph_milli, std::int64_t aw_micro) {
    if (ph_milli < 0 || ph_milli > 14'000) {
        return Refusal{"a pH of " + number_text(static_cast<double>(ph_milli) / 1e3), "0 to 14", "measure it again", {}};
    }
    if (aw_micro < 0 || aw_micro > 1'000'000) {
        return Refusal{"a water activity of " + number_text(static_cast<double>(aw_micro) / 1e6), "0 to 1", "measure it again", {}};
    }
    const bool none = table == ClassTable::heat_treated_and_packaged ? needs_none_in_table_a(ph_milli, aw_micro)
                                                                     : needs_none_in_table_b(ph_milli, aw_micro);
    return none ? ProductClass::no_control_needed : ProductClass::assessment;
}

}  // namespace peelbook::calc
