#include "site/record/weighed.h"

#include <algorithm>

#include "fold/weigh_sheet.h"
#include "judge/judge.h"

namespace peelbook::site {
namespace {

std::int64_t used_of(fold::Ledger& ledger, book::LotId into, const std::string& item) {
    std::int64_t sum = 0;
    for (const auto& use : ledger.rows().uses_into(into)) {
        const auto from = ledger.rows().lot(use.from_lot);
        if (from && from->item == item) sum += use.mass_mg.value_or(0);
    }
    return sum;
}

// Of a lot, or of what the vessel of that name holds; empty: neither.
std::string item_of(fold::Ledger& ledger, const std::string& code, Instant at) {
    if (const auto* vessel = ledger.plan_at(at).plan->vessel(code)) return vessel->holds;
    const auto lot = ledger.rows().lot(code);
    return lot ? lot->item : "";
}

}  // namespace

std::optional<std::string> weighed_line(fold::Ledger& ledger, const record::Used& used, Instant at) {
    const auto into = ledger.rows().lot(used.into);
    const std::string item = item_of(ledger, used.lot, at);
    if (!into || into->kind != LotKind::batch || item.empty()) return {};
    const auto governing = ledger.plan_version(into->plan_seq);
    const auto* product = governing.plan->product(into->item);
    const auto maker = ledger.effective(into->id);
    const auto* started = std::get_if<record::Started>(&maker.says);
    if (!product || !started) return {};
    const auto sheet = fold::weigh_sheet(*product, *started);
    if (!sheet) return {};
    const auto wanted = std::find_if(sheet->items.begin(), sheet->items.end(), [&](const auto& w) { return w.item == item; });
    if (wanted == sheet->items.end()) return {};
    const judge::ItemUse so_far{item, governing.plan->name_of(item), wanted->mass_mg, used_of(ledger, into->id, item), wanted->optional};
    const auto finding = judge::judge_item(so_far, product->tolerance_milli_percent, at);
    if (!finding) return {};
    if (finding->verdict == judge::Verdict::deviation) return finding->detail;
    return so_far.name + ": " + mass_text(so_far.used_mg) + " so far of " + mass_text(so_far.wanted_mg) + ", " +
           mass_text(so_far.wanted_mg - so_far.used_mg) + " to come";
}

}  // namespace peelbook::site
