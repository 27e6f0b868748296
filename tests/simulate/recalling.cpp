// How people recall goods, play it through, and put right what went into what, while the others bake on.
#include "simulate/people.h"

namespace peelbook::simulate {
namespace {

const std::vector<std::string> partners = {"CAFE", "INN"}, fates = {"used", "destroyed", "found", "returned"};

bool was_packed(const Lot& lot) { return !lot.printed.empty(); }
bool went_out(const Lot& lot) {
    return was_packed(lot) && std::any_of(lot.sent.begin(), lot.sent.end(), [](const auto& to) { return to.second > 0; });
}

}  // namespace

// Most begin with little: where all flour is recalled nobody bakes.
std::string People::began_with() {
    const auto fate = chance_.below(100);
    const Lot* lot = some([&](const Lot& l) {
        if (fate < 35) return was_packed(l);
        if (fate < 60) return l.kind == "batch" || l.item == "milk" || l.item == "custard";
        return fate < 75 ? l.item == "leaven" || l.item == "sesame" : l.item == "wheat-flour" && l.kind == "received";
    });
    const std::string since = " --from " + to_iso(run_.zone(), now_ - hours(chance_.between(2, 30)));
    if (fate >= 96) return (chance_.of_100(50) ? "--vessel silo" : "water") + since;
    if (fate >= 92) return "--material " + std::string(chance_.of_100(50) ? "milk" : "wheat-flour") + " --supplier MILL" + since;
    if (!lot) return {};
    if (was_packed(*lot) && chance_.of_100(60)) return lot->printed;
    return !lot->supplier_lot.empty() && chance_.of_100(70) ? "MILL:" + lot->supplier_lot : lot->code;
}

void People::recall_goods() {
    const std::string family = chance_.of_100(30) ? "drill" : "recall", first = began_with();
    if (first.empty()) return;
    const std::string level = chance_.of_100(50) ? " --level A" : "";
    if (!say("HB", family + " open " + first + " --hazard wire --why 'the miller called'" + level)) return;
    const std::string recall = run_.house().site().recalls().front().code;
    for (auto left = chance_.between(4, 16); left > 0; --left) later(chance_.between(2, 300), [=, this] { act_in(family, recall); });
    const Lot* flour = some([](const Lot& l) { return l.item == "wheat-flour" && !l.supplier_lot.empty(); });
    if (flour && chance_.of_100(40))  // the truck comes again
        later(chance_.between(5, 200), [this, again = flour->supplier_lot] {
            say("ST", "receive wheat-flour --from MILL --lot " + again + " --mass 60kg --contains wheat --code " + code("WF"));
        });
    later(chance_.between(200, 900), [=, this] { close(family, recall); });
}

void People::act_in(const std::string& family, const std::string& recall) {
    const std::string in = family + " ", of = " " + recall + " ";
    const Lot* lot = some([](const Lot& l) { return l.kind != "blend"; });
    const auto feared = run_.house().ask("SELECT hazard FROM recall WHERE code = '" + recall + "'");
    switch (chance_.below(9)) {
        case 0:
        case 1:
            say("HB", in + "contact" + of + chance_.of(partners) + (chance_.of_100(70) ? " reached" : " missed") + " --how telephone");
            return;
        case 2:
            say("HB", in + "tell" + of + (chance_.of_100(50) ? "authority" : "supplier") + " --how telephone");
            return;
        case 3:
            say("HB", in + "decide" + of + (chance_.of_100(70) ? "--class II" : "--hazard glass") + " --why heard");
            return;
        case 4:
            if (lot) say("HB", in + "narrow" + of + lot->code + " --hazard " + to_text(feared.at(0).at(0)) + " --why sieved");
            return;
        case 5:
            if (lot) say("HB", in + "widen" + of + lot->code + " --why 'named too'");
            return;
        default:
            count_in(family, recall);
    }
}

void People::count_in(const std::string& family, const std::string& recall) {
    const Lot* lot = some(went_out);
    if (!lot) return;
    const std::string what = chance_.of(fates), pieces = std::to_string(chance_.between(1, 6)) + "pcs";
    const std::string code = chance_.of_100(80) ? lot->printed : lot->code;
    say("HB", family + " count " + recall + " " + code + " " + what + " " + pieces + " --from " + chance_.of(partners));
    if (chance_.of_100(10)) say("QO", "void {" + std::to_string(run_.last_line()) + "} --why 'counted again'");
}

// Then what it held is looked at, so that they can bake again.
void People::close(const std::string& family, const std::string& recall) {
    if (!say("HB", family + " close " + recall + " --why 'nobody knows of the rest'")) return;
    later(10, [this] {
        std::vector<std::string> held;
        for (const Lot* lot : lots([](const Lot& l) { return !l.held.empty(); })) held.push_back(lot->code);
        for (const auto& lot : held)
            if (chance_.of_100(80)) say("QO", "release " + lot + " --why 'no wire found'");
    });
}

void People::dust() {
    const Lot* flour = some([](const Lot& l) { return l.item == "wheat-flour" && l.kind == "received" && l.mg > 0; });
    if (!flour || !say("HB", "line on " + flour->code + " line-1")) return;
    later(chance_.between(60, 500), [this, code = flour->code] { say("HB", "line off " + code + " line-1"); });
}

void People::correct() {
    const auto rows = run_.house().ask(
        "SELECT seq, kind FROM fact WHERE voided_by IS NULL AND kind IN ('used', 'packed', 'moved-out', 'finished', 'received', 'split', "
        "'filled', 'returned', 'counted', 'co-packed') ORDER BY seq DESC LIMIT 150");
    if (rows.empty()) return;
    const auto& row = chance_.of(rows);
    const int line = run_.house().line_of(std::get<std::int64_t>(row[0]));
    if (line == 0) return;
    const std::string entry = "{" + std::to_string(line) + "}", kind = to_text(row[1]), by = chance_.of_100(80) ? "HB" : "QO";
    const Lot* other =
        some([&](const Lot& l) { return kind == "moved-out" ? was_packed(l) : l.kind == "received" || l.item == "custard"; });
    const Lot* batch = some([](const Lot& l) { return l.kind == "batch" && !l.finished; });
    std::vector<std::string> changes = {"pieces=" + std::to_string(chance_.between(1, 12))};
    if (other) changes.push_back("lot=" + other->code);
    if (kind == "used" && batch) changes = {"lot=" + (other ? other->code : "silo"), "into=" + batch->code, "possible=yes", "mass=7kg"};
    if (kind == "packed") changes = {"printed-code=K" + std::to_string(chance_.below(7))};
    if (kind == "received") changes = {"supplier-lot=W" + std::to_string(chance_.below(8))};
    if (kind == "filled") changes = {"mass=190kg", "'at=" + to_iso(run_.zone(), now_ - hours(chance_.between(1, 9))) + "'"};
    if (kind == "moved-out") changes.push_back("partner=" + chance_.of(partners));
    const bool strikes = chance_.of_100(35) || kind == "split";
    say(by, strikes ? "void " + entry + " --why never" : "amend " + entry + " " + chance_.of(changes) + " --why slip");
}

}  // namespace peelbook::simulate
