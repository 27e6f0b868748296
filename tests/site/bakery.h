#pragma once
// A small invented bakery in a temporary folder, with a clock set by hand, for the tests of the site layer.
// Everything goes through the public face; each entry happens at the clock's time unless a test says
// otherwise.
//
//   Bakery b;                                   // Monday 2026-11-16 05:00 in Berlin; plan adopted, people
//   and partners known b.receive("WF-1", "wheat-flour", "500kg"); b.loaf("L-1", "WF-1"); // started, weighed,
//   baked at 96 C, finished: 54 pieces, 48 kg b.did(record::Packed{...});                 // fails the test
//   when refused auto refusal = b.refused(record::Packed{...});  // fails the test when recorded, or when the
//   book changed
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "base/measure.h"
#include "site/site.h"

namespace peelbook::site::testing {

inline constexpr std::string_view bakery_plan = R"toml(
[site]
name = "Mill Lane Bakehouse"
zone = "Europe/Berlin"
allergen_list = "eu"
day_start = "03:00"
late_after = "15min"
clock_uncertainty = "2min"

[[material]]
id = "wheat-flour"
name = "wheat flour"
code = "WF"
allergens = ["wheat"]
[[material]]
id = "rye-flour"
name = "rye flour"
code = "RF"
allergens = ["rye"]
[[material]]
id = "water"
name = "town water"
code = "WTR"
supply = true
[[material]]
id = "salt"
name = "salt"
[[material]]
id = "yeast"
name = "yeast"
[[material]]
id = "milk"
name = "milk"
allergens = ["milk"]
date = "use-by"
[[material]]
id = "sesame"
name = "sesame"
allergens = ["sesame"]
[[material]]
id = "well"
name = "well water"
code = "WELL"
supply = true
[[material]]
id = "film"
name = "film for packs"
packaging = true

[[product]]
id = "loaf"
name = "tin loaf"
code = "L"
formula = [ { item = "wheat-flour", percent = "100%", flour = true }, { item = "water", percent = "60%" },
            { item = "salt", percent = "2%" } ]
unit_mass = "900g"
usual_flour = "30kg"
steps = ["mix", "bake", "cool", "pack"]
line = "line-1"
label = "loaf-1"
[[product]]
id = "bun"
name = "custard bun"
code = "B"
formula = [ { item = "wheat-flour", percent = "100%", flour = true }, { item = "milk", percent = "60%" } ]
unit_mass = "100g"
usual_flour = "10kg"
steps = ["mix", "boil", "cool", "pack"]
finish_step = "boil"
line = "line-2"
label = "bun-1"
date = "use-by"
[[product]]
id = "leaven"
name = "rye leaven"
code = "LV"
formula = [ { item = "rye-flour", percent = "100%", flour = true }, { item = "water", percent = "100%" },
            { item = "leaven", percent = "50%", optional = true } ]
usual_flour = "4kg"
steps = ["feed", "ripen"]
[[product]]
id = "rye"
name = "rye bread"
code = "R"
formula = [ { item = "rye-flour", percent = "100%", flour = true }, { item = "leaven", percent = "20%" },
            { item = "water", percent = "50%" }, { item = "rye", percent = "10%", optional = true } ]
unit_mass = "1kg"
usual_flour = "20kg"
steps = ["mix", "bake", "cool", "pack"]
line = "line-1"
label = "rye-1"

[[label]]
id = "loaf-1"
name = "tin loaf"
product = "loaf"
market = "eu"
declares = ["wheat"]
[[label]]
id = "loaf-2"
name = "tin loaf, new print"
product = "loaf"
market = "eu"
declares = ["wheat", "sesame"]
[[label]]
id = "bun-1"
name = "custard bun"
product = "bun"
market = "eu"
declares = ["wheat", "milk"]
[[label]]
id = "rye-1"
name = "rye bread"
product = "rye"
market = "eu"
declares = ["rye"]

[[vessel]]
id = "silo"
name = "wheat silo"
model = "mixed"
holds = "wheat-flour"
heel = "20kg"
[[vessel]]
id = "tower"
name = "wheat tower"
model = "first-in"
holds = "wheat-flour"
smear = "10kg"
validation = "invented for this test: dyed flour, 2026-10-02"
[[vessel]]
id = "tub"
name = "leaven tub"
model = "mixed"
holds = "leaven"

[[place]]
id = "line-1"
name = "bread line"
[[place]]
id = "line-2"
name = "bun line"
[[place]]
id = "detector"
name = "metal detector of the bread line"
[[place]]
id = "cold-store"
name = "cold store"

[[instrument]]
id = "probe"
name = "core probe"
tolerance = "0.5C"
calibrate_every = "28days"
[[instrument]]
id = "old-probe"
name = "probe without a calibration"
calibrate_every = "28days"

[[role]]
id = "manager"
may = ["*"]
[[role]]
id = "quality"
may = ["reading", "inspect", "hold", "release", "act", "review", "calibrate", "amend", "void", "countersign"]
[[role]]
id = "baker"
may = ["start", "use", "step", "reading", "finish", "split", "count"]

[[point]]
id = "core"
name = "core of the bake"
step = "bake"
products = ["loaf", "rye"]
class = "critical"
measures = "core temperature"
unit = "C"
limit = { least = "94C" }
basis = "invented for this test"
action = { product = "Bake on.", process = "Check the oven." }
[[point]]
id = "cooling"
name = "custard cooled in time"
step = "cool"
products = ["bun"]
class = "critical"
measures = "core of the bun"
unit = "C"
limit = { cooling = { from = "57C | 135F", stages = [
  { to = "21C | 70F", within = "2h", fastest = "15min" },
  { to = "5C | 41F", within = "6h", fastest = "45min" },
], counted = "start", hot_at = "boil" } }
basis = "Food Code 3-501.14(A)."
action = { product = "Hold the rack.", process = "Look at the chiller." }
[[point]]
id = "metal"
name = "detector finds its test pieces"
place = "detector"
class = "critical"
limit = { yes_no = true }
every = "4h"
device_check = true
lines = ["line-1"]
basis = "invented for this test"
action = { product = "Hold all since the last good check.", process = "Stop packing." }
[[point]]
id = "cold-air"
name = "air of the cold store"
place = "cold-store"
class = "operating"
measures = "air"
unit = "C"
limit = { most = "5C" }
every = "4h"
)toml";

