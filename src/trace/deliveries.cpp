// Who got what, told in the unit that can be read on the goods: the printed code.
#include <algorithm>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <unordered_set>

#include "trace/network.h"

namespace peelbook::trace {
namespace {

// Not given to anybody who might eat it.
bool stays_in_house(std::string_view way) {
    return way == "waste" || way == "sample";
}

struct Affected {
    const Lot* lot = nullptr;
    bool certain = false;
};

// By node: the reached lots, and as possible every other one that bears a reached
// lot's printed code: batches that share a code cannot be told apart.
std::vector<Affected> affected_lots(const std::vector<Reached>& reached,
                                    const std::vector<const Lot*>& lots, const LotNumbers& numbers) {
    std::vector<Affected> affected(lots.size());
    std::unordered_set<std::string_view> codes;
    for (const Reached& r : reached) {
        const Node node = numbers.find(r.lot);
        if (node == no_node) continue;
        const Lot* lot = lots[static_cast<std::size_t>(node)];
        affected[static_cast<std::size_t>(node)] = {lot, r.certain};
        if (!lot->printed_code.empty()) codes.insert(lot->printed_code);
    }
    for (std::size_t i = 0; i < affected.size(); ++i) {
        if (!affected[i].lot && codes.contains(lots[i]->printed_code)) affected[i] = {lots[i], false};
    }
    return affected;
}

struct Line {
    const Lot* lot;
    const Move* move;
    bool certain;

    // Goods without a printed code are told apart by our own lot code, ways out without a partner by the way.
    auto key() const {
        const std::string_view none;
        return std::tuple<std::string_view, std::string_view, std::string_view, std::string_view,
                          std::string_view>(
            move->partner, lot->printed_code, lot->printed_code.empty() ? std::string_view(lot->code) : none,
            lot->item, move->partner.empty() ? std::string_view(move->way) : none);
    }
};

constexpr std::string_view between = ", ";

// Whether `word` is one of the words of "a, b".
bool is_listed(std::string_view text, std::string_view word) {
    for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
        const std::string_view before = text.substr(0, at), after = text.substr(at + word.size());
        if ((before.empty() || before.ends_with(between)) && (after.empty() || after.starts_with(between))) return true;
    }
    return false;
}

// "a, b" without repeats, in order of arrival.
void list(std::string& text, const std::string& word) {
    if (word.empty() || is_listed(text, word)) return;
    if (!text.empty()) text += between;
    text += word;
}

void add(const Line& line, Delivery& delivery) {
    const Move& move = *line.move;
    list(delivery.lot_code, line.lot->code);
    if (move.way == "returned") {
        delivery.returned_pieces += move.pieces.value_or(0);
        delivery.returned_mg += move.mass_mg.value_or(0);
        return;
    }
    const bool first_one = delivery.way.empty();
    list(delivery.way, move.way);
    list(delivery.document, move.document);
    delivery.pieces += move.pieces.value_or(0);
    delivery.mass_mg += move.mass_mg.value_or(0);
    delivery.first = first_one ? move.happened : std::min(delivery.first, move.happened);
    delivery.last = first_one ? move.happened : std::max(delivery.last, move.happened);
    delivery.certain = delivery.certain || line.certain;
}

Delivery opened(const Line& line) {
    Delivery delivery;
    delivery.partner = line.move->partner;
    delivery.partner_name = line.move->partner_name;
    delivery.printed_code = line.lot->printed_code;
    delivery.item_name = line.lot->name;
    delivery.first = delivery.last = line.move->happened;
    delivery.certain = false;
    return delivery;
}

}  // namespace

namespace {

// All that goes to one line of the answer, in order of time.
using Gathered = std::vector<Line>;

// Hashing first and sorting the few lines of the answer costs less than sorting every shipping line by its names.
std::vector<Gathered> gathered(const std::vector<Line>& lines) {
    std::unordered_map<std::string, std::size_t> place;
    std::vector<Gathered> groups;
    std::string key;
    for (const Line& line : lines) {
        key.clear();
        std::apply([&](const auto&... part) { ((key.append(part), key.push_back('\0')), ...); }, line.key());
        const auto [at, fresh] = place.try_emplace(key, groups.size());
        if (fresh) groups.emplace_back();
        groups[at->second].push_back(line);
    }
    for (Gathered& group : groups) {
        std::sort(group.begin(), group.end(), [](const Line& a, const Line& b) {
            return std::tie(a.move->happened, a.move->seq) < std::tie(b.move->happened, b.move->seq);
        });
    }
    std::sort(groups.begin(), groups.end(),
              [](const Gathered& a, const Gathered& b) { return a.front().key() < b.front().key(); });
    return groups;
}

}  // namespace

std::vector<Delivery> deliveries(const std::vector<Reached>& reached, const Graph& graph,
                                 const std::vector<Move>& moves) {
    LotNumbers numbers(graph.lots.size());
    std::vector<const Lot*> lots;  // by node
    for (const Lot& lot : graph.lots) {
        if (numbers.add(lot.id) == static_cast<Node>(lots.size())) lots.push_back(&lot);
    }
    const std::vector<Affected> affected = affected_lots(reached, lots, numbers);
    std::vector<Line> lines;
    for (const Move& move : moves) {
        const Node node = numbers.find(move.lot);
        if (node == no_node || !affected[static_cast<std::size_t>(node)].lot || stays_in_house(move.way))
            continue;
        const Affected& a = affected[static_cast<std::size_t>(node)];
        lines.push_back({a.lot, &move, a.certain && move.sure});
    }
    std::vector<Delivery> result;
    for (const Gathered& group : gathered(lines)) {
        result.push_back(opened(group.front()));
        for (const Line& line : group) add(line, result.back());
    }
    return result;
}

}  // namespace peelbook::trace
