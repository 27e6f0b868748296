#include "simulate/people.h"

#include <algorithm>

#include "simulate/properties.h"

namespace peelbook::simulate {
namespace {

const std::vector<std::string> bakers = {"BA", "BO"}, customers = {"CAFE", "INN"}, labels = {"loaf-1", "seeded-1", "bun-1"};

const std::vector<std::string> ways_out = {"customer", "own-shop", "van", "staff-shop", "donation", "animal-feed", "co-packer"};

bool on_hand(const Lot& lot) { return lot.pieces > 0 || lot.mg > 0; }
bool in_pieces(const Lot& lot) { return lot.pieces > 0; }
bool of_batch(const Lot& lot) { return lot.kind == "batch" || lot.kind == "rack"; }

}  // namespace

std::string degrees(double value) {
    const auto tenths = static_cast<std::int64_t>(value * 10 + 0.5);
    return std::to_string(tenths / 10) + (tenths % 10 ? "." + std::to_string(tenths % 10) : "") + "C";
}

People::People(Run& run, std::uint64_t seed, bool recalling) : run_(run), chance_(seed), recalling_(recalling) {
    const std::vector<Date> beginnings = {{2026, 11, 16}, {2026, 10, 22}, {2027, 3, 25}, {2026, 12, 28}};  // clock changes, week 53
    first_day_ = beginnings[seed % beginnings.size()];
}

// --- time, and how a line comes to be typed

void People::at(std::int64_t minute, Doing doing) { events_.push({midnight_ + minutes(minute), ++order_, std::move(doing)}); }
void People::later(std::int64_t in, Doing doing) { events_.push({now_ + minutes(in), ++order_, std::move(doing)}); }

bool People::say(const std::string& by, const std::string& text) { return run_.type(text + " --by " + by, now_); }

void People::note(const std::string& by, const std::string& text) {
    if (chance_.of_100(5)) return;
    if (chance_.of_100(6)) {
        const bool measured = text.starts_with("reading ") || text.starts_with("inspect ");
        const std::string at =
            (measured && chance_.of_100(60) ? " --slip " + std::to_string(++named_) : "") + " --at " + to_iso(run_.zone(), now_);
        return later(chance_.between(20, 240), [this, by, text, at] { say(by, text + at); });
    }
    if (!chance_.of_100(3)) {
        say(by, text);
        return;
    }
    const std::string token = chance_.of_100(70) ? " --token " + code("T") : "";
    say(by, text + token);
    say(by, text + token);
}

void People::reading(const std::string& by, const std::string& subject, const std::string& point, double value) {
    const std::string instrument = chance_.of_100(95) ? " --with probe" : chance_.of_100(50) ? " --with spare" : "";
    if (chance_.of_100(6)) return mistype({by, subject, point, degrees(value), instrument});
    note(by, "reading " + subject + " " + point + " " + degrees(value) + instrument);
}

bool People::careful(const std::string& text) {
    if (chance_.of_100(25)) return false;
    for (const auto& attempt : attempts_of(text, now_, run_.facts(), run_.zone()))
        if (!run_.judge().forbidding(attempt).empty()) return true;
    return false;
}

void People::open() {
    midnight_ = run_.zone().day_start(first_day_, 0, 0);
    now_ = midnight_ + minutes(60);
    say("HB", "plan adopt");
    for (const auto& [initials, role] : std::vector<std::pair<std::string, std::string>>{
             {"QO", "quality"}, {"BA", "baker"}, {"BO", "baker"}, {"PA", "packer"}, {"ST", "store"}})
        say("HB", "person " + initials + " --name " + initials + " --role " + role);
    for (const auto& [partner, role] :
         std::vector<std::pair<std::string, std::string>>{{"MILL", "supplier"}, {"CAFE", "customer"}, {"INN", "customer"}})
        say("HB", "partner " + partner + " --name " + partner + " --role " + role);
    say("QO", "calibrate probe --method ice --read 0.2C");
    say("ST", "receive rye-flour --from MILL --lot R1 --mass 900kg --contains rye --code RYE-1");
    say("ST", "receive sesame --from MILL --lot X1 --mass 90kg --contains sesame --code SES-1");
}

Instant People::day(int day) {
    midnight_ = run_.zone().day_start(from_days(to_days(first_day_) + day), 0, 0);
    const bool sunday = (to_days(first_day_) + day + 4) % 7 == 0;
    rooms(sunday);
    if (day % 14 == 13) at(300, [this] { say("QO", "calibrate probe --method ice --read 0.1C"); });
    at(350 + chance_.below(400), [this] { countersign(); });
    at(18 * 60, [this] { leaven(); });
    for (int i = 0; i < (sunday ? 10 : 34); ++i) at(chance_.between(430, 1300), [this] { tempt(); });
    for (int i = 0; i < 3; ++i) at(chance_.between(430, 1300), [this] { cheat(); });
    if (!sunday) {
        at(300, [this] { clear(); });
        deliveries(day);
        if (day % 6 == 5) at(325, [this] { say("BA", "empty silo --inspected"); });
        if (day % 5 == 3) at(310, [this] { say("HB", "plan adopt"); });
        at(600, [this] { custard(); });
        for (const auto& [minute, product] :
             std::vector<std::pair<int, std::string>>{{370, "loaf"}, {400, "bun"}, {430, "seeded"}, {480, "loaf"}})
            at(minute + chance_.below(20), [this, product = product] { bake(product); });
        for (int i = 0; i < 12; ++i) at(chance_.between(300, 1300), [this] { odd(); });
    }
    for (int i = 0; recalling_ && i < 3; ++i) at(chance_.between(360, 1300), [this] { recall_goods(); });
    if (recalling_) at(chance_.between(360, 500), [this] { dust(); });
    for (int i = 0; recalling_ && i < 12; ++i) at(chance_.between(360, 1300), [this] { correct(); });
    for (int i = 0; recalling_ && i < 2; ++i) at(chance_.between(500, 1300), [this] { countersign(); });
    const Instant end = run_.zone().day_start(from_days(to_days(first_day_) + day + 1), 0, 0);
    while (!events_.empty() && events_.top().at < end) {
        const Event event = events_.top();
        events_.pop();
        now_ = event.at;
        event.doing();
    }
    return end;
}

// --- the work of a day

void People::rooms(bool sunday) {
    const auto air = [this] { return chance_.of_100(97) ? 2 + 0.1 * static_cast<double>(chance_.below(30)) : 8; };
    for (int minute = 20; minute < 1440; minute += 230)
        if (!sunday || chance_.of_100(10)) at(minute + chance_.below(8), [this, air] { reading("BA", "chill", "chill-air", air()); });
    if (!sunday)  // the highest of the hours in which nobody was there
        for (const int minute : {305, 1325})
            at(minute + chance_.below(20),
               [this, air] { note("BA", "reading chill chill-air " + degrees(air()) + " --unit max --with probe"); });
    for (int minute = 250; minute < 1080; minute += 230)
        if (!sunday) at(minute, [this] { note("PA", std::string("inspect detector metal ") + (chance_.of_100(96) ? "yes" : "no")); });
    if (chance_.of_100(15)) at(chance_.between(300, 1200), [this] { outage(); });
}

// No power, until it is there again. What is read meanwhile is read by a torch, or not at all.
void People::outage() {
    const auto from = now_;
    later(chance_.between(30, 400), [this, from] {
        const std::string where = chance_.of_100(50) ? "" : chance_.of_100(50) ? "chill " : "detector ";
        say("QO", "outage " + where + "--from " + to_iso(run_.zone(), from) + " --until " + to_iso(run_.zone(), now_) + " --why power");
    });
}

void People::deliveries(int day) {
    const auto status = [this] {
        return chance_.of_100(90) ? std::string() : chance_.of_100(50) ? " --status held --why torn" : " --status refused --why wet";
    };
    if (day % 2 == 0)
        at(330, [this, status, day] {
            const std::string lot = code("WF"), allergens = chance_.of_100(94)   ? " --contains wheat"
                                                            : chance_.of_100(50) ? ""
                                                                                 : " --contains wheat,sesame";
            say("ST", "receive wheat-flour --from MILL --lot W" + std::to_string(day % 8) + " --mass 220kg" + allergens +
                          " --best-before " + to_text(from_days(to_days(run_.zone().to_local(now_).date) + chance_.between(1, 30))) +
                          status() + " --code " + lot);
            later(15, [this, lot] {
                const std::string fill = "fill silo " + lot + " 200kg --code " + code("S");
                if (!careful(fill)) say("ST", fill);
            });
        });
    at(340, [this, status] {
        const std::string lot = code("MILK");
        const std::string cold = chance_.of_100(93) ? " --temperature " + degrees(chance_.of_100(95) ? 4 : 9) + " --with probe" : "";
        const Date use_by = from_days(to_days(run_.zone().to_local(now_).date) + 2);
        say("ST", "receive milk --from MILL --lot M1 --mass 40kg --best-before " + to_text(use_by) + " --contains milk" + cold + status() +
                      " --code " + lot);
        later(6, [this, lot] { note("ST", "move " + lot + " --to chill"); });
    });
}

void People::leaven() {
    const std::string lot = code("LV"), before = leaven_;
    if (!say("BO", "start leaven --flour 2kg --code " + lot)) return;
    note("BO", "use RYE-1 2kg --into " + lot);
    note("BO", "use water 2kg --into " + lot);
    const std::string feed = "use " + before + " 1kg --into " + lot;
    if (!before.empty() && !careful(feed)) say("BO", feed);
    step("BO", lot, "feed");
    later(240, [this, lot] {
        step("BO", lot, "ripen");
        if (say("BO", "finish " + lot + " --mass 4.9kg")) leaven_ = lot;
    });
}

void People::custard() {
    const Lot* milk = some([](const Lot& lot) { return lot.item == "milk" && lot.mg > 12'000'000; });
    if (!milk) return;
    const std::string lot = code("C"), use = "use " + milk->code + " 12kg --into " + lot;
    if (!say("BA", "start custard --code " + lot)) return;
    if (!careful(use)) say("BA", use);
    if (chance_.of_100(7)) return;  // nobody writes down anything more of it, but it is there
    later(25, [this, lot] { reading("BA", lot, "boil", chance_.of_100(94) ? 86 : 79); });
    later(30, [this, lot] {
        step("BA", lot, "boil");
        say("BA", "finish " + lot + " --mass 11kg");
    });
    const bool trays = chance_.of_100(75);
    later(35, [=, this] {
        for (const char* tray : {"A", "B"}) {
            const std::string part = trays ? lot + "/" + tray : lot;
            if (trays && !say("BA", "split " + lot + " --part " + tray + "=5.5kg")) return;
            cool(part, static_cast<int>(chance_.below(100)));
            if (!trays) break;
        }
    });
    later(300, [this, lot] { step("BA", lot, "cool"); });
}

void People::cool(const std::string& tray, int fate) {
    const int slow = fate < 8 ? 45 : 0;
    const bool sparse = fate > 92;
    later(4, [this, tray] { reading("BA", tray, "cooling", 78); });
    if (!sparse) later(40, [this, tray] { reading("BA", tray, "cooling", 45); });
    if (!sparse) later(85 + slow, [this, tray] { reading("BA", tray, "cooling", 20); });
    later(250, [=, this] {
        reading("BA", tray, "cooling", 4.2);
        note("BA", "move " + tray + " --to chill");
    });
    if (chance_.of_100(4)) later(130, [this, tray] { say("BA", "split " + tray.substr(0, tray.find('/')) + " --part Z=1kg"); });
}

void People::bake(const std::string& product) {
    const std::string lot = code(product == "bun" ? "B" : product == "loaf" ? "L" : "E"), by = chance_.of(bakers);
    if (!say(by, "start " + product + " --flour 10kg --code " + lot)) return;
    const auto use = [&](const std::string& what) {
        const std::string text = "use " + what + " --into " + lot;
        if (!careful(text)) note(by, text);
    };
    use("silo 10kg");
    if (product != "bun") use("water 6kg");
    if (product == "loaf" && !leaven_.empty()) use(leaven_ + " 500g");
    if (product == "loaf" && chance_.of_100(30))  // a piece of the last dough, not baked yet
        if (const Lot* old = some([&](const Lot& l) { return l.item == "loaf" && l.kind == "batch" && !l.finished && l.code != lot; }))
            use(old->code + " 400g");
    if (product == "seeded") use("SES-1 500g");
    if (product == "loaf" && chance_.of_100(2)) use("SES-1 200g");
    if (product == "bun") {
        if (const Lot* milk = some([](const Lot& l) { return l.item == "milk" && l.mg > 5'000'000; })) use(milk->code + " 5kg");
    }
    later(20, [this, lot, by, product] {
        if (product != "bun") reading(by, lot, "dough", 26);
        step(by, lot, "mix");
    });
    later(70, [this, lot] { core(lot); });
    if (product == "bun")
        later(85, [this, lot, by] {
            const Lot* custard = some([](const Lot& l) { return l.item == "custard" && l.mg > 2'500'000; });
            const std::string text = custard ? "use " + custard->code + " 2500g --into " + lot : "";
            if (custard && !careful(text)) say(by, text);
            step(by, lot, "fill");
        });
    later(110, [this, lot, by, product] {
        const std::string pieces = product == "bun" ? "205" : product == "loaf" ? "19" : "18";
        const std::string burnt = product == "bun" ? "60 --spoiled 145" : "12 --spoiled 6";
        if (chance_.of_100(5)) return;
        say(by, "finish " + lot + " --mass 14kg --pieces " +
                    (chance_.of_100(92) ? pieces : burnt + (chance_.of_100(80) ? " --why burnt" : "")));
    });
    later(130, [this, lot] { pack_and_send(lot); });
}

void People::core(const std::string& batch) {
    const std::string by = chance_.of(bakers);
    const auto fate = chance_.below(100);
    reading(by, batch, "core", fate < 85 ? 96.2 : fate < 90 ? 94.4 : 88.5);
    if (fate >= 90 && fate < 97) later(5, [this, batch, by] { reading(by, batch, "core", 96.4); });
    if (chance_.of_100(30)) reading(by, batch, "core", 97);
    later(8, [this, batch, by] { step(by, batch, "bake"); });
    if (fate < 97 || chance_.of_100(50)) return;
    later(12, [this, batch, by] { say(by, "step " + batch + " bake --again"); });  // back in the oven
    later(20, [this, batch, by] { reading(by, batch, "core", 96.1); });
    later(21, [this, batch, by] { say(by, "step " + batch + " bake"); });
}

void People::pack_and_send(const std::string& batch) {
    const Lot* lot = run_.facts().lot(batch);
    if (!lot || lot->pieces < 10) return;
    std::vector<std::string> parts = {batch};
    if (chance_.of_100(40)) {
        parts.clear();
        const std::string half = std::to_string(lot->pieces / 2);
        for (const char* rack : {"A", "B"})
            if (say("PA", "split " + batch + " --part " + rack + "=" + half)) parts.push_back(batch + "/" + rack);
    }
    note("PA", "inspect detector metal yes");
    later(5, [this, parts] {
        for (const auto& part : parts) {
            const Lot* lot = run_.facts().lot(part);
            const std::string pack = code("P"), date = printed_date(lot ? lot->item : "", chance_.of_100(8) ? 3 : 0);
            const std::string text = "pack " + part + " --printed K" + std::to_string(named_ % 7) + date + " --code " + pack;
            if (careful(text) || !say("PA", text)) continue;
            later(40, [this, pack] { send(pack); });
        }
    });
    later(15, [this] { note("PA", std::string("inspect detector metal ") + (chance_.of_100(95) ? "yes" : "no")); });
}

void People::send(const std::string& pack) {
    const std::string text = "ship " + pack + " --pieces 5 --to " + chance_.of(customers);
    if (!careful(text)) say("ST", text);
    const std::string shop = "ship " + pack + " --way own-shop --pieces 2";
    if (!careful(shop)) say("ST", shop);
}

void People::decide() {
    auto open = run_.house().site().status().open_findings;
    std::erase_if(open, [](const auto& told) { return told.finding.grade != Grade::critical; });
    if (open.empty()) return;
    const auto& finding = chance_.of(open).finding;
    const int line = run_.house().line_of(finding.anchor);
    if (line == 0) return;
    static const std::vector<std::string> dispositions = {"release", "release", "release", "rework", "downgrade", "discard"};
    const std::string disposition = chance_.of(dispositions), key = finding.point + (finding.ord ? ":" + std::to_string(finding.ord) : "");
    say("QO", "act {" + std::to_string(line) + "}:" + key + " --process spoken --disposition " + disposition);
    const Lot* lot = run_.facts().lot_of(finding.anchor);
    if (disposition != "release" || !lot || chance_.of_100(30)) return;
    later(10, [this, lot = lot->code] { say("QO", "release " + lot + " --why signed"); });
    if (finding.point != "core" || chance_.of_100(50)) return;
    later(20, [this, lot = lot->code] { say("QO", "reading " + lot + " core 71C --with probe"); });  // a second look, after somebody signed
    later(30, [this, lot = lot->code] { pack_and_send(lot); });
}

// What all bread is made of is looked at first thing in the morning, or nothing could be baked.
void People::clear() {
    std::vector<std::string> held;
    for (const Lot* lot : lots([](const Lot& l) { return !l.held.empty() && (l.kind == "blend" || l.item == "leaven"); }))
        held.push_back(lot->code);
    for (const auto& lot : held) say("QO", "release " + lot + " --why clear");
}

void People::odd() {
    switch (chance_.below(10)) {
        case 9:
            return calibrate();
        case 0:
            if (const Lot* lot = some([&](const Lot& l) { return on_hand(l) && (l.kind == "pack" || of_batch(l)) && l.item != "leaven"; }))
                say("QO", "hold " + lot->code + " --why stones");
            return;
        case 1:
        case 2:
            if (const Lot* lot = some([](const Lot& l) { return !l.held.empty(); })) {
                const std::string text = "release " + lot->code + " --why clear";
                if (!careful(text)) say("QO", text);
            }
            return;
        case 3:
        case 4:
        case 5:
            return decide();
        case 6:
            if (const Lot* lot = some([](const Lot& l) { return l.kind == "pack" && l.sent.contains("CAFE") && l.sent.at("CAFE") > 0; }))
                say("ST", "return " + lot->code + " --from CAFE --pieces 1 --why stale");
            return;
        case 7:
            if (const Lot* lot = some([](const Lot& l) { return l.kind == "pack" && l.pieces > 2; }))
                if (say("ST", "ship " + lot->code + " --way co-packer --to INN --pieces 2"))
                    later(60, [this, item = lot->item, of = lot->code] {
                        say("ST", "copacked " + item + " --from INN --of " + of + " --pieces 2 --printed KC --code " + code("CP"));
                    });
            return;
        default:
            if (const Lot* lot = some(on_hand)) say("QO", "review " + lot->code);
    }
}

// --- what must not be done, and is tried

std::vector<const Lot*> People::lots(const std::function<bool(const Lot&)>& wanted) const {
    std::vector<const Lot*> out;
    for (const auto& [code, lot] : run_.facts().lots())
        if (lot.kind != "supply" && lot.at > now_ - days(4) && wanted(lot)) out.push_back(&lot);
    std::sort(out.begin(), out.end(), [](const Lot* a, const Lot* b) { return a->id < b->id; });
    return out;
}

const Lot* People::some(const std::function<bool(const Lot&)>& wanted) {
    const auto found = lots(wanted);
    return found.empty() ? nullptr : chance_.of(found);
}

std::string People::one_of_it(const Lot& lot, bool as_option) const {
    const bool pieces = in_pieces(lot) || (lot.mg == 0 && lot.item != "custard");
    if (as_option) return pieces ? " --pieces 1" : " --mass 10g";
    return pieces ? " 1pcs" : " 10g";
}

// A batch that takes things; none: one is begun.
std::string People::open_batch(const std::string& other_than) {
    const Lot* batch = some([&](const Lot& l) {
        return l.kind == "batch" && !l.finished && l.code != other_than && l.item != "leaven" && l.item != "custard";
    });
    if (batch && !chance_.of_100(10)) return batch->code;
    const std::string made = code("X");
    return say("BA", "start " + chance_.of(std::vector<std::string>{"loaf", "bun", "seeded"}) + " --flour 10kg --code " + made) ? made : "";
}

// Both loaves last a day from their bake, and so do the buns, which bear a use-by date.
std::string People::printed_date(const std::string& product, int too_late) {
    const auto most = product == "bun" ? 0 : chance_.below(2);
    return " --date " + to_text(from_days(to_days(run_.zone().to_local(now_).date) + static_cast<std::int64_t>(most) + too_late));
}

// Empty: the act makes no sense with such a lot.
std::string People::try_text(const std::string& act, const Lot& lot) {
    static const std::map<std::string, std::string> vessels = {
        {"wheat-flour", "silo"}, {"milk", "tank"}, {"loaf", "trough"}, {"custard", "kettle"}};
    const std::string& lot_code = lot.code;
    const bool goods = lot.kind == "pack" || of_batch(lot);
    const std::string other_label = chance_.of_100(30) ? " --label " + chance_.of(labels) : "";
    if (act == "use" || act == "rework") {
        if ((act == "rework") != (goods && in_pieces(lot)) || lot.kind == "blend") return {};
        const std::string into = open_batch(lot_code);
        return into.empty()
                   ? ""
                   : "use " + lot_code + one_of_it(lot, act == "rework") + " --into " + into + (chance_.of_100(30) ? other_label : "");
    }
    if (act == "fill") {
        const auto vessel = vessels.find(lot.item);
        if (vessel == vessels.end() || lot.kind == "blend" || lot.kind == "pack" || in_pieces(lot)) return {};
        return "fill " + vessel->second + " " + lot_code + " 10g --code " + code("S");
    }
    if (act == "onto") {
        const auto vessel = vessels.find(lot.item);
        const Lot* other = some([&](const Lot& l) { return l.item == lot.item && l.kind == "received" && l.mg > 10'000; });
        if (vessel == vessels.end() || !other || run_.facts().standing_in(vessel->second, now_) != lot_code) return {};
        return "fill " + vessel->second + " " + other->code + " 10g --code " + code("S");
    }
    if (act == "pack")
        return of_batch(lot) && lot.item != "custard" && lot.item != "leaven"
                   ? "pack " + lot_code + "=1 --printed KX" + printed_date(lot.item) + " --code " + code("P") + other_label
                   : "";
    if (act == "release") {
        if (lot.held.empty() && !say("QO", "hold " + lot_code + " --why look")) return {};
        return "release " + lot_code + " --why clear";
    }
    if (act == "count") {
        if (lot.kind == "blend") return {};
        const bool pieces = in_pieces(lot) || (lot.mg == 0 && goods && lot.item != "custard");
        return "count " + lot_code +
               (pieces ? " " + std::to_string(lot.pieces + 3) + "pcs" : " " + std::to_string(lot.mg / 1000 + 500) + "g") + " --why found";
    }
    if (act == "split")
        return lot.kind == "batch" ? "split " + lot_code + " --part " + code("R") + "=" + (in_pieces(lot) ? "1" : "10g") : "";
    if (act == "store") return "move " + lot_code + " --to " + (chance_.of_100(50) ? "chill" : "store");
    if (act == "waste") return "discard " + lot_code + one_of_it(lot, false) + " --why old";
    if (act == "sample") return "sample " + lot_code + one_of_it(lot, false) + " --why shelf";
    if (lot.kind == "blend") return {};
    if (act == "supplier") return "ship " + lot_code + one_of_it(lot, true) + " --way supplier --to MILL";
    return "ship " + lot_code + one_of_it(lot, true) + " --way " + act + (act == "own-shop" || act == "staff-shop" ? "" : " --to CAFE");
}

// Of a few cells of the gate's table the one that was met least, with a lot that is in it.
std::string People::in_a_cell() {
    constexpr int most_cells = 12, most_lots = 12;
    for (int tries = 0; tries < most_cells; ++tries) {
        const auto [act, state] = seldom_met();
        for (int looked = 0; looked < most_lots; ++looked) {
            const Lot* lot = some([&, act = act, state = state](const Lot& l) {
                if ((act == "pack" || act == "split") && !of_batch(l)) return false;
                if ((state == "device-bad" || state == "unchecked") && l.kind != "pack" && act != "pack") return false;
                return on_hand(l) || !l.finished || act == "count";
            });
            if (!lot || !run_.judge().is_in(*lot, act, state, now_)) continue;
            const std::string text = try_text(act, *lot);
            if (text.empty()) continue;
            const bool relabel = state == "label-short" && act == "pack" && text.find("--label") == std::string::npos;
            if (const auto date = text.find(" --date "); state == "misdated" && date != std::string::npos)
                return text.substr(0, date) + (chance_.of_100(50) ? printed_date(lot->item, 3) : "") + text.substr(date + 18);
            return text + (relabel ? " --label " + chance_.of(labels) : "");
        }
    }
    return {};
}

std::pair<std::string, std::string> People::seldom_met() {
    constexpr int looked_at = 4;
    const Table& table = gate_table();
    std::pair<std::string, std::string> least;
    for (int n = 0; n < looked_at;) {
        const std::pair<std::string, std::string> cell{chance_.of(table.acts), chance_.of(table.states)};
        if (table.answer(cell.first, cell.second) == "-" || (cell.second == "recalled" && !recalling_)) continue;
        if (n++ == 0 || run_.cells[cell] < run_.cells[least]) least = cell;
    }
    return least;
}

// What is no cell of it.
std::string People::besides() {
    const Lot* lot = some([](const Lot& l) { return l.kind == "pack"; });
    if (!lot) return {};
    switch (chance_.below(3)) {
        case 0:
            return lot->returned > 0 ? "ship " + lot->code + " --returned --pieces 1 --to CAFE" : "";
        case 1:
            return lot->sent.contains("CAFE") && lot->sent.at("CAFE") > 0 ? "return " + lot->code + " --from CAFE --pieces 1 --why stale"
                                                                          : "";
        default:
            return "ship --product " + lot->item + " --to CAFE --pieces 1";
    }
}

void People::tempt() {
    stage();
    std::string text = chance_.of_100(88) ? in_a_cell() : besides();
    if (text.empty()) return;
    if (chance_.of_100(45) && careful(text))
        text += text.find("--why") == std::string::npos ? " --already-done --why done" : " --already-done";
    if (chance_.of_100(8)) text += " --at " + to_iso(run_.zone(), now_ - hours(5));
    if (say(chance_.of_100(85) ? "HB" : chance_.of(bakers), text)) go_on(text);
}

// Lots in states that seldom come about by themselves.
void People::stage() {
    const auto today = to_days(run_.zone().to_local(now_).date);
    const std::string lot = code("Z"), over = " --best-before " + to_text(from_days(today - 1)) + " --why cheap",
                      last_day = " --best-before " + to_text(from_days(today));
    switch (chance_.below(20)) {
        case 0:
            say("ST", "receive wheat-flour --from MILL --lot Z --mass 9kg --contains wheat --code " + lot + over);
            return;
        case 1:
            say("ST", "receive milk --from MILL --lot Z --mass 9kg --contains milk --temperature 4C --with probe --code " + lot + last_day);
            return;
        case 2:
            say("ST", "receive wheat-flour --from MILL --lot Z --mass 9kg --status refused --why wet --contains wheat --code " + lot);
            say("ST", "count " + lot + " 9kg --why 'the driver left it'");
            return;
        case 3:
            say("ST", "receive wheat-flour --from MILL --lot Z --mass 9kg --code " + lot);
            return;
        case 4:
        case 5:
        case 6:
            return decide();
        default:
            return;
    }
}

// A part of what was split is packed, a pack is sent, and so is what was found by counting.
void People::go_on(const std::string& text) {
    const auto did = attempts_of(text, now_, run_.facts(), run_.zone());
    const std::string last = run_.facts().newest();
    if (text.starts_with("split ")) {
        const Lot* part = run_.facts().lot(last);
        const std::string pack = "pack " + last + " --printed KY" + printed_date(part ? part->item : "") + " --code " + code("P");
        if (say("PA", pack)) go_on(pack);
    } else if (text.starts_with("pack ") || text.starts_with("count ")) {
        const Lot* lot = run_.facts().lot(text.starts_with("pack ") || did.empty() ? last : did.front().lot);
        if (!lot || !chance_.of_100(60)) return;
        const auto fate = chance_.below(100);  // most packs are checked before anything becomes of them
        if (fate < 60) note("PA", std::string("inspect detector metal ") + (fate < 50 ? "yes" : "no"));
        const std::string act = chance_.of(fate < 50 ? ways_out : gate_table().acts), next = try_text(act, *lot);
        if (!next.empty()) say(act == "release" ? "QO" : "HB", next);
        if (fate >= 50 && fate < 60) later(10, [this] { say("PA", "inspect detector metal yes"); });
    }
}

}  // namespace peelbook::simulate
