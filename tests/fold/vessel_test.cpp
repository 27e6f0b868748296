// Vessels through the public face: what a draw may be of, how much and how sure, against trace/vessel.h over the whole history (which
// tests/trace holds against a conveyor of kilograms); fills with a duration, clocks, emptyings, amendments, cycles.
#include "trace/vessel.h"

#include <map>
#include <random>

#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

constexpr std::int64_t kg = 1'000'000;

record::Filled fill(const std::string& vessel, const std::string& lot, const std::string& mass) {
    record::Filled f;
    f.vessel = vessel;
    f.lot = lot;
    f.mass = measure(mass);
    return f;
}

void draw(Bakery& b, const std::string& code, const std::string& vessel, const std::string& mass) {
    b.start(code, "loaf");
    b.use(code, vessel, mass);
    b.pass(minutes(10));
}

// "WF-1:85/85 WF-2:0/5?" : what went in, expected / largest kilograms, ? for possible; of all that was drawn into a batch.
std::string drawn(const Bakery& b, const std::string& code) {
    std::string out;
    for (const auto& row : b.ask("SELECT w.code || ':' || (u.mass_mg / 1000000) || '/' || (coalesce(u.largest_mg, u.mass_mg) / 1000000) || "
                                 "CASE WHEN u.sure THEN '' ELSE '?' END FROM \"use\" u JOIN lot i ON i.id = u.into_lot "
                                 "JOIN lot f ON f.id = u.from_lot JOIN \"use\" x ON x.into_lot = f.id AND x.seq = f.id "
                                 "JOIN lot w ON w.id = x.from_lot AND w.kind <> 'blend' "
                                 "WHERE i.code = '" +
                                 code + "' AND f.kind = 'blend' ORDER BY f.happened, f.id")) {
        out += (out.empty() ? "" : " ") + row;
    }
    return out;
}

const trace::Reached& reached(const TraceAnswer& answer, const Bakery& b, const std::string& code) {
    const auto id = b.lot(code).id;
    for (const auto& one : answer.reached) {
        if (one.lot == id) return one;
    }
    FAIL("not reached: " + code);
    return answer.reached.front();
}

}  // namespace

