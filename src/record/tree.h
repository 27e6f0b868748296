#pragma once
// The parsed form of a body: a flat list of nodes in reading order, so that parsing costs few allocations and
// nothing above knows the JSON library. Only what the canonical form allows can stand here: whole numbers
// below 2^53 in magnitude, valid UTF-8, keys in byte order and no key twice. A null or a fraction is refused.
#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace peelbook::record {

inline constexpr std::int64_t number_bound = std::int64_t{1} << 53;  // magnitudes are below it (RFC 7493, section 2.2)

// Bytes that cannot be read as an entry; what() completes "wanted: ...". Stays inside this layer.
struct Unreadable : std::runtime_error {
    using std::runtime_error::runtime_error;
};

struct Node {
    enum class Type : std::uint8_t { number, text, truth, list, object };
    Type type = Type::number;
    std::string key;          // empty for the root and for members of a list
    std::string text;         // of a text
    std::int64_t number = 0;  // of a number; 0 or 1 of a truth value
    std::size_t end = 0;      // index just after the last node inside this one
};

class Tree {
  public:
    static Tree parse(std::string_view json);  // throws Unreadable

    const Node& operator[](std::size_t at) const { return nodes_[at]; }
    std::size_t size() const { return nodes_.size(); }
    // Index of the member with this key; 0 (the root is nobody's member) when there is none.
    std::size_t member(std::size_t object, std::string_view key) const;

  private:
    std::vector<Node> nodes_;
};

}  // namespace peelbook::record
