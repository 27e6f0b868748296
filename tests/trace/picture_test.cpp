// The picture's text, line by line where it matters, and that Graphviz (where it is installed) reads it and
// shows what was meant.
#include "trace/picture.h"

#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "lot_graphs.h"

using namespace peelbook;
using namespace peelbook::trace;
using peelbook::trace::testing::GraphMaker;
using peelbook::trace::testing::kg;

namespace {

constexpr std::int64_t day_ms = 86'400'000;

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
    return n;
}

bool dot_is_installed() { return std::system("command -v dot > /dev/null 2>&1") == 0; }

// The SVG that dot makes of it; empty when dot complains.
std::string drawn(const std::string& dot) {
    const auto folder = std::filesystem::temp_directory_path();
    const std::string stem = (folder / ("peelbook-picture-" + std::to_string(std::rand()))).string();
    std::ofstream(stem + ".dot") << dot;
    const std::string command = "dot -Tsvg -o " + stem + ".svg " + stem + ".dot 2> " + stem + ".err";
    const bool good = std::system(command.c_str()) == 0 && std::filesystem::file_size(stem + ".err") == 0;
    std::string svg;
    if (good) {
        std::ifstream in(stem + ".svg");
        svg.assign(std::istreambuf_iterator<char>(in), {});
    }
    for (const char* end : {".dot", ".svg", ".err"}) std::filesystem::remove(stem + end);
    return svg;
}

// Flour, water and a leaven make a dough; the dough becomes a pack; another flour is possible.
GraphMaker five_lots() {
    GraphMaker maker(1);
    const LotId flour = maker.lot(LotKind::received, 500 * kg), water = maker.lot(LotKind::supply);
    const LotId leaven = maker.lot(LotKind::batch, 20 * kg), dough = maker.lot(LotKind::batch, 150 * kg),
                pack = maker.lot(LotKind::pack, 1'250'000);
    maker.use(leaven, flour, 10 * kg);
    maker.use(dough, leaven, 20 * kg);
    maker.use(dough, flour, std::nullopt, false);
    maker.use(dough, water, 60'250'000);
    maker.use(pack, dough, 1'250'000);
    maker.use(dough, 9'999, 1 * kg);
    maker.graph.lots[0].name = "Rye flour";
    maker.graph.lots[4].held = true;
    maker.graph.lots[4].on_hand_pieces = 12;
    maker.graph.lots[4].printed_code = "B 17";
    return maker;
}

PictureOptions titled(std::vector<LotId> start) {
    PictureOptions options;
    options.title = "Genealogy of L3";
    options.start = std::move(start);
    return options;
}

}  // namespace

TEST_CASE("Five lots stand singly, with what they are") {
    const GraphMaker maker = five_lots();
    const std::string dot = genealogy_dot(maker.graph, titled({3}));
    CHECK(holds(dot, "label=\"Genealogy of L3\\n5 lots; 1 use of a lot outside this picture is not drawn\""));
    CHECK(holds(dot,
                "  n0 [shape=box, peripheries=2, penwidth=2, label=\"L3\\nRye flour\\n1970-01-01\\nreceived "
                "500.0kg\"];\n"));
    CHECK(holds(dot,
                "  n4 [shape=component, label=\"L31\\n\\nprinted B 17\\n1970-01-01\\nmade 1.3kg\\non hand 12 "
                "pieces\\nHELD\"];\n"));
    CHECK(holds(dot, "  n0 -> n3 [style=dashed, label=\"\"];\n"));
    CHECK(holds(dot, "  n1 -> n3 [label=\"60.3kg\"];\n"));
    CHECK(holds(dot, "legend_supply [shape=ellipse"));
    CHECK_FALSE(holds(dot, "legend_rack"));
    CHECK(count(dot, "peripheries=2") == 2);  // the start and its legend
    for (const char* colour : {"red", "green", "blue", "fillcolor", "#"}) CHECK_FALSE(holds(dot, colour));
    CHECK(genealogy_dot(maker.graph, titled({3})) == dot);
}

