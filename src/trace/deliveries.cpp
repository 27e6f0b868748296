// Who got what, told in the unit that can be read on the goods: the printed code.
#include <algorithm>
#include <array>
#include <deque>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "trace/network.h"

namespace peelbook::trace {
namespace {

constexpr std::string_view between = ", ";

// Whether `word` is one of the words of "a, b".
bool is_listed(std::string_view text, std::string_view word) {
    for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
        const std::string_view before = text.substr(0, at), after = text.substr(at + word.size());
        if ((before.empty() || before.ends_with(between)) && (after.empty() || after.starts_with(between))) return true;
    }
    return false;
}

void append(std::string& text, std::string_view word) {
    if (!text.empty()) text += between;
    text += word;
}

// "a, b" without repeats, in order of arrival.
void list(std::string& text, std::string_view word) {
    if (!word.empty() && !is_listed(text, word)) append(text, word);
}

// Goods without a printed code are told apart by our own lot code, ways out without a partner by the way.
using LineKey = std::array<std::string_view, 5>;

LineKey key_of(const Lot& lot, std::string_view partner, std::string_view way) {
    const std::string_view none;
    return {partner, lot.printed_code, lot.printed_code.empty() ? std::string_view(lot.code) : none, lot.item,
            partner.empty() ? way : none};
}

}  // namespace

struct Deliveries::Impl {
    // Names as numbers, so that a line is told apart by two numbers and not by five texts.
    class Names {
      public:
        std::int32_t number(std::string_view name) {
            const auto known = numbers_.find(name);
            if (known != numbers_.end()) return known->second;
            const auto fresh = static_cast<std::int32_t>(numbers_.size());
            numbers_.emplace(names_.emplace_back(name), fresh);
            return fresh;
        }
        const std::string& name(std::int32_t number) const { return names_[static_cast<std::size_t>(number)]; }

      private:
        std::deque<std::string> names_;  // where they are put they stay
        std::unordered_map<std::string_view, std::int32_t> numbers_;
    };
    struct Affected {
        const Lot* lot = nullptr;
        bool is = false, certain = false;
        std::int32_t goods = -1;  // number of its item and printed code, once it is asked for
    };

    // What has to wait until all are there: a group lists its lots, ways and documents in the order of time.
    struct Line {
        std::int64_t happened, seq;
        Node lot;
        Way way;
        std::uint32_t document, document_size;  // in `documents`

        bool operator<(const Line& other) const { return std::tie(happened, seq) < std::tie(other.happened, other.seq); }
    };

    struct Group {
        Delivery delivery;
        const Lot* lot;  // of one of its lines; of all the same item and printed code
        Way way;         // of the same line
        std::vector<Line> lines;

        LineKey key() const { return key_of(*lot, delivery.partner, word(way)); }
    };

    LotNumbers numbers;
    std::vector<Affected> affected;  // by node
    std::deque<Group> groups;        // where they are put they stay
    std::unordered_map<std::int64_t, Group*> places;
    Names partners, goods;
    std::string documents, key;

    std::int32_t goods_of(Affected& lot) {
        if (lot.goods >= 0) return lot.goods;
        key.clear();
        for (const std::string_view part : key_of(*lot.lot, {}, {})) key.append(part).push_back('\0');
        return lot.goods = goods.number(key);
    }

    // Hashing first and sorting the few groups of the answer costs less than sorting every shipping line by its names.
    Group& group_of(Affected& lot, const Move& move) {
        const Way way = move.left_by.value_or(move.way);
        const std::int32_t receiver = move.partner.empty() ? -1 - static_cast<std::int32_t>(way) : partners.number(move.partner);
        Group*& group = places[(std::int64_t{goods_of(lot)} << 32) + receiver];
        if (group) return *group;
        group = &groups.emplace_back(Group{{}, lot.lot, way, {}});
        group->delivery.partner = move.partner;
        group->delivery.partner_name = move.partner_name;
        group->delivery.printed_code = lot.lot->printed_code;
        group->delivery.item_name = lot.lot->name;
        group->delivery.certain = false;
        return *group;
    }

