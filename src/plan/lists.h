#pragma once
// Every struct of the plan lists its fields once, here. Three walk the list: what reads the TOML texts (read.h), what says the
// plan in words (described.cpp), and what keeps it in the form that is read fast (compiled.cpp).
//
//   v(s.member)                  worked out when the plan is read, and written nowhere
//   v(s.member, Form{"key"})     as it is written in its table (forms.h)
//   v(s.member, Form{"key"}, "label")   and as it is said: its own words behind the label
//   v.says("label", words)       said in other words than its own, or at another place: words() gives them
//   v.says_each(list, words)     words(item) gives label and words of each
//   v.inside("key", need, list)  members of this struct that are written in a table of their own: list(v)
//   v.then(look)                 look(Fields&): when reading has come so far, what else must hold of the keys together, and what is
//                                filled in. False: the limit cannot be told. These functions are complete.h.
//
// The order is that in which keys are read and said; a label that is said elsewhere stands in a says(). tests/plan/lists_test.cpp
// counts the members of each struct.
#include <array>
#include <concepts>
#include <type_traits>
#include <utility>

#include "base/gs1.h"
#include "base/text.h"
#include "plan/allergens.h"
#include "plan/forms.h"
#include "plan/plan.h"
#include "plan/words.h"

// A list of fields is a table, one member beside the next: laid out by hand.
// clang-format off
namespace peelbook::plan {

template <class S, class T>
concept Is = std::same_as<std::remove_const_t<S>, T>;

// For walkers to begin from: one that has no use for words, and one that wants the members alone.
struct Wordless {
    void says(std::string_view, const auto&) {}
    void says_each(const auto&, const auto&) {}
};
template <class Walker>
struct MembersOnly : Wordless {
    void inside(std::string_view, Need, const auto& list) { list(static_cast<Walker&>(*this)); }
    void then(const auto&) {}
};

inline constexpr Need needed = Need::yes;
inline constexpr Need vital = Need::vital;

// The words that a key may have; of an enum in its order.
inline constexpr std::string_view papers[] = {"A4", "Letter"};
inline constexpr std::string_view temperature_units[] = {"C", "F"};
inline constexpr std::string_view mass_units[] = {"kg", "g", "lb", "oz", "t"};
inline constexpr std::string_view decimal_marks[] = {".", ","};
inline constexpr auto date_kinds = words_of<DateKind>();
inline constexpr std::string_view ways_sold[] = {"packed", "loose", "direct"};
inline constexpr std::string_view vessel_models[] = {"mixed", "first-in"};
inline constexpr std::string_view cleaning_kinds[] = {"dry", "wet"};
inline constexpr std::string_view hazard_kinds[] = {"biological", "chemical", "physical", "allergen"};
inline constexpr std::string_view acceptances[] = {"simple", "guarded"};
inline constexpr std::string_view starts_of_stages[] = {"start", "previous"};
inline constexpr std::string_view class_tables[] = {"A", "B"};
inline constexpr std::array<std::string_view, 4> ways_closed = {word(Closed::logger), word(Closed::min_max), word(Closed::alarm),
                                                                word(Closed::nothing)};
inline constexpr std::string_view market_contents[] = {"gluten", "sulphites"};

// --- values of other layers

template <class V, Is<Date> S> void fields(V& v, S& s) {
    v(s.year); v(s.month); v(s.day);
}
template <class V, Is<Duration> S> void fields(V& v, S& s) { v(s.ms); }
template <class V, Is<Measure> S> void fields(V& v, S& s) {
    v(s.value); v(s.typed_micro); v(s.unit);
}
template <class V, Is<Bound> S> void fields(V& v, S& s) {
    v(s.first); v(s.second);
}

template <class V, class S> void id_and_name(V& v, S& s) {
    v(s.id, Id{});
    v(s.name, Name{"name", needed}, "name");
}

// --- the house

template <class V, Is<Site> S> void fields(V& v, S& s) {
    v(s.name, Name{"name", needed}, "name");
    v(s.address, Prose{"address"}, "address");
    v(s.phone, Name{"phone"}, "telephone");
    v(s.gln, Name{"gln", Need::no, check_gln}, "gln");
    v(s.company_prefix, Name{"company_prefix", Need::no, check_company_prefix}, "GS1 company prefix");
    v(s.web, Name{"web"}, "web");
    v(s.zone, Name{"zone", needed}, "zone");
    v(s.day_start_minutes, TimeOfDay{"day_start"}, "production day begins");
    v(s.late_after, Period{"late_after"}, "late after");
    v(s.allergen_list, OneOf{"allergen_list", markets, needed}, "allergen list");
    v(s.paper, OneOf{"paper", papers}, "paper");
    v(s.temperature_unit, OneOf{"temperature_unit", temperature_units}, "temperature unit");
    v(s.mass_unit, OneOf{"mass_unit", mass_units}, "mass unit");
    v(s.retention, Prose{"retention"}, "retention");
    v(s.holidays, Dates{"holidays"});
    v(s.review_working_days, Whole{"review_working_days", 1});
    v.says("review within", [&] { return std::to_string(s.review_working_days) + " working days"; });
    v(s.carry_over_ppm, ShareOfMillion{"carry_over"}, "shares grouped below");
    v(s.alone, Flag{"alone"}, "alone");
    v(s.clock_uncertainty, Period{"clock_uncertainty"}, "clock uncertainty");
    v(s.people, Whole{"people", 1}, "people who share the checks");
    v(s.practice, Flag{"practice"}, "practice");
    v.then([&](auto& f) { complete(f, s); });
}

template <class V, Is<Calendar> S> void fields(V& v, S& s) {
    v(s.open, Weekdays{"open"}, "open");
    v(s.closed, Dates{"closed"}, "closed");
}

template <class V, Is<Shift> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.from_minutes, TimeOfDay{"from", needed}, "from");
    v(s.until_minutes, TimeOfDay{"until", needed}, "until");
    v(s.days, Weekdays{"days"}, "on");
    v.then([&](auto& f) { complete(f, s); });
}

