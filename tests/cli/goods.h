#pragma once
// A bakery under the starter plan with goods that are mixed, baked and packed, told as command lines.
#include "cli/walk.h"

namespace peelbook::cli {

// The starter plan, whose pan loaf takes up to a tenth of its flour of its own kind.
class Goods : public Walk {
  public:
    Goods() {
        open_bakery();
        const auto products = folder / "bakery" / "products.toml";
        std::string text = *files.read(products);
        const std::string butter = "  { item = \"butter\", percent = \"2%\" },\n";
        text.insert(text.find(butter) + butter.size(), "  { item = \"pan-loaf\", percent = \"10%\", optional = true },\n");
        std::filesystem::remove(products);
        files.create(products, text);
        for (const char* line :
             {"plan adopt", "receive wheat-flour --from MILL-1 --lot W-1 --mass 1000kg --contains wheat --code F-1 --by RS",
              "receive yeast --from MILL-1 --lot Y-1 --mass 50kg --free --code Y-1 --by RS",
              "receive salt --from MILL-1 --lot S-1 --mass 50kg --free --code S-1 --by RS",
              "receive butter --from DAIRY-1 --lot B-1 --mass 50kg --contains milk --temperature 4C --with probe-1 --code BU-1 --by RS",
              "calibrate probe-1 passed --method ice --read 0.1C --reference 0C --by QA"})
            must(line);
    }
    void mix(const std::string& code) {
        must("start pan-loaf --flour 50kg --code " + code + " --by MK");
        for (const char* use : {"F-1 50kg", "water 31kg", "Y-1 1250g", "S-1 900g", "BU-1 1kg"})
            must("use " + std::string(use) + " --into " + code + " --by MK");
        must("reading " + code + " dough-temperature 26C --with probe-1 --by MK");
        must("step " + code + " mix --by MK");
    }
    void bake(const std::string& code) {
        must("step " + code + " proof --by MK");
        wait(minutes(60));
        must("reading " + code + " bake-core 96.4C --with probe-1 --by MK");
        must("step " + code + " bake --by MK");
        wait(minutes(90));
        must("reading " + code + " cool-before-packing 28C --by MK");
        must("finish " + code + " --pieces 94 --mass 75.2kg --by MK");
    }
    // The metal detector finds its test pieces before and after.
    void pack(const std::string& code, const std::string& pack, const std::string& date = "2026-11-21") {
        for (const char* unit : {"start of run", "end of run"})
            must("inspect " + code + " label-check yes --unit '" + std::string(unit) + "' --by AB");
        run("inspect metal-detector metal-check yes --by AB");  // the first of the day, and late
        wait(minutes(1));
        must("pack " + code + "=90 --printed L" + pack.back() + " --date " + date + " --code " + pack + " --by AB");
        wait(minutes(1));
        must("inspect metal-detector metal-check yes --by AB");
    }
    // What a question to the book answers, as CSV.
    std::string told(const std::string& sql) { return must("ask --csv \"" + sql + "\"").out; }
};

}  // namespace peelbook::cli