// What a test adds when it is about equipment and labels on a line. The mixer is touched at the start of a batch, the packer at each
// packing; a wet cleaning of either clears all, a dry one sesame.
inline constexpr std::string_view equipment_plan = R"toml(
[[equipment]]
id = "mixer"
name = "spiral mixer"
lines = ["line-1", "line-2"]
residue = "200g"
[[equipment]]
id = "packer"
name = "bagging machine"
lines = ["line-1"]
step = "pack"
[[cleaning]]
id = "wet"
name = "washed and dried"
kind = "wet"
equipment = ["mixer", "packer"]
clears = ["wheat", "rye", "milk", "sesame", "egg", "molluscs"]
time = "30min"
cost = 12
verify = ["mixer-seen", "mixer-swab", "packer-seen"]
[[cleaning]]
id = "dry"
name = "brushed out"
kind = "dry"
equipment = ["mixer", "packer"]
clears = ["sesame"]
time = "10min"
cost = 3
verify = ["mixer-seen", "packer-seen"]
[[reference_dose]]
allergen = "milk"
dose = "2mg"
source = "FAO/WHO expert consultation, part 2, 2022"

[[point]]
id = "mixer-seen"
name = "mixer seen to be clean"
place = "mixer"
class = "operating"
limit = { yes_no = true }
[[point]]
id = "mixer-swab"
name = "protein swab of the mixer"
place = "mixer"
class = "operating"
measures = "protein in the rinse water"
unit = "ppm"
limit = { most = "5ppm" }
[[point]]
id = "packer-seen"
name = "packer seen to be clean"
place = "packer"
class = "operating"
limit = { yes_no = true }
[[point]]
id = "label-read"
name = "label as read"
place = "line-1"
class = "operating"
limit = { label = { at = ["start", "end"], most_lost = 2 } }
)toml";

