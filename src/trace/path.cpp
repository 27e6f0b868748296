// One way from a lot to another, for showing a reason.
#include <algorithm>

#include "trace/network.h"

namespace peelbook::trace {
namespace {

// Fewest uses from `from` to `to`, by breadth; only sure uses when `sure_only`. Empty when there is no way.
std::vector<LotId> shortest(const Network& network, const Arrows& onward, Node from, Node to, bool sure_only) {
    std::vector<Node> cause(network.size(), no_node);
    cause[at(from)] = from;
    std::vector<Node> queue{from};
    for (std::size_t i = 0; i < queue.size() && cause[at(to)] == no_node; ++i) {
        for (const Arrow& arrow : onward.of(queue[i])) {
            if (cause[at(arrow.node)] != no_node || (sure_only && !network.use(arrow).sure)) continue;
            cause[at(arrow.node)] = queue[i];
            queue.push_back(arrow.node);
        }
    }
    if (cause[at(to)] == no_node) return {};
    std::vector<LotId> lots{network.numbers.id_of(to)};
    for (Node node = to; node != from; node = cause[at(node)]) {
        lots.push_back(network.numbers.id_of(cause[at(node)]));
    }
    std::reverse(lots.begin(), lots.end());
    return lots;
}

}  // namespace

std::vector<LotId> path(const Graph& graph, LotId from, LotId to) {
    const Network network(graph);
    const Node first = network.numbers.find(from);
    const Node last = network.numbers.find(to);
    if (first == no_node || last == no_node) return {};
    const Arrows onward(network.size(), network.from, network.into);
    std::vector<LotId> lots = shortest(network, onward, first, last, true);
    if (lots.empty()) lots = shortest(network, onward, first, last, false);
    return lots;
}

namespace {

// Of each lot that waits for another one for ever, one that it waits for; no_node for the rest. All on or behind a cycle wait.
std::vector<Node> waiting_for(const Network& network) {
    const Arrows onward(network.size(), network.from, network.into);
    std::vector<std::int32_t> inputs(network.size(), 0);
    for (const Node into : network.into) ++inputs[at(into)];
    std::vector<Node> free;
    for (Node node = 0; node < static_cast<Node>(network.size()); ++node) {
        if (inputs[at(node)] == 0) free.push_back(node);
    }
    for (std::size_t i = 0; i < free.size(); ++i) {
        for (const Arrow& arrow : onward.of(free[i])) {
            if (--inputs[at(arrow.node)] == 0) free.push_back(arrow.node);
        }
    }
    std::vector<Node> cause(network.size(), no_node);
    for (std::size_t use = 0; use < network.into.size(); ++use) {
        if (inputs[at(network.from[use])] > 0) cause[at(network.into[use])] = network.from[use];
    }
    return cause;
}

}  // namespace

std::vector<LotId> cycle_in(const Graph& graph) {
    const Network network(graph);
    const std::vector<Node> cause = waiting_for(network);
    const auto stuck = std::find_if(cause.begin(), cause.end(), [](Node node) { return node != no_node; });
    if (stuck == cause.end()) return {};
    Node node = *stuck;
    for (std::size_t i = 0; i < network.size(); ++i) node = cause[at(node)];  // from cause to cause ends on the cycle
    std::vector<LotId> lots;
    const Node first = node;
    do {
        lots.push_back(network.numbers.id_of(node));
        node = cause[at(node)];
    } while (node != first);
    std::reverse(lots.begin(), lots.end());
    return lots;
}

std::vector<LotId> cycle_closed_by(const Graph& graph, LotId into, LotId from) {
    if (into == from) return {into};
    return path(graph, into, from);
}

}  // namespace peelbook::trace
