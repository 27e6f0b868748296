#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "output/symbol.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Symbology;

struct LabelGiven {
    std::string code, file, as = "gs1-128";
    Asking asking;
};

void set_up(Options& options, LabelGiven& given) {
    options.word(given.code, "LOT", "a packed or received lot, or the 18 digits of a pallet (SSCC)")
        .text(given.file, "--out", "FILE", "the picture to write: .svg, .png, .gif or .eps", Need::wanted)
        .one_of(given.as, "--as", {"gs1-128", "datamatrix", "qr"}, "the kind of symbol; else gs1-128");
    add_asking(options, given.asking, false);
}

Result<Exit> act(Context& context, const LabelGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto file = context.free_file(given.file);
    if (!file) return file.refusal();
    const auto elements = (*site)->label_elements(given.code);
    if (!elements) return elements.refusal();
    Symbology symbology = Symbology::gs1_128;
    for (const Symbology one : {Symbology::data_matrix, Symbology::qr})
        if (given.as == output::name_of(one)) symbology = one;
    if (auto checked = output::draw_symbol(*elements, symbology, *file); !checked) return checked.refusal();
    context.out << "wrote " << given.file << ": ";
    for (const Gs1Element& element : *elements) context.out << '(' << element.ai << ')' << element.value;
    context.out << '\n';
    return Exit::done;
}

}  // namespace

extern const Command label_command;
const Command label_command{.name = "label",
                            .group = Group::receiving,
                            .about = "Draw the bar code of a lot or a pallet: article, date and lot, or the pallet's number.",
                            .more =
                                "The article number is the plan's gtin of the product; `receive --scan` and `ship --scan` read it "
                                "back.",
                            .examples =
                                "peelbook label PACK-1 --out label.png\n"
                                "peelbook label PACK-1 --as datamatrix --out label.svg",
                            .takes_at = false,
                            .body = body<LabelGiven, set_up, act>()};

}  // namespace peelbook::cli
