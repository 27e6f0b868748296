#pragma once
// The site's written plan, as adopted: plain values, checked. plan/reader.h makes one from TOML texts; nothing else does.
// A plan is judged by, never changed: to change it, a person adopts new texts.
//
// Lists keep the order of the files. Ids are codes (base/text.h check_code), unique within their list; materials and products
// share one name space, since either can be an item of a formula.
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/calendar.h"
#include "base/instant.h"
#include "base/measure.h"

namespace peelbook::plan {

struct Site {
    std::string name, address, phone;
    std::string gln;              // of the site, 13 digits
    std::string company_prefix;   // GS1 company prefix: the first digits of our own SSCCs; empty: none
    std::string web;              // "https://example.com/": where lots without a GTIN are named in EPCIS; empty: none
    std::string zone;             // IANA: "Europe/Berlin"
    int day_start_minutes = 0;    // the production day begins this long after local midnight
    Duration late_after = minutes(15);
    std::string allergen_list;    // "eu", "us" or "codex": what receiving staff are asked about
    std::string paper = "A4";     // or "Letter"
    std::string temperature_unit = "C";
    std::string mass_unit = "kg";
    std::string retention;        // in words, with its source
    std::vector<Date> holidays;
    int review_working_days = 7;   // 21 CFR 117.165(a)(4)
    std::int64_t carry_over_ppm = 1000;  // shares below are grouped as "carry-over below": display only (traps: never a scope)
    Duration clock_uncertainty{};  // two stated times may differ by so much from the truth: a draw this near a fill may be of both
};

enum class DateKind { best_before, use_by };

struct Material {
    std::string id, name, code;  // code: prefix of our lot codes; default: the id in capitals
    std::vector<std::string> allergens, may_contain;  // ids of the vocabulary (plan/allergens.h)
    DateKind date_kind = DateKind::best_before;
    bool supply = false;      // water, ice: a lot per period that never runs out, usable without `receive`
    bool packaging = false;   // counts pieces; never enters shares
    bool traceability_list = false;  // on the Food Traceability List (21 CFR 1 subpart S)
    std::vector<std::string> gtins;  // as on the goods: several suppliers, several numbers
    std::vector<std::string> suppliers;  // partner codes that may supply it; empty: any
};

struct FormulaItem {
    std::string item;  // material or product id
    std::int64_t micro_percent = 0;  // baker's percent of the flour x 10^6 (63 % = 63,000,000)
    std::optional<Measure> absolute; // instead: mass for one batch of `pieces`
    bool flour = false;        // counts towards the 100 %
    bool optional = false;     // rework, dusting: no `missing use` when absent
};

struct Product {
    std::string id, name, code;
    std::string sort;  // in words: "bread", "scald", "leaven", "dough", "filling", ...
    std::vector<FormulaItem> formula;
    std::optional<Measure> unit_mass;   // dough of one piece
    std::int64_t pieces = 0;            // of the usual batch
    std::optional<Measure> usual_flour; // of the usual batch
    std::int64_t tolerance_milli_percent = 2000;  // of each weighed item: outside, a `missing use`
    std::vector<std::string> steps;     // in order: "mix" "proof" "bake" "cool" "pack"
    std::string finish_step;            // the step whose end `finish` records; default: the last before "pack", else the last
    std::string line;                   // a place
    std::string label;                  // the label it is usually packed under
    DateKind date_kind = DateKind::best_before;
    std::optional<Duration> shelf_life; // counted from the end of the bake (finish)
    std::string gtin;                   // of the packed article
    bool traceability_list = false;     // it still holds a food of the Food Traceability List, without a kill step
    bool counted_in_pieces() const { return unit_mass.has_value() || pieces > 0; }
};

struct Label {  // one version of one label, the thing a packer scans
    std::string id, name, product, market;  // market: "eu", "us", "codex"
    std::vector<std::string> declares, may_contain;  // allergen ids
};

struct Vessel {
    std::string id, name, kind;  // "silo", "tank", "tub"
    std::string model;           // "mixed" or "first-in"
    std::string holds;           // item id
    std::int64_t heel_mg = 0;    // what always stays behind
    std::int64_t smear_mg = 0;   // first-in: either side of a boundary
    std::string validation;      // cited, wanted for first-in
};

struct Place { std::string id, name; };  // room, oven, detector, line: what is read that is not a lot

struct Instrument {
    std::string id, name, kind;
    std::optional<Measure> tolerance;
    std::optional<Duration> calibrate_every;
    std::string place;  // where it is fixed, if it is
};

struct Role {
    std::string id;
    std::vector<std::string> may;  // command names; "*" for all
};

enum class Grade { critical, operating, quality };
std::string_view word(Grade g);

// A bound in one unit, and if the plan says so in a second: "21C | 70F". Compared in the unit that was typed when that
// unit is stated here, else in the canonical integer of the first.
struct Bound {
    Measure first;
    std::optional<Measure> second;
};
std::string to_text(const Bound& b);

struct RangeLimit {  // inclusive on both sides
    std::optional<Bound> least, most;
};
struct TimeLimit {  // between two events of the batch
    std::string from, until;  // "start", "finish", "pack", "ship", or "STEP" (its recorded end)
    std::optional<Duration> least, most;
};
struct CoolingLimit {  // staged
    Bound from;
    struct Stage { Bound to; Duration within; };
    std::vector<Stage> stages;   // to falling
    bool each_from_previous = false;  // false: every `within` counts from the start (1 h + 5 h passes)
    std::string hot_at;          // step whose end is the last moment known hot; empty: readings only
    std::string starts_at{};     // event that starts the clock whatever the temperature (as TimeLimit::from): food made from
                                 // ingredients at ambient temperature, Food Code 3-501.14(B); empty: `from` starts it
};
struct BeforePackingLimit {  // the last reading before packing must be at most this
    Bound most;
};
struct YesNoLimit {};  // an inspection that must pass
using Limit = std::variant<RangeLimit, TimeLimit, CoolingLimit, BeforePackingLimit, YesNoLimit>;

struct Interval {  // on top of a limit: a check at least so often, on a place or a device
    Duration every{};
    std::optional<int> from_minutes, until_minutes;  // local hours in which it is owed; absent: all day. Until before
                                                     // from: over midnight. Never equal.
    bool device_check = false;  // traps 7: a bad one holds every lot that passed since the last good one
};

struct Point {
    std::string id, name;
    std::string step;                       // of the products' steps; "receive" for materials; empty on places
    std::vector<std::string> products;      // ids it applies to, or
    std::vector<std::string> materials;     // ids, read at receipt, or
    std::string place;                      // a place
    Grade grade = Grade::critical;
    std::string hazard;                     // id of a hazard, if any
    std::string measures;                   // in words: "core temperature"
    std::optional<Dimension> dimension;     // of its readings; none for yes/no and time limits
    Limit limit;
    std::optional<Bound> warn_least, warn_most;  // operating limits inside the critical ones
    std::vector<std::string> units;         // all must be probed: ovens, racks; empty: one reading is enough
    std::optional<Interval> interval;
    bool optional = false;                  // not owed: judged only when read
    bool instrument_needed = false;         // default true for critical points with a dimension
    std::vector<std::string> lines;         // device check: batches on these lines passed it
    std::string how_often, who, basis, product_action, process_action;
    std::string limit_text;                 // the limit in words, made by the reader
};

struct Hazard {
    std::string id, step, kind;  // "biological", "chemical", "physical", "allergen"
    std::string what, likelihood, severity, control;
    bool significant = false;
};

// By when, counted from when word came, a step of a recall is to be done; a drill is measured by the same.
inline constexpr std::string_view deadline_steps[] = {"hold", "authority", "customers", "public", "close", "call-list"};
struct Deadline {
    std::string id, name;
    std::string step;  // of deadline_steps; "call-list": how long a test of the call list counts
    Duration within{};
    std::string basis;
};

struct Plan {
    Site site;
    std::vector<Material> materials;
    std::vector<Product> products;
    std::vector<Label> labels;
    std::vector<Vessel> vessels;
    std::vector<Place> places;
    std::vector<Instrument> instruments;
    std::vector<Role> roles;
    std::vector<Hazard> hazards;
    std::vector<Point> points;
    std::vector<Deadline> deadlines;

    const Material* material(std::string_view id) const;
    const Product* product(std::string_view id) const;
    const Label* label(std::string_view id) const;
    const Vessel* vessel(std::string_view id) const;
    const Place* place(std::string_view id) const;
    const Instrument* instrument(std::string_view id) const;
    const Role* role(std::string_view id) const;
    const Point* point(std::string_view id) const;
    std::vector<const Point*> points_of_product(std::string_view product) const;
    std::vector<const Point*> points_of_material(std::string_view material) const;
    std::vector<const Point*> points_of_place(std::string_view place) const;
    std::string name_of(std::string_view item) const;  // of a material or product; the id itself when unknown
};

}  // namespace peelbook::plan
