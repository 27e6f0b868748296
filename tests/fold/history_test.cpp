// Long random histories: whatever is recorded, amended, voided and written late, in any order, the tables
// derived step by step are those derived afresh, and allergens are the union over all ancestors.
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/breadth_first_search.hpp>
#include <cstdlib>
#include <functional>
#include <map>
#include <random>
#include <set>

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

const std::vector<std::string> some_allergens = {"wheat", "rye", "milk", "egg", "sesame", "molluscs"};

// Cores are read on after the bake; flour that was opened, loaves and leaven last some hours.
std::string history_plan() {
    std::string plan(bakery_plan);
    const auto add = [&](const std::string& after, const std::string& keys) { plan.insert(plan.find(after) + after.size(), keys); };
    add("limit = { least = \"94C\" }\n", "read_on = \"40min\"\n");
    add("code = \"WF\"\n", "opened_within = \"5h\"\nthawed_within = \"2h\"\nrefreeze = true\n");
    add("code = \"L\"\n", "kill_step = \"bake\"\nshelf_life = \"9h\"\nsold = \"loose\"\n");
    add("code = \"LV\"\n", "use_within = \"7h\"\n");
    return plan + "closed = \"min-max\"\n" + std::string(equipment_plan) +
           "[[shift]]\nid = \"day\"\nname = \"day\"\nfrom = \"06:00\"\nuntil = \"14:00\"\n";
}

class Chance {
  public:
    explicit Chance(std::uint64_t seed) : engine_(seed) {}
    std::int64_t below(std::int64_t n) { return static_cast<std::int64_t>(engine_() % static_cast<std::uint64_t>(n)); }
    bool one_in(std::int64_t n) { return below(n) == 0; }
    template <class T> const T& of(const std::vector<T>& list) {
        return list[static_cast<std::size_t>(below(static_cast<std::int64_t>(list.size())))];
    }
    std::vector<std::string> subset() {
        std::vector<std::string> out;
        for (const auto& a : some_allergens) {
            if (one_in(3)) out.push_back(a);
        }
        return out;
    }

  private:
    std::mt19937_64 engine_;
};

// One shift of people who write down anything, often late and often wrongly.
class Shift {
  public:
    Shift(Bakery& b, std::uint64_t seed) : b_(b), chance_(seed) {}

    void run(int commands) {
        for (int tries = 0; recorded_ < commands; ++tries) {
            REQUIRE(tries < commands * 40);
            b_.pass(minutes(chance_.below(chance_.one_in(30) ? 600 : 7)));
            one();
        }
    }
    // A batch in which all is right, among the others, so that packing and shipping have something to take.
    void pack_one(const std::string& number) {
        b_.pass(minutes(40));  // after whatever an amended time moved ahead
        b_.receive("GOOD-F" + number, "wheat-flour", "40kg");
        b_.did(Bakery::metal(true));
        b_.did(Bakery::calibrated(true));
        for (const std::string piece : {"mixer", "packer"}) {
            b_.did(record::Cleaned{piece, "wet", ""});
            b_.did(record::Inspected{piece, piece + "-seen", "", "", true, ""});
        }
        b_.did(record::ReadingTaken{"mixer", "mixer-swab", measure("1ppm"), "", "", ""});
        b_.start("GOOD-" + number, "loaf");
        b_.use("GOOD-" + number, "GOOD-F" + number, "30kg");
        b_.did(Bakery::reading("GOOD-" + number, "core", "96C"));
        b_.finish("GOOD-" + number, 54, "43kg");
        auto packs = Bakery::packed("GOOD-P" + number, "GOOD-" + number, 40, "K1");
        packs.date = Date{2026, 11, 16};
        b_.did(packs);
    }
    std::map<std::string, int> kinds;  // recorded, by kind
    bool recalls = false;              // recalls open, narrow, widen and close meanwhile
    std::function<void()> after;       // each entry that was recorded

  private:
    void count(const std::string& kind) {
        ++recorded_;
        ++kinds[kind];
        if (after) after();
    }
    std::string any(const std::string& where) {
        const auto codes = b_.ask("SELECT code FROM lot WHERE " + where + " ORDER BY id DESC LIMIT 12");
        return codes.empty() ? "none" : chance_.of(codes);
    }
    std::string vessel() { return chance_.one_in(2) ? "tower" : "silo"; }
    Measure mass(std::int64_t most_grams) { return measure_of((1 + chance_.below(most_grams)) * 1000, Unit::g); }
    record::Statement draw();
    record::Statement received();
    record::Statement care();
    record::Statement on_equipment();
    record::Statement outage();
    record::Statement of_a_recall();
    void correct();
    void one();

