#include "cli/recall/genealogy.h"

#include "base/text.h"
#include "output/drawing.h"

namespace peelbook::cli {
namespace {

constexpr std::size_t most_groups_on_paper = 30;  // about a printed page; a file of its own takes more

}  // namespace

Result<Sheet> genealogy_sheet(const site::Site& site, const site::TraceAnswer& answer) {
    auto picture = output::draw(site.genealogy_dot(answer, most_groups_on_paper), "png");
    if (!picture) return picture.refusal();
    Sheet sheet;
    sheet.name = "Genealogy";
    sheet.note =
        "What went into what. Where there are many lots, those of one product, kind and day (very many: "
        "week) "
        "stand together and say how many they are; --picture draws more of them. A dashed arrow is a "
        "possible use.";
    sheet.picture = *std::move(picture);
    return sheet;
}

Check write_genealogy(Context& context, const site::Site& site, const site::TraceAnswer& answer, const std::string& name) {
    const bool svg = name.ends_with(".svg");
    if (!svg && !name.ends_with(".png"))
        return Refusal{"--picture " + shown(name), "a file name that ends in .svg or .png", "name it so: --picture trace.svg", {}};
    const auto file = context.free_file(name);
    if (!file) return file.refusal();
    const auto picture = output::draw(site.genealogy_dot(answer), svg ? "svg" : "png");
    if (!picture) return picture.refusal();
    context.files.create(*file, *picture);
    return {};
}

}  // namespace peelbook::cli