TEST_CASE("rule 31: draws from a first-in vessel point at fills, smeared to either side of a boundary") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "100kg");
    b.receive("WF-2", "wheat-flour", "100kg", "S-2");
    b.did(fill("tower", "WF-1", "100kg"));
    b.pass(minutes(10));
    b.did(fill("tower", "WF-2", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-1", "tower", "85kg");
    draw(b, "L-2", "tower", "10kg");
    draw(b, "L-3", "tower", "10kg");
    draw(b, "L-4", "tower", "10kg");
    draw(b, "L-5", "tower", "20kg");
    // The same draws stand in tests/trace/vessel_test.cpp against running mass: 85, 95, 105, 115, 135 of 100 + 100.
    CHECK(drawn(b, "L-1") == "WF-1:85/85");
    CHECK(drawn(b, "L-2") == "WF-1:10/10 WF-2:0/5?");
    CHECK(drawn(b, "L-3") == "WF-1:5/10? WF-2:5/10?");
    CHECK(drawn(b, "L-4") == "WF-1:0/5? WF-2:10/10");
    CHECK(drawn(b, "L-5") == "WF-2:20/20");
    const auto answer = b.site->trace_forward("WF-1");
    REQUIRE(answer.ok());
    CHECK(reached(*answer, b, "L-1").certain);
    CHECK(*reached(*answer, b, "L-1").share_expected == Approx(1.0));
    CHECK_FALSE(reached(*answer, b, "L-3").certain);
    CHECK(*reached(*answer, b, "L-3").share_expected == Approx(0.5));
    CHECK(*reached(*answer, b, "L-3").share_largest == Approx(1.0));
    CHECK(*reached(*answer, b, "L-4").share_expected == Approx(0.0));
    CHECK(*reached(*answer, b, "L-4").share_largest == Approx(0.5));
    CHECK(answer->reached.size() == 6);  // L-5 is not in it
    CHECK(b.allergens("L-3") == std::vector<std::string>{"wheat"});
    CHECK(b.ask("SELECT level FROM lot_allergen a JOIN lot l ON l.id = a.lot WHERE l.code = 'L-3'").front() == "contains");
    // The rest is what is left of all fills together, and not a gram more is given.
    b.start("L-6", "loaf");
    CHECK(b.refused(Bakery::used("L-6", "tower", "66kg")).wanted ==
          "at most what is left: 200kg made - 135kg used - 0kg left the house = 65kg");
    record::Used rest;
    rest.into = "L-6";
    rest.lot = "tower";
    rest.rest = true;
    b.did(rest);
    CHECK(drawn(b, "L-6") == "WF-2:65/65");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 30: an inspected emptying ends a first-in queue, cleaning does not") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "100kg");
    b.receive("WF-2", "wheat-flour", "100kg", "S-2");
    b.did(fill("tower", "WF-1", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-1", "tower", "90kg");
    b.did(record::Cleaned{"tower", "swept", ""});
    b.did(record::Emptied{"tower", false, ""});
    b.pass(minutes(10));
    const auto second = b.did(fill("tower", "WF-2", "50kg"));
    b.pass(minutes(10));
    draw(b, "L-2", "tower", "20kg");
    CHECK(drawn(b, "L-2").find("WF-1:") != std::string::npos);
    b.did(record::Emptied{"tower", true, "looked into"});
    b.pass(minutes(10));
    b.start("L-3", "loaf");
    CHECK(b.refused(Bakery::used("L-3", "tower", "1kg")).given == "a draw from tower, which holds nothing then");
    b.did(fill("tower", "WF-2", "50kg"));
    b.pass(minutes(10));
    b.use("L-3", "tower", "20kg");
    CHECK(drawn(b, "L-3") == "WF-2:20/20");
    CHECK(second.code == "TOWER-261116-2");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 32: a draw during a fill, or within the clocks of it, may be of both sides") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "300kg");
    b.receive("WF-2", "wheat-flour", "300kg", "S-2");
    const std::string vessel = GENERATE("silo", "tower");
    b.did_at(fill(vessel, "WF-1", "100kg"), "05:00");
    auto second = fill(vessel, "WF-2", "100kg");
    second.until = b.at("06:20");
    b.set("06:20");
    b.did_at(second, "06:00");
    b.set("07:00");
    const auto drawn_at = [&](const std::string& code, const std::string& at) {
        record::Started s;
        s.lot = code;
        s.product = "loaf";
        b.did_at(s, "05:30");
        return b.did_at(Bakery::used(code, vessel, "10kg"), at);
    };
    const bool mixed = vessel == "silo";
    drawn_at("L-1", "05:57");
    CHECK(drawn(b, "L-1") == "WF-1:10/10");  // before the fill began by more than the clocks err
    const auto near = drawn_at("L-2", "05:59");
    CHECK(drawn(b, "L-2") == (mixed ? "WF-1:10/10? WF-2:0/10?" : "WF-1:10/10? WF-2:0/10?"));
    drawn_at("L-3", "06:10");
    CHECK(drawn(b, "L-3") == (mixed ? "WF-1:0/10? WF-2:10/10?" : "WF-1:10/10? WF-2:0/10?"));
    drawn_at("L-4", "06:23");
    CHECK(drawn(b, "L-4") == (mixed ? "WF-2:10/10" : "WF-1:10/10"));
    REQUIRE_FALSE(near.next.empty());
    CHECK(near.next.front().find("it may be of ") == 0);
    const auto answer = b.site->trace_forward("WF-2");
    REQUIRE(answer.ok());
    CHECK_FALSE(reached(*answer, b, "L-3").certain);
    CHECK(*reached(*answer, b, "L-3").share_largest == Approx(1.0));
    CHECK(b.allergens("L-3") == std::vector<std::string>{"wheat"});
    CHECK(b.ask("SELECT DISTINCT level FROM lot_allergen").front() == "contains");  // whichever it was, there is wheat in it
    b.set("2026-11-18 08:00");
    auto endless = fill(vessel, "WF-2", "10kg");
    endless.until = b.at("2026-11-18 07:00");
    auto late = b.draft(endless);
    late.happened = b.at("2026-11-17 06:00");
    CHECK(b.refused(late).wanted.find("a fill of a day at most") == 0);
    CHECK(b.faults() == "");
}

TEST_CASE("rule 59: a draw that is struck, and waits, stays as possible whatever is recorded of its batch after it") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "100kg");
    b.receive("WF-2", "wheat-flour", "100kg", "S-2");
    const std::string vessel = GENERATE("silo", "tower");
    b.did(fill(vessel, "WF-1", "80kg"));
    b.pass(minutes(10));
    b.start("L-1", "loaf");
    const Seq draw = b.use("L-1", vessel, "10kg").seq;
    const bool amends = GENERATE(false, true);
    const auto corrected =
        amends ? b.site->amend(draw, Bakery::used("L-1", "WF-2", "10kg"), {}, "QA", "the sack") : b.site->void_entry(draw, "QA", "never");
    REQUIRE(corrected.ok());
    CHECK(drawn(b, "L-1") == "WF-1:10/10?");
    b.pass(minutes(10));
    b.use("L-1", "water", "6kg");
    CHECK(drawn(b, "L-1") == "WF-1:10/10?");
    const auto answer = b.site->trace_forward("WF-1");
    REQUIRE(answer.ok());
    CHECK_FALSE(reached(*answer, b, "L-1").certain);
    b.countersigned(corrected->seq);
    CHECK(drawn(b, "L-1") == "");
    CHECK(b.faults() == "");
}

TEST_CASE("rule 17: a held fill holds back every draw that may be of it") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "100kg");
    b.receive("WF-2", "wheat-flour", "100kg", "S-2");
    b.did(fill("tower", "WF-1", "100kg"));
    b.pass(minutes(10));
    b.did(fill("tower", "WF-2", "100kg"));
    b.pass(minutes(10));
    b.did(record::Held{{"WF-2"}, "the mill called", {}});
    draw(b, "L-1", "tower", "85kg");
    b.start("L-2", "loaf");
    CHECK(b.refused(Bakery::used("L-2", "tower", "10kg")).given == "use of TOWER-261116-2, on hold: the mill called");
    CHECK(b.faults() == "");
}

