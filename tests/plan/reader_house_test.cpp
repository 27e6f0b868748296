// Site, places, vessels, instruments, roles, hazards: values read and faults told.
#include <catch2/catch.hpp>

#include "plan_texts.h"

using namespace peelbook;
using namespace peelbook::plan;
using namespace peelbook::plan::testing;

namespace {

std::string faults_of_site(const std::string& more) { return faults_of(sound_site + more); }

}  // namespace

TEST_CASE("a site's values") {
    const Outcome outcome = read_plan({{"site.toml", sound_site + "day_start = \"03:30\"\nlate_after = \"20min\"\npaper = \"Letter\"\n"
                                                                  "temperature_unit = \"F\"\nmass_unit = \"lb\"\n"
                                                                  "review_working_days = 5\ncarry_over = \"0.5%\"\n"}});
    REQUIRE(outcome.faults.empty());
    const Site& site = outcome.plan.site;
    REQUIRE(site.day_start_minutes == 210);
    REQUIRE(site.late_after == minutes(20));
    REQUIRE(site.paper == "Letter");
    REQUIRE(site.temperature_unit == "F");
    REQUIRE(site.mass_unit == "lb");
    REQUIRE(site.review_working_days == 5);
    REQUIRE(site.carry_over_ppm == 5000);  // 0.5 % is 5,000 of a million
}

TEST_CASE("what a site leaves out has its usual value") {
    const Outcome outcome = read_plan({{"site.toml", sound_site}});
    REQUIRE(outcome.faults.empty());
    REQUIRE(outcome.plan.site.late_after == minutes(15));
    REQUIRE(outcome.plan.site.review_working_days == 7);  // 21 CFR 117.165(a)(4), from memory
    REQUIRE(outcome.plan.site.paper == "A4");
    REQUIRE(outcome.plan.site.carry_over_ppm == 1000);
}

TEST_CASE("an unknown time zone, with the nearest") {
    REQUIRE(faults_of("[site]\nname = \"S\"\nzone = \"Europe/Berlni\"\nallergen_list = \"eu\"\n") ==
            "plan.toml:3:8: error: site zone: time zone 'Europe/Berlni'; wanted: a name of the IANA time "
            "zone database, like "
            "Europe/Berlin or America/New_York\n"
            "    zone = \"Europe/Berlni\"\n"
            "           ^\n"
            "    [did you mean 'Europe/Berlin'? If not: check the spelling]");
}

TEST_CASE("a time of day, a word and a date that are none") {
    REQUIRE(faults_of_site("day_start = \"24:00\"\n") ==
            "plan.toml:5:13: error: site: day_start is '24:00'; wanted: a time of day from 00:00 to 23:59\n"
            "    day_start = \"24:00\"\n"
            "                ^\n"
            "    [write it like day_start = \"04:30\"]");
    REQUIRE(faults_of_site("paper = \"a4\"\n") ==
            "plan.toml:5:9: error: site: paper is 'a4'; wanted: 'A4' or 'Letter'\n"
            "    paper = \"a4\"\n"
            "            ^\n"
            "    [did you mean 'A4'? If not: write one of these words]");
    const Outcome outcome = read_plan({{"p", sound_site + "[calendar]\nclosed = [\"2026-02-30\"]\n"}});
    REQUIRE(outcome.faults.size() == 1);
    REQUIRE(outcome.faults[0].line == 6);
    REQUIRE(outcome.faults[0].column == 11);
}

TEST_CASE("the calendar and the shifts") {
    const Outcome outcome = read_plan({{"site.toml", sound_site},
                                       {"hours.toml",
                                        "[calendar]\nopen = [\"mon\", \"sat\"]\nclosed = [2026-12-26, \"2027-01-01\"]\n"
                                        "[[shift]]\nid = \"night\"\nname = \"night bake\"\nfrom = \"22:00\"\n"
                                        "until = \"06:00\"\ndays = [\"sun\"]\n"}});
    REQUIRE(outcome.faults.empty());
    const Calendar& calendar = outcome.plan.calendar;
    REQUIRE(calendar.closed == std::vector<Date>{{2026, 12, 26}, {2027, 1, 1}});
    CHECK(calendar.is_open({2026, 12, 21}));        // a Monday
    CHECK_FALSE(calendar.is_open({2026, 12, 22}));  // a Tuesday
    CHECK(calendar.is_open({2026, 12, 19}));        // a Saturday
    CHECK_FALSE(calendar.is_open({2026, 12, 26}));  // a Saturday too, but closed
    CHECK(Calendar{}.is_open({2026, 12, 22}));      // nothing said: every day
    REQUIRE(outcome.plan.shifts.size() == 1);
    const Shift& night = outcome.plan.shifts.front();
    CHECK(night.from_minutes == 22 * 60);
    CHECK(night.until_minutes == 6 * 60);
    CHECK(night.days == std::vector<std::string>{"sun"});
}

