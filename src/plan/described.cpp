#include "plan/described.h"

#include "base/text.h"
#include "plan/allergens.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

std::string list_of(const std::vector<std::string>& names) {
    return joined(names, ", ");
}

std::string allergen_list(const std::vector<std::string>& ids) {
    return ids.empty() ? "none" : list_of(ids);
}

std::string yes_or_no(bool yes) {
    return yes ? "yes" : "no";
}

std::string date_word(DateKind kind) {
    return kind == DateKind::use_by ? "use-by" : "best-before";
}

std::string period_or_none(const std::optional<Duration>& d) {
    return d ? period_text(*d) : "";
}

std::string measure_or_none(const std::optional<Measure>& m) {
    return m ? to_text(*m) : "";
}

std::string dates(const std::vector<Date>& days) {
    std::vector<std::string> texts;
    for (const Date& day : days) texts.push_back(to_text(day));
    return list_of(texts);
}

Described of(const Site& s) {
    constexpr std::int64_t micro_percent_per_ppm = 100;
    return {"site",
            "",
            s.name,
            {{"name", s.name},
             {"address", s.address},
             {"telephone", s.phone},
             {"gln", s.gln},
             {"GS1 company prefix", s.company_prefix},
             {"web", s.web},
             {"zone", s.zone},
             {"production day begins", minute_of_day_text(s.day_start_minutes)},
             {"late after", period_text(s.late_after)},
             {"allergen list", s.allergen_list},
             {"paper", s.paper},
             {"temperature unit", s.temperature_unit},
             {"mass unit", s.mass_unit},
             {"retention", s.retention},
             {"holidays", dates(s.holidays)},
             {"review within", std::to_string(s.review_working_days) + " working days"},
             {"shares grouped below", percent_text(s.carry_over_ppm * micro_percent_per_ppm)},
             {"clock uncertainty", period_text(s.clock_uncertainty)}}};
}

std::string proteins(const Material& m) {
    std::vector<std::string> texts;
    for (const auto& one : m.protein) texts.push_back(one.allergen + " " + percent_text(one.milli_percent * 1000));
    return list_of(texts);
}

Described of(const Material& m) {
    return {"material",
            m.id,
            m.name,
            {{"name", m.name},
             {"lot codes begin", m.code},
             {"contains", allergen_list(m.allergens)},
             {"may contain", allergen_list(m.may_contain)},
             {"date", date_word(m.date_kind)},
             {"supply that never runs out", yes_or_no(m.supply)},
             {"packaging", yes_or_no(m.packaging)},
             {"on the Food Traceability List", yes_or_no(m.traceability_list)},
             {"GTIN", list_of(m.gtins)},
             {"suppliers", list_of(m.suppliers)},
             {"protein", proteins(m)}}};
}

std::string item_words(const FormulaItem& item) {
    std::string text = item.absolute ? to_text(*item.absolute) : percent_text(item.micro_percent);
    if (item.flour) text += ", flour";
    if (item.optional) text += ", optional";
    return text;
}

std::string aim_words(const DoughAim& aim) {
    std::string text = to_text(aim.wanted) + ", read at " + aim.dough + "; water reckoned from " + aim.flour +
                       ", " + aim.room + ", " + aim.water;
    return aim.preferment.empty() ? text : text + ", " + aim.preferment;
}

// "" for simple acceptance, which is the usual one.
std::string acceptance_words(const Point& p) {
    return p.guarded ? "guarded: what the instrument's error could carry over the limit proves nothing" : "";
}

std::string source_of_d_and_z(const Limit& limit) {
    const auto* heat = std::get_if<LethalityLimit>(&limit);
    return heat ? heat->source : "";
}

std::string room_words(const Point& p) {
    return p.room ? to_text(*p.room) : p.room_point;
}

Described of(const Product& p) {
    Described d{"product", p.id, p.name, {{"name", p.name}, {"lot codes begin", p.code}, {"sort", p.sort}}};
    for (const FormulaItem& item : p.formula) d.says.emplace_back("formula " + item.item, item_words(item));
    d.says.insert(d.says.end(), {{"mass of one piece", measure_or_none(p.unit_mass)},
                                 {"pieces of the usual batch", p.pieces > 0 ? std::to_string(p.pieces) : ""},
                                 {"flour of the usual batch", measure_or_none(p.usual_flour)},
                                 {"tolerance", percent_text(p.tolerance_milli_percent * 1000)},
                                 {"steps", list_of(p.steps)},
                                 {"finish ends", p.finish_step},
                                 {"line", p.line},
                                 {"label", p.label},
                                 {"date", date_word(p.date_kind)},
                                 {"shelf life", period_or_none(p.shelf_life)},
                                 {"GTIN", p.gtin},
                                 {"on the Food Traceability List", yes_or_no(p.traceability_list)},
                                 {"dough wanted", p.dough ? aim_words(*p.dough) : ""},
                                 {"portion", measure_or_none(p.portion)},
                                 {"sold", p.sold}});
    return d;
}

Described of(const Label& l) {
    return {"label",
            l.id,
            l.name,
            {{"name", l.name},
             {"product", l.product},
             {"market", l.market},
             {"declares", allergen_list(l.declares)},
             {"may contain", allergen_list(l.may_contain)},
             {"claims", l.claim}}};
}

