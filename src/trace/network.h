#pragma once
// The lot graph under dense numbers 0, 1, 2, ..., so that a trace of 10,000 lots works on plain vectors:
// looking a lot up in a map at each use costs more than the trace itself. Inside the layer only.
#include <cstdint>
#include <span>
#include <vector>

#include "trace/trace.h"

namespace peelbook::trace {

using Node = std::int32_t;
inline constexpr Node no_node = -1;
inline std::size_t at(Node node) {  // its place in a list with one element a node
    return static_cast<std::size_t>(node);
}

// LotId to Node: open addressing, at most half full, linear steps.
class LotNumbers {
  public:
    explicit LotNumbers(std::size_t about);  // how many there will be

    Node add(LotId id);         // its number, a new one if it has none
    Node find(LotId id) const;  // no_node when unknown
    LotId id_of(Node node) const { return ids_[static_cast<std::size_t>(node)]; }
    std::size_t size() const { return ids_.size(); }

  private:
    std::size_t slot_of(LotId id) const;  // where it is, or the free slot where it belongs
    void grow();
    std::vector<Node> slots_;
    std::vector<LotId> ids_;
};

struct Arrow {
    Node node = no_node;   // at the other end
    std::int32_t use = 0;  // index into Graph::uses
};

// All arrows of a node side by side, in the order of Graph::uses.
class Arrows {
  public:
    // `ends[i]` is where use i is filed, `others[i]` its other end.
    Arrows(std::size_t nodes, const std::vector<Node>& ends, const std::vector<Node>& others);
    std::span<const Arrow> of(Node node) const;

  private:
    std::vector<std::int32_t> first_;
    std::vector<Arrow> arrows_;
};

// Every lot that the graph, its uses or `also` name has a node. The graph must outlive the network.
class Network {
  public:
    explicit Network(const Graph& graph, const std::vector<LotId>& also = {});

    std::size_t size() const { return numbers.size(); }
    const Lot* lot(Node node) const;  // nullptr when only a use names it
    const Use& use(const Arrow& arrow) const { return graph.uses[static_cast<std::size_t>(arrow.use)]; }

    const Graph& graph;
    LotNumbers numbers;
    std::vector<std::int32_t> lot_at;  // by node: index into Graph::lots, or -1
    std::vector<Node> into, from;      // by use
};

}  // namespace peelbook::trace