TEST_CASE("a weekday that is none, a second calendar, a shift without length or end") {
    REQUIRE(faults_of_site("[calendar]\nopen = [\"mon\", \"tues\"]\n") ==
            "plan.toml:6:16: error: calendar: open has 'tues'; wanted: 'mon', 'tue', 'wed', 'thu', 'fri', 'sat' or 'sun'\n"
            "    open = [\"mon\", \"tues\"]\n"
            "                   ^\n"
            "    [did you mean 'tue'? If not: write one of these words]");
    const Outcome twice = read_plan({{"a.toml", sound_site + "[calendar]\nopen = [\"mon\"]\n"}, {"b.toml", "[calendar]\n"}});
    REQUIRE(twice.faults.size() == 1);
    CHECK(to_text(twice.faults.front()) ==
          "b.toml:1:2: error: [calendar] is there twice; wanted: one [calendar] in all files together\n"
          "    [calendar]\n"
          "     ^\n"
          "    [bring the two together]");
    REQUIRE(faults_of_site("[[shift]]\nid = \"day\"\nname = \"day\"\nfrom = \"06:00\"\nuntil = \"06:00\"\n") ==
            "plan.toml:9:9: error: shift 'day': it begins and ends at 06:00; wanted: two different times of day\n"
            "    until = \"06:00\"\n"
            "            ^\n"
            "    [correct one of the two; a shift round the clock is two shifts]");
    REQUIRE(faults_of_site("[[shift]]\nid = \"day\"\nname = \"day\"\nfrom = \"06:00\"\n") ==
            "plan.toml:5:1: error: shift 'day' has no until; wanted: until = \"04:30\"\n"
            "    [[shift]]\n"
            "    ^\n"
            "    [write it into this table]");
}

TEST_CASE("days without work stand in the calendar, in the older place only where a plan was adopted with them") {
    const std::string older = sound_site + "holidays = [2026-12-25]\n";
    REQUIRE(faults_of(older) ==
            "plan.toml:5:12: error: site has holidays; wanted: closed = [\"2026-12-25\"] under [calendar], the one list of days without "
            "work\n"
            "    holidays = [2026-12-25]\n"
            "               ^\n"
            "    [move the dates there]");
    CHECK(read_adopted_plan({{"site.toml", older}}).calendar.closed == std::vector<Date>{{2026, 12, 25}});
}

TEST_CASE("a number out of range") {
    REQUIRE(faults_of_site("review_working_days = 0\n") ==
            "plan.toml:5:23: error: site: review_working_days is 0; wanted: a whole number from 1 to 1000000000\n"
            "    review_working_days = 0\n"
            "                          ^\n"
            "    [correct the number]");
}

TEST_CASE("a period of no length") {
    REQUIRE(faults_of_site("late_after = \"0min\"\n") ==
            "plan.toml:5:14: error: site: late_after is '0min'; wanted: a time longer than nothing\n"
            "    late_after = \"0min\"\n"
            "                 ^\n"
            "    [correct the time]");
}

TEST_CASE("a GLN with a wrong check digit") {
    // GS1 General Specifications 7.9: weights 3,1,3,1 from the right; 401234500000 sums to 31, so the check
    // digit is 9.
    REQUIRE(faults_of_site("gln = \"4012345000008\"\n") ==
            "plan.toml:5:7: error: site gln: GLN '4012345000008'; wanted: check digit 9; this ends in 8\n"
            "    gln = \"4012345000008\"\n"
            "          ^\n"
            "    [compare each digit with the label: one is wrong or two are swapped]");
}

TEST_CASE("rule 31: first-in needs a cited validation and a smear") {
    REQUIRE(faults_with("[[vessel]]\nid = \"silo\"\nname = \"silo\"\nmodel = \"first-in\"\nholds = \"wheat-flour\"\n") ==
            "plan.toml:4:9: error: vessel 'silo' is first-in without a validation; wanted: the document that "
            "shows it empties in the "
            "order it was filled\n"
            "    model = \"first-in\"\n"
            "            ^\n"
            "    [write validation = \"...\", or model = \"mixed\"]\n"
            "plan.toml:4:9: error: vessel 'silo' is first-in without a smear; wanted: the mass on either side of "
            "a boundary that may be "
            "of both fills\n"
            "    model = \"first-in\"\n"
            "            ^\n"
            "    [write smear = \"25kg\" as the validation found it]");
    const Outcome sound = outcome_with(
        "[[vessel]]\nid = \"silo\"\nname = \"silo\"\nkind = \"silo\"\nmodel = \"first-in\"\nholds = "
        "\"wheat-flour\"\n"
        "heel = \"40kg\"\nsmear = \"25kg\"\nvalidation = \"flow study 3\"\n");
    REQUIRE(sound.faults.empty());
    REQUIRE(sound.plan.vessel("silo")->heel_mg == 40'000'000);
    REQUIRE(sound.plan.vessel("silo")->smear_mg == 25'000'000);
}