template <class V, Is<Vessel> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.kind, Name{"kind"}, "kind");
    v(s.model, OneOf{"model", vessel_models, needed}, "model");
    v(s.holds, Code{"holds", needed}, "holds");
    v(s.heel_mg, Amount{"heel", Dimension::mass}, "heel");
    v(s.smear_mg, Amount{"smear", Dimension::mass}, "smear");
    v(s.validation, Prose{"validation"}, "validation");
}

template <class V, Is<Place> S> void fields(V& v, S& s) { id_and_name(v, s); }

template <class V, Is<Instrument> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.kind, Name{"kind"}, "kind");
    v(s.tolerance, Amount{"tolerance", {}}, "tolerance");
    v(s.uncertainty, Amount{"uncertainty", {}}, "uncertainty");
    v(s.calibrate_every, Period{"calibrate_every"}, "calibrated every");
    v(s.place, Code{"place"}, "place");
}

template <class V, Is<LoggerColumn> S> void fields(V& v, S& s) {
    v(s.column, Name{"column", needed});
    v(s.point, Code{"point"});
    v(s.probed, Name{"probed"});
    v(s.unit, UnitSymbol{"unit"});
}

template <class V, Is<Logger> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.separator, IfThere<Name>{{"separator", needed}});
    v.says("columns parted by", [&] { return character_words(s.separator); });
    v(s.decimal, IfThere<OneOf>{{"decimal", decimal_marks, needed}});
    v.says("decimal mark", [&] { return character_words(s.decimal); });
    v(s.header_lines, Whole{"header_lines", 0}, "header lines");
    v(s.date_column, Name{"date"}, "date in column");
    v(s.time_column, Name{"time"}, "time in column");
    v(s.time_format, Name{"time_format"}, "times written");
    v(s.zone, Name{"zone"}, "clock of");
    v(s.every, Period{"every"}, "one row every");
    v(s.no_value, Names{"no_value"}, "no value is written");
    v.then([&](auto& f) { complete(f, s); });
    v(s.columns, Tables{"values", "column of values"});
    v.says_each(s.columns, [](const LoggerColumn& c) { return std::pair{"values in column " + c.column, column_words(c)}; });
    v.then([&](auto& f) { needs_columns(f, s); });
}

