// Every cell of the gate's table, through the public face. What is wanted stands in table.txt, written before the code; here it is
// compared with the table that the program goes by, and then done.
#include "fold/gate/gate.h"

#include <fstream>
#include <map>
#include <set>
#include <sstream>

#include "base/words.h"
#include "site/bakery.h"

namespace peelbook::site::testing {
namespace {

using fold::Act;
using fold::Answer;
using fold::State;

constexpr std::string_view vessels = R"toml(
[[vessel]]
id = "tank"
name = "milk tank"
model = "mixed"
holds = "milk"
[[vessel]]
id = "kettle"
name = "kettle for buns that were not finished"
model = "mixed"
holds = "bun"
[[vessel]]
id = "trough"
name = "trough for dough"
model = "mixed"
holds = "loaf"
)toml";

std::string_view word_of(Answer answer) {
    switch (answer) {
        case Answer::yes:
            return "yes";
        case Answer::along:
            return "along";
        case Answer::no:
            return "no";
        case Answer::why:
            return "why";
        case Answer::never:
            break;
    }
    return "-";
}

std::vector<std::vector<std::string>> written_table() {
    std::ifstream file(std::string(PEELBOOK_SOURCE_DIR) + "/tests/site/gate/table.txt");
    REQUIRE(file);
    std::vector<std::vector<std::string>> rows;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::istringstream words(line);
        auto& row = rows.emplace_back();
        for (std::string word; words >> word;) row.push_back(word);
    }
    return rows;
}

Act act_number(std::size_t i) { return static_cast<Act>(i); }
State state_number(std::size_t i) { return static_cast<State>(i); }

// One lot in one state, and the act upon it.
class GateCell {
  public:
    GateCell(State state, Act act) : state_(state), act_(act) {
        b.adopt(plan());
        b.receive("WF-1", "wheat-flour", "500kg");
        b.receive("MILK-1", "milk", "100kg");
        lot_ = make();
        if (act == Act::onto) lot_ = stands_in_vessel(lot_);
        if (state == State::recalled) {
            record::RecallOpened recall;
            recall.lots = {lot_};
            recall.hazard = "stones";
            recall.why = "the miller called";
            b.did(recall);
        }
        if (act == Act::release && state != State::held) b.did(record::Held{{lot_}, "to be released", {}});
    }

    std::set<State> standing(const std::string& code) const {
        fold::Ledger ledger(book::Book::open(b.folder / "book.db", book::Book::Mode::read));
        std::optional<book::LotId> into;
        if (act_ == Act::use || act_ == Act::rework) into = b.lot(into_).id;
        const Act act = code == "PACK-9" ? Act::customer : act_;  // what was packed goes out next
        const std::string label = act == Act::pack ? label_ : use_label_;
        std::set<State> out;
        fold::Passage passage{act, b.lot(code).id, into, label};
        if (act == Act::pack) passage.packed.emplace();  // without a date
        for (const auto& stop : fold::stops(ledger, passage, b.clock.now(), b.clock.now())) out.insert(stop.state);
        return out;
    }
    std::set<State> standing() {
        if (act_ == Act::use || act_ == Act::rework) b.start(into_, is_milk() ? "bun" : product_);
        return standing(lot_);
    }
    Result<Receipt> done(const std::string& why) {
        auto draft = b.draft(says());
        draft.why = why;
        return b.site->record(draft);
    }
    // What came of it: the part that was made, else the lot itself.
    std::string after() const { return act_ == Act::split ? lot_ + "/A" : act_ == Act::pack ? "PACK-9" : lot_; }
    const std::string& lot() const { return lot_; }

    Bakery b;