TEST_CASE("a vessel that holds nothing known, an instrument nowhere") {
    REQUIRE(faults_with("[[vessel]]\nid = \"t\"\nname = \"t\"\nmodel = \"mixed\"\nholds = \"mlik\"\n"
                        "[[instrument]]\nid = \"i\"\nname = \"i\"\nplace = \"line-2\"\n") ==
            "plan.toml:5:9: error: vessel 't' holds: no material or product 'mlik'; wanted: a material or "
            "product of this plan\n"
            "    holds = \"mlik\"\n"
            "            ^\n"
            "    [did you mean 'milk'? If not: add it to the plan]\n"
            "plan.toml:9:9: error: instrument 'i' place: no place 'line-2'; wanted: a place of this plan\n"
            "    place = \"line-2\"\n"
            "            ^\n"
            "    [did you mean 'line-1'? If not: add it to the plan]");
}

TEST_CASE("roles: a command that is none is a warning, a role that may do nothing an error") {
    REQUIRE(faults_with("[[role]]\nid = \"baker\"\nmay = [\"reeding\"]\n[[role]]\nid = \"idle\"\n") ==
            "plan.toml:3:8: warning: role 'baker' may: no command 'reeding'; wanted: the name of a command, "
            "or \"*\"\n"
            "    may = [\"reeding\"]\n"
            "           ^\n"
            "    [did you mean 'reading'? If not: take it out]\n"
            "plan.toml:4:1: error: role 'idle' may do nothing; wanted: may = [\"reading\", \"use\"]\n"
            "    [[role]]\n"
            "    ^\n"
            "    [write what the role may do, or \"*\" for everything]");
}

TEST_CASE("hazards: a kind that is none, a significant one without control") {
    REQUIRE(faults_with("[[hazard]]\nid = \"h\"\nkind = \"biologic\"\nwhat = \"growth\"\nsignificant = true\n") ==
            "plan.toml:1:1: warning: hazard 'h' is significant and has no control; wanted: what controls it\n"
            "    [[hazard]]\n"
            "    ^\n"
            "    [write control = \"...\"]\n"
            "plan.toml:3:8: error: hazard 'h': kind is 'biologic'; wanted: 'biological', 'chemical', 'physical' "
            "or 'allergen'\n"
            "    kind = \"biologic\"\n"
            "           ^\n"
            "    [did you mean 'biological'? If not: write one of these words]");
}

TEST_CASE("ids that stand twice") {
    REQUIRE(faults_with("[[place]]\nid = \"line-1\"\nname = \"again\"\n") ==
            "plan.toml:2:6: error: place 'line-1' is there twice; wanted: each id once\n"
            "    id = \"line-1\"\n"
            "         ^\n"
            "    [rename one of the two, or take it out]");
}

TEST_CASE("white space of a long text is folded to single blanks") {
    const Outcome outcome = read_plan({{"p", sound_site + "retention = \"\"\"\n  two years,\n\tor longer\n\"\"\"\n"}});
    REQUIRE(outcome.faults.empty());
    REQUIRE(outcome.plan.site.retention == "two years, or longer");
}

TEST_CASE("suppliers that the book does not know are warnings") {
    const Outcome outcome = outcome_with("[[material]]\nid = \"salt\"\nname = \"salt\"\nsuppliers = [\"MILL-1\", \"SALTS\"]\n");
    REQUIRE(outcome.faults.empty());
    const std::vector<Fault> faults = check_against(outcome.plan, {"MILL-1", "SALT"});
    REQUIRE(faults.size() == 1);
    REQUIRE(to_text(faults[0]) ==
            "warning: material 'salt' suppliers: no partner 'SALTS' in the book; wanted: a partner with this "
            "code before the first delivery\n"
            "    [did you mean 'SALT'? If not: add it with: partner SALTS]");
}

TEST_CASE("an adopted plan is read without rules, and a damaged one ends the command") {
    const Plan plan = read_adopted_plan({{"site.toml", sound_site}, {"goods.toml", sound_goods}});
    REQUIRE(plan.product("loaf")->name == "loaf");
    REQUIRE(plan.site.zone == "UTC");
    REQUIRE_THROWS_AS(read_adopted_plan({{"site.toml", "[site\n"}}), Damaged);
}
