#pragma once
// A first-in vessel as a conveyor of single kilograms, and a mixed one by plain division: slow and obvious,
// for comparison. Exact clocks, fills without a span, every emptying inspected.
#include <algorithm>
#include <map>
#include <set>

#include "lot_graphs.h"
#include "trace/vessel.h"

namespace peelbook::trace::testing {

struct Event {
    std::int64_t at = 0;
    const VesselFill* fill = nullptr;
    const VesselDraw* draw = nullptr;  // neither: an emptying
};

inline std::vector<Event> in_order(const VesselHistory& history) {
    std::vector<Event> events;
    for (const VesselFill& f : history.fills) events.push_back({f.from, &f, nullptr});
    for (const VesselDraw& d : history.draws) events.push_back({d.at, nullptr, &d});
    for (const VesselEmptied& e : history.emptied) events.push_back({e.at, nullptr, nullptr});
    std::stable_sort(events.begin(), events.end(), [](const Event& a, const Event& b) { return a.at < b.at; });
    return events;
}

// No draw takes more than stands there, nor touches the heel.
inline bool can_have_happened(const VesselHistory& history) {
    std::int64_t standing = 0;
    bool first = true;
    for (const Event& e : in_order(history)) {
        if (e.fill) {
            if (!first && standing < history.heel_mg) return false;
            first = false;
            standing += e.fill->mass_mg;
        } else if (!e.draw) {
            standing = 0;
            first = true;
        } else if ((standing -= e.draw->mass_mg) < history.heel_mg) {
            return false;
        }
    }
    return true;
}

class KilogramVessel {
  public:
    explicit KilogramVessel(const VesselHistory& history)
        : events_(in_order(history)), heel_(history.heel_mg / kg), smear_(history.smear_mg / kg) {}

    std::vector<DrawContents> run() {
        std::vector<DrawContents> result;
        for (const Event& e : events_) {
            if (e.fill) {
                pour(*e.fill);
            } else if (e.draw) {
                result.push_back({e.draw->id, take(e.draw->mass_mg / kg)});
            } else {
                emptied_ = true;
            }
        }
        return result;
    }

  private:
    struct Kilogram {
        const VesselFill* of;
        bool beyond;  // more than was filled: the scales drifted, or it is the heel
    };

    void pour(const VesselFill& fill) {
        if (emptied_) {
            line_.clear();
            fills_.clear();
            next_ = 0;
            emptied_ = false;
        }
        if (!fills_.empty()) stretch(next_ + heel_);
        fills_.push_back(&fill);
        for (std::int64_t i = 0; i < fill.mass_mg / kg; ++i) line_.push_back({&fill, false});
    }

    // The last fill goes on for as long as it is drawn.
    void stretch(std::int64_t length) {
        while (static_cast<std::int64_t>(line_.size()) < length) line_.push_back({fills_.back(), true});
    }

    std::vector<Content> take(std::int64_t kilograms) {
        if (fills_.empty()) return {};
        const std::vector<Kilogram> kept = line_;
        stretch(next_ + kilograms + smear_);
        std::map<const VesselFill*, Content> by_fill;
        for (std::int64_t i = next_; i < next_ + kilograms; ++i) look_at(i, by_fill);
        std::vector<Content> contents;
        for (const VesselFill* fill : fills_) {
            const auto found = by_fill.find(fill);
            if (found == by_fill.end()) continue;
            Content& content = found->second;
            content.largest_mg = std::max(content.expected_mg, std::min(content.largest_mg, fill->mass_mg));
            content.certain = content.certain && !emptied_;
            contents.push_back(content);
        }
        line_ = kept;
        next_ += kilograms;
        stretch(next_);
        return contents;
    }

    // Kilogram `i` is drawn: it is the fill that stands there, and may be any fill within the smear of it.
    void look_at(std::int64_t i, std::map<const VesselFill*, Content>& by_fill) const {
        std::set<const VesselFill*> near;
        const auto last = std::min<std::int64_t>(i + smear_, static_cast<std::int64_t>(line_.size()) - 1);
        for (std::int64_t j = std::max<std::int64_t>(0, i - smear_); j <= last; ++j) near.insert(line_[static_cast<std::size_t>(j)].of);
        for (const VesselFill* fill : near) {
            Content& content = by_fill[fill];
            content.fill = fill->id;
            content.lot = fill->lot;
            content.largest_mg += kg;
        }
        const Kilogram& here = line_[static_cast<std::size_t>(i)];
        by_fill[here.of].expected_mg += kg;
        if (near.size() == 1 && !here.beyond) by_fill[here.of].certain = true;
    }

    std::vector<Event> events_;
    std::int64_t heel_, smear_;
    std::vector<Kilogram> line_;  // everything filled since the last emptying, in the order it leaves
    std::vector<const VesselFill*> fills_;
    std::int64_t next_ = 0;  // first kilogram not yet drawn
    bool emptied_ = false;   // and nothing filled since
};

// By draw in order of time: mg of each fill.
inline std::vector<std::map<std::int64_t, double>> mixed_by_arithmetic(const VesselHistory& history) {
    std::vector<std::map<std::int64_t, double>> result;
    std::map<std::int64_t, double> parts;  // of the blend, as a fraction of it
    double standing = 0;
    bool emptied = false;
    for (const Event& e : in_order(history)) {
        if (e.fill) {
            if (emptied) {
                parts.clear();
                standing = 0;
            } else if (!parts.empty()) {
                standing = std::max(standing, static_cast<double>(history.heel_mg));
            }
            emptied = false;
            const double filled = static_cast<double>(e.fill->mass_mg), whole = standing + filled;
            for (auto& [fill, part] : parts) part *= standing / whole;
            parts[e.fill->id] = filled / whole;
            standing = whole;
        } else if (e.draw) {
            const double drawn = static_cast<double>(e.draw->mass_mg);
            result.emplace_back();
            for (const auto& [fill, part] : parts) result.back()[fill] = part * drawn;
            standing = std::max(0.0, standing - drawn);
        } else {
            emptied = true;
        }
    }
    return result;
}

}  // namespace peelbook::trace::testing