  private:
    // A loaf that ages; sold loose its packs bear no date.
    std::string plan() const {
        std::string text = std::string(bakery_plan) + std::string(vessels);
        const std::string loaf = "label = \"loaf-1\"\n";
        const bool ages = state_ == State::misdated || (state_ == State::past_best_before && (act_ == Act::pack || act_ == Act::split));
        if (!ages) return text;
        const std::string loose = state_ == State::misdated ? "" : "sold = \"loose\"\n";
        return text.replace(text.find(loaf), loaf.size(), loaf + "shelf_life = \"1day\"\n" + loose);
    }
    bool goods() const { return act_ == Act::pack || act_ == Act::split || act_ == Act::rework; }
    bool is_milk() const { return state_ == State::past_use_by && !goods(); }

    record::Received received(const std::string& code, const std::string& material, const std::string& date = "") {
        record::Received r;
        r.lot = code;
        r.material = material;
        r.supplier = "MILL";
        r.supplier_lot = "S-7";
        r.mass = measure("50kg");
        if (!date.empty()) r.date = *parse_date(date);
        r.allergens = {true, {material == "milk" ? "milk" : "wheat"}, {}};
        return r;
    }
    // A finding that holds nothing by itself: nobody knows with what it was read, or what the lot contains.
    std::string unproven() {
        if (!goods()) {
            auto silent = received("WF-9", "wheat-flour");
            silent.allergens = {};
            b.did(silent);
            return "WF-9";
        }
        return dough("L-9", "", true);
    }
    std::string dough(const std::string& code, const std::string& probe, bool finish) {
        b.start(code, "loaf");
        b.use(code, "WF-1", "30kg");
        b.use(code, "water", "18kg");
        b.use(code, "SALT-1", "600g");
        b.step(code, "mix");
        b.pass(minutes(30));
        b.did(Bakery::reading(code, "core", "96C", probe));
        b.step(code, "bake");
        if (finish) b.finish(code, 54, "43.2kg");
        return code;
    }
    std::string pack() {
        dough("L-9", "probe", true);
        b.did(Bakery::metal(true));
        b.pass(minutes(1));
        b.did(Bakery::packed("P-9", "L-9", 30, "K9"));
        return "P-9";
    }
    std::string dated(const std::string& label, std::string_view product) {
        auto packed = Bakery::packed("P-9", std::string(product), 30, "K9", label);
        packed.date = *parse_date("2026-11-15");
        b.did(Bakery::metal(true));
        b.pass(minutes(1));
        b.did(packed);
        b.pass(minutes(1));
        b.did(Bakery::metal(true));
        return "P-9";
    }
    std::string decided(const std::string& disposition) {
        const std::string code = unproven();
        const auto f = b.finding(code, goods() ? "core" : "declaration");
        b.did(record::Acted{{f.anchor, f.point, f.ord}, "decided", "", disposition, "", "", ""});
        return code;
    }
    // What keeps it came to be known when it was in the vessel already.
    std::string stands_in_vessel(const std::string& lot) {
        record::Filled fill;
        fill.vessel = vessel();
        fill.lot = lot;
        fill.mass = measure("5kg");
        auto draft = b.draft(fill);
        draft.already_done = true;
        draft.why = "it was in before anybody looked";
        const auto receipt = b.site->record(draft);
        REQUIRE(receipt.ok());
        b.pass(minutes(10));
        return receipt->code;
    }
    std::string vessel() const {
        return state_ == State::owed ? "kettle" : state_ == State::unfinished ? "trough" : is_milk() ? "tank" : "silo";
    }
    std::string make();
    record::Statement says();
    record::Statement way_out() {
        auto out = Bakery::out(std::string(word(act_)), lot_, 0, "CAFE");
        if (act_ == Act::supplier) out.partner = "MILL";
        if (act_ == Act::own_shop || act_ == Act::staff_shop) out.partner.clear();
        if (act_ == Act::waste || act_ == Act::sample) out.why = "for the test";
        if (b.lot(lot_).made_pieces) {
            out.pieces = 1;
        } else {
            out.mass = measure("1kg");
        }
        return out;
    }