template <class V, Is<Possible> S> void fields(V& v, S& s) {
    v(s.id, Id{});
    v(s.least, Edge{"least"});
    v(s.most, Edge{"most"});
    v.says("possible", [&] { return range_words(s.least, s.most); });
}

template <class V, Is<Role> S> void fields(V& v, S& s) {
    v(s.id, Id{});
    v(s.may, Names{"may"}, "may");
}

template <class V, Is<Deadline> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.step, OneOf{"step", deadline_steps, needed}, "step");
    v(s.within, Period{"within", needed}, "within");
    v(s.basis, Prose{"basis", needed}, "basis");
}

// --- goods

template <class V, Is<Material::Protein> S> void fields(V& v, S& s) {
    v(s.allergen, Name{"allergen", needed});
    v(s.milli_percent, Amount{"percent", Dimension::percent, needed});
}

template <class V, class S> void clocks(V& v, S& s) {
    v(s.opened_within, Period{"opened_within"}, "once opened, to be used within");
    v(s.thawed_within, Period{"thawed_within"}, "once thawed, to be used within");
    v(s.refreeze, Flag{"refreeze"}, "may be frozen again");
}

template <class V, Is<Material> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.code, Code{"code"}, "lot codes begin");
    v(s.allergens, Allergens{"allergens"}, "contains");
    v(s.may_contain, Allergens{"may_contain"}, "may contain");
    v(s.date_kind, OneOf{"date", date_kinds}, "date");
    v(s.supply, Flag{"supply"}, "supply that never runs out");
    v(s.packaging, Flag{"packaging"}, "packaging");
    v(s.traceability_list, Flag{"traceability_list"}, "on the Food Traceability List");
    v(s.gtins, Gtins{"gtin"}, "GTIN");
    v(s.suppliers, Codes{"suppliers"}, "suppliers");
    v(s.protein, Tables{"protein", "protein", "", [&](auto& f, const auto& one) { is_of(f, one, s); }}, "protein");
    v(s.a_week, Whole{"a_week", 1}, "deliveries a week");
    clocks(v, s);
    v.then([&](auto& f) { complete(f, s); });
}

template <class V, Is<FormulaItem> S> void fields(V& v, S& s) {
    v(s.item, Code{"item", needed});
    v(s.micro_percent, MicroPercent{"percent"});
    v(s.absolute, Amount{"absolute", Dimension::mass});
    v(s.flour, Flag{"flour"});
    v(s.optional, Flag{"optional"});
    v.then([&](auto& f) { complete(f, s); });
}

template <class V, Is<DoughAim> S> void fields(V& v, S& s) {
    v(s.wanted, Amount{"wanted", Dimension::temperature, vital});
    v(s.dough, Code{"read", needed});
    v(s.flour, Code{"flour", needed});
    v(s.water, Code{"water", needed});
    v(s.room, Code{"room", needed});
    v(s.preferment, Code{"preferment"});
}

template <class V, Is<Product> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.code, Code{"code"}, "lot codes begin");
    v(s.sort, Name{"sort"}, "sort");
    v(s.formula, Tables{"formula", "formula item"});
    v.says_each(s.formula, [](const FormulaItem& i) { return std::pair{"formula " + i.item, item_words(i)}; });
    v(s.unit_mass, Amount{"unit_mass", Dimension::mass}, "mass of one piece");
    v(s.pieces, Whole{"pieces", 1}, "pieces of the usual batch");
    v(s.usual_flour, Amount{"usual_flour", Dimension::mass}, "flour of the usual batch");
    v(s.tolerance_milli_percent, Amount{"tolerance", Dimension::percent}, "tolerance");
    v(s.yield_tolerance_milli_percent, Amount{"yield_tolerance", Dimension::percent}, "yield tolerance");
    v(s.steps, Codes{"steps"}, "steps");
    v(s.finish_step, Code{"finish_step"}, "finish ends");
    v(s.kill_step, Code{"kill_step"}, "kills what went in before");
    v(s.line, Code{"line"}, "line");
    v(s.label, Code{"label"}, "label");
    v(s.date_kind, OneOf{"date", date_kinds}, "date");
    v(s.shelf_life, Period{"shelf_life"}, "shelf life");
    v(s.use_within, Period{"use_within"}, "to be used within");
    clocks(v, s);
    v(s.gtin, Name{"gtin", Need::no, check_gtin}, "GTIN");
    v(s.traceability_list, Flag{"traceability_list"}, "on the Food Traceability List");
    v(s.dough, Table{"dough"}, "dough wanted");
    v(s.portion, Amount{"portion", Dimension::mass}, "portion");
    v(s.sold, OneOf{"sold", ways_sold}, "sold");
    v(s.a_week, Whole{"a_week", 1}, "batches a week");
    v.then([&](auto& f) { complete(f, s); });
}

