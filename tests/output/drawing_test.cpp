// Pictures by Graphviz, and symbols by libzint read back by independent readers: zbar for GS1-128 and QR,
// ZXing for DataMatrix.
#include "output/drawing.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "output/symbol.h"
#include "run_program.h"

using namespace peelbook;
using output::Symbology;
using output::test::run_program;

namespace {

struct Folder {
    std::filesystem::path path = std::filesystem::temp_directory_path() / ("peelbook-symbols-" + std::to_string(getpid()));
    Folder() { std::filesystem::create_directories(path); }
    ~Folder() { std::filesystem::remove_all(path); }
};

// The SSCC and the GTIN are worked examples and vectors of GS1 (tests/base/gs1.cpp).
const std::vector<Gs1Element> article{{"01", "12345678901231"}, {"15", "261231"}, {"10", "PL-261124-1"}};
const std::vector<Gs1Element> pallet{{"00", "106141412345678908"}};

}  // namespace

TEST_CASE("Graphviz draws what it is given, and a fault is told") {
    const auto svg = output::draw("digraph g { a -> b [label=\"<&>\"]; }", "svg");
    REQUIRE(svg);
    CHECK(svg->find("&lt;&amp;&gt;") != std::string::npos);
    const auto png = output::draw("digraph g { a -> b; }", "png");
    REQUIRE(png);
    CHECK(png->substr(0, 8) == "\x89PNG\r\n\x1A\n");  // ISO/IEC 15948, 5.2
    CHECK(output::draw("digraph g {", "svg").refusal().given == "a picture that 'dot' did not draw");
    const auto missing = output::draw("digraph g {}", "svg", "no-such-program-here").refusal();
    CHECK(missing.given == "a picture without Graphviz");
    CHECK(missing.wanted == "the program 'no-such-program-here', which draws it");
    CHECK(missing.next ==
          "install it (Debian: apt-get install graphviz), or leave the picture out; the trace itself needs "
          "it not");
}

TEST_CASE("GS1-128 and QR are read back by zbar") {
    const Folder folder;
    const auto png = folder.path / "symbol.png";
    for (const auto& [symbology, name] : {std::pair{Symbology::gs1_128, "code128"}, {Symbology::qr, "qrcode"}}) {
        REQUIRE(output::draw_symbol(article, symbology, png).ok());
        const auto [code, said] =
            run_program("zbarimg -q --raw -S*.disable -S" + std::string(name) + ".enable " + png.string() + " 2>/dev/null");
        INFO(said);
        CHECK(code == 0);
        // Dates and numbers of pre-defined length need no separator; zbar leaves the FNC1 at the beginning
        // out.
        CHECK(said.substr(said.front() == '\x1D' ? 1 : 0) ==
              "0112345678901231"
              "15261231"
              "10PL-261124-1\n");
        const auto scan = read_gs1_scan({said}, {2026, 11, 24});
        REQUIRE(scan);
        CHECK(scan->lot == "PL-261124-1");
    }
    REQUIRE(output::draw_symbol(pallet, Symbology::gs1_128, png).ok());
    CHECK(run_program("zbarimg -q --raw " + png.string() + " 2>/dev/null").second == "00106141412345678908\n");
}

TEST_CASE("DataMatrix and GS1-128 are read back by ZXing, as GS1 symbols") {
    const Folder folder;
    const auto png = folder.path / "symbol.png";
    const auto script = folder.path / "read.py";
    std::ofstream(script) << "import sys, zxingcpp\nfrom PIL import Image\n"
                             "for one in [zxingcpp.read_barcode(Image.open(sys.argv[1]).convert('RGB'))]:\n"
                             "    print(one.format.name, repr(one.text))\n";
    for (const auto& [symbology, name] : {std::pair{Symbology::data_matrix, "DataMatrix"}, {Symbology::gs1_128, "Code128"}}) {
        REQUIRE(output::draw_symbol(article, symbology, png).ok());
        const auto [code, said] = run_program("/usr/bin/python3 " + script.string() + " " + png.string() + " 2>&1");
        INFO(said);
        CHECK(code == 0);
        CHECK(said.find(name) == 0);
        CHECK(said.find("0112345678901231"
                        "15261231"
                        "10PL-261124-1") != std::string::npos);
    }
}

TEST_CASE("What is no GS1 symbol is not drawn") {
    const Folder folder;
    const auto file = folder.path / "symbol.svg";
    // The library draws these all the same and only remarks on them.
    for (const auto& wrong : std::vector<std::vector<Gs1Element>>{{{"01", "12345678901232"}},
                                                                  {{"01", "12345678901231"}, {"15", "261331"}},
                                                                  {{"00", "106141412345678909"}},
                                                                  {{"10", "over twenty characters long"}}}) {
        INFO(wrong.front().ai << ' ' << wrong.front().value);
        const auto drawn = output::draw_symbol(wrong, Symbology::gs1_128, file);
        REQUIRE_FALSE(drawn.ok());
        CHECK(drawn.refusal().wanted.find("elements that make a GS1 symbol; the library says: ") == 0);
        CHECK_FALSE(std::filesystem::exists(file));
    }
    CHECK(output::draw_symbol(article, Symbology::qr, folder.path / "symbol.txt").refusal().wanted ==
          "a file name that ends in .svg, .png, .gif or .eps");
    CHECK(std::filesystem::is_empty(folder.path));
    REQUIRE(output::draw_symbol(article, Symbology::qr, file).ok());
    CHECK(std::filesystem::file_size(file) > 500);
}