    State state_;
    Act act_;
    std::string lot_, into_ = "INTO-9", product_ = "loaf", label_ = "loaf-1", use_label_;
};

std::string GateCell::make() {
    switch (state_) {
        case State::refused: {
            auto refused = received("WF-9", "wheat-flour");
            refused.status = "refused";
            refused.why = "wet sacks";
            b.did(refused);
            if (act_ == Act::count) return "WF-9";
            record::Counted still_there{"WF-9", {}, measure("50kg"), "the driver left it"};
            b.did(still_there);
            return "WF-9";
        }
        case State::recalled:
            return goods() ? dough("L-9", "probe", true) : b.did(received("WF-9", "wheat-flour")).code;
        case State::held: {
            const std::string code = goods() ? dough("L-9", "probe", true) : b.did(received("WF-9", "wheat-flour")).code;
            b.did(record::Held{{code}, "wire seen", {}});
            return code;
        }
        case State::finding:
            return unproven();
        case State::to_rework:
            return decided("rework");
        case State::downgraded:
            return decided("downgrade");
        case State::to_discard:
            return decided("discard");
        case State::owed:
            if (act_ == Act::use || act_ == Act::fill || act_ == Act::onto) {
                b.start("B-9", "bun");
                b.use("B-9", "WF-1", "10kg");
                b.use("B-9", "MILK-1", "6kg");
            } else {
                b.bun("B-9", "WF-1", "MILK-1");
            }
            label_ = "bun-1";
            use_label_ = "bun-1";
            return "B-9";
        case State::unfinished:
            return dough("L-9", "probe", false);
        case State::device_bad:
            if (act_ == Act::pack) {
                dough("L-9", "probe", true);
                b.did(Bakery::metal(false));
                return "L-9";
            }
            pack();
            b.pass(hours(5));  // a check is overdue, and nobody knows what passed since
            return "P-9";
        case State::unchecked:
            if (act_ == Act::pack) {
                dough("L-9", "probe", true);
                b.did(Bakery::metal(true));
                b.pass(minutes(1));
                return "L-9";
            }
            return pack();
        case State::past_use_by:
            if (act_ == Act::pack || act_ == Act::split) {
                b.did(received("MILK-9", "milk", "2026-11-16"));
                b.bun("B-9", "WF-1", "MILK-9");
                b.cooled("B-9");
                b.pass(days(1));
                label_ = "bun-1";
                return "B-9";
            }
            if (goods()) {
                b.bun("B-9", "WF-1", "MILK-1");
                b.cooled("B-9");
                product_ = "bun";
                return dated("bun-1", "B-9");
            }
            b.did(received("MILK-9", "milk", "2026-11-16"));
            b.pass(days(1));
            return "MILK-9";
        case State::past_best_before:
            if (goods()) dough("L-9", "probe", true);
            if (act_ == Act::rework) return dated("loaf-1", "L-9");
            if (goods()) {
                b.pass(days(1));
                return "L-9";
            }
            b.did(received("WF-9", "wheat-flour", "2026-11-16"));
            b.pass(days(1));
            return "WF-9";
        case State::misdated:
            return dough("L-9", "probe", true);
        case State::label_short:
            if (act_ == Act::use) {
                b.receive("SES-9", "sesame", "5kg");
                product_ = "bun";
                return "SES-9";
            }
            label_ = "rye-1";
            if (act_ == Act::pack) return dough("L-9", "probe", true);
            b.bun("B-9", "WF-1", "MILK-1");
            b.cooled("B-9");
            return "B-9";
    }
    return {};
}