TEST_CASE("a correction that would make a lot come from itself is refused with the path, and nothing is written") {
    Bakery b;
    b.receive("RF-1", "rye-flour", "50kg");
    const auto feed = [&](const std::string& code) {
        b.start(code, "leaven");
        b.use(code, "RF-1", "4kg");
        b.pass(minutes(10));
    };
    feed("LV-1");
    b.finish("LV-1", 0, "8kg");
    b.did(fill("tub", "LV-1", "8kg"));
    b.pass(minutes(10));
    feed("LV-2");
    b.use("LV-2", "tub", "2kg");
    b.pass(minutes(10));
    b.finish("LV-2", 0, "6kg");
    const auto back = b.did(fill("tub", "LV-2", "6kg"));
    b.pass(minutes(10));
    const auto before = b.state();
    const auto started = Instant{b.lot("LV-2").happened};
    auto same = fill("tub", "LV-2", "6kg");
    same.blend = back.code;
    const auto refused = b.site->amend(back.seq, same, started + minutes(5), "QA", "it was earlier");
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.refusal().given.find("would be made from itself") != std::string::npos);
    const auto path = refused.refusal().next;  // from whichever lot of it
    CHECK((path.find("LV-2 > TUB-261116-2 > LV-2 would") != std::string::npos ||
           path.find("TUB-261116-2 > LV-2 > TUB-261116-2 would") != std::string::npos));
    CHECK(b.state() == before);
    CHECK(b.faults() == "");
}

