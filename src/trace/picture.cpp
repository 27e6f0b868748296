#include "trace/picture.h"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>
#include <tuple>

#include "base/calendar.h"
#include "base/measure.h"
#include "base/text.h"
#include "trace/network.h"

namespace peelbook::trace {
namespace {

struct KindOfLot {
    std::string_view kind, one, many, shape;
};

constexpr KindOfLot kinds[] = {
    {word(LotKind::received), "received lot", "received lots", "box"},
    {word(LotKind::supply), "supply (water)", "supplies", "ellipse"},
    {word(LotKind::blend), "blend in a vessel", "blends", "cylinder, margin=\"0.1,0.12\""},
    {word(LotKind::batch), "batch", "batches", "hexagon"},
    {word(LotKind::rack), "rack", "racks", "trapezium"},
    {word(LotKind::pack), "pack lot", "pack lots", "component"},
    {"packaging", "packaging", "packaging lots", "parallelogram"},
};

const KindOfLot& kind_of(const Lot& lot) {
    const std::string_view wanted = lot.packaging ? "packaging" : word(lot.kind);
    return *std::find_if(std::begin(kinds), std::end(kinds), [&](const KindOfLot& k) { return k.kind == wanted; });
}

constexpr std::int64_t mg_per_kg = 1'000'000, ms_per_day = 86'400'000, days_per_week = 7;

std::string mass_shown(std::int64_t mg) { return mg >= mg_per_kg ? to_text(mg, Unit::kg, 1) : to_text(mg, Unit::g, 1); }

enum class Span { single, day, week, all };

// A node: one lot, or those of one kind, product and span of time.
struct Picked {
    const Lot* first = nullptr;
    std::size_t lots = 0;
    bool start = false;
    std::int64_t made_mg = 0, on_hand_pieces = 0, on_hand_mg = 0;
    std::size_t held = 0;
    std::string when;
};

struct Arc {
    std::size_t uses = 0;
    std::int64_t mg = 0;
    bool all_weighed = true, some_sure = false;
};

class Picture {
  public:
    Picture(const Graph& graph, const PictureOptions& options) : network_(graph), options_(options) {
        start_.insert(options.start.begin(), options.start.end());
        for (const Lot& lot : graph.lots) sorted_.push_back(&lot);
        std::sort(sorted_.begin(), sorted_.end(),
                  [](const Lot* a, const Lot* b) { return std::tie(a->happened, a->id) < std::tie(b->happened, b->id); });
        gather(sorted_.size() <= options.most_single ? Span::single : Span::day);
        for (const Span wider : {Span::week, Span::all}) {
            if (sorted_.size() > options.most_single && nodes_.size() > options.most_gathered) gather(wider);
        }
        draw_lines();
    }

    std::string text() const {
        std::string dot =
            "digraph genealogy {\n  graph [rankdir=LR, nodesep=0.25, ranksep=0.7, fontname=\"Helvetica\", "
            "fontsize=14, labelloc=t, label=" +
            dot_string(heading()) +
            "];\n"
            "  node [fontname=\"Helvetica\", fontsize=10, color=black, fontcolor=black];\n"
            "  edge [fontname=\"Helvetica\", fontsize=9, color=black, fontcolor=black];\n";
        for (std::size_t i = 0; i < nodes_.size(); ++i) dot += node_line(i);
        for (const auto& [ends, line] : lines_) dot += edge_line(ends, line);
        return dot + legend() + "}\n";
    }

  private:
    std::int64_t day_of(const Lot& lot) const {
        if (options_.day) return options_.day(lot.happened);
        const std::int64_t day = lot.happened / ms_per_day;
        return lot.happened % ms_per_day < 0 ? day - 1 : day;
    }

    std::string when(const Lot& lot, Span span) const {
        if (span == Span::all) return "";
        const Date date = from_days(day_of(lot));
        return span == Span::week ? to_text(iso_week(date)) : to_text(date);
    }

    void gather(Span span) {
        nodes_.clear();
        node_at_.assign(network_.size(), 0);
        std::map<std::tuple<std::string, std::string_view, std::string>, std::size_t> known;
        for (const Lot* lot : sorted_) {
            const bool start = start_.count(lot->id) != 0;
            const bool alone = start || span == Span::single;
            const std::string time = when(*lot, alone && span == Span::all ? Span::day : span);
            std::size_t node = nodes_.size();
            if (!alone) node = known.emplace(std::tuple(lot->item, kind_of(*lot).kind, time), node).first->second;
            if (node == nodes_.size()) nodes_.push_back({lot, 0, start, 0, 0, 0, 0, time});
            add(*lot, nodes_[node]);
            node_at_[static_cast<std::size_t>(network_.numbers.find(lot->id))] = node + 1;
        }
    }

    static void add(const Lot& lot, Picked& node) {
        ++node.lots;
        node.made_mg += lot.made_mg.value_or(0);
        node.on_hand_mg += lot.on_hand_mg;
        node.on_hand_pieces += lot.on_hand_pieces;
        node.held += lot.held ? 1 : 0;
    }

