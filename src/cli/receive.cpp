#include "cli/command.h"
#include "cli/recording.h"

namespace peelbook::cli {
namespace {

struct Given {
    record::Received received;
    bool free = false;
    Recording recording;
};

void set_up(Options& options, Given& given) {
    record::Received& r = given.received;
    r.status = "accepted";
    options.word(r.material, "MATERIAL", "the material, as the plan names it")
        .text(r.supplier, "--from", "SUPPLIER", "the partner it came from", Need::wanted)
        .text(r.supplier_lot, "--lot", "CODE", "the supplier's lot code", Need::wanted)
        .mass(r.mass, "--mass", "how much: 1000kg")
        .pieces(r.pieces, "--pieces", "how many, of what is counted")
        .date(r.date, "--best-before", "the date on it; whether best-before or use-by, the plan says")
        .text(r.gtin, "--gtin", "DIGITS", "the article number on it")
        .text(r.document, "--document", "CODE", "the delivery note")
        .text(r.carrier, "--carrier", "PARTNER", "who brought it")
        .temperature(r.temperature, "--temperature", "measured at the door: 4.1C")
        .text(r.instrument, "--with", "INSTRUMENT", "the thermometer")
        .list(r.allergens.contains, "--contains", "allergens this very lot is declared to contain")
        .list(r.allergens.may_contain, "--may-contain", "allergens it is declared to perhaps contain")
        .flag(given.free, "--free", "declared to contain none")
        .one_of(r.status, "--status", {"accepted", "held", "refused"},
                "what became of it; held and refused want --why")
        .text(r.lot, "--code", "CODE", "a code of your own for the lot; else one is made");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const Given& given) {
    record::Received received = given.received;
    record::Declaration& allergens = received.allergens;
    if (given.free && !allergens.contains.empty())
        return Refusal{"--free and --contains", "one of them", "leave the wrong one out", {}};
    if (!received.mass && received.pieces == 0)
        return Refusal{"no quantity", "how much came in", "add --mass 1000kg or --pieces N", {}};
    allergens.stated = given.free || !allergens.contains.empty() || !allergens.may_contain.empty();
    received.why = given.recording.why;
    return record(context, given.recording, received);
}

}  // namespace

extern const Command receive_command;
const Command receive_command{
    .name = "receive",
    .group = Group::receiving,
    .about = "Take in a supplier's lot.",
    .more = "Without --contains, --may-contain or --free the allergens of the lot count as not stated.",
    .examples =
        "peelbook receive wheat-flour --from MILL-1 --lot W4471 --mass 1000kg --best-before 2027-01-31 "
        "--contains wheat --document N-881 --by RS\n"
        "peelbook receive butter --from DAIRY-1 --lot B-20 --mass 50kg --temperature 4.1C --with probe-1 "
        "--contains milk --by RS",
    .takes_at = true,
    .body = body<Given, set_up, act>()};

}  // namespace peelbook::cli