TEST_CASE("a vessel that the plan makes first-in stays mixed until it was emptied and inspected") {
    Bakery b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("WF-2", "wheat-flour", "500kg", "S-2");
    b.did(fill("silo", "WF-1", "100kg"));
    b.pass(minutes(10));
    std::string text(bakery_plan);
    const std::string mixed = "model = \"mixed\"\nholds = \"wheat-flour\"\nheel = \"20kg\"";
    text.replace(text.find(mixed), mixed.size(),
                 "model = \"first-in\"\nholds = \"wheat-flour\"\nsmear = \"10kg\"\nvalidation = \"invented\"");
    std::filesystem::remove(b.folder / "site.toml");
    b.files.create(b.folder / "site.toml", text);
    REQUIRE(b.site->adopt_plan("MK").ok());
    b.pass(minutes(10));
    b.did(fill("silo", "WF-2", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-1", "silo", "10kg");
    CHECK(drawn(b, "L-1") == "WF-2:10/10");  // of the blend that WF-2 made with what stood there
    CHECK(reached(*b.site->trace_forward("WF-1"), b, "L-1").certain);
    b.did(record::Emptied{"silo", true, "looked into"});
    b.pass(minutes(10));
    b.did(fill("silo", "WF-1", "100kg"));
    b.pass(minutes(10));
    b.did(fill("silo", "WF-2", "100kg"));
    b.pass(minutes(10));
    draw(b, "L-2", "silo", "10kg");
    CHECK(drawn(b, "L-2") == "WF-1:10/10");
    CHECK(b.faults() == "");
}

namespace {

// What was recorded of one vessel, kept beside the book: the whole of it, without any of the book's short cuts.
struct Event {
    enum class What { fill, draw, emptied } what = What::fill;
    Seq seq = 0;
    Instant at;
    std::optional<Instant> until;
    std::int64_t kilograms = 0;
    bool inspected = false, voided = false;
    std::string code;  // of the lot that goes in, or the batch
    std::string blend;
};

class Diary {
  public:
    Diary(Bakery& b, std::string vessel, unsigned seed) : b_(b), vessel_(std::move(vessel)), engine_(seed) {
        for (int i = 0; i < 4; ++i) b_.receive("F-" + std::to_string(i), "wheat-flour", "100000kg", "S-" + std::to_string(i));
    }
    void one();
    void compare() const;
    int corrections = 0;

  private:
    int below(int n) { return static_cast<int>(engine_() % static_cast<unsigned>(n)); }
    record::Statement says(const Event& e) const;
    Event fresh();
    void correct();
    trace::VesselHistory history() const;

    Bakery& b_;
    std::string vessel_;
    std::mt19937 engine_;
    std::vector<Event> events_;
    int batches_ = 0;
};

record::Statement Diary::says(const Event& e) const {
    if (e.what == Event::What::emptied) return record::Emptied{vessel_, e.inspected, ""};
    const std::string mass = std::to_string(e.kilograms) + "kg";
    if (e.what == Event::What::draw) return Bakery::used(e.code, vessel_, mass);
    auto filled = fill(vessel_, e.code, mass);
    filled.until = e.until;
    filled.blend = e.blend;
    return filled;
}

Event Diary::fresh() {
    Event e;
    e.at = b_.clock.now() - minutes(below(4) == 0 ? below(60) : 0);
    const int what = below(10);
    e.what = what < 3 ? Event::What::fill : what < 9 ? Event::What::draw : Event::What::emptied;
    e.inspected = below(2) == 0;
    e.kilograms = e.what == Event::What::fill ? 20 + below(60) : 1 + below(15);
    e.code = "F-" + std::to_string(below(4));
    if (e.what == Event::What::fill && below(3) == 0) e.until = std::min(e.at + minutes(below(12)), b_.clock.now());
    return e;
}

void Diary::correct() {
    Event& e = events_[static_cast<std::size_t>(below(static_cast<int>(events_.size())))];
    if (e.voided) return;
    if (below(4) == 0) {
        const auto voided = b_.site->void_entry(e.seq, "QA", "a slip");
        if (!voided) return;
        b_.countersign_if_it_waits(voided->seq);
        e.voided = true;
        ++corrections;
        return;
    }
    Event now = e;
    if (e.what == Event::What::emptied) now.inspected = !now.inspected;
    if (below(2) == 0) now.kilograms = std::max(1, static_cast<int>(e.kilograms) + below(11) - 5);
    if (below(2) == 0) now.at = std::min(e.at + minutes(below(41) - 20), b_.clock.now());
    now.until = now.what == Event::What::fill && below(3) == 0 ? std::optional(std::min(now.at + minutes(below(12)), b_.clock.now()))
                                                               : std::nullopt;
    const auto amended = b_.site->amend(e.seq, says(now), now.at, "QA", "a slip");
    if (!amended) return;
    b_.countersign_if_it_waits(amended->seq);
    e = now;
    ++corrections;
}

void Diary::one() {
    b_.pass(minutes(below(6)));
    if (!events_.empty() && below(5) == 0) return correct();
    Event e = fresh();
    if (e.what == Event::What::draw) {
        e.code = "D-" + std::to_string(++batches_);
        record::Started s;
        s.lot = e.code;
        s.product = "rye";
        auto start = b_.draft(s);
        start.happened = b_.at("05:00");
        b_.did(start);
    }
    auto draft = b_.draft(says(e));
    draft.happened = e.at;
    if (below(3) == 0) draft.already_done = true, draft.why = "it had happened";
    const auto receipt = b_.site->record(draft);
    if (!receipt) return;
    e.seq = receipt->seq;
    e.blend = receipt->code;
    events_.push_back(e);
}

trace::VesselHistory Diary::history() const {
    trace::VesselHistory all;
    all.model = vessel_ == "tower" ? trace::VesselModel::first_in : trace::VesselModel::mixed;
    all.heel_mg = vessel_ == "silo" ? 20 * kg : 0;
    all.smear_mg = vessel_ == "tower" ? 10 * kg : 0;
    all.clock_uncertainty_ms = minutes(2).ms;
    for (const auto& e : events_) {
        if (e.voided) continue;
        if (e.what == Event::What::fill) all.fills.push_back({e.seq, 0, e.kilograms * kg, e.at.ms, e.until.value_or(e.at).ms});
        if (e.what == Event::What::draw) all.draws.push_back({e.seq, e.kilograms * kg, e.at.ms});
        if (e.what == Event::What::emptied) all.emptied.push_back({e.at.ms, e.inspected});
    }
    return all;
}

std::string part(std::int64_t fill, std::int64_t expected, std::int64_t largest, bool certain) {
    return std::to_string(fill) + ":" + std::to_string(expected) + "/" + std::to_string(largest) + (certain ? "" : "?");
}

void Diary::compare() const {
    const auto all = history();
    std::map<Seq, std::vector<std::string>> wanted, found;
    if (all.model == trace::VesselModel::first_in) {
        for (const auto& draw : trace::draw_contents(all)) {
            for (const auto& c : draw.contents) wanted[draw.draw].push_back(part(c.fill, c.expected_mg, c.largest_mg, c.certain));
        }
    } else {
        const auto chain = trace::blend_chain(all);
        for (const auto& d : chain.draws) wanted[d.draw].push_back(part(d.blend, d.expected_mg, d.largest_mg, d.certain));
        for (const auto& blend : chain.blends) {
            if (blend.stands_on)
                wanted[blend.fill].push_back(part(*blend.stands_on, blend.left_mg, blend.left_largest_mg, blend.rest_sure));
        }
    }
    for (const auto& row : b_.ask("SELECT u.seq || ' ' || f.id || ':' || u.mass_mg || '/' || coalesce(u.largest_mg, u.mass_mg) || "
                                  "CASE WHEN u.sure THEN '' ELSE '?' END FROM \"use\" u JOIN lot f ON f.id = u.from_lot "
                                  "WHERE f.kind = 'blend'")) {
        const auto cut = row.find(' ');
        found[std::stoll(row.substr(0, cut))].push_back(row.substr(cut + 1));
    }
    std::string differ;
    for (auto* side : {&wanted, &found}) {
        for (auto& [seq, parts] : *side) std::sort(parts.begin(), parts.end());
    }
    for (const auto& [seq, parts] : wanted) {
        if (found[seq] == parts) continue;
        differ += std::to_string(seq) + " wanted";
        for (const auto& one : parts) differ += " " + one;
        differ += " found";
        for (const auto& one : found[seq]) differ += " " + one;
        differ += "\n";
    }
    for (const auto& [seq, parts] : found) {
        if (!wanted.contains(seq)) differ += std::to_string(seq) + " found, not wanted\n";
    }
    CHECK(differ == "");
}

}  // namespace

TEST_CASE("whatever is filled, drawn, emptied, amended, voided and written late, the book holds what the whole history says") {
    const std::string vessel = GENERATE("silo", "tower");
    const unsigned seed = GENERATE(1u, 2u, 3u);
    INFO(vessel << ", seed " << seed);
    Bakery b;
    Diary diary(b, vessel, seed);
    for (int part = 0; part < 8; ++part) {
        for (int i = 0; i < 25; ++i) diary.one();
        INFO("after part " << part);
        diary.compare();
    }
    CHECK(diary.corrections > 10);
    CHECK(b.faults() == "");
    const auto before = b.state();
    b.site->rebuild();
    CHECK(b.state() == before);
}
