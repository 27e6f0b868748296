// The sections about the house: site, places, vessels, instruments, roles.
#include "base/gs1.h"
#include "base/text.h"
#include "plan/sections.h"

namespace peelbook::plan {
namespace {

// Site::carry_over_ppm is a share of 1,000,000; a percentage is held in thousandths of a percent.
constexpr std::int64_t ppm_per_milli_percent = 10;

std::vector<Date> read_holidays(Fields& f) {
    std::vector<Date> days;
    const std::vector<std::string> texts = f.date_texts("holidays");
    for (std::size_t i = 0; i < texts.size(); ++i) {
        const Result<Date> day = parse_date(texts[i]);
        if (day)
            days.push_back(*day);
        else
            f.refuse("holidays/" + std::to_string(i), day.refusal());
    }
    return days;
}

std::string read_gln(Fields& f) {
    const std::string gln = f.name("gln", Need::no);
    if (gln.empty()) return gln;
    if (const Check bad = check_gln(gln)) f.refuse("gln", *bad);
    return gln;
}

}  // namespace

Site read_site(Fields& f) {
    Site site;
    site.name = f.name("name", Need::yes);
    site.address = f.prose("address", Need::no);
    site.gln = read_gln(f);
    site.zone = f.name("zone", Need::yes);
    site.day_start_minutes = f.clock("day_start").value_or(0);
    site.late_after = f.period("late_after").value_or(site.late_after);
    site.allergen_list = f.choice("allergen_list", {"eu", "us", "codex"}, Need::yes);
    site.paper = f.choice("paper", {"A4", "Letter"}, Need::no);
    site.temperature_unit = f.choice("temperature_unit", {"C", "F"}, Need::no);
    site.mass_unit = f.choice("mass_unit", {"kg", "g", "lb", "oz", "t"}, Need::no);
    site.retention = f.prose("retention", Need::no);
    site.holidays = read_holidays(f);
    site.review_working_days =
        static_cast<int>(f.whole("review_working_days", 1).value_or(site.review_working_days));
    if (const auto share = f.measure("carry_over", Dimension::percent))
        site.carry_over_ppm = share->value * ppm_per_milli_percent;
    return site;
}

Vessel read_vessel(Fields& f) {
    Vessel vessel;
    vessel.id = f.id();
    vessel.name = f.name("name", Need::yes);
    vessel.kind = f.name("kind", Need::no);
    vessel.model = f.choice("model", {"mixed", "first-in"}, Need::yes);
    vessel.holds = f.code("holds", Need::yes);
    if (const auto heel = f.measure("heel", Dimension::mass)) vessel.heel_mg = heel->value;
    if (const auto smear = f.measure("smear", Dimension::mass)) vessel.smear_mg = smear->value;
    vessel.validation = f.prose("validation", Need::no);
    return vessel;
}

Place read_place(Fields& f) {
    Place place;
    place.id = f.id();
    place.name = f.name("name", Need::yes);
    return place;
}

Instrument read_instrument(Fields& f) {
    Instrument instrument;
    instrument.id = f.id();
    instrument.name = f.name("name", Need::yes);
    instrument.kind = f.name("kind", Need::no);
    instrument.tolerance = f.any_measure("tolerance");
    instrument.calibrate_every = f.period("calibrate_every");
    instrument.place = f.code("place", Need::no);
    return instrument;
}

Role read_role(Fields& f) {
    Role role;
    role.id = f.id();
    role.may = f.names("may");
    return role;
}

Hazard read_hazard(Fields& f) {
    Hazard hazard;
    hazard.id = f.id();
    hazard.step = f.name("step", Need::no);
    hazard.kind = f.choice("kind", {"biological", "chemical", "physical", "allergen"}, Need::yes);
    hazard.what = f.prose("what", Need::yes);
    hazard.likelihood = f.prose("likelihood", Need::no);
    hazard.severity = f.prose("severity", Need::no);
    hazard.control = f.prose("control", Need::no);
    hazard.significant = f.flag("significant", false);
    return hazard;
}

}  // namespace peelbook::plan
