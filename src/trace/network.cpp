#include "trace/network.h"

#include <bit>

namespace peelbook::trace {
LotNumbers::LotNumbers(std::size_t about) : slots_(std::bit_ceil(2 * about + 2), no_node) { ids_.reserve(about); }

void LotNumbers::grow() {
    slots_.assign(2 * slots_.size(), no_node);
    for (std::size_t i = 0; i < ids_.size(); ++i) slots_[slot_of(ids_[i])] = static_cast<Node>(i);
}

std::size_t LotNumbers::slot_of(LotId id) const {
    // Fibonacci hashing: 2^64 over the golden ratio spreads numbers that follow one another (Knuth,
    // TAOCP 6.4).
    const std::uint64_t mixed = static_cast<std::uint64_t>(id) * 0x9E3779B97F4A7C15u;
    const std::size_t mask = slots_.size() - 1;
    std::size_t slot = static_cast<std::size_t>(mixed >> 32) & mask;
    while (slots_[slot] != no_node && ids_[at(slots_[slot])] != id) slot = (slot + 1) & mask;
    return slot;
}

Node LotNumbers::add(LotId id) {
    const std::size_t slot = slot_of(id);
    if (slots_[slot] != no_node) return slots_[slot];
    const auto added = static_cast<Node>(ids_.size());
    slots_[slot] = added;
    ids_.push_back(id);
    if (2 * ids_.size() > slots_.size()) grow();
    return added;
}

Node LotNumbers::find(LotId id) const { return slots_[slot_of(id)]; }

Arrows::Arrows(std::size_t nodes, const std::vector<Node>& ends, const std::vector<Node>& others)
    : first_(nodes + 1, 0), arrows_(ends.size()) {
    for (const Node end : ends) ++first_[at(end) + 1];
    for (std::size_t i = 1; i < first_.size(); ++i) first_[i] += first_[i - 1];
    std::vector<std::int32_t> next(first_.begin(), first_.end() - 1);
    for (std::size_t i = 0; i < ends.size(); ++i) {
        arrows_[static_cast<std::size_t>(next[at(ends[i])]++)] = {others[i], static_cast<std::int32_t>(i)};
    }
}

std::span<const Arrow> Arrows::of(Node node) const {
    const auto begin = static_cast<std::size_t>(first_[at(node)]);
    const auto end = static_cast<std::size_t>(first_[at(node) + 1]);
    return {arrows_.data() + begin, end - begin};
}

Network::Network(const Graph& g, const std::vector<LotId>& also) : graph(g), numbers(g.lots.size() + also.size()) {
    lot_at.reserve(g.lots.size());
    for (std::size_t i = 0; i < g.lots.size(); ++i) {
        const Node node = numbers.add(g.lots[i].id);
        if (at(node) == lot_at.size()) lot_at.push_back(static_cast<std::int32_t>(i));
    }
    into.reserve(g.uses.size());
    from.reserve(g.uses.size());
    for (const Use& use : g.uses) {  // those into one lot mostly stand side by side
        const bool as_before = !into.empty() && numbers.id_of(into.back()) == use.into;
        into.push_back(as_before ? into.back() : numbers.add(use.into));
        from.push_back(numbers.add(use.from));
    }
    for (const LotId id : also) numbers.add(id);
    lot_at.resize(numbers.size(), -1);
}

const Lot* Network::lot(Node node) const {
    const std::int32_t i = lot_at[at(node)];
    return i < 0 ? nullptr : &graph.lots[static_cast<std::size_t>(i)];
}

}  // namespace peelbook::trace