    void draw_lines() {
        for (std::size_t i = 0; i < network_.graph.uses.size(); ++i) {
            const Use& use = network_.graph.uses[i];
            const std::size_t from = node_at_[static_cast<std::size_t>(network_.from[i])];
            const std::size_t into = node_at_[static_cast<std::size_t>(network_.into[i])];
            if (from == 0 || into == 0) {
                ++not_drawn_;
                continue;
            }
            Arc& line = lines_[{from - 1, into - 1}];
            ++line.uses;
            line.mg += use.mass_mg.value_or(0);
            line.all_weighed = line.all_weighed && use.mass_mg.has_value();
            line.some_sure = line.some_sure || use.sure;
        }
    }

    std::string heading() const {
        std::string text = options_.title + "\n" + std::to_string(sorted_.size()) + (sorted_.size() == 1 ? " lot" : " lots");
        if (nodes_.size() < sorted_.size()) text += ", gathered into " + std::to_string(nodes_.size()) + " groups";
        if (not_drawn_ > 0)
            text +=
                "; " + std::to_string(not_drawn_) +
                (not_drawn_ == 1 ? " use of a lot outside this picture is not drawn" : " uses of lots outside this picture are not drawn");
        return text;
    }

    static std::string label(const Picked& node) {
        const Lot& lot = *node.first;
        const std::string name = lot.name.empty() ? lot.item : lot.name;
        std::string text;
        if (node.lots == 1) {
            text = lot.code + "\n" + name;
            if (!lot.printed_code.empty()) text += "\nprinted " + lot.printed_code;
        } else {
            text = std::to_string(node.lots) + " " + std::string(kind_of(lot).many) + "\n" + name;
        }
        if (!node.when.empty()) text += "\n" + node.when;
        const bool supply = lot.kind == LotKind::supply;  // it never runs out: its mass says nothing
        if (node.made_mg > 0 && !supply) text += (lot.kind == LotKind::received ? "\nreceived " : "\nmade ") + mass_shown(node.made_mg);
        if (node.on_hand_pieces > 0) text += "\non hand " + std::to_string(node.on_hand_pieces) + " pieces";
        if (node.on_hand_pieces <= 0 && node.on_hand_mg > 0) text += "\non hand " + mass_shown(node.on_hand_mg);
        if (node.held > 0) text += node.lots == 1 ? "\nHELD" : "\n" + std::to_string(node.held) + " HELD";
        return text;
    }

    std::string node_line(std::size_t i) const {
        const Picked& node = nodes_[i];
        return "  n" + std::to_string(i) + " [shape=" + std::string(kind_of(*node.first).shape) +
               (node.start ? ", peripheries=2, penwidth=2" : "") + ", label=" + dot_string(label(node)) + "];\n";
    }

    static std::string edge_line(const std::pair<std::size_t, std::size_t>& ends, const Arc& line) {
        std::string label = line.uses > 1 ? std::to_string(line.uses) + " uses" : "";
        if (line.mg > 0) label += (label.empty() ? "" : "\n") + mass_shown(line.mg) + (line.all_weighed ? "" : " and more");
        return "  n" + std::to_string(ends.first) + " -> n" + std::to_string(ends.second) + " [" +
               (line.some_sure ? "" : "style=dashed, ") + "label=" + dot_string(label) + "];\n";
    }

    // The shapes that occur, and the two kinds of arrow.
    std::string legend() const {
        std::string text = "  subgraph cluster_legend {\n    label=\"What the shapes mean\"; fontsize=10; color=black;\n";
        std::set<std::string_view> seen;
        for (const Picked& node : nodes_) seen.insert(kind_of(*node.first).kind);
        for (const KindOfLot& kind : kinds) {
            if (seen.count(kind.kind) == 0) continue;
            text +=
                "    legend_" + std::string(kind.kind) + " [shape=" + std::string(kind.shape) + ", label=" + dot_string(kind.one) + "];\n";
        }
        if (!start_.empty()) text += "    legend_start [shape=box, peripheries=2, penwidth=2, label=\"start of the trace\"];\n";
        return text +
               "    legend_a [shape=point]; legend_b [shape=point]; legend_c [shape=point]; legend_d "
               "[shape=point];\n"
               "    legend_a -> legend_b [label=\"used\"];\n"
               "    legend_c -> legend_d [style=dashed, label=\"possibly used\"];\n  }\n";
    }

    const Network network_;
    const PictureOptions& options_;
    std::set<LotId> start_;
    std::vector<const Lot*> sorted_;
    std::vector<Picked> nodes_;
    std::vector<std::size_t> node_at_;  // by number of the lot: its node + 1, or 0
    std::map<std::pair<std::size_t, std::size_t>, Arc> lines_;
    std::size_t not_drawn_ = 0;
};

}  // namespace

std::string dot_string(std::string_view text) {
    const bool readable = is_utf8(text);
    std::string quoted = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '\n') {
            quoted += "\\n";
        } else if (byte < 0x20 || byte == 0x7F || (byte >= 0x80 && !readable)) {
            quoted += '?';
        } else if (c == '"' || c == '\\') {
            quoted += {'\\', c};
        } else if (c == '&') {
            quoted += "&amp;";  // dot reads entities in labels
        } else {
            quoted += c;
        }
    }
    return quoted + '"';
}

std::string genealogy_dot(const Graph& graph, const PictureOptions& options) { return Picture(graph, options).text(); }

}  // namespace peelbook::trace
