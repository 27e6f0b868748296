#include "fold/gate/strict.h"

#include <algorithm>

namespace peelbook::fold {
namespace {

bool no_lower(const std::optional<plan::Bound>& wanted, const std::optional<plan::Bound>& other) {
    return !wanted || (other && other->first.value >= wanted->first.value);
}
bool no_higher(const std::optional<plan::Bound>& wanted, const std::optional<plan::Bound>& other) {
    return !wanted || (other && other->first.value <= wanted->first.value);
}

}  // namespace

bool as_strict(const plan::Point& wanted, const plan::Point& other) {
    if (other.grade != Grade::critical || other.optional || other.step != wanted.step || other.window != wanted.window) return false;
    const auto* range = std::get_if<plan::RangeLimit>(&wanted.limit);
    const auto* also = std::get_if<plan::RangeLimit>(&other.limit);
    if (!range || !also) return other.id == wanted.id && other.limit_text == wanted.limit_text;
    return other.dimension == wanted.dimension && no_lower(range->least, also->least) && no_higher(range->most, also->most);
}

bool travels(Ledger& ledger, const book::Unsettled& open, book::LotId into) {
    auto& rows = ledger.rows();
    const auto source = rows.lot(open.source);
    const auto receiver = rows.lot(into);
    if (!source || !receiver) return false;
    const auto of_source = ledger.plan_version(source->plan_seq), of_receiver = ledger.plan_version(receiver->plan_seq);
    const auto* wanted = of_source.plan->point(open.point);
    const auto there = rows.unsettled(into);
    return wanted && std::any_of(there.begin(), there.end(), [&](const book::Unsettled& row) {
               const auto* other = row.source == into && !row.verdict ? of_receiver.plan->point(row.point) : nullptr;
               return other && as_strict(*wanted, *other);
           });
}

}  // namespace peelbook::fold