Described of(const Vessel& v) {
    return {"vessel",
            v.id,
            v.name,
            {{"name", v.name},
             {"kind", v.kind},
             {"model", v.model},
             {"holds", v.holds},
             {"heel", v.heel_mg > 0 ? mass_text(v.heel_mg) : ""},
             {"smear", v.smear_mg > 0 ? mass_text(v.smear_mg) : ""},
             {"validation", v.validation}}};
}

Described of(const Place& p) {
    return {"place", p.id, p.name, {{"name", p.name}}};
}

Described of(const Equipment& e) {
    return {"equipment",
            e.id,
            e.name,
            {{"name", e.name},
             {"lines", list_of(e.lines)},
             {"products", e.products.empty() ? "all of these lines" : list_of(e.products)},
             {"touched at the end of", e.step.empty() ? "start" : e.step},
             {"residue", measure_or_none(e.residue)}}};
}

Described of(const Cleaning& c) {
    return {"cleaning",
            c.id,
            c.name,
            {{"name", c.name},
             {"kind", c.kind},
             {"equipment", list_of(c.equipment)},
             {"clears", list_of(c.clears)},
             {"time", period_text(c.time)},
             {"cost", c.cost > 0 ? std::to_string(c.cost) : ""},
             {"verified by", list_of(c.verify)}}};
}

Described of(const ReferenceDose& d) {
    return {"reference dose", d.allergen, allergen_name(d.allergen), {{"dose", to_text(d.dose) + " of protein"}, {"source", d.source}}};
}

Described of(const Instrument& i) {
    return {"instrument",
            i.id,
            i.name,
            {{"name", i.name},
             {"kind", i.kind},
             {"tolerance", measure_or_none(i.tolerance)},
             {"uncertainty", measure_or_none(i.uncertainty)},
             {"calibrated every", period_or_none(i.calibrate_every)},
             {"place", i.place}}};
}

std::string character_word(const std::string& character) {
    if (character == "\t") return "a tab";
    if (character == " ") return "a blank";
    return character.empty() ? "" : "'" + character + "'";
}

std::string column_words(const LoggerColumn& c) {
    std::string text = "in " + std::string(symbol(c.unit));
    if (!c.point.empty()) text += ", for " + c.point;
    if (!c.probed.empty()) text += ", " + c.probed;
    return text;
}

Described of(const Logger& l) {
    Described d{"logger",
                l.id,
                l.name,
                {{"name", l.name},
                 {"columns parted by", character_word(l.separator)},
                 {"decimal mark", character_word(l.decimal)},
                 {"header lines", l.header_lines ? std::to_string(*l.header_lines) : ""},
                 {"date in column", l.date_column},
                 {"time in column", l.time_column},
                 {"times written", l.time_format},
                 {"clock of", l.zone},
                 {"one row every", period_or_none(l.every)},
                 {"no value is written", list_of(l.no_value)}}};
    for (const LoggerColumn& c : l.columns) d.says.emplace_back("values in column " + c.column, column_words(c));
    return d;
}

Described of(const Role& r) {
    return {"role", r.id, r.id, {{"may", list_of(r.may)}}};
}

Described of(const Hazard& h) {
    return {"hazard",
            h.id,
            h.what,
            {{"what", h.what},
             {"kind", h.kind},
             {"step", h.step},
             {"likelihood", h.likelihood},
             {"severity", h.severity},
             {"significant", yes_or_no(h.significant)},
             {"control", h.control}}};
}

Described of(const Point& p) {
    const bool device = p.interval && p.interval->device_check;
    return {"point",
            p.id,
            p.name,
            {{"name", p.name},
             {"class", std::string(word(p.grade))},
             {"step", p.step},
             {"products", list_of(p.products)},
             {"materials", list_of(p.materials)},
             {"place", p.place},
             {"measures", p.measures},
             {"limit", limit_words(p.limit)},
             {"D and z", source_of_d_and_z(p.limit)},
             {"acceptance", acceptance_words(p)},
             {"room, for predicting", room_words(p)},
             {"warning", range_words(p.warn_least, p.warn_most)},
             {"units", list_of(p.units)},
             {"owed", p.interval ? interval_words(*p.interval) : (p.optional ? "only when read" : "")},
             {"control chart", yes_or_no(p.chart)},
             {"device check of lines", device ? list_of(p.lines) : ""},
             {"instrument needed", yes_or_no(p.instrument_needed)},
             {"hazard", p.hazard},
             {"how often", p.how_often},
             {"by", p.who},
             {"basis", p.basis},
             {"action for the product", p.product_action},
             {"action for the process", p.process_action}}};
}

Described of(const Deadline& d) {
    return {"deadline",
            d.id,
            d.name,
            {{"name", d.name}, {"step", d.step}, {"within", period_text(d.within)}, {"basis", d.basis}}};
}

template <class T>
void add(const std::vector<T>& list, std::vector<Described>& to) {
    for (const T& item : list) to.push_back(of(item));
}

}  // namespace

std::vector<Described> described(const Plan& plan) {
    std::vector<Described> all = {of(plan.site)};
    add(plan.materials, all);
    add(plan.products, all);
    add(plan.labels, all);
    add(plan.vessels, all);
    for (const Place& place : plan.places)
        if (!plan.piece(place.id)) all.push_back(of(place));
    add(plan.equipment, all);
    add(plan.cleanings, all);
    add(plan.reference_doses, all);
    add(plan.instruments, all);
    add(plan.loggers, all);
    add(plan.roles, all);
    add(plan.hazards, all);
    add(plan.points, all);
    add(plan.deadlines, all);
    return all;
}

}  // namespace peelbook::plan