template <class V, Is<Label> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.product, Code{"product", needed}, "product");
    v(s.market, OneOf{"market", markets, needed}, "market");
    v(s.declares, Allergens{"declares"}, "declares");
    v(s.may_contain, Allergens{"may_contain"}, "may contain");
    v(s.claim, Name{"claim"}, "claims");
    v.then([&](auto& f) { complete(f, s); });
}

// --- what residue lies on

template <class V, Is<Equipment> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.lines, Codes{"lines"}, "lines");
    v(s.products, Codes{"products"});
    v.says("products", [&] { return s.products.empty() ? "all of these lines" : joined(s.products, ", "); });
    v(s.step, Code{"step"});
    v.says("touched at the end of", [&] { return s.step.empty() ? "start" : s.step; });
    v(s.residue, Amount{"residue", Dimension::mass}, "residue");
    v.then([&](auto& f) { complete(f, s); });
}

template <class V, Is<Cleaning> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v(s.kind, OneOf{"kind", cleaning_kinds, needed}, "kind");
    v(s.equipment, Codes{"equipment"}, "equipment");
    v(s.clears, Allergens{"clears"});
    v.says("clears", [&] { return joined(s.clears, ", "); });
    v(s.time, Period{"time", needed}, "time");
    v(s.cost, Whole{"cost", 0}, "cost");
    v(s.verify, Codes{"verify"}, "verified by");
    v.then([&](auto& f) { complete(f, s); });
}

template <class V, Is<ReferenceDose> S> void fields(V& v, S& s) {
    v(s.allergen, Name{"allergen", needed, check_allergen});
    v(s.dose, Amount{"dose", Dimension::mass, needed});
    v.says("dose", [&] { return to_text(s.dose) + " of protein"; });
    v(s.source, Prose{"source", needed}, "source");
    v.then([&](auto& f) { complete(f, s); });
}

// --- limits. A kind is said in one sentence: limit_words.

