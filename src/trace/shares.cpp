#include "trace/shares.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace peelbook::trace {
namespace {

constexpr double mg_per_kilogram = 1e6;
constexpr double unlimited = std::numeric_limits<double>::infinity();
constexpr std::uint8_t is_blend = 1, is_packaging = 2, loses_nothing = 4;

// Of one reached lot. Shares are fractions, masses mg.
struct Portion {
    bool food = false;            // reached through food: counts below
    bool expected_known = false;  // of share and density
    double expected = 0;
    double density = 0;  // suspect mass a unit of mass of the lot
    double largest = 0;
    double most_mg = 0;  // suspect mass that could be in all of the lot
};

constexpr Portion of_start_lot{true, true, 1, 1, 1, unlimited};

// The sums over the uses into one lot.
struct Inputs {
    double weighed = 0;     // sum of mass
    double surely = 0;      // without possible uses of lots outside the trace
    double share_mass = 0;  // sum of mass x share_expected
    double suspect = 0;     // sum of mass x density
    double most = 0;
    double largest_of_any = 0;
    bool known = true;        // nothing unknown among the expected shares
    bool all_weighed = true;  // every use of a reached lot has a mass
    Node only_from = no_node;
    bool several = false;
};

class Sharing {
  public:
    Sharing(const Network& network, const Arrows& inputs)
        : network_(network), inputs_(inputs), traits_(network.size(), 0), portions_(network.size()) {
        for (Node node = 0; node < static_cast<Node>(network.size()); ++node) {
            const Lot* lot = network.lot(node);
            if (!lot) continue;
            traits_[at(node)] =
                static_cast<std::uint8_t>((lot->kind == LotKind::blend ? is_blend : 0) | (lot->packaging ? is_packaging : 0) |
                                          (is_part_of_a_lot(lot->kind) ? loses_nothing : 0));
        }
    }

    void start(Node node, Reached& result) {
        portions_[at(node)] = of_start_lot;
        result.share_expected = 1.0;
        result.share_largest = 1.0;
        result.suspect_mg = made_of(node);
        result.mg_per_kg = mg_per_kilogram;
    }

    void derive(Node node, Reached& result) {
        const Inputs sums = sum_up(node);
        Portion& portion = portions_[at(node)];
        if (sums.only_from == no_node && !sums.several) return;
        portion.food = touched(node);
        if (!portion.food) return;
        expect(node, sums, portion, result);
        bound(node, sums, portion);
        result.share_largest = portion.largest;
    }

  private:
    bool has(Node node, std::uint8_t trait) const { return (traits_[at(node)] & trait) != 0; }

    std::optional<std::int64_t> made_of(Node node) const {
        const Lot* lot = network_.lot(node);
        return lot ? lot->made_mg : std::nullopt;
    }

    bool touched(Node node) const {
        const auto uses = inputs_.of(node);
        return std::any_of(uses.begin(), uses.end(),
                           [&](const Arrow& arrow) { return portions_[at(arrow.node)].food && !has(arrow.node, is_packaging); });
    }

    Inputs sum_up(Node node) const {
        Inputs sums;
        for (const Arrow& arrow : inputs_.of(node)) {
            if (has(arrow.node, is_packaging)) continue;
            if (sums.only_from != no_node && sums.only_from != arrow.node) sums.several = true;
            sums.only_from = arrow.node;
            add(arrow, sums);
        }
        return sums;
    }

    void add(const Arrow& arrow, Inputs& sums) const {
        const Use& use = network_.use(arrow);
        const Portion& portion = portions_[at(arrow.node)];
        if (use.mass_mg) {
            const double mass = static_cast<double>(*use.mass_mg);
            sums.weighed += mass;
            if (use.sure || portion.food || use.largest_mg) sums.surely += mass;
        }
        if (!portion.food) return;
        sums.largest_of_any = std::max(sums.largest_of_any, portion.largest);
        sums.most += most_in(arrow.node, portion, use.largest_mg ? use.largest_mg : use.mass_mg);
        if (!use.mass_mg) {
            sums.all_weighed = false;
            sums.known = false;
            return;
        }
        const double mass = static_cast<double>(*use.mass_mg);
        sums.share_mass += mass * portion.expected;
        sums.suspect += mass * portion.density;
        if (!portion.expected_known) sums.known = false;
    }

    // q(u) of the header.
    double most_in(Node from, const Portion& portion, std::optional<std::int64_t> mass_mg) const {
        if (mass_mg) {
            const double mass = static_cast<double>(*mass_mg);
            const double by_ratio = mass * portion.largest;
            return has(from, is_blend) ? std::min(mass, std::max(portion.most_mg, by_ratio)) : by_ratio;
        }
        if (has(from, is_blend)) return portion.most_mg;
        const auto made = made_of(from);
        return made ? static_cast<double>(*made) * portion.largest : unlimited;
    }

    // The made mass where it is known and smaller than the inputs.
    double made_or(Node node, double inputs) const {
        const auto made = made_of(node);
        if (!made || *made <= 0) return inputs;
        const double mass = static_cast<double>(*made);
        return inputs > 0 ? std::min(mass, inputs) : mass;
    }

    void expect(Node node, const Inputs& sums, Portion& portion, Reached& result) const {
        const auto made = made_of(node);
        if (sums.known && sums.weighed > 0) {
            portion.expected = std::min(1.0, sums.share_mass / sums.weighed);
            portion.density = std::min(1.0, sums.suspect / made_or(node, sums.weighed));
            result.suspect_mg = std::llround(sums.suspect);
        } else if (!sums.several && portions_[at(sums.only_from)].expected_known) {
            portion.expected = portions_[at(sums.only_from)].expected;
            portion.density = portions_[at(sums.only_from)].density;
            if (made) result.suspect_mg = std::llround(portion.density * static_cast<double>(*made));
        } else {
            return;
        }
        portion.expected_known = true;
        result.share_expected = portion.expected;
        result.mg_per_kg = portion.density * mg_per_kilogram;
    }

    void bound(Node node, const Inputs& sums, Portion& portion) const {
        portion.most_mg = sums.most;
        if (!sums.all_weighed && has(node, loses_nothing)) {
            portion.largest = sums.largest_of_any;
            return;
        }
        const double whole = made_or(node, sums.surely);
        portion.largest = whole > 0 ? std::min(1.0, sums.most / whole) : 1.0;
    }

    const Network& network_;
    const Arrows& inputs_;
    std::vector<std::uint8_t> traits_;
    std::vector<Portion> portions_;
};

}  // namespace

void add_shares(const Network& network, const Arrows& inputs, const std::vector<Node>& order, std::vector<Reached>& results) {
    Sharing sharing(network, inputs);
    for (std::size_t i = 0; i < order.size(); ++i) {
        if (results[i].depth == 0) {
            sharing.start(order[i], results[i]);
        } else {
            sharing.derive(order[i], results[i]);
        }
    }
}

}  // namespace peelbook::trace
