// What a start lot reached, or what is behind it: fewest uses, certainty, and an order in which causes stand
// before effects.
#include <algorithm>
#include <queue>
#include <stdexcept>

#include "trace/network.h"
#include "trace/shares.h"

namespace peelbook::trace {
namespace {

constexpr int unreached = -1;

// Starts without repeats, as nodes.
std::vector<Node> start_nodes(const Network& network, const std::vector<LotId>& start) {
    std::vector<Node> nodes;
    for (const LotId id : start) nodes.push_back(network.numbers.find(id));
    std::sort(nodes.begin(), nodes.end());
    nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
    return nodes;
}

// Fewest uses from a start, by breadth; `unreached` for the rest.
std::vector<int> depths(const Network& network, const Arrows& onward, const std::vector<Node>& starts) {
    std::vector<int> depth(network.size(), unreached);
    for (const Node node : starts) depth[at(node)] = 0;
    std::vector<Node> queue = starts;
    for (std::size_t i = 0; i < queue.size(); ++i) {
        for (const Arrow& arrow : onward.of(queue[i])) {
            if (depth[at(arrow.node)] != unreached) continue;
            depth[at(arrow.node)] = depth[at(queue[i])] + 1;
            queue.push_back(arrow.node);
        }
    }
    return depth;
}

// A lot ready to be listed. Among those ready the one that happened first stands first (last, going back),
// then by id.
struct Ready {
    std::int64_t happened;
    LotId id;
    Node node;
    bool operator>(const Ready& other) const { return happened != other.happened ? happened > other.happened : id > other.id; }
};

class Ordering {
  public:
    Ordering(const Network& network, const Arrows& onward, const std::vector<int>& depth, bool backward)
        : network_(network), onward_(onward), depth_(depth), backward_(backward), waits_for_(depth.size(), 0) {
        for (Node node = 0; node < static_cast<Node>(depth.size()); ++node) {
            if (depth[at(node)] == unreached) continue;
            ++reached_;
            for (const Arrow& arrow : onward.of(node)) ++waits_for_[at(arrow.node)];
        }
    }

    std::vector<Node> run() {
        std::vector<Node> order;
        order.reserve(reached_);
        for (Node node = 0; node < static_cast<Node>(depth_.size()); ++node) {
            if (depth_[at(node)] != unreached && waits_for_[at(node)] == 0) make_ready(node);
        }
        while (!ready_.empty()) {
            const Node node = ready_.top().node;
            ready_.pop();
            order.push_back(node);
            for (const Arrow& arrow : onward_.of(node)) {
                if (--waits_for_[at(arrow.node)] == 0) make_ready(arrow.node);
            }
        }
        if (order.size() != reached_) refuse_cycle();
        return order;
    }

  private:
    void make_ready(Node node) {
        const Lot* lot = network_.lot(node);
        const std::int64_t happened = lot ? lot->happened : 0;
        const LotId id = network_.numbers.id_of(node);
        ready_.push({backward_ ? -happened : happened, backward_ ? -id : id, node});
    }

    // Every lot still waiting waits for another that does: going from cause to cause ends on the cycle.
    [[noreturn]] void refuse_cycle() const {
        std::vector<Node> cause(depth_.size(), no_node);
        Node node = no_node;
        for (Node waiting = 0; waiting < static_cast<Node>(depth_.size()); ++waiting) {
            if (waits_for_[at(waiting)] == 0) continue;
            for (const Arrow& arrow : onward_.of(waiting)) cause[at(arrow.node)] = waiting;
            node = waiting;
        }
        for (std::size_t i = 0; i < depth_.size(); ++i) node = cause[at(node)];
        const Lot* lot = network_.lot(node);
        throw std::logic_error("the lot graph holds a cycle through lot " +
                               (lot ? lot->code : std::to_string(network_.numbers.id_of(node))));
    }

    const Network& network_;
    const Arrows& onward_;
    const std::vector<int>& depth_;
    bool backward_;
    std::vector<std::int32_t> waits_for_;
    std::size_t reached_ = 0;
    std::priority_queue<Ready, std::vector<Ready>, std::greater<>> ready_;
};

// Depth, certainty and directness of the lots in `order`.
std::vector<Reached> described(const Network& network, const Arrows& onward, const std::vector<int>& depth,
                               const std::vector<Node>& order) {
    std::vector<std::uint8_t> certain(network.size(), 0), direct(network.size(), 0);
    std::vector<Reached> results;
    results.reserve(order.size());
    for (const Node node : order) {
        const bool start = depth[at(node)] == 0;
        if (start) certain[at(node)] = 1;
        for (const Arrow& arrow : onward.of(node)) {
            if (certain[at(node)] && network.use(arrow).sure) certain[at(arrow.node)] = 1;
            if (start) direct[at(arrow.node)] = 1;
        }
        Reached reached;
        reached.lot = network.numbers.id_of(node);
        reached.depth = depth[at(node)];
        reached.certain = certain[at(node)] != 0;
        reached.direct = direct[at(node)] != 0;
        results.push_back(reached);
    }
    return results;
}

}  // namespace

std::vector<Reached> forward(const Graph& graph, const std::vector<LotId>& start) {
    const Network network(graph, start);
    const Arrows onward(network.size(), network.from, network.into);
    const std::vector<int> depth = depths(network, onward, start_nodes(network, start));
    const std::vector<Node> order = Ordering(network, onward, depth, false).run();
    std::vector<Reached> results = described(network, onward, depth, order);
    add_shares(network, Arrows(network.size(), network.into, network.from), order, results);
    return results;
}

std::vector<Reached> back(const Graph& graph, const std::vector<LotId>& start) {
    const Network network(graph, start);
    const Arrows behind(network.size(), network.into, network.from);
    const std::vector<int> depth = depths(network, behind, start_nodes(network, start));
    const std::vector<Node> order = Ordering(network, behind, depth, true).run();
    return described(network, behind, depth, order);
}

}  // namespace peelbook::trace