inline Measure measure(const std::string& text) {
    auto parsed = parse_measure(text);
    INFO(text);
    REQUIRE(parsed.ok());
    return *parsed;
}

inline std::string told(const Refusal& r) {
    std::string out = r.given + " | " + r.wanted + " | " + r.next;
    for (const auto& name : r.nearest) out += " | " + name;
    return out;
}

// What must not change when a command is refused: number of entries, hash of the last one, SHA-256 over every
// derived row.
struct BookState {
    Seq entries = 0;
    std::string head, derived;
    bool operator==(const BookState&) const = default;
};

class Bakery {
  public:
    HandClock clock;
    DiskFiles files;
    std::filesystem::path folder;
    std::unique_ptr<Site> site;

    Bakery();
    ~Bakery() {
        site.reset();
        std::filesystem::remove_all(folder);
    }
    Bakery(const Bakery&) = delete;
    Bakery& operator=(const Bakery&) = delete;

    // Another plan in place of the one in force.
    void adopt(const std::string& plan) {
        std::filesystem::remove(folder / "site.toml");
        files.create(folder / "site.toml", plan);
        for (const auto& fault : site->check_plan().faults) UNSCOPED_INFO(plan::to_text(fault));
        REQUIRE(site->check_plan().usable());
        REQUIRE(site->adopt_plan("MK").ok());
    }

    Instant at(const std::string& text) const {  // "2026-11-16 05:40", or "05:40" of Monday 2026-11-16
        auto t = parse_when(text.size() > 5 ? text : "2026-11-16 " + text, *zone_, clock.now());
        INFO(text);
        REQUIRE(t.ok());
        return *t;
    }
    void set(const std::string& text) { clock.set(at(text)); }
    void pass(Duration d) { clock.set(clock.now() + d); }

    Draft draft(const record::Statement& says) const { return {says, "MK", {}, "", false, ""}; }
    Receipt did(const Draft& draft) {
        auto receipt = site->record(draft);
        INFO((receipt ? "" : told(receipt.refusal())));
        REQUIRE(receipt.ok());
        return *receipt;
    }
    Receipt did(const record::Statement& says) { return did(draft(says)); }
    Receipt did_at(const record::Statement& says, const std::string& when) {
        auto d = draft(says);
        d.happened = at(when);
        return did(d);
    }
    Receipt already_done(const record::Statement& says, const std::string& why) {
        auto d = draft(says);
        d.already_done = true;
        d.why = why;
        return did(d);
    }
    Refusal refused(const Draft& draft) {
        const auto before = state();
        auto receipt = site->record(draft);
        REQUIRE_FALSE(receipt.ok());
        REQUIRE(state() == before);
        return receipt.refusal();
    }
    Refusal refused(const record::Statement& says) { return refused(draft(says)); }
    Receipt amended(Seq target, const record::Statement& instead,
                    const std::string& why = "typed wrongly") {  // by a second person
        auto receipt = site->amend(target, instead, {}, "QA", why);
        INFO((receipt ? "" : told(receipt.refusal())));
        REQUIRE(receipt.ok());
        return *receipt;
    }

    // Another person says that a correction, or what came late, counts.
    Receipt countersigned(Seq entry, const std::string& by = "MK", bool refused = false) {
        auto d = draft(record::Countersigned{{entry}, refused, refused ? "nobody saw it" : "", false, ""});
        d.by = by;
        return did(d);
    }

    void countersign_if_it_waits(Seq entry) {
        const auto waiting = site->waiting();
        if (std::any_of(waiting.begin(), waiting.end(), [&](const auto& one) { return one.entry == entry; })) countersigned(entry);
    }