    Bakery& b_;
    Chance chance_;
    int recorded_ = 0, named_ = 0;
};

record::Statement Shift::received() {
    record::Received r;
    r.lot = "IN-" + std::to_string(++named_);
    r.material = chance_.of(std::vector<std::string>{"wheat-flour", "wheat-flour", "rye-flour", "milk", "sesame"});
    r.supplier = "MILL";
    r.supplier_lot = "S-" + std::to_string(chance_.below(4));
    r.mass = mass(90'000);
    if (chance_.one_in(3)) r.date = Date{2026, 11, 15 + static_cast<int>(chance_.below(4))};
    const auto plan = *b_.site->plan_in_force();
    if (!chance_.one_in(6)) r.allergens = {true, plan.material(r.material)->allergens, {}};
    if (chance_.one_in(6)) r.allergens.contains = chance_.subset();  // new ones: the lot is held
    return r;
}

// Holds, releases, decisions, checks on places and instruments.
record::Statement Shift::care() {
    switch (chance_.below(8)) {
        case 6:
            return record::ClockStarted{any("item = 'wheat-flour'"), chance_.one_in(2) ? "opened" : "thawed", chance_.one_in(3)};
        case 0:
            return record::Held{{any("1")}, "to look at", {}};
        case 1:
            return record::Released{{any("id IN (SELECT lot FROM hold WHERE released_seq IS NULL)")}, "looked at"};
        case 2:
            return Bakery::metal(!chance_.one_in(4));
        case 3:
            return record::ReadingTaken{
                "cold-store", "cold-air", measure_of(chance_.below(9000), Unit::celsius), chance_.one_in(3) ? "max" : "", "probe", ""};
        case 4:
            return Bakery::calibrated(!chance_.one_in(3), chance_.of(std::vector<std::string>{"probe", "old-probe"}));
        case 5:
            return record::Reviewed{chance_.one_in(2) ? "2026-W47" : any("kind = 'batch'"), "", ""};
        default:
            break;
    }
    record::Acted act;
    const auto open = b_.site->status().open_findings;
    if (open.empty()) return act;
    const auto& f = chance_.of(open).finding;
    act.finding = {f.anchor, f.point, f.ord};
    act.disposition = chance_.one_in(2) ? "release" : "";
    act.process = "talked about it";
    return act;
}

// Cleanings of equipment, what verifies them, labels read and counted.
record::Statement Shift::on_equipment() {
    const std::string piece = chance_.of(std::vector<std::string>{"mixer", "packer"});
    switch (chance_.below(5)) {
        case 0:
            return record::Cleaned{piece, chance_.one_in(2) ? "wet" : "dry", ""};
        case 1:
        case 2:
            return record::Inspected{piece, piece + "-seen", "", "", !chance_.one_in(4), ""};
        case 3: {
            record::LabelChecked read;
            read.line = "line-1";
            read.moment = chance_.of(std::vector<std::string>{"start", "reel", "change", "end"});
            read.label = chance_.of(std::vector<std::string>{"loaf-1", "loaf-2", "rye-1"});
            if (chance_.one_in(2)) read.printed_code = "K" + std::to_string(chance_.below(5));
            return read;
        }
        default: {
            record::LabelsCounted count;
            count.line = "line-1";
            count.label = "loaf-1";
            count.issued = 100;
            count.applied = 99 + chance_.below(2);
            return count;
        }
    }
}

record::Statement Shift::outage() {
    const Instant until = b_.clock.now() - minutes(chance_.below(200));
    std::vector<std::string> places;
    if (chance_.one_in(2)) places = {chance_.of(std::vector<std::string>{"cold-store", "detector"})};
    return record::Outage{until - minutes(1 + chance_.below(150)), until, places, "power out"};
}

record::Statement Shift::draw() {
    const std::string batch = any("kind = 'batch'"), open = any("kind = 'batch' AND status = 'open'");
    if (chance_.one_in(6)) return on_equipment();
    switch (chance_.below(16)) {
        case 0:
            return received();
        case 1:
        case 2: {
            record::Started s;
            s.product = chance_.of(std::vector<std::string>{"loaf", "bun", "leaven", "rye"});
            return s;
        }
        case 3:
        case 4:
            return Bakery::used(open, chance_.one_in(3) ? vessel() : any("kind = 'received'"), to_text(mass(3000)));
        case 5:
            return Bakery::used(open, "water", to_text(mass(3000)));
        case 6: {
            record::Used rework;
            rework.into = open;
            rework.lot = any("kind IN ('batch', 'rack', 'pack') AND status <> 'open'");
            rework.pieces = chance_.below(3);
            if (rework.pieces == 0) rework.mass = mass(300);
            rework.possible = chance_.one_in(4);
            return rework;
        }
        case 7:
            return record::ReadingTaken{batch,
                                        chance_.one_in(2) ? "core" : "cooling",
                                        measure_of(chance_.below(100'000), Unit::celsius),
                                        "",
                                        chance_.one_in(5) ? "old-probe" : "probe",
                                        "",
                                        chance_.one_in(4) ? "17" : ""};
        case 8:
            return record::StepDone{batch, chance_.of(std::vector<std::string>{"mix", "bake", "boil", "cool", "ripen"}), "",
                                    chance_.one_in(3)};
        case 9:
            return record::Finished{open, chance_.below(60), mass(20'000), "", chance_.one_in(3) ? chance_.below(9) : 0, "as it came out"};
        case 10: {
            record::Split s;
            s.lot = any("kind = 'batch' AND status = 'finished'");
            s.unit = "rack-" + std::to_string(++named_);
            s.pieces = 1 + chance_.below(9);
            return s;
        }
        case 11: {
            auto packs = Bakery::packed("", any("kind IN ('batch', 'rack')"), 1 + chance_.below(9), "K" + std::to_string(chance_.below(5)),
                                        chance_.one_in(3) ? "loaf-2" : "");
            if (chance_.one_in(2)) packs.date = Date{2026, 11, 16 + static_cast<int>(chance_.below(3))};
            return packs;
        }
        case 12: {
            auto out = Bakery::out(chance_.of(std::vector<std::string>{"customer", "own-shop", "waste"}), any("kind = 'pack'"),
                                   1 + chance_.below(4), chance_.one_in(2) ? "CAFE" : "SHOP");
            out.why = "as usual";
            if (!chance_.one_in(5)) return out;
            record::Returned back;
            back.lot = out.lot;
            back.partner = out.partner;
            back.pieces = 1;
            return back;
        }
        case 13: {
            record::Counted c;
            c.lot = any("kind <> 'supply'");
            c.mass = mass(60'000);
            if (chance_.one_in(2)) c.pieces = chance_.below(40);
            c.why = "counted";
            return c;
        }
        case 14: {
            if (chance_.one_in(5)) return record::Emptied{vessel(), chance_.one_in(2), ""};
            // Not on the line of the good batches: their label would miss what they may hold.
            if (chance_.one_in(4)) return record::LineFed{any("kind = 'received'"), "line-2", chance_.one_in(3), ""};
            record::Filled f;
            f.vessel = vessel();
            f.lot = any("item = 'wheat-flour' AND kind = 'received'");
            f.mass = mass(20'000);
            if (chance_.one_in(3)) f.until = b_.clock.now();
            return f;
        }
        default:
            return care();
    }
}

// Amends or voids one of the last entries: another amount, another value, another time, another lot.
void Shift::correct() {
    if (const auto waiting = b_.site->waiting(); !waiting.empty() && chance_.one_in(3)) {
        const auto& one = waiting[static_cast<std::size_t>(chance_.below(static_cast<std::int64_t>(waiting.size())))];
        auto draft = b_.draft(record::Countersigned{{one.entry}, chance_.one_in(3), "looked at", false, ""});
        draft.by = one.by == "QA" ? "MK" : "QA";
        if (b_.site->record(draft)) count("countersigned");
        return;
    }
    if (chance_.one_in(8)) {
        if (b_.site->undo("MK")) count("undone");
        return;
    }
    const auto last = b_.site->status().entries;
    const Seq target = last - chance_.below(std::min<Seq>(last, 60));
    const auto entry = b_.site->entry(target);
    REQUIRE(entry.ok());
    if (chance_.one_in(3)) {
        if (b_.site->void_entry(target, "MK", "a slip")) count("voided");
        return;
    }
    const auto* says = std::get_if<record::Statement>(&entry->payload);
    if (!says) return;
    auto instead = *says;
    if (auto* s = std::get_if<record::Received>(&instead)) s->mass = mass(90'000), s->allergens = {true, chance_.subset(), {}};
    if (auto* s = std::get_if<record::Received>(&instead); s && chance_.one_in(2))
        s->date = Date{2026, 11, 16 + static_cast<int>(chance_.below(4))};
    if (auto* s = std::get_if<record::Used>(&instead)) {
        if (s->mass) s->mass = mass(3000);
        if (chance_.one_in(3)) s->lot = any("kind = 'received'");
        if (chance_.one_in(4)) s->lot = vessel();
        if (chance_.one_in(4)) s->into = any("kind = 'batch'");
    }
    if (auto* s = std::get_if<record::ReadingTaken>(&instead)) s->value = measure_of(chance_.below(100'000), Unit::celsius);
    if (auto* s = std::get_if<record::Inspected>(&instead)) s->passed = !s->passed;
    if (auto* s = std::get_if<record::Calibrated>(&instead)) *s = Bakery::calibrated(!s->passed, s->instrument);
    if (auto* s = std::get_if<record::Finished>(&instead)) s->pieces = chance_.below(60), s->mass = mass(20'000), s->why = "counted again";
    if (auto* s = std::get_if<record::StepDone>(&instead)) s->again = !s->again;
    if (auto* s = std::get_if<record::Filled>(&instead)) s->mass = mass(20'000), s->until.reset();
    if (auto* s = std::get_if<record::Emptied>(&instead)) s->inspected = !s->inspected;
    if (auto* s = std::get_if<record::Outage>(&instead)) s->from = s->from - minutes(chance_.below(90)), s->places.clear();
    if (auto* s = std::get_if<record::LineFed>(&instead)) s->off = !s->off;
    if (auto* s = std::get_if<record::Split>(&instead)) s->pieces = 1 + chance_.below(9), s->mass.reset();
    std::optional<Instant> happened;
    if (chance_.one_in(3)) happened = entry->happened + minutes(chance_.below(60) - 30);
    if (b_.site->amend(target, instead, happened, "QA", "a slip")) count("amended");
}

// Opens one, of a lot, of water or of a supplier in a time; else leaves out, takes in or closes.
record::Statement Shift::of_a_recall() {
    std::string open;
    for (const auto& one : b_.site->recalls()) {
        if (!one.closed_seq) open = one.code;
    }
    if (open.empty()) {
        record::RecallOpened r;
        r.hazard = "stones";
        r.why = "the miller called";
        switch (chance_.below(4)) {
            case 0:
                r.supplier = "MILL";
                r.from = b_.clock.now() - minutes(chance_.below(300));
                break;
            case 1:
                r.lots = {chance_.of(std::vector<std::string>{"water", "silo", "tower"})};
                r.from = b_.clock.now() - minutes(chance_.below(300));
                break;
            case 2:
                r.lots = {any("printed_code <> ''")};
                break;
            default:
                r.lots = {any("kind IN ('received', 'received', 'batch')")};
        }
        return r;
    }
    const std::string covered =
        any("id IN (SELECT l.lot FROM recall_lot l JOIN recall r ON r.seq = l.recall WHERE r.code = '" + open + "')");
    switch (chance_.below(8)) {
        case 0:
            return record::RecallClosed{open, "as far as it goes", 0, 0, 0, 0, 0, 0};
        case 1:
            return record::RecallWidened{open, {}, {chance_.one_in(2) ? covered : any("1")}, "named too", 0};
        case 2:
            return record::RecallDecided{open, "", "", chance_.one_in(2) ? "stones" : "ergot", {}, "known by now"};
        case 3:
        case 4:
            return record::Released{{any("id IN (SELECT lot FROM recall_out WHERE ended_by IS NULL)")}, "left out"};
        default:
            return record::RecallDecided{open, "", "", "stones", {covered}, "sieved"};
    }
}

void Shift::one() {
    if (chance_.one_in(5)) return correct();
    auto draft = b_.draft(recalls && chance_.one_in(5) ? of_a_recall() : chance_.one_in(40) ? outage() : draw());
    if (chance_.one_in(4)) draft.happened = b_.clock.now() - minutes(chance_.below(300));
    if (chance_.one_in(4)) draft.why = "because";
    const bool leaves = std::holds_alternative<record::Packed>(draft.says) || std::holds_alternative<record::MovedOut>(draft.says);
    if (chance_.one_in(leaves ? 2 : 8)) draft.already_done = true, draft.why = "it had happened";
    const auto receipt = b_.site->record(draft);
    if (!receipt) return;
    count(receipt->kind);
}

// What the guard keeps lot by lot is what a trace over all of it says: each lot that it reaches now is covered, and what is covered,
// not left out and here is held.
void check_guard(const Bakery& b) {
    for (const auto& recall : b.site->recalls()) {
        if (recall.closed_seq || recall.drill != 0) continue;
        const auto view = b.site->recall(recall.code);
        REQUIRE(view.ok());
        const auto codes = b.ask("SELECT code FROM recall_lot WHERE recall = " + std::to_string(recall.seq));
        const std::set<std::string> covered(codes.begin(), codes.end());
        for (const auto& line : view->lots) {
            INFO(recall.code << " " << line.lot.code << " " << word(line.state));
            REQUIRE(covered.contains(line.lot.code));
        }
        INFO(recall.code << ": covered, here and not held");
        REQUIRE(view->to_hold.empty());
    }
}

// Cold air to be read in a day shift, and shown after it: bakery_plan ends with that point.
}  // namespace

TEST_CASE("what is derived step by step is what is derived afresh, after 300 mixed commands") {
    const std::uint64_t seed = GENERATE(1u, 2u, 3u, 4u, 5u);
    INFO("seed " << seed);
    Bakery b;
    b.adopt(history_plan());
    Shift shift(b, seed);
    for (int part = 0; part < 4; ++part) {
        shift.pack_one(std::to_string(part));
        shift.run(75 * (part + 1));
        INFO("after " << b.site->status().entries << " entries");
        REQUIRE(b.faults() == "");
    }
    for (const std::string kind : {"amended", "voided", "used", "filled", "reading", "finished", "split", "moved-out", "counted", "started",
                                   "received", "cleaned", "inspected", "label-checked", "labels-counted", "outage", "clock-started"}) {
        INFO(kind);
        CHECK(shift.kinds[kind] > 0);
    }
    CHECK(b.ask("SELECT count(*) > 10 FROM fact WHERE late = 1").front() == "1");
    CHECK(b.ask("SELECT count(*) > 5 FROM run").front() == "1");
    CHECK(b.ask("SELECT count(*) > 0 FROM finding WHERE place <> '' AND raised = 2").front() == "1");
    CHECK(b.ask("SELECT count(*) > 0 FROM residue").front() == "1");
    const auto before = b.state();
    CHECK(b.site->rebuild() == before.entries);
    CHECK(b.state() == before);
}

TEST_CASE("while recalls open, narrow, widen and close, all that they cover and is here is held, after each of 120 mixed commands") {
    const std::uint64_t seed = GENERATE(1u, 2u, 3u, 5u);
    INFO("seed " << seed);
    Bakery b;
    b.adopt(history_plan());
    Shift shift(b, seed);
    shift.recalls = true;
    shift.after = [&] {
        INFO("after entry " << b.site->status().entries);
        check_guard(b);
    };
    shift.pack_one("0");
    shift.run(120);
    for (const std::string kind : {"recall-opened", "recall-decided"}) {
        INFO(kind);
        CHECK(shift.kinds[kind] > 0);
    }
    static std::int64_t widened = 0;  // over all seeds
    widened += std::stoll(b.ask("SELECT count(*) FROM recall_lot WHERE since <> recall").front());
    if (seed == 4) CHECK(widened > 0);
    REQUIRE(b.faults() == "");
    const auto before = b.state();
    CHECK(b.site->rebuild() == before.entries);
    CHECK(b.state() == before);
}

static std::uint64_t number_from(const char* variable, std::uint64_t otherwise) {
    const char* text = std::getenv(variable);
    return text ? std::strtoull(text, nullptr, 10) : otherwise;
}

// From seed PEELBOOK_FIRST_HISTORY up to PEELBOOK_HISTORIES; `sh tests/long.sh` runs it, and not every change.
TEST_CASE("short histories, many of them: what is derived step by step is what is derived afresh", "[.long]") {
    const std::uint64_t first = number_from("PEELBOOK_FIRST_HISTORY", 1), last = number_from("PEELBOOK_HISTORIES", 20);
    std::int64_t entries = 0;
    for (std::uint64_t seed = first; seed <= last; ++seed) {
        INFO("seed " << seed);
        Bakery b;
        b.adopt(history_plan());
        Shift shift(b, seed);
        shift.recalls = seed % 3 == 0;
        if (shift.recalls) shift.after = [&] { check_guard(b); };
        shift.pack_one("0");
        shift.run(20 + static_cast<int>(seed % 30));
        REQUIRE(b.faults() == "");
        const auto before = b.state();
        REQUIRE(b.site->rebuild() == before.entries);
        REQUIRE(b.state() == before);
        entries += before.entries;
    }
    WARN(last - first + 1 << " histories, " << entries << " entries: incremental equals rebuild");
}

TEST_CASE("the allergens of a lot are the union over all its ancestors, on random graphs and after amendments") {
    const std::uint64_t seed = GENERATE(11u, 12u, 13u);
    INFO("seed " << seed);
    Bakery b;
    Chance chance(seed);
    std::map<std::string, std::set<std::string>> own;  // declared of a received lot
    std::map<std::string, std::vector<std::string>> from;
    std::map<std::string, record::Received> received;
    std::map<std::string, Seq> entry;
    std::vector<std::string> lots, order;
    for (int i = 0; i < 12; ++i) {
        record::Received r;
        r.lot = "IN-" + std::to_string(i);
        r.material = "wheat-flour";
        r.supplier = "MILL";
        r.mass = measure("100kg");
        r.allergens = {true, chance.subset(), {}};
        entry[r.lot] = b.did(r).seq;
        own[r.lot] = {r.allergens.contains.begin(), r.allergens.contains.end()};
        received[r.lot] = r;
        lots.push_back(r.lot);
    }
    order = lots;
    for (int i = 0; i < 30; ++i) {
        const std::string code = "D-" + std::to_string(i);
        b.start(code, "leaven");
        const auto inputs = 1 + chance.below(4);
        for (std::int64_t k = 0; k < inputs; ++k) {
            const std::string lot = chance.of(lots);
            b.already_done(Bakery::used(code, lot, "10g"), "held for its declaration, and used");
            from[code].push_back(lot);
        }
        b.finish(code, 0, "5kg");
        lots.push_back(code);
        order.push_back(code);
    }
    // Ancestors by Boost.Graph: breadth first, from what was made to what went in.
    const auto ancestors = [&](const std::string& code) {
        std::map<std::string, std::size_t> vertex;
        for (const auto& lot : order) vertex.emplace(lot, vertex.size());
        boost::adjacency_list<boost::vecS, boost::vecS, boost::directedS> graph(order.size());
        for (const auto& [into, inputs] : from) {
            for (const auto& lot : inputs) boost::add_edge(vertex[into], vertex[lot], graph);
        }
        std::vector<int> distance(order.size(), -1);
        distance[vertex[code]] = 0;
        boost::breadth_first_search(
            graph, vertex[code], boost::visitor(boost::make_bfs_visitor(boost::record_distances(distance.data(), boost::on_tree_edge()))));
        std::vector<std::string> found;
        for (const auto& lot : order) {
            if (distance[vertex[lot]] >= 0) found.push_back(lot);
        }
        return found;
    };
    const auto check = [&] {
        for (const auto& code : order) {
            std::set<std::string> all;
            for (const auto& lot : ancestors(code)) all.insert(own[lot].begin(), own[lot].end());
            INFO(code);
            CHECK(b.allergens(code) == std::vector<std::string>(all.begin(), all.end()));
        }
    };
    check();
    for (int i = 0; i < 8; ++i) {
        const std::string code = "IN-" + std::to_string(chance.below(12));
        auto& r = received[code];
        r.allergens.contains = chance.subset();
        b.countersign_if_it_waits(b.amended(entry[code], r).seq);
        own[code] = {r.allergens.contains.begin(), r.allergens.contains.end()};
    }
    check();
    CHECK(b.faults() == "");
}
