#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct ShipGiven {
    record::MovedOut moved;
    std::vector<std::string> scans;
    Recording recording;
};

void set_up(Options& options, ShipGiven& given) {
    record::MovedOut& m = given.moved;
    m.way = "customer";
    options.word(m.lot, "LOT", "the packs, batch or lot that leaves; or --product when nobody knows which", Need::optional)
        .text(m.product, "--product", "PRODUCT", "any lot of it that was on hand then, possibly")
        .each(given.scans, "--scan", "SYMBOL", "a GS1 bar code of the label, as the scanner sends it or as printed below it")
        .text(m.partner, "--to", "CUSTOMER", "who gets it; not wanted for own-shop and staff-shop")
        .pieces(m.pieces, "--pieces", "how many pieces")
        .mass(m.mass, "--mass", "how much")
        .one_of(m.way, "--way", {"customer", "own-shop", "van", "staff-shop", "donation", "animal-feed", "co-packer", "supplier"},
                "the way out; else customer")
        .flag(m.of_returned, "--returned", "of what came back, not of what is on hand")
        .text(m.sscc, "--sscc", "DIGITS", "the number of the pallet; `new` makes one of your own")
        .text(m.document, "--document", "CODE", "the delivery note")
        .text(m.carrier, "--carrier", "PARTNER", "who takes it there")
        .text(m.round, "--round", "NAME", "the delivery round that it goes by");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const ShipGiven& given) {
    record::MovedOut moved = given.moved;
    if (!given.scans.empty()) {
        const auto site = context.site(given.recording.site);
        if (!site) return site.refusal();
        const auto filled = (*site)->with_scan(moved, given.scans);
        if (!filled) return filled.refusal();
        moved = *filled;
    }
    if (moved.lot.empty() == moved.product.empty())
        return Refusal{moved.lot.empty() ? "neither a lot nor a product" : "a lot and a product",
                       "one of the two",
                       "type the lot, or --product PRODUCT when nobody knows the lot",
                       {}};
    moved.why = given.recording.why;
    moved.already_done = given.recording.already_done;
    return record(context, given.recording, moved);
}

}  // namespace

extern const Command ship_command;
const Command ship_command{.name = "ship",
                           .group = Group::receiving,
                           .about = "Send goods out of the house: to a customer or any other way.",
                           .more =
                               "Without --pieces or --mass, all that is left of the lot. A held lot, and one "
                               "with a critical point that is not\n"
                               "within, is refused.",
                           .examples =
                               "peelbook ship PACK-1 --to CAFE-1 --pieces 40 --document D-1021 --by RS\n"
                               "peelbook ship PACK-1 --way own-shop --pieces 60 --by RS\n"
                               "peelbook ship --product pan-loaf --to CAFE-1 --pieces 12 --by RS\n"
                               "peelbook ship --scan '(01)12345678901231(10)PL-261124-1' --pieces 40 --to CAFE-1 --sscc new --by RS",
                           .takes_at = true,
                           .body = body<ShipGiven, set_up, act>()};

}  // namespace peelbook::cli
