#include "fold/plan_rows.h"

#include "base/text.h"
#include "plan/words.h"

namespace peelbook::fold {

std::vector<book::PlanPoint> point_rows(Seq version, const plan::Plan& plan) {
    std::vector<book::PlanPoint> rows;
    for (const auto& p : plan.points) {
        rows.push_back({version, p.id, p.name, p.step, p.grade, p.measures, p.limit_text, p.how_often, p.who, p.basis, p.product_action,
                        p.process_action, plan::range_words(p.warn_least, p.warn_most)});
    }
    return rows;
}

std::vector<book::PlanItem> item_rows(Seq version, const plan::Plan& plan) {
    std::vector<book::PlanItem> rows;
    const auto add = [&](const char* sort, const std::string& id, const std::string& name, const std::string& detail,
                         const std::string& gs1 = {}, bool listed = false) {
        rows.push_back({version, sort, id, name, detail, gs1, listed ? 1 : 0});
    };
    for (const auto& m : plan.materials)
        add("material", m.id, m.name, joined(m.allergens, ", "), joined(m.gtins, " "), m.traceability_list);
    for (const auto& p : plan.products) add("product", p.id, p.name, p.sort, p.gtin, p.traceability_list);
    for (const auto& l : plan.labels) add("label", l.id, l.name, joined(l.declares, ", "));
    for (const auto& v : plan.vessels) add("vessel", v.id, v.name, v.model);
    for (const auto& p : plan.places)
        if (!plan.piece(p.id)) add("place", p.id, p.name, "");
    for (const auto& e : plan.equipment) add("equipment", e.id, e.name, joined(e.lines, ", "));
    for (const auto& c : plan.cleanings) add("cleaning", c.id, c.name, "clears " + joined(c.clears, ", "));
    for (const auto& i : plan.instruments) add("instrument", i.id, i.name, i.kind);
    for (const auto& h : plan.hazards) add("hazard", h.id, h.what, h.kind);
    const auto& s = plan.site;
    const bool both = !s.address.empty() && !s.phone.empty();
    add("site", "", s.name, s.address + (both ? ", " : "") + s.phone, s.gln, both);
    return rows;
}

}  // namespace peelbook::fold
