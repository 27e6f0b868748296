#include "record/tree.h"

#include <nlohmann/json.hpp>

namespace peelbook::record {
namespace {

// Takes the parser's events one by one. Every refusal is thrown, so that it can say what was found.
class Builder final : public nlohmann::json_sax<nlohmann::json> {
  public:
    explicit Builder(std::vector<Node>& nodes) : nodes_(nodes) {}

    bool null() override { throw Unreadable("no null" + where()); }
    bool boolean(bool value) override {
        add(Node::Type::truth).number = value ? 1 : 0;
        return true;
    }
    bool number_integer(std::int64_t value) override {
        if (value <= -number_bound || value >= number_bound) throw Unreadable("numbers below 2^53" + where());
        add(Node::Type::number).number = value;
        return true;
    }
    bool number_unsigned(std::uint64_t value) override {
        if (value >= static_cast<std::uint64_t>(number_bound)) throw Unreadable("numbers below 2^53" + where());
        add(Node::Type::number).number = static_cast<std::int64_t>(value);
        return true;
    }
    bool number_float(double, const std::string& text) override {
        throw Unreadable("whole numbers below 2^53 only, and '" + text + "' is not" + where());
    }
    bool string(std::string& value) override {
        add(Node::Type::text).text = std::move(value);
        return true;
    }
    bool binary(nlohmann::json::binary_t&) override { throw Unreadable("no binary"); }
    bool start_object(std::size_t) override { return open(Node::Type::object); }
    bool start_array(std::size_t) override { return open(Node::Type::list); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }

    bool key(std::string& value) override {
        std::string& last = last_keys_.back();
        if (value.empty()) throw Unreadable("keys that are not empty");
        if (value == last) throw Unreadable("each key once, and '" + value + "' stands twice");
        if (value < last) throw Unreadable("keys in byte order, and '" + value + "' follows '" + last + "'");
        last = value;
        next_key_ = std::move(value);
        return true;
    }
    bool parse_error(std::size_t byte, const std::string&, const nlohmann::detail::exception&) override {
        throw Unreadable("valid JSON in UTF-8; it breaks off at byte " + std::to_string(byte));
    }

  private:
    std::string where() const { return next_key_.empty() ? "" : " (at '" + next_key_ + "')"; }

    Node& add(Node::Type type) {
        Node& node = nodes_.emplace_back();
        node.type = type;
        node.key = std::move(next_key_);
        next_key_.clear();
        node.end = nodes_.size();
        return node;
    }
    bool open(Node::Type type) {
        add(type);
        open_.push_back(nodes_.size() - 1);
        last_keys_.emplace_back();
        return true;
    }
    bool close() {
        nodes_[open_.back()].end = nodes_.size();
        open_.pop_back();
        last_keys_.pop_back();
        return true;
    }

    std::vector<Node>& nodes_;
    std::vector<std::size_t> open_;
    std::vector<std::string> last_keys_;  // of each open object, to see order and repetition
    std::string next_key_;
};

}  // namespace

Tree Tree::parse(std::string_view json) {
    Tree tree;
    tree.nodes_.reserve(24);
    Builder builder(tree.nodes_);
    nlohmann::json::sax_parse(json.begin(), json.end(), &builder);
    return tree;
}

std::size_t Tree::member(std::size_t object, std::string_view key) const {
    for (std::size_t at = object + 1; at < nodes_[object].end; at = nodes_[at].end)
        if (nodes_[at].key == key) return at;
    return 0;
}

}  // namespace peelbook::record
