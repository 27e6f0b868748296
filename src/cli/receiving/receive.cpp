#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct ReceiveGiven {
    record::Received received;
    bool free = false;
    std::vector<std::string> scans;
    Recording recording;
};

void set_up(Options& options, ReceiveGiven& given) {
    record::Received& r = given.received;
    r.status = "accepted";
    options.word(r.material, "MATERIAL", "the material, as the plan names it; a scan may say it", Need::optional)
        .text(r.supplier, "--from", "SUPPLIER", "the partner it came from; a scan may say it")
        .text(r.supplier_lot, "--lot", "CODE", "the supplier's lot code; a scan may say it")
        .each(given.scans, "--scan", "SYMBOL", "a GS1 bar code of the label, as the scanner sends it or as printed below it")
        .mass(r.mass, "--mass", "how much: 1000kg")
        .pieces(r.pieces, "--pieces", "how many, of what is counted")
        .date(r.date, "--best-before", "the date on it; whether best-before or use-by, the plan says")
        .text(r.gtin, "--gtin", "DIGITS", "the article number on it")
        .text(r.sscc, "--sscc", "DIGITS", "the number of the pallet")
        .text(r.document, "--document", "CODE", "the delivery note")
        .text(r.carrier, "--carrier", "PARTNER", "who brought it")
        .temperature(r.temperature, "--temperature", "measured at the door: 4.1C")
        .text(r.instrument, "--with", "INSTRUMENT", "the thermometer")
        .list(r.allergens.contains, "--contains", "allergens this very lot is declared to contain")
        .list(r.allergens.may_contain, "--may-contain", "allergens it is declared to perhaps contain")
        .flag(given.free, "--free", "declared to contain none")
        .one_of(r.status, "--status", {"accepted", "held", "refused"}, "what became of it; held and refused want --why")
        .text(r.lot, "--code", "CODE", "a code of your own for the lot; else one is made");
    add_recording(options, given.recording);
}

// What must be there in the end, whether typed or scanned.
Check complete(const record::Received& received) {
    if (received.material.empty())
        return Refusal{"no MATERIAL", "what came in, as the plan names it", "type it after receive, or --scan its label", {}};
    if (received.supplier.empty()) return Refusal{"no --from", "the partner it came from", "add --from SUPPLIER", {}};
    if (received.supplier_lot.empty()) return Refusal{"no --lot", "the supplier's lot code", "read it from the label: add --lot CODE", {}};
    if (!received.mass && received.pieces == 0) return Refusal{"no quantity", "how much came in", "add --mass 1000kg or --pieces N", {}};
    return {};
}

Result<Exit> act(Context& context, const ReceiveGiven& given) {
    record::Received received = given.received;
    if (!given.scans.empty()) {
        const auto site = context.site(given.recording.site);
        if (!site) return site.refusal();
        const auto filled = (*site)->with_scan(received, given.scans);
        if (!filled) return filled.refusal();
        received = *filled;
    }
    record::Declaration& allergens = received.allergens;
    if (given.free && !allergens.contains.empty()) return Refusal{"--free and --contains", "one of them", "leave the wrong one out", {}};
    if (auto checked = complete(received); !checked) return checked.refusal();
    allergens.stated = given.free || !allergens.contains.empty() || !allergens.may_contain.empty();
    received.why = given.recording.why;
    return record(context, given.recording, received);
}

}  // namespace

extern const Command receive_command;
const Command receive_command{.name = "receive",
                              .group = Group::receiving,
                              .about = "Take in a supplier's lot.",
                              .more = "Without --contains, --may-contain or --free the allergens of the lot count as not stated.",
                              .examples =
                                  "peelbook receive wheat-flour --from MILL-1 --lot W4471 --mass 1000kg --best-before 2027-01-31 "
                                  "--contains wheat --document N-881 --by RS\n"
                                  "peelbook receive butter --from DAIRY-1 --lot B-20 --mass 50kg --temperature 4.1C --with probe-1 "
                                  "--contains milk --by RS\n"
                                  "peelbook receive --scan '(01)12345678901231(10)B-20(15)270100(3102)001250' --from DAIRY-1 --by RS",
                              .takes_at = true,
                              .body = body<ReceiveGiven, set_up, act>()};

}  // namespace peelbook::cli
