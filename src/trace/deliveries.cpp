// Who got what, told in the unit that can be read on the goods: the printed code.
#include <algorithm>
#include <set>
#include <string_view>
#include <tuple>

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

// The reached lots, and as possible every other lot of the graph that bears a reached lot's printed code:
// batches that share a code cannot be told apart.
std::vector<Affected> affected_lots(const std::vector<Reached>& reached, const Network& network) {
    std::vector<Affected> affected(network.size());
    std::set<std::string_view> codes;
    for (const Reached& r : reached) {
        const Node node = network.numbers.find(r.lot);
        const Lot* lot = node == no_node ? nullptr : network.lot(node);
        if (!lot) continue;
        affected[static_cast<std::size_t>(node)] = {lot, r.certain};
        if (!lot->printed_code.empty()) codes.insert(lot->printed_code);
    }
    for (const Lot& lot : network.graph.lots) {
        Affected& a = affected[static_cast<std::size_t>(network.numbers.find(lot.id))];
        if (!a.lot && codes.count(lot.printed_code) != 0) a = {&lot, false};
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

// "a, b" without repeats, in order of arrival.
void list(std::string& text, const std::string& word) {
    if (word.empty()) return;
    const std::string searched = ", " + text + ", ";
    if (searched.find(", " + word + ", ") != std::string::npos) return;
    text += text.empty() ? word : ", " + word;
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

std::vector<Delivery> deliveries(const std::vector<Reached>& reached, const Graph& graph,
                                 const std::vector<Move>& moves) {
    const Network network(graph);
    const std::vector<Affected> affected = affected_lots(reached, network);
    std::vector<Line> lines;
    for (const Move& move : moves) {
        const Node node = network.numbers.find(move.lot);
        if (node == no_node || !affected[static_cast<std::size_t>(node)].lot || stays_in_house(move.way))
            continue;
        const Affected& a = affected[static_cast<std::size_t>(node)];
        lines.push_back({a.lot, &move, a.certain && move.sure});
    }
    std::sort(lines.begin(), lines.end(), [](const Line& a, const Line& b) {
        return std::tuple_cat(a.key(), std::tuple(a.move->happened, a.move->seq)) <
               std::tuple_cat(b.key(), std::tuple(b.move->happened, b.move->seq));
    });
    std::vector<Delivery> result;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (i == 0 || lines[i].key() != lines[i - 1].key()) result.push_back(opened(lines[i]));
        add(lines[i], result.back());
    }
    return result;
}

}  // namespace peelbook::trace
