#pragma once
// The site's written plan, as adopted: plain values, checked. plan/reader.h makes one from TOML texts; nothing else does.
// A plan is judged by, never changed: to change it, a person adopts new texts. How a member is written, said and kept stands in
// plan/lists.h, which a new one must be added to.
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
#include "base/date_kind.h"
#include "base/grade.h"
#include "base/instant.h"
#include "base/label_moment.h"
#include "base/measure.h"
#include "base/words.h"

namespace peelbook::plan {

struct Site {
    std::string name, address, phone;
    std::string gln;             // of the site, 13 digits
    std::string company_prefix;  // GS1 company prefix: the first digits of our own SSCCs; empty: none
    std::string web;             // "https://example.com/": where lots without a GTIN are named in EPCIS; empty: none
    std::string zone;            // IANA: "Europe/Berlin"
    int day_start_minutes = 0;   // the production day begins this long after local midnight
    Duration late_after = minutes(15);
    std::string allergen_list;  // "eu", "us" or "codex": what receiving staff are asked about
    std::string paper = "A4";   // or "Letter"
    std::string temperature_unit = "C";
    std::string mass_unit = "kg";
    std::string retention;               // in words, with its source
    std::vector<Date> holidays;          // closed days as plans wrote them before there was a calendar: the reader moves them there
    int review_working_days = 7;         // 21 CFR 117.165(a)(4)
    std::int64_t carry_over_ppm = 1000;  // shares below are grouped as "carry-over below": display only (rule 35: never a scope)
    bool alone = false;                  // there is no second person: who typed something late may countersign it, within bounds
    Duration clock_uncertainty{};        // two stated times may differ by so much from the truth: a draw this near a fill may be of both
    std::int64_t people = 0;  // who share the checks; 0: not said. For the load alone (plan/load.h), as `a_week` and `takes` below
    bool practice = false;    // rule 58: everything is judged, nothing is held by itself, and the gate only warns
};

// When the house works. Without shifts the whole of each open day counts.
struct Calendar {
    std::vector<std::string> open;  // of weekdays; empty: all of them
    std::vector<Date> closed;       // days on which the house is closed all the same; no working days for a review either
    bool is_open(Date day) const;
};
// ISO 8601: Monday is the first.
inline constexpr std::string_view weekdays[] = {"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

struct Shift {
    std::string id, name;
    int from_minutes = 0, until_minutes = 0;  // local; until before from: over midnight, and of the day on which it begins
    std::vector<std::string> days;            // weekdays on which it begins, also others than the open ones; empty: the open ones
};

using peelbook::DateKind;

// Clocks that begin when somebody opens or thaws a lot (rule 67). They only ever shorten.
struct Clocks {
    std::optional<Duration> opened_within, thawed_within;
    bool refreeze = false;  // what was thawed may be frozen and thawed once more; the first thaw counts
};

struct Material {
    std::string id, name, code;                       // code: prefix of our lot codes; default: the id in capitals
    std::vector<std::string> allergens, may_contain;  // ids of the vocabulary (plan/allergens.h)
    DateKind date_kind = DateKind::best_before;
    bool supply = false;                 // water, ice: a lot per period that never runs out, usable without `receive`
    bool packaging = false;              // counts pieces; never enters shares
    bool traceability_list = false;      // on the Food Traceability List (21 CFR 1 subpart S)
    std::vector<std::string> gtins;      // as on the goods: several suppliers, several numbers
    std::vector<std::string> suppliers;  // partner codes that may supply it; empty: any
    struct Protein {
        std::string allergen;
        std::int64_t milli_percent = 0;  // of the material's mass
    };
    std::vector<Protein> protein;  // of its allergens, where it is known
    std::int64_t a_week = 0;       // deliveries; 0: one
    std::optional<Duration> opened_within, thawed_within;
    bool refreeze = false;
};

struct FormulaItem {
    std::string item;                 // material or product id
    std::int64_t micro_percent = 0;   // baker's percent of the flour x 10^6 (63 % = 63,000,000)
    std::optional<Measure> absolute;  // instead: mass for one batch of `pieces`
    bool flour = false;               // counts towards the 100 %
    bool optional = false;            // rework, dusting: no `missing use` when absent
};

// The dough temperature that is wanted after mixing, and the points whose readings show what the mixer adds. A point may be of
// the product or of a place. calc/dough_water.h, factor method; at `start` the water is suggested from it.
struct DoughAim {
    Measure wanted;
    std::string dough;               // point of the product: the dough after mixing
    std::string flour, water, room;  // points of the other temperatures
    std::string preferment;          // empty: none
};

struct Product {
    std::string id, name, code;
    std::string sort;  // in words: "bread", "scald", "leaven", "dough", "filling", ...
    std::vector<FormulaItem> formula;
    std::optional<Measure> unit_mass;                     // dough of one piece
    std::int64_t pieces = 0;                              // of the usual batch
    std::optional<Measure> usual_flour;                   // of the usual batch
    std::int64_t tolerance_milli_percent = 2000;          // of each weighed item: outside, a `missing use`
    std::int64_t yield_tolerance_milli_percent = 10'000;  // of the pieces that the dough makes: outside, a finding at `finish`
    std::vector<std::string> steps;                       // in order: "mix" "proof" "bake" "cool" "pack"
    std::string finish_step;  // the step whose end `finish` records; default: the last before "pack", else the last
    std::string kill_step;    // after whose end no use-by of what went in before it counts: the bake, the souring of a leaven; empty: none
    std::string line;         // a place
    std::string label;        // the label it is usually packed under
    DateKind date_kind = DateKind::best_before;
    std::optional<Duration> shelf_life;  // this and the next count from the end of kill_step, without one from that of finish_step
    std::optional<Duration> use_within;  // of a filling, a leaven, a scald: an age past which it is refused like a use-by date
    std::optional<Duration> opened_within, thawed_within;
    bool refreeze = false;
    std::string gtin;                // of the packed article
    bool traceability_list = false;  // it still holds a food of the Food Traceability List, without a kill step
    std::optional<DoughAim> dough;
    std::optional<Measure> portion;  // mass of one eating, for action levels
    std::string sold;                // "packed", "loose" or "direct": packed for direct sale
    std::int64_t a_week = 0;         // usual batches; 0: one each open day
    bool counted_in_pieces() const { return unit_mass.has_value() || pieces > 0; }
};

struct Label {                                       // one version of one label, the thing a packer scans
    std::string id, name, product, market;           // market: "eu", "us", "codex"
    std::vector<std::string> declares, may_contain;  // allergen ids
    std::string claim;                               // of gluten: one of gluten_claims (plan/boundaries.h); empty: none
};

struct Vessel {
    std::string id, name, kind;  // "silo", "tank", "tub"
    std::string model;           // "mixed" or "first-in"
    std::string holds;           // item id
    std::int64_t heel_mg = 0;    // what always stays behind
    std::int64_t smear_mg = 0;   // first-in: either side of a boundary
    std::string validation;      // cited, wanted for first-in
};

// What residue lies on. Every piece is a place too: it is read, inspected and cleaned by its id.
struct Equipment {
    std::string id, name;
    std::vector<std::string> lines;     // places; what runs there touches it
    std::vector<std::string> products;  // only these of them; empty: all
    std::string step;                   // at whose end it is touched; "pack": each packing; empty: at the start of the batch
    std::optional<Measure> residue;     // of the product before, that may stay behind and go into one batch
};

struct Cleaning {
    std::string id, name, kind;          // kind: "dry" or "wet"
    std::vector<std::string> equipment;  // pieces it is for
    std::vector<std::string> clears;     // allergen ids
    Duration time{};                     // of one piece
    std::int64_t cost = 0;               // of one piece, in whole units of the house's money
    std::vector<std::string> verify;     // points of those pieces; all must be within after it, before the piece runs again
};

struct ReferenceDose {  // for residue alone (rule 40)
    std::string allergen;
    Measure dose;  // mass of protein
    std::string source;
};

struct Place {
    std::string id, name;
};  // room, oven, detector, line: what is read that is not a lot

struct Instrument {
    std::string id, name, kind;
    std::optional<Measure> tolerance;    // at a calibration it may be off by so much
    std::optional<Measure> uncertainty;  // expanded (k = 2), from its certificate: the guard band; else the tolerance is
    std::optional<Duration> calibrate_every;
    std::string place;  // where it is fixed, if it is
};

// One value column of a logger's file.
struct LoggerColumn {
    std::string column;  // its heading, or its number from 1
    Unit unit = Unit::celsius;
    std::string point;   // the control point it is read for; empty: any
    std::string probed;  // which oven, deck, rack; empty: whichever is named
};

// How the files of a logger are read. What is left out is found out: the separator from each line, the header as the first
// line that is no row, times as people type them, the decimal mark from what the separator leaves free.
struct Logger {
    std::string id, name;
    std::string separator;                     // one character; empty: ';', a tab or ',' whichever a line has
    std::string decimal;                       // "." or ","; empty: "." and, where ',' does not separate, ","
    std::optional<std::int64_t> header_lines;  // the last of them holds the headings
    std::string date_column, time_column;      // heading or number from 1; without a date column the time column holds both
    std::string time_format;                   // "DD.MM.YYYY hh:mm:ss" (base/time_format.h); empty: as people type times
    std::string zone;                          // IANA, "UTC" or "+01:00": of the logger's clock; empty: the site's
    std::optional<Duration> every;             // one row in so long; longer than half as much again is a gap
    std::vector<std::string> no_value;         // what stands where the logger has no value: "---"
    std::vector<LoggerColumn> columns;
};

struct Role {
    std::string id;
    std::vector<std::string> may;  // command names; "*" for all
};

using peelbook::Grade;
inline constexpr auto grades = words_of<Grade>();

// A bound in one unit, and if the plan says so in a second: "21C | 70F". Compared in the unit that was typed when that
// unit is stated here, else in the canonical integer of the first.
struct Bound {
    Measure first;
    std::optional<Measure> second;
};
std::string to_text(const Bound& b);

// What a reading of one kind can be at all: "room", from -5 C to 25 C. Points name it (Point::possible_kind).
struct Possible {
    std::string id;
    std::optional<Bound> least, most;
};

// Each kind of limit has its key in the table `limit`; a range's bounds stand in that table itself.
struct RangeLimit {  // inclusive on both sides
    static constexpr std::string_view key = "";
    std::optional<Bound> least, most;
};
struct TimeLimit {  // between two events of the batch
    static constexpr std::string_view key = "time";
    std::string from, until;  // "start", "finish", "pack", "ship", or "STEP" (its recorded end)
    std::optional<Duration> least, most;
};
struct CoolingLimit {  // staged
    static constexpr std::string_view key = "cooling";
    Bound from;
    struct Stage {
        Bound to;
        Duration within;
        std::optional<Duration> fastest{};  // no such product gets there sooner: what did, contradicts itself. Counted as within
    };
    std::vector<Stage> stages;        // to falling
    bool each_from_previous = false;  // false: every `within` counts from the start (1 h + 5 h passes)
    std::string hot_at;               // step whose end is the last moment known hot; empty: readings only
    std::string starts_at{};          // event that starts the clock whatever the temperature (as TimeLimit::from): food made from
                                      // ingredients at ambient temperature, Food Code 3-501.14(B); empty: `from` starts it
};
struct BeforePackingLimit {  // the last reading before packing must be at most this
    static constexpr std::string_view key = "before_packing";
    Bound most;
};
struct YesNoLimit {  // an inspection that must pass
    static constexpr std::string_view key = "yes_no";
};
struct LethalityLimit {  // accumulated over the core readings: calc/lethality.h
    static constexpr std::string_view key = "lethality";
    Measure t_ref;                     // temperature of the D-value
    Measure z;                         // a difference of temperatures, above nothing
    Duration d;                        // for one log at t_ref
    Measure studied_from, studied_to;  // temperatures of the study: below counts nothing, above counts as its top
    std::int64_t wanted_milli_log = 0;
    std::int64_t cap_milli_log = 0;  // what was validated: beyond it "at least"
    Duration longest_gap;            // between two readings: a longer one counts nothing
    std::vector<std::string> foods;  // sorts of product (Product::sort) that the study was of
    std::string source;              // of D and z
};
struct ClassLimit {  // pH and water activity must show that no temperature control is needed: calc/product_class.h
    static constexpr std::string_view key = "ph_aw";
    bool heat_treated_and_packaged = false;  // Table A; else Table B
};
struct LossLimit {  // percent of a mass that is gone between two weighings of the batch: calc/loss.h
    static constexpr std::string_view key = "loss";
    std::string before, after;  // a point weighed in the same batch; also before "inputs" (all uses), after "finish"
    std::optional<Bound> least, most;
};
struct SouringLimit {  // pH that must have fallen so far in time, counted from an event (as TimeLimit::from)
    static constexpr std::string_view key = "souring";
    std::string starts_at;
    std::vector<CoolingLimit::Stage> stages;
};
struct LabelLimit {  // on a line: what is read from the label at these moments of a packing run is the label that is packed under
    static constexpr std::string_view key = "label";
    std::vector<std::string> at;  // of label_moments; "start" always among them
    std::int64_t most_lost = 0;   // labels issued that may be neither applied, spoiled nor returned
};
struct MarketLimit {  // gluten or sulphites measured in the food as sold, against what the market of its label allows: plan/boundaries.h
    static constexpr std::string_view key = "market";
    std::string of;  // "gluten" or "sulphites"
    struct OfLabel {
        std::string label, product, market;
        std::string claim;            // of gluten, as Label::claim; empty for sulphites
        std::optional<Measure> most;  // absent: nothing is claimed (gluten), or it is declared (sulphites), so any content is allowed
        bool below = false;           // `most` itself is too much already
    };
    std::vector<OfLabel> labels;  // of the point's products, in the order of the plan; filled in once all sections are read
};
inline constexpr auto label_moments = words_of<LabelMoment>();
using Limit = std::variant<RangeLimit, TimeLimit, CoolingLimit, BeforePackingLimit, YesNoLimit, LethalityLimit, ClassLimit, LossLimit,
                           SouringLimit, LabelLimit, MarketLimit>;

// What a reading of such a limit measures; none where nothing or more than one thing is read (pH and water activity).
std::optional<Dimension> dimension_of(const Limit& limit);

// What the judge measures of a batch as one number where no reading is it: a duration between two events, a percent that is
// lost. None for other limits.
std::optional<Dimension> figure_dimension(const Limit& limit);

// What shows a place in the hours in which nobody is there: a logger's file, the extreme that a thermometer kept until somebody
// came back, an alarm that was tested before, or nothing, when nothing is to be shown.
enum class Closed { unsaid, logger, min_max, alarm, nothing };
constexpr std::string_view word(Closed closed) {
    switch (closed) {
        case Closed::unsaid:
            return "unsaid";
        case Closed::logger:
            return "logger";
        case Closed::min_max:
            return "min-max";
        case Closed::alarm:
            return "alarm";
        case Closed::nothing:
            return "nothing";
    }
    return {};
}

inline constexpr std::string_view run_moments[] = {word(LabelMoment::start), word(LabelMoment::change), word(LabelMoment::end)};
struct Interval {  // on top of a limit: a check at least so often, on a place or a device
    Duration every{};
    std::optional<int> from_minutes, until_minutes;  // local hours in which it is owed; absent: the shifts. Until before
                                                     // from: over midnight. Never equal.
    bool device_check = false;                       // rule 12: a bad one holds every lot that passed since the last good one
    Closed closed = Closed::unsaid;
    std::string alarm;              // of Closed::alarm: the point that tests it
    std::vector<std::string> at{};  // of run_moments: a device's checks belong to their packing run
    bool is_at(LabelMoment moment) const;
};

// What a point's readings and inspections are evidence of, from one event of the batch to another (as TimeLimit::from); what is
// absent is judge/window.h's to say.
struct Window {
    std::string from, until;
    std::optional<Duration> after;  // so long after `until` they still count
    bool operator==(const Window&) const = default;
};

struct Point {
    std::string id, name;
    std::string step;                    // of the products' steps; "receive" for materials; empty on places
    std::vector<std::string> products;   // ids it applies to, or
    std::vector<std::string> materials;  // ids, read at receipt, or
    std::string place;                   // a place
    Grade grade = Grade::critical;
    std::string hazard;                  // id of a hazard, if any
    std::string measures;                // in words: "core temperature"
    std::optional<Dimension> dimension;  // of its readings; none for yes/no, time, loss and pH/aw limits
    Limit limit;
    std::optional<Bound> warn_least, warn_most;          // operating limits inside the critical ones
    std::string possible_kind;                           // a [[possible]] of the plan, whose bounds count where the point has none:
    std::optional<Bound> possible_least, possible_most;  // beyond them a reading is a slip until a second one agrees (rule 56)
    std::vector<std::string> units;                      // all must be probed: ovens, racks; empty: one reading is enough
    Duration read_on{};                                  // of a least limit: how long after the end of its step it still takes readings
    std::optional<Window> window;
    std::optional<Interval> interval;
    bool chart = false;                    // a control chart in the weekly workbook
    bool optional = false;                 // not owed: judged only when read
    std::optional<Duration> takes;         // one check of it
    bool guarded = false;                  // guarded acceptance (JCGM 106): a value that the instrument's error could carry
                                           // over the limit proves nothing; false: the value as read decides
    std::optional<Measure> room;           // cooling points, for predicting only: what the place of cooling is kept at,
    std::string room_point;                // or the point of a place that reads its air; neither: fitted
    bool instrument_needed = false;        // default true for critical points with a dimension
    std::vector<std::string> instruments;  // ids: only these read it; empty: all that can
    std::vector<std::string> lines;        // device check: batches on these lines passed it
    std::string how_often, who, basis, product_action, process_action;
    std::string limit_text;                              // the limit in words, made by the reader
    bool checks_device_of(std::string_view line) const;  // what runs on this line passes the device that it checks
};

bool takes_window(const Limit& limit);         // others have their events in the limit itself
bool is_measured(const Point& p);              // by readings of a number, not by yes or no, step ends or other points
bool is_read_in(const Point& p, Dimension d);  // a reading of this dimension may be one of the point

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

template <class T> const T* by_id(const std::vector<T>& list, std::string_view id) {
    for (const T& one : list)
        if (one.id == id) return &one;
    return nullptr;
}

struct Plan {
    Site site;
    Calendar calendar;
    std::vector<Shift> shifts;
    std::vector<Material> materials;
    std::vector<Product> products;
    std::vector<Label> labels;
    std::vector<Vessel> vessels;
    std::vector<Place> places;
    std::vector<Instrument> instruments;
    std::vector<Logger> loggers;
    std::vector<Possible> possible;
    std::vector<Role> roles;
    std::vector<Hazard> hazards;
    std::vector<Point> points;
    std::vector<Equipment> equipment;
    std::vector<Cleaning> cleanings;
    std::vector<ReferenceDose> reference_doses;
    std::vector<Deadline> deadlines;

    const Material* material(std::string_view id) const { return by_id(materials, id); }
    const Product* product(std::string_view id) const { return by_id(products, id); }
    Clocks clocks_of(std::string_view item) const;  // of a material or product
    const Label* label(std::string_view id) const { return by_id(labels, id); }
    const Vessel* vessel(std::string_view id) const { return by_id(vessels, id); }
    const Place* place(std::string_view id) const { return by_id(places, id); }
    const Instrument* instrument(std::string_view id) const { return by_id(instruments, id); }
    const Logger* logger(std::string_view id) const { return by_id(loggers, id); }
    const Possible* possible_of(std::string_view kind) const { return by_id(possible, kind); }
    const Role* role(std::string_view id) const { return by_id(roles, id); }
    const Point* point(std::string_view id) const { return by_id(points, id); }
    const Equipment* piece(std::string_view id) const { return by_id(equipment, id); }
    const Cleaning* cleaning(std::string_view id) const { return by_id(cleanings, id); }
    // The pieces that `product` touches when it runs on `line`.
    std::vector<const Equipment*> pieces_of(std::string_view product, std::string_view line) const;
    std::vector<const Point*> points_of_product(std::string_view product) const;
    std::vector<const Point*> points_of_material(std::string_view material) const;
    std::vector<const Point*> points_of_place(std::string_view place) const;
    std::string name_of(std::string_view item) const;  // of a material or product; the id itself when unknown
};

}  // namespace peelbook::plan
