#include "site/record/reached.h"

#include <algorithm>

#include "base/text.h"
#include "fold/label.h"
#include "fold/ledger.h"
#include "judge/judge.h"
#include "site/record/at_place.h"

namespace peelbook::site {
namespace {

// The label that a finding of a pack is about: the one that it was packed under or, where another was read from it, that one.
const plan::Label* label_of(const plan::Plan& plan, const book::Lot& pack, const book::Finding& f) {
    if (f.point == judge::label_point) return plan.label(pack.label);
    const auto* point = plan.point(f.point);
    if (!point || !std::holds_alternative<plan::LabelLimit>(point->limit)) return nullptr;
    return plan.label(f.measured.substr(0, f.measured.find(',')));
}

// "undeclared milk, sesame"; empty where no label leaves out an allergen.
std::string undeclared(fold::Ledger& ledger, const book::Finding& f) {
    const auto pack = f.lot ? ledger.rows().lot(*f.lot) : std::nullopt;
    if (!pack || pack->kind != LotKind::pack) return {};
    const auto governing = ledger.plan_version(f.plan_seq);
    const auto* label = label_of(*governing.plan, *pack, f);
    if (!label) return {};
    std::vector<std::string> allergens;
    for (const auto& [allergen, from] : label_gaps(ledger, *governing.plan, *label, pack->item, {pack->id}).undeclared)
        allergens.push_back(allergen);
    return allergens.empty() ? "" : "undeclared " + joined(allergens, ", ");
}

std::vector<std::string> lots_of(fold::Ledger& ledger, const book::Finding& f) {
    std::vector<std::string> codes;
    const auto ids = f.lot ? std::vector{*f.lot} : is_of_device(ledger, f) ? passed_device(ledger, f) : stored_there(ledger, f);
    for (const auto id : ids) {
        if (const auto lot = ledger.rows().lot(id)) codes.push_back(lot->code);
    }
    return codes;
}

std::string recall_line(const std::string& what, const std::vector<std::string>& lots) {
    return "some of it is outside the house; decide on a recall: peelbook recall open " + joined(lots, " ") + " --hazard '" + what +
           "' --why '...'";
}

}  // namespace

void add_reached(fold::Ledger& ledger, Receipt& receipt) {
    std::vector<std::string> of_allergens, others;
    for (const auto& hold : receipt.holds) {
        const auto entry = ledger.effective(hold.seq);
        const auto* held = std::get_if<record::Held>(&entry.says);
        if (hold.customers.empty() || !held || !held->cause) continue;
        const auto f = ledger.rows().finding(held->cause->anchor, held->cause->point, held->cause->ord);
        const auto allergens = undeclared(ledger, *f);
        if (allergens.empty()) {
            others.push_back(recall_line(f->point + ": " + f->measured, lots_of(ledger, *f)));
        } else {
            of_allergens.push_back("ALLERGEN: " + recall_line(allergens, lots_of(ledger, *f)));
        }
    }
    auto& next = receipt.next;
    next.insert(next.end(), of_allergens.begin(), of_allergens.end());
    next.insert(next.end(), others.begin(), others.end());
    for (const auto& told : receipt.findings) {
        const auto& f = told.finding;
        if (f.lot || f.verdict < Verdict::missing || f.cleared_by || is_of_device(ledger, f)) continue;
        for (auto& line : stored_lines(ledger, f)) next.push_back(std::move(line));
    }
}

}  // namespace peelbook::site