    void list_line(const Line& line, Delivery& delivery, bool lot_is_listed) const {
        if (!lot_is_listed) append(delivery.lot_code, affected[at(line.lot)].lot->code);
        if (line.way == Way::returned) return;
        const std::string_view way = word(line.way);
        const bool first_one = delivery.way.empty();
        if (delivery.way != way) list(delivery.way, way);
        list(delivery.document, std::string_view(documents).substr(line.document, line.document_size));
        delivery.first = first_one ? line.happened : std::min(delivery.first, line.happened);
        delivery.last = first_one ? line.happened : std::max(delivery.last, line.happened);
    }
};

Deliveries::Deliveries(const std::vector<Reached>& reached, const Graph& graph)
    : impl_(std::make_unique<Impl>(Impl{LotNumbers(graph.lots.size()), {}, {}, {}, {}, {}, {}, {}})) {
    auto& affected = impl_->affected;
    affected.reserve(graph.lots.size());
    for (const Lot& lot : graph.lots) {
        if (impl_->numbers.add(lot.id) == static_cast<Node>(affected.size())) affected.push_back({&lot, false, false, -1});
    }
    std::unordered_set<std::string_view> codes;
    for (const Reached& r : reached) {
        const Node node = impl_->numbers.find(r.lot);
        if (node == no_node) continue;
        Impl::Affected& lot = affected[at(node)];
        lot = {lot.lot, true, r.certain, -1};
        if (!lot.lot->printed_code.empty()) codes.insert(lot.lot->printed_code);
    }
    // As possible every other one that bears a reached lot's printed code: batches that share a code cannot be told apart.
    for (auto& lot : affected) lot.is = lot.is || codes.contains(lot.lot->printed_code);
}
Deliveries::~Deliveries() = default;

void Deliveries::add(const Move& move) {
    Impl& all = *impl_;
    const Node node = all.numbers.find(move.lot);
    if (node == no_node || !all.affected[at(node)].is || feeds_nobody(move.way)) return;
    Impl::Affected& lot = all.affected[at(node)];
    Impl::Group& group = all.group_of(lot, move);
    Delivery& delivery = group.delivery;
    const bool back = move.way == Way::returned;
    (back ? delivery.returned_pieces : delivery.pieces) += move.pieces.value_or(0);
    (back ? delivery.returned_mg : delivery.mass_mg) += move.mass_mg.value_or(0);
    if (!back) delivery.certain = delivery.certain || (lot.certain && move.sure);
    group.lines.push_back({move.happened, move.seq, node, move.way, static_cast<std::uint32_t>(all.documents.size()),
                           static_cast<std::uint32_t>(move.document.size())});
    all.documents += move.document;
}

std::vector<Delivery> Deliveries::all() {
    std::vector<const Impl::Group*> listed_in(impl_->affected.size(), nullptr);  // by node: the last group that lists it
    std::vector<std::pair<LineKey, Delivery*>> order;
    order.reserve(impl_->groups.size());
    for (Impl::Group& group : impl_->groups) {
        std::sort(group.lines.begin(), group.lines.end());
        group.delivery.first = group.delivery.last = group.lines.front().happened;
        for (const Impl::Line& line : group.lines) {
            impl_->list_line(line, group.delivery, std::exchange(listed_in[at(line.lot)], &group) == &group);
        }
        order.emplace_back(group.key(), &group.delivery);
    }
    std::sort(order.begin(), order.end());
    std::vector<Delivery> result;
    result.reserve(order.size());
    for (const auto& [key, delivery] : order) result.push_back(std::move(*delivery));
    return result;
}

std::vector<Delivery> deliveries(const std::vector<Reached>& reached, const Graph& graph, const std::vector<Move>& moves) {
    Deliveries all(reached, graph);
    for (const Move& move : moves) all.add(move);
    return all.all();
}

}  // namespace peelbook::trace
