#include "fold/queue.h"

#include <algorithm>

namespace peelbook::fold {

void Queue::add(const Subject& subject) {
    const auto [known, fresh] = waiting_.try_emplace({subject.rank, subject.lot, subject.id, subject.point}, subject.from, subject.until);
    if (fresh) return;
    auto& [from, until] = known->second;
    from = std::min(from, subject.from);
    until = std::max(until, subject.until);
}

void Queue::add(const Subjects& subjects) {
    for (const auto& subject : subjects) add(subject);
}

std::optional<Subject> Queue::take() {
    if (waiting_.empty()) return {};
    const auto first = waiting_.extract(waiting_.begin());
    const auto& [rank, lot, id, point] = first.key();
    return Subject{rank, lot, id, point, first.mapped().first, first.mapped().second};
}

}  // namespace peelbook::fold