template <class V, Is<RangeLimit> S> void fields(V& v, S& s) {
    v(s.least, Edge{"least"});
    v(s.most, Edge{"most"});
    v.then([&](auto&) { return s.least || s.most; });
}
template <class V, Is<TimeLimit> S> void fields(V& v, S& s) {
    v(s.from, Code{"from", needed});
    v(s.until, Code{"until", needed});
    v(s.least, Period{"least"});
    v(s.most, Period{"most"});
    v.then([&](auto& f) { return has_bound(f, "least = \"1h\", most = \"4h\" or both") && (s.least || s.most); });
}
template <class V, Is<CoolingLimit::Stage> S> void fields(V& v, S& s) {
    v(s.to, Edge{"to", vital});
    v(s.within, Period{"within", vital});
    v(s.fastest, Period{"fastest"});
}
template <class V, Is<CoolingLimit> S> void fields(V& v, S& s) {
    v(s.from, Edge{"from", vital});
    v(s.stages, Tables{"stages", "stage", "{ to = \"21C\", within = \"2h\" }"});
    v(s.each_from_previous, IsWord{{"counted", starts_of_stages, needed}, "previous"});
    v(s.hot_at, Code{"hot_at"});
    v(s.starts_at, Code{"starts_at"});
    v.then([&](auto& f) { complete(f, s); });
}
template <class V, Is<BeforePackingLimit> S> void fields(V& v, S& s) { v(s.most, Edge{"most", vital}); }
template <class V, Is<YesNoLimit> S> void fields(V&, S&) {}
template <class V, Is<LethalityLimit> S> void fields(V& v, S& s) {
    v(s.t_ref, Amount{"t_ref", Dimension::temperature, vital});
    v(s.z, Amount{"z", Dimension::temperature, vital});
    v(s.d, Period{"d", vital});
    v.inside("studied", vital, [&](auto& studied) {
        studied(s.studied_from, Amount{"from", Dimension::temperature, vital});
        studied(s.studied_to, Amount{"to", Dimension::temperature, vital});
    });
    v.then([](auto& f) { needs_study(f); });
    v(s.wanted_milli_log, Thousandths{"log", vital});
    v(s.cap_milli_log, Thousandths{"cap", vital});
    v(s.longest_gap, Period{"longest_gap"});
    v(s.foods, Names{"food"});
    v.then([&](auto& f) { needs_foods(f, s); });
    v(s.source, Prose{"source", needed});
}
template <class V, Is<ClassLimit> S> void fields(V& v, S& s) {
    v(s.heat_treated_and_packaged, IsWord{{"table", class_tables, vital}, "A"});
}
template <class V, Is<LossLimit> S> void fields(V& v, S& s) {
    v(s.before, Code{"before", needed});
    v(s.after, Code{"after", needed});
    v(s.least, Edge{"least"});
    v(s.most, Edge{"most"});
    v.then([&](auto& f) { return has_bound(f, "least = \"10%\", most = \"13%\" or both") && (s.least || s.most); });
}
template <class V, Is<SouringLimit> S> void fields(V& v, S& s) {
    v(s.starts_at, Code{"starts_at", vital});
    v(s.stages, Tables{"stages", "stage", "{ to = \"4.2pH\", within = \"12h\" }"});
}
template <class V, Is<LabelLimit> S> void fields(V& v, S& s) {
    v(s.at, Names{"at"});
    v(s.most_lost, Whole{"most_lost", 0});
    v.then([&](auto& f) { complete(f, s); });
}
template <class V, Is<MarketLimit::OfLabel> S> void fields(V& v, S& s) {
    v(s.label); v(s.product); v(s.market); v(s.claim); v(s.most); v(s.below);
}
template <class V, Is<MarketLimit> S> void fields(V& v, S& s) {
    v(s.of, OneOf{"of", market_contents, vital});
    v(s.labels);
}

// Calls use(kind) with an empty limit of each kind.
template <std::size_t N = 0, class Use>
void each_kind(const Use& use) {
    if constexpr (N < std::variant_size_v<Limit>) {
        use(std::variant_alternative_t<N, Limit>{});
        each_kind<N + 1>(use);
    }
}

// Makes `limit` one of its kinds, by its number among them, and hands that to `use`.
template <std::size_t N = 0, class Use>
void make_kind(Limit& limit, std::size_t number, const Use& use) {
    if constexpr (N < std::variant_size_v<Limit>) {
        if (number == N)
            use(limit.emplace<N>());
        else
            make_kind<N + 1>(limit, number, use);
    }
}

// --- hazards and control points

template <class V, Is<Hazard> S> void fields(V& v, S& s) {
    v(s.id, Id{});
    v.says("what", [&] { return s.what; });
    v.says("kind", [&] { return s.kind; });
    v(s.step, Name{"step"}, "step");
    v(s.kind, OneOf{"kind", hazard_kinds, needed});
    v(s.what, Prose{"what", needed});
    v(s.likelihood, Prose{"likelihood"}, "likelihood");
    v(s.severity, Prose{"severity"}, "severity");
    v(s.control, Prose{"control"});
    v(s.significant, Flag{"significant"}, "significant");
    v.says("control", [&] { return s.control; });
}

template <class V, Is<Interval> S> void fields(V& v, S& s) {
    v(s.every); v(s.from_minutes); v(s.until_minutes); v(s.device_check); v(s.closed); v(s.alarm); v(s.at);
}

template <class V, Is<Window> S> void fields(V& v, S& s) {
    v(s.from, Code{"from"}); v(s.until, Code{"until"}); v(s.after, Period{"after"});
}