TEST_CASE("Above 60 lots they are gathered by day and product, the start alone") {
    GraphMaker maker(1);
    const LotId flour = maker.lot(LotKind::received, 5'000 * kg);
    for (int i = 0; i < 80; ++i) {
        const LotId dough = maker.lot(LotKind::batch, 100 * kg);
        Lot& lot = maker.graph.lots.back();
        lot.item = i % 2 == 0 ? "rye" : "stick";
        lot.name = i % 2 == 0 ? "Rye loaf" : "Savoury stick";
        lot.happened = (i / 20) * day_ms + 1;
        lot.held = i == 0;
        maker.use(dough, flour, 50 * kg, i % 2 == 0);
    }
    const std::string dot = genealogy_dot(maker.graph, titled({flour}));
    CHECK(holds(dot, "81 lots, gathered into 9 groups"));
    CHECK(holds(dot, "label=\"10 batches\\nRye loaf\\n1970-01-01\\nmade 1000.0kg\\n1 HELD\""));
    CHECK(holds(dot, "label=\"10 batches\\nSavoury stick\\n1970-01-04\\nmade 1000.0kg\""));
    CHECK(count(dot, "[label=\"10 uses\\n500.0kg\"]") == 4);
    CHECK(count(dot, "[style=dashed, label=\"10 uses\\n500.0kg\"]") == 4);

    PictureOptions options = titled({flour});
    options.most_gathered = 5;  // too many still: by week, all of 1970-W01 but its first three days
    CHECK(holds(genealogy_dot(maker.graph, options), "label=\"40 batches\\nRye loaf\\n1970-W01\\nmade 4000.0kg\\n1 HELD\""));
    options.most_gathered = 2;
    CHECK(holds(genealogy_dot(maker.graph, options), "label=\"40 batches\\nRye loaf\\nmade 4000.0kg\\n1 HELD\""));
    options = titled({flour});
    options.day = [](std::int64_t) { return 20'000; };  // 2024-10-04
    CHECK(holds(genealogy_dot(maker.graph, options), "label=\"40 batches\\nRye loaf\\n2024-10-04"));
}

TEST_CASE("No name can break out of its string") {
    CHECK(dot_string("a \"b\" \\N c") == "\"a \\\"b\\\" \\\\N c\"");
    CHECK(dot_string("salt & <b>") == "\"salt &amp; <b>\"");
    CHECK(dot_string("two\nlines\ttab") == "\"two\\nlines?tab\"");
    CHECK(dot_string("K\xC3\xB6rner") == "\"K\xC3\xB6rner\"");
    CHECK(dot_string("bad \xC3") == "\"bad ?\"");
    CHECK(dot_string("") == "\"\"");
    CHECK(dot_string("\\") == "\"\\\\\"");
}

TEST_CASE("An empty graph is a picture too") { CHECK(holds(genealogy_dot({}, titled({})), "0 lots")); }

TEST_CASE("Graphviz reads the text and shows the names as they are") {
    if (!dot_is_installed()) {
        WARN("dot is not installed: only the text was checked");
        return;
    }
    GraphMaker small = five_lots();
    small.graph.lots[0].name = "Salt \"&amp;\" <rye> \\N K\xC3\xB6rner";
    const std::string svg = drawn(genealogy_dot(small.graph, titled({3})));
    CHECK(holds(svg, "Salt &quot;&amp;amp;&quot; &lt;rye&gt; \\N K\xC3\xB6rner"));
    GraphMaker large(5);
    large.bakery(100);
    const std::string gathered = drawn(genealogy_dot(large.graph, titled({large.flours[3]})));
    CHECK(holds(gathered, "</svg>"));
    CHECK(holds(drawn(genealogy_dot({}, titled({}))), "</svg>"));
}