record::Statement GateCell::says() {
    switch (act_) {
        case Act::use: {
            auto use = Bakery::used(into_, lot_, "1kg");
            use.label = use_label_;
            return use;
        }
        case Act::rework: {
            record::Used rework;
            rework.into = into_;
            rework.lot = lot_;
            rework.pieces = 1;
            rework.label = use_label_;
            return rework;
        }
        case Act::fill: {
            record::Filled fill;
            fill.vessel = vessel();
            fill.lot = lot_;
            fill.mass = measure("1kg");
            return fill;
        }
        case Act::onto: {
            record::Filled fill;
            fill.vessel = vessel();
            fill.lot = state_ == State::owed ? "B-9" : is_milk() ? "MILK-1" : "WF-1";
            fill.mass = measure("1kg");
            return fill;
        }
        case Act::pack:
            return Bakery::packed("PACK-9", lot_, 1, "K-9", label_);
        case Act::count: {
            record::Counted count;
            count.lot = lot_;
            count.why = "counted";
            if (b.lot(lot_).made_pieces) {
                count.pieces = 60;
            } else {
                count.mass = measure("60kg");
            }
            return count;
        }
        case Act::release:
            return record::Released{{lot_}, "looked at"};
        case Act::store:
            return record::Stored{lot_, "cold-store"};
        case Act::split: {
            record::Split split;
            split.lot = lot_;
            split.child = lot_ + "/A";
            split.unit = "A";
            split.pieces = 10;
            return split;
        }
        case Act::customer:
        case Act::van:
        case Act::own_shop:
        case Act::staff_shop:
        case Act::donation:
        case Act::animal_feed:
        case Act::co_packer:
        case Act::waste:
        case Act::sample:
        case Act::supplier:
            break;
    }
    return way_out();
}

}  // namespace

TEST_CASE("the gate goes by the table that was written first") {
    const auto rows = written_table();
    REQUIRE(rows.size() == fold::states + 2);  // its head, and a free lot
    REQUIRE(rows.front().size() == fold::acts + 1);
    for (std::size_t a = 0; a < fold::acts; ++a) CHECK(rows.front()[a + 1] == word(act_number(a)));
    for (std::size_t a = 0; a < fold::acts; ++a) CHECK((rows[1][a + 1] == "yes" || act_number(a) == Act::release));
    for (std::size_t s = 0; s < fold::states; ++s) {
        const auto& row = rows[s + 2];
        CHECK(row.front() == word(state_number(s)));
        REQUIRE(row.size() == fold::acts + 1);
        for (std::size_t a = 0; a < fold::acts; ++a) {
            INFO(row.front() << " " << word(act_number(a)));
            CHECK(row[a + 1] == word_of(answer(act_number(a), state_number(s))));
        }
    }
}

TEST_CASE("each cell of the gate's table is so: refused, let pass, or let pass with its state") {
    for (std::size_t s = 0; s < fold::states; ++s) {
        for (std::size_t a = 0; a < fold::acts; ++a) {
            const State state = state_number(s);
            const Act act = act_number(a);
            const Answer wanted = answer(act, state);
            if (wanted == Answer::never) continue;
            INFO(word(state) << " " << word(act));
            GateCell cell(state, act);
            const auto standing = cell.standing();
            const bool comes_of_it = state == State::unchecked && act == Act::pack;  // before the packing there was nothing to check
            REQUIRE((standing.contains(state) || comes_of_it));
            bool refused = false, reason = false;
            for (const State other : standing) {
                refused = refused || answer(act, other) == Answer::no;
                reason = reason || answer(act, other) == Answer::why;
            }
            // Beside its own state a lot may be in one that follows from it; a cell that lets pass must not hide behind another.
            if (wanted != Answer::no) REQUIRE_FALSE(refused);
            const auto before = cell.b.state();
            const auto without = cell.done("");
            INFO((without.ok() ? "recorded" : told(without.refusal())));
            CHECK(without.ok() == !(refused || reason));
            if (!without.ok()) CHECK(cell.b.state() == before);
            if (wanted == Answer::why) CHECK(cell.done("still good, tasted").ok());
            if (wanted == Answer::along) CHECK(cell.standing(cell.after()).contains(state));
            if (wanted == Answer::along) CHECK(cell.b.faults() == "");
        }
    }
}

}  // namespace peelbook::site::testing
