#include "cli/frame/command.h"
#include "cli/frame/recording.h"

namespace peelbook::cli {
namespace {

struct ReturnGoodsGiven {
    record::Returned returned;
    Recording recording;
};

void set_up(Options& options, ReturnGoodsGiven& given) {
    options.word(given.returned.lot, "LOT", "the packs, batch or lot that comes back")
        .text(given.returned.partner, "--from", "CUSTOMER", "who sends it back")
        .text(given.returned.way, "--way", "WAY", "of goods that no customer's name stands for: own-shop, staff-shop")
        .pieces(given.returned.pieces, "--pieces", "how many pieces")
        .mass(given.returned.mass, "--mass", "how much")
        .text(given.returned.document, "--document", "CODE", "the return note");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const ReturnGoodsGiven& given) {
    record::Returned returned = given.returned;
    if (returned.pieces == 0 && !returned.mass) return Refusal{"no quantity", "how much came back", "add --pieces N or --mass 12kg", {}};
    returned.why = given.recording.why;
    return record(context, given.recording, returned);
}

}  // namespace

extern const Command return_goods_command;
const Command return_goods_command{.name = "return",
                                   .group = Group::receiving,
                                   .about = "Take goods back from a customer; they are held on arrival and kept apart.",
                                   .more = {},
                                   .examples =
                                       "peelbook return PACK-1 --from CAFE-1 --pieces 6 --why 'crushed in the van' --by RS\n"
                                       "peelbook return PACK-1 --way own-shop --pieces 2 --why 'brought back to the counter' --by RS",
                                   .takes_at = true,
                                   .body = body<ReturnGoodsGiven, set_up, act>()};

}  // namespace peelbook::cli
