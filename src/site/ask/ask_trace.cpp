// Trace questions, and the lots that a word names.
#include "site/ask/ask_trace.h"

#include "base/text.h"
#include "site/ask/trace_answer.h"
#include "site/impl.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

// What a vessel held, and the lots of a supply.
std::vector<book::Lot> lots_of_source(fold::Ledger& ledger, const std::string& word) {
    const auto governing = ledger.plan_at({fold::for_ever});
    if (governing.plan->vessel(word)) return ledger.rows().blends_of(word);
    const auto* material = governing.plan->material(word);
    if (material && material->supply) return ledger.rows().lots_of_item(word);
    return {};
}

}  // namespace

Result<std::vector<book::Lot>> named_lots(fold::Ledger& ledger, const std::string& word, const std::string& material) {
    auto& rows = ledger.rows();
    std::vector<book::Lot> found;
    if (auto lot = rows.lot(word)) found.push_back(*lot);
    if (found.empty()) found = rows.lots_with_printed_code(word);
    if (found.empty()) found = lots_of_source(ledger, word);
    if (found.empty()) found = rows.lots_by_supplier(word);
    if (const auto cut = word.find(':'); found.empty() && cut != std::string::npos) {
        for (auto& lot : rows.lots_by_supplier(word.substr(cut + 1))) {
            if (lot.partner == word.substr(0, cut)) found.push_back(std::move(lot));
        }
    }
    if (!material.empty()) std::erase_if(found, [&](const auto& lot) { return lot.item != material; });
    if (!found.empty()) return found;
    Draft nothing;
    Request r{ledger, nothing, {}, {}, {}, 0};
    auto refused = known_lot(r, word);
    return refused.ok() ? Refusal{"lot '" + shown(word) + "' of " + material, "a lot of that material", "leave --material out", {}}
                        : refused.refusal();
}

Result<TraceAnswer> Site::trace_forward(const std::string& lot, const std::string& material, const TraceWindow& window) const {
    auto start = named_lots(impl_->ledger, lot, material);
    if (!start) return start.refusal();
    return answer_of(impl_->ledger, std::move(*start), true, window);
}

Result<TraceAnswer> Site::trace_back(const std::string& lot) const {
    auto start = named_lots(impl_->ledger, lot, "");
    if (!start) return start.refusal();
    return answer_of(impl_->ledger, std::move(*start), false);
}

}  // namespace peelbook::site
