#include "cli/receiving/taken_out.h"

namespace peelbook::cli {

void set_up_taken_out(Options& options, TakenOut& given) {
    options.word(given.lot, "LOT", "the lot")
        .amount(given.amount, "AMOUNT", "how much: 12kg, 40pcs, or rest", Need::optional)
        .pieces(given.pieces, "--pieces", "how many pieces")
        .mass(given.mass, "--mass", "how much")
        .flag(given.of_returned, "--returned", "of what came back, not of what is on hand");
    add_recording(options, given.recording, Need::wanted);
}

Result<Exit> record_taken_out(Context& context, const TakenOut& given, std::string_view way) {
    const bool in_word = given.amount.mass || given.amount.pieces > 0;
    if ((in_word || given.amount.rest) && (given.mass || given.pieces > 0))
        return Refusal{"the quantity twice", "AMOUNT, or --pieces and --mass", "leave one of them out", {}};
    if (!in_word && !given.amount.rest && !given.mass && given.pieces == 0)
        return Refusal{"no quantity", "how much of the lot", "add a mass (12kg), pieces (40pcs), or the word rest", {}};
    record::MovedOut moved;
    moved.way = way;
    moved.lot = given.lot;
    moved.pieces = in_word ? given.amount.pieces : given.pieces;
    moved.mass = in_word ? given.amount.mass : given.mass;
    moved.of_returned = given.of_returned;
    moved.already_done = given.recording.already_done;
    moved.why = given.recording.why;
    return record(context, given.recording, moved);
}

}  // namespace peelbook::cli