template <class V, Is<Point> S> void fields(V& v, S& s) {
    id_and_name(v, s);
    v.says("class", [&] { return std::string(word(s.grade)); });
    v(s.step, Code{"step"}, "step");
    v(s.products, Codes{"products"}, "products");
    v(s.materials, Codes{"materials"}, "materials");
    v(s.place, Code{"place"}, "place");
    v(s.grade, OneOf{"class", grades, needed});
    v(s.hazard, Code{"hazard"});
    v(s.measures, Name{"measures"}, "measures");
    v.then([](auto& f) { Name{"unit"}.get(f); });  // compared with the limit at the end, and not kept
    v(s.dimension);
    v(s.limit, LimitTable{}, "limit");
    v(s.limit_text);
    v.says("readings", [&] { return reading_words(s.limit); });
    v.says("D and z", [&] { return source_of_d_and_z(s.limit); });
    v.says("acceptance", [&] { return acceptance_words(s); });
    v.says("room, for predicting", [&] { return s.room ? to_text(*s.room) : s.room_point; });
    v.says("warning", [&] { return range_words(s.warn_least, s.warn_most); });
    v.inside("warn", Need::no, [&](auto& warn) {
        warn(s.warn_least, Edge{"least"});
        warn(s.warn_most, Edge{"most"});
    });
    v.says("possible", [&] { return range_words(s.possible_least, s.possible_most); });
    v.inside("possible", Need::no, [&](auto& possible) {
        possible(s.possible_kind, Code{"kind"});
        possible(s.possible_least, Edge{"least"});
        possible(s.possible_most, Edge{"most"});
    });
    v(s.units, Names{"units"}, "units");
    v(s.read_on, Period{"read_on"});
    v.says("read until", [&] { return read_on_words(s); });
    v(s.window, Table{"window"});
    v.says("counts", [&] { return s.window ? window_words(*s.window) : ""; });
    v(s.interval, IntervalKeys{});
    v.says("owed", [&] { return s.interval ? interval_words(*s.interval) : s.optional ? "only when read" : ""; });
    v.says("closed hours", [&] { return s.interval ? closed_words(*s.interval) : ""; });
    v(s.chart, Flag{"chart"}, "control chart");
    v(s.optional, Flag{"optional"});
    v(s.takes, Period{"takes"}, "one check takes");
    v.says("device check of lines", [&] { return s.interval && s.interval->device_check ? joined(s.lines, ", ") : ""; });
    v(s.instrument_needed, Flag{"instrument"}, "instrument needed");
    v(s.instruments, Codes{"with"}, "read with");
    v(s.guarded, IsWord{{"acceptance", acceptances}, "guarded"});
    v(s.room, Amount{"room", Dimension::temperature});
    v(s.room_point, Code{"room_point"});
    v(s.lines, Codes{"lines"});
    v.says("hazard", [&] { return s.hazard; });
    v(s.how_often, Prose{"how_often"}, "how often");
    v(s.who, Prose{"by"}, "by");
    v(s.basis, Prose{"basis"}, "basis");
    v.inside("action", Need::no, [&](auto& action) {
        action(s.product_action, Prose{"product"}, "action for the product");
        action(s.process_action, Prose{"process"}, "action for the process");
    });
    v.then([&](auto& f) { complete(f, s); });
}

// --- all of it

template <class V, Is<Plan> S> void fields(V& v, S& s) {
    v(s.site, Section{"site"});
    v(s.calendar, Section{"calendar"});
    v(s.shifts, Section{"shift"});
    v(s.materials, Section{"material"});
    v(s.products, Section{"product"});
    v(s.labels, Section{"label"});
    v(s.vessels, Section{"vessel"});
    v(s.places, Section{"place"});
    v(s.instruments, Section{"instrument"});
    v(s.loggers, Section{"logger"});
    v(s.possible, Section{"possible"});
    v(s.roles, Section{"role"});
    v(s.hazards, Section{"hazard"});
    v(s.points, Section{"point"});
    v(s.equipment, Section{"equipment"});
    v(s.cleanings, Section{"cleaning"});
    v(s.reference_doses, Section{"reference_dose"});
    v(s.deadlines, Section{"deadline"});
}

}  // namespace peelbook::plan
// clang-format on