    // --- the everyday entries
    Receipt receive(const std::string& code, const std::string& material, const std::string& mass, const std::string& supplier_lot = "S-1",
                    const std::string& date = "");
    Receipt use(const std::string& into, const std::string& lot, const std::string& mass) { return did(used(into, lot, mass)); }
    static record::Used used(const std::string& into, const std::string& lot, const std::string& mass) {
        record::Used u;
        u.into = into;
        u.lot = lot;
        u.mass = measure(mass);
        return u;
    }
    Receipt start(const std::string& code, const std::string& product) {
        record::Started s;
        s.lot = code;
        s.product = product;
        return did(s);
    }
    Receipt step(const std::string& lot, const std::string& step) { return did(record::StepDone{lot, step, ""}); }
    static record::ReadingTaken reading(const std::string& lot, const std::string& point, const std::string& value,
                                        const std::string& instrument = "probe") {
        return {lot, point, measure(value), "", instrument, ""};
    }
    Receipt finish(const std::string& lot, std::int64_t pieces, const std::string& mass, const std::string& why = "") {
        record::Finished finished{lot, pieces, measure(mass), ""};
        finished.why = why;
        return did(finished);
    }
    static record::Packed packed(const std::string& code, const std::string& from, std::int64_t pieces, const std::string& printed,
                                 const std::string& label = "") {
        record::Packed p;
        p.lot = code;
        p.from = {{from, pieces, {}}};
        p.label = label;
        p.printed_code = printed;
        return p;
    }
    static record::MovedOut out(const std::string& way, const std::string& lot, std::int64_t pieces, const std::string& partner = "") {
        record::MovedOut m;
        m.way = way;
        m.lot = lot;
        m.pieces = pieces;
        m.partner = partner;
        return m;
    }
    // The check of the detector at the end of a run, before which nothing that was packed may leave.
    Receipt end_of_run() {
        pass(minutes(1));
        return did(metal(true));
    }
    // In ice, 0.2 C off where 0.5 C are allowed; or 3 C off.
    static record::Calibrated calibrated(bool good, const std::string& instrument = "probe") {
        return {instrument, "ice", measure(good ? "0.2C" : "3C"), measure("0C"), good, ""};
    }
    static record::Inspected metal(bool passed) { return {"detector", "metal", "", "", passed, ""}; }
    // The usual 30 kg of flour from `flour`: 54 pieces of 900 g of dough, 43.2 kg baked (11 % bake loss).
    // Takes 40 minutes.
    void loaf(const std::string& code, const std::string& flour, const std::string& core = "96C");
    // The usual 10 kg of flour, 6 kg of milk: 160 buns, 14.4 kg, finished when they leave the oven. Takes 10
    // minutes.
    void bun(const std::string& code, const std::string& flour, const std::string& milk);

    // After its finish, hot: below 57 C after 10 minutes at the earliest, at 20 C after 90, at 4.6 C after 240; the step is recorded.
    void cooled(const std::string& code) {
        const auto read = [&](Duration later, const std::string& value) {
            pass(later);
            did(reading(code, "cooling", value));
        };
        read(minutes(10), "60C");
        read(minutes(30), "50C");
        read(minutes(50), "20C");
        read(minutes(150), "4.6C");
        step(code, "cool");
    }

    // --- what the book says
    book::Lot lot(const std::string& code) const {
        auto found = site->lot(code);
        INFO(code);
        REQUIRE(found.ok());
        return *found;
    }
    // The finding of a lot at a point; the test fails when there is none.
    book::Finding finding(const std::string& lot, const std::string& point) const {
        for (const auto& t : site->findings_of(lot)) {
            if (t.finding.point == point) return t.finding;
        }
        FAIL("no finding " + point + " of " + lot);
        return {};
    }
    bool has_finding(const std::string& lot, const std::string& point) const {
        for (const auto& t : site->findings_of(lot)) {
            if (t.finding.point == point) return true;
        }
        return false;
    }
    bool held(const std::string& code) const {
        for (const auto& [hold, lot] : site->status().open_holds) {
            if (lot == code) return true;
        }
        return false;
    }
    // Rows of a query as text, fields joined by ' ', one row an element.
    std::vector<std::string> ask(const std::string& sql) const {
        auto table = site->ask(sql);
        INFO(sql << (table ? "" : told(table.refusal())));
        REQUIRE(table.ok());
        std::vector<std::string> out;
        for (const auto& row : table->rows) {
            std::string line;
            for (const auto& cell : row) line += (line.empty() ? "" : " ") + to_text(cell);
            out.push_back(line);
        }
        return out;
    }
    std::vector<std::string> allergens(const std::string& code) const {
        return ask("SELECT allergen FROM lot_allergen JOIN lot ON lot.id = lot_allergen.lot WHERE code = '" + code + "' ORDER BY allergen");
    }
    std::vector<std::string> reached(const std::string& lot) const {
        auto answer = site->trace_forward(lot);
        REQUIRE(answer.ok());
        std::vector<std::string> codes;
        for (const auto& one : answer->reached) {
            for (const auto& known : answer->graph.lots) {
                if (known.id == one.lot) codes.push_back(known.code);
            }
        }
        std::sort(codes.begin(), codes.end());
        return codes;
    }
    BookState state() const {
        const auto book = book::Book::open(folder / "book.db", book::Book::Mode::read);
        return {book.next_seq() - 1, record::to_hex(book.head()), book::derived_digest(book)};
    }
    std::string faults(bool derived = true) const {
        std::string all;
        for (const auto& fault : site->verify(derived)) all += fault.table + ": " + fault.text + "\n";
        return all;
    }

