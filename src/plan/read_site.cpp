// The sections about the house: site, places, vessels, instruments, roles.
#include "base/gs1.h"
#include "base/text.h"
#include "plan/sections.h"
#include "plan/words.h"

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

std::string read_company_prefix(Fields& f) {
    const std::string prefix = f.name("company_prefix", Need::no);
    if (prefix.empty()) return prefix;
    if (const Check bad = check_company_prefix(prefix)) f.refuse("company_prefix", *bad);
    return prefix;
}

// Ends in '/', so that a lot's code can be set behind it.
std::string read_web(Fields& f) {
    std::string web = f.name("web", Need::no);
    if (web.empty()) return web;
    const bool address = web.starts_with("https://") || web.starts_with("http://");
    if (!address || web.find_first_of(" \"<>\\^`{|}#?") != std::string::npos)
        f.error("web", "web is " + quoted(web), "an address such as \"https://example.com/\"",
                "write the address of your own domain, or take the key out");
    if (!web.ends_with('/')) web += '/';
    return web;
}

}  // namespace

Site read_site(Fields& f) {
    Site site;
    site.name = f.name("name", Need::yes);
    site.address = f.prose("address", Need::no);
    site.phone = f.name("phone", Need::no);
    site.gln = read_gln(f);
    site.company_prefix = read_company_prefix(f);
    site.web = read_web(f);
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
    site.clock_uncertainty = f.period("clock_uncertainty").value_or(site.clock_uncertainty);
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
    instrument.uncertainty = f.any_measure("uncertainty");
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

Deadline read_deadline(Fields& f) {
    Deadline deadline;
    deadline.id = f.id();
    deadline.name = f.name("name", Need::yes);
    deadline.step = f.choice("step", {std::begin(deadline_steps), std::end(deadline_steps)}, Need::yes);
    deadline.within = f.period("within", Need::yes).value_or(Duration{});
    deadline.basis = f.prose("basis", Need::yes);
    return deadline;
}

}  // namespace peelbook::plan