  private:
    std::unique_ptr<Zone> zone_;
};

inline Bakery::Bakery() {
    static int number = 0;
    folder = std::filesystem::temp_directory_path() / ("peelbook-site-" + std::to_string(::getpid()) + "-" + std::to_string(++number));
    zone_ = std::make_unique<Zone>(*Zone::named("Europe/Berlin"));
    clock.set(Instant{1'794'787'200'000});  // 2026-11-16 00:00:00Z
    set("05:00");
    auto made = Site::create(folder, "Mill Lane Bakehouse", "Europe/Berlin", "MK", "Mara Kesten", clock, files);
    REQUIRE(made.ok());
    site = std::move(*made);
    for (const auto& text : site->plan_files()) std::filesystem::remove(folder / text.name);
    files.create(folder / "site.toml", bakery_plan);
    for (const auto& fault : site->check_plan().faults) UNSCOPED_INFO(plan::to_text(fault));
    REQUIRE(site->check_plan().usable());
    REQUIRE(site->adopt_plan("MK").ok());
    did(record::PersonAdded{"QA", "Quentin Ahl", "quality"});
    did(record::PersonAdded{"BA", "Berta Amsel", "baker"});
    for (const std::string code : {"MILL", "MILL-2", "DAIRY"})
        did(record::PartnerAdded{code, "Supplier " + code, {"supplier"}, "", "", "", ""});
    for (const std::string code : {"CAFE", "SHOP"}) did(record::PartnerAdded{code, "Customer " + code, {"customer"}, "", "", "", ""});
    did(calibrated(true));
    receive("SALT-1", "salt", "100kg");
}

inline Receipt Bakery::receive(const std::string& code, const std::string& material, const std::string& mass,
                               const std::string& supplier_lot, const std::string& date) {
    record::Received r;
    r.lot = code;
    r.material = material;
    r.supplier = "MILL";
    r.supplier_lot = supplier_lot;
    r.mass = measure(mass);
    if (!date.empty()) r.date = *parse_date(date);
    const auto plan = *site->plan_in_force();
    r.allergens = {true, plan.material(material)->allergens, {}};
    return did(r);
}

inline void Bakery::loaf(const std::string& code, const std::string& flour, const std::string& core) {
    start(code, "loaf");
    use(code, flour, "30kg");
    use(code, "water", "18kg");
    use(code, "SALT-1", "600g");
    pass(minutes(5));
    step(code, "mix");
    pass(minutes(30));
    did(reading(code, "core", core));
    step(code, "bake");
    pass(minutes(5));
    finish(code, 54, "43.2kg");
}

inline void Bakery::bun(const std::string& code, const std::string& flour, const std::string& milk) {
    start(code, "bun");
    use(code, flour, "10kg");
    use(code, milk, "6kg");
    pass(minutes(5));
    step(code, "mix");
    pass(minutes(5));
    finish(code, 160, "14.4kg");
}

}  // namespace peelbook::site::testing
