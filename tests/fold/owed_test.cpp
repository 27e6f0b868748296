// What is owed of places, from the adoption on; gaps that two records bound; closed hours; outages. Moments are worked out by hand from
// the plan beside each test: a day shift from 06:00 to 14:00 on weekdays, air to be read every hour of it. Monday is 2026-11-16.
#include "fold/owed/duty.h"
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

std::string with_air(const std::string& every, const std::string& more) {
    return std::string(bakery_plan) +
           "[[place]]\nid = \"chill\"\nname = \"chill room\"\n"
           "[[point]]\nid = \"chill-air\"\nname = \"air of the chill room\"\nplace = \"chill\"\nclass = \"critical\"\nmeasures = \"air\"\n"
           "unit = \"C\"\nlimit = { most = \"5C\" }\nevery = \"" +
           every + "\"\ninstrument = false\nby = \"store\"\nbasis = \"invented\"\naction = { product = \"a\", process = \"b\" }\n" + more;
}

constexpr std::string_view day_shift =
    "[calendar]\nopen = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"]\nclosed = [\"2026-12-25\", \"2026-12-26\"]\n"
    "[[shift]]\nid = \"day\"\nname = \"day\"\nfrom = \"06:00\"\nuntil = \"14:00\"\n";

std::string by_shifts(const std::string& every = "1h", const std::string& closed = "closed = \"nothing\"\n") {
    return with_air(every, closed + std::string(day_shift));
}

struct House : Bakery {
    std::optional<fold::Duty> duty(const std::string& when, const std::string& point = "chill-air", const std::string& place = "chill") {
        fold::Ledger ledger(book::Book::open(folder / "book.db", book::Book::Mode::read));
        return fold::duty_at(ledger, place, point, moment(when));
    }
    Instant moment(const std::string& when) const { return *parse_when(when, *Zone::named("Europe/Berlin"), {4'000'000'000'000}); }
    Receipt air(const std::string& when, const std::string& value = "4C", const std::string& unit = "") {
        if (moment(when) > clock.now()) clock.set(moment(when));
        auto draft = this->draft(record::ReadingTaken{"chill", "chill-air", measure(value), unit, "", ""});
        draft.happened = moment(when);
        return did(draft);
    }
    // Of gaps that stand: the entry they hang on, number, verdict, how long.
    std::vector<std::string> gaps(const std::string& point = "chill-air") const {
        return ask("SELECT anchor || ' ' || ord || ' ' || verdict || ' ' || measured FROM finding WHERE point = '" + point +
                   "' AND verdict > 0 AND cleared_by IS NULL ORDER BY anchor, ord");
    }
    std::string adoption() const { return ask("SELECT max(seq) FROM plan_version").front(); }
};

using Gaps = std::vector<std::string>;

std::string day_number(Date day) { return std::to_string(to_days(day)); }

}  // namespace

TEST_CASE("rule 11: a room that nobody ever read is owed from the first shift after the adoption") {
    House b;
    b.set("2026-11-16 20:00");
    b.adopt(by_shifts());
    const auto duty = b.duty("2026-11-16 20:30");
    REQUIRE(duty.has_value());
    CHECK(duty->never);
    CHECK(duty->what == "air of the chill room: at most 5C");
    CHECK(duty->since == b.moment("2026-11-17 06:00"));
    CHECK(duty->due == b.moment("2026-11-17 07:00"));
    CHECK_FALSE(duty->overdue(b.moment("2026-11-17 07:00")));
    CHECK(duty->overdue(b.moment("2026-11-17 07:01")));
    CHECK_FALSE(b.duty("2026-11-16 19:00").has_value());  // by the plan of then

    const Seq first = b.air("2026-11-17 09:30").seq;
    // From 06:00 to 09:30, an hour of it allowed.
    CHECK(b.gaps() == Gaps{b.adoption() + " " + day_number({2026, 11, 17}) + " 2 3:30 without a check"});
    CHECK(b.ask("SELECT detail FROM finding WHERE point = 'chill-air' AND verdict = 2").front() ==
          "A check of air is owed every 1:00; this gap is 2:30 longer.");

    SECTION("the tail after the last check is told, and not stored") {
        const auto tail = b.duty("2026-11-17 11:00");
        REQUIRE(tail.has_value());
        CHECK_FALSE(tail->never);
        CHECK(tail->since == b.moment("2026-11-17 09:30"));
        CHECK(tail->due == b.moment("2026-11-17 10:30"));
        CHECK(b.gaps().size() == 1);
    }
    SECTION("an earlier check that is written late bounds it anew") {
        const Seq earlier = b.air("2026-11-17 06:30").seq;
        const std::string from_adoption = b.adoption() + " " + day_number({2026, 11, 17}) + " 2 3:30 without a check";
        const std::string from_earlier = std::to_string(earlier) + " 1 2 3:00 without a check";
        CHECK(b.gaps() == Gaps{from_adoption, from_earlier});  // typed late, it waits: rule 59
        b.countersigned(earlier, "QA");
        CHECK(b.gaps() == Gaps{from_earlier});
        SECTION("and no more when it is voided: what was cleared is missing again") {
            const auto voided = b.site->void_entry(earlier, "QA", "it was another room");
            REQUIRE(voided.ok());
            CHECK(b.gaps() == Gaps{from_adoption, from_earlier});
            b.countersigned(voided->seq);
            CHECK(b.gaps() == Gaps{from_adoption});
        }
    }
    SECTION("the first check voided, the gap runs up to the next") {
        b.air("2026-11-17 10:00");
        REQUIRE(b.site->void_entry(first, "QA", "it was another room").ok());
        CHECK(b.gaps() == Gaps{b.adoption() + " " + day_number({2026, 11, 17}) + " 2 4:00 without a check"});
    }
    CHECK(b.faults() == "");
}

TEST_CASE("a stricter plan counts from its first shift, and neither it nor a milder one starts the clock anew") {
    House b;
    b.set("2026-11-17 05:00");
    b.adopt(by_shifts());
    b.air("2026-11-17 06:30");
    SECTION("the plan before counts until then") {
        b.set("2026-11-17 07:00");
        b.adopt(by_shifts("30min"));
        CHECK(b.duty("2026-11-17 07:01")->due == b.moment("2026-11-17 07:30"));
        // 13:30 to 14:00 and 06:00 to 06:30 are the hour of the plan before; half an hour from the first shift of the new one is 06:30 too.
        for (const char* hour : {"07", "08", "09", "10", "11", "12", "13"}) b.air("2026-11-17 " + std::string(hour) + ":30");
        CHECK(b.duty("2026-11-17 13:31")->due == b.moment("2026-11-18 06:30"));
        b.air("2026-11-18 06:20");
        CHECK(b.duty("2026-11-18 06:21")->due == b.moment("2026-11-18 06:50"));
        CHECK(b.gaps().empty());
    }
    SECTION("adopting the same again and again puts nothing off") {
        b.set("2026-11-17 07:29");
        b.adopt(by_shifts());
        b.set("2026-11-18 05:00");
        b.adopt(by_shifts());
        CHECK(b.duty("2026-11-18 05:01")->due == b.moment("2026-11-17 07:30"));
        const Seq late = b.air("2026-11-18 06:30").seq;
        // 06:30 to 14:00 and 06:00 to 06:30.
        CHECK(b.gaps() == Gaps{std::to_string(late - 3) + " 1 2 8:00 without a check"});
    }
    CHECK(b.faults() == "");
}

TEST_CASE("a point that the plan drops is owed no more, unless it was overdue") {
    House b;
    b.set("2026-11-17 05:00");
    b.adopt(by_shifts());
    const Seq check = b.air("2026-11-17 06:30").seq;
    b.set("2026-11-17 07:30");
    SECTION("in time") {
        b.adopt(std::string(bakery_plan) + std::string(day_shift));
        CHECK(b.gaps().empty());
    }
    SECTION("overdue: the gap ends with the adoption") {
        b.set("2026-11-17 09:00");
        b.adopt(std::string(bakery_plan) + std::string(day_shift));
        CHECK(b.gaps() == Gaps{std::to_string(check) + " 1 2 2:30 without a check"});
        SECTION("and what is asked for again begins again") {
            b.set("2026-11-18 07:00");  // the plan without it has had its first shift
            b.adopt(by_shifts());
            CHECK(b.duty("2026-11-18 07:30")->never);
            CHECK(b.duty("2026-11-18 07:30")->due == b.moment("2026-11-19 07:00"));
            b.air("2026-11-19 07:30");
            CHECK(b.gaps() == Gaps{std::to_string(check) + " 1 2 2:30 without a check",
                                   b.adoption() + " " + day_number({2026, 11, 19}) + " 2 1:30 without a check"});
        }
    }
    CHECK_FALSE(b.duty("2026-11-17 09:00").has_value());
    CHECK(b.faults() == "");
}

TEST_CASE("closed on two days and a weekend: no check is owed, and reopening wants the extreme of the thermometer") {
    House b;
    b.set("2026-12-24 05:00");
    b.adopt(by_shifts("1h", "closed = \"min-max\"\n"));
    std::string last;
    for (const char* hour : {"06", "07", "08", "09", "10", "11", "12", "13"})
        last = std::to_string(b.air("2026-12-24 " + std::string(hour) + ":30").seq);
    // 13:30 to 14:00 on the 24th, then from Monday the 28th, 06:00.
    CHECK(b.duty("2026-12-26 12:00")->due == b.moment("2026-12-28 06:30"));
    CHECK(b.duty("2026-12-26 12:00")->closed.empty());
    const auto open = b.duty("2026-12-28 06:10");
    CHECK(open->closed == "a max reading, or a logger's file, of 2026-12-24 14:00 to 2026-12-28 06:00");
    CHECK(open->due == b.moment("2026-12-28 06:30"));

    SECTION("read 3.1 and 6.4: a deviation, and nothing missing") {
        b.air("2026-12-28 06:10", "3.1C", "min");
        const auto receipt = b.air("2026-12-28 06:11", "6.4C", "max");
        CHECK(receipt.judged_bad());
        CHECK(b.duty("2026-12-28 06:12")->closed.empty());
        b.air("2026-12-28 07:05");
        CHECK(b.gaps() == Gaps{std::to_string(receipt.seq) + " 0 3 6.4C"});
    }
    SECTION("read as on any day: missing once the hour for it has gone by") {
        b.air("2026-12-28 06:10");
        CHECK(b.duty("2026-12-28 06:30")->closed == open->closed);
        CHECK(b.duty("2026-12-28 06:30")->due == b.moment("2026-12-28 07:00"));
        CHECK(b.gaps().empty());
        b.air("2026-12-28 07:05");
        // From the 24th, 14:00, to the 28th, 06:00.
        CHECK(b.gaps() == Gaps{last + " 1 2 88:00 closed, not shown"});
        CHECK(b.duty("2026-12-28 07:06")->closed.empty());
        SECTION("the reading typed late clears it, once another person has said so") {
            const auto late = b.air("2026-12-28 06:12", "4.9C", "max");
            CHECK(b.gaps().size() == 1);
            b.countersigned(late.seq, "QA");
            CHECK(b.gaps().empty());
        }
    }
    SECTION("a check in the closed hours shows no more than its moment") {
        const auto night = std::to_string(b.air("2026-12-27 12:00").seq);
        b.air("2026-12-28 06:10");
        b.air("2026-12-28 07:05");
        // 14:00 on the 24th to 12:00 on the 27th; from there to the 28th, 06:00.
        CHECK(b.gaps() == Gaps{last + " 1 2 70:00 closed, not shown", night + " 1 2 18:00 closed, not shown"});
    }
    CHECK(b.faults() == "");
}

TEST_CASE("an alarm that was tested good, and in time, shows the closed hours") {
    House b;
    b.set("2026-11-17 05:00");
    b.adopt(
        by_shifts("8h",
                  "closed = \"alarm\"\nalarm = \"bell\"\n[[point]]\nid = \"bell\"\nname = \"alarm of the chill room\"\nplace = \"chill\"\n"
                  "class = \"operating\"\nlimit = { yes_no = true }\nevery = \"7days\"\n"));
    const auto bell = [&](bool passed) { return b.did_at(record::Inspected{"chill", "bell", "", "", passed, ""}, "2026-11-17 09:00").seq; };
    const auto nights = [&] {
        const auto before = std::to_string(b.air("2026-11-17 13:30").seq);
        b.air("2026-11-18 06:10");
        b.air("2026-11-19 06:10");  // the hours in which it could be shown end on the 18th, 14:00, and so on the 19th, 06:00
        return before;
    };
    b.set("2026-11-17 09:10");
    SECTION("good") {
        bell(true);
        nights();
        CHECK(b.gaps().empty());
    }
    SECTION("not good, and corrected") {
        const Seq test = bell(false);
        const auto before = nights();
        CHECK(b.gaps() == Gaps{before + " 1 2 16:00 closed, not shown"});
        const auto amended = b.amended(test, record::Inspected{"chill", "bell", "", "", true, ""});
        CHECK(b.gaps() == Gaps{before + " 1 2 16:00 closed, not shown"});
        b.countersigned(amended.seq);
        CHECK(b.gaps().empty());
    }
    SECTION("never tested") { CHECK(b.gaps() == Gaps{nights() + " 1 2 16:00 closed, not shown"}); }
    CHECK(b.faults() == "");
}

TEST_CASE("one outage is one finding for all that fell due in it, and one action answers it") {
    House b;
    b.set("2026-11-17 00:10");
    b.adopt(with_air("1h", ""));  // round the clock
    b.air("2026-11-17 01:00");
    b.did(Bakery::reading("cold-store", "cold-air", "4C"));                                         // due 05:00
    for (const char* time : {"02:00", "03:00", "03:30"}) b.air("2026-11-17 " + std::string(time));  // due 04:30
    b.did_at(Bakery::metal(true), "2026-11-17 03:00");                                              // due 07:00
    b.set("2026-11-17 06:20");
    const record::Outage power{b.moment("2026-11-17 04:10"), b.moment("2026-11-17 06:15"), {}, "power out"};
    const Gaps none;

    SECTION("while nothing falls due in it there is none") {
        const record::Outage brief{b.moment("2026-11-17 04:00"), b.moment("2026-11-17 04:20"), {}, "alarm"};
        CHECK(b.did(brief).findings.empty());
    }
    SECTION("power out") {
        const auto receipt = b.did(power);
        const auto gap = std::to_string(receipt.seq) + " 0 1 2:05 without checks";
        REQUIRE(receipt.findings.size() == 1);
        const auto& finding = receipt.findings.front().finding;
        CHECK(finding.verdict == Verdict::unproven);
        CHECK(finding.grade == Grade::critical);
        CHECK(finding.detail == "Not checked: air of the cold store (cold-store cold-air), air of the chill room (chill chill-air).");
        b.air("2026-11-17 06:21");
        b.did(Bakery::reading("cold-store", "cold-air", "4.6C"));
        CHECK(b.gaps() == none);  // 40 and 6 minutes of the hour
        // Only that from the bakery's first plan, 05:00 on the 16th, to the first reading.
        CHECK(b.gaps("cold-air") == Gaps{"3 " + day_number({2026, 11, 16}) + " 2 20:00 without a check"});
        CHECK(b.gaps("outage") == Gaps{gap});
        CHECK(b.duty("2026-11-17 06:30")->due == b.moment("2026-11-17 07:21"));

        SECTION("slips typed afterwards leave what they do not show") {
            b.air("2026-11-17 04:25");
            b.air("2026-11-17 05:20");
            const auto row = b.ask("SELECT grade || ' ' || detail FROM finding WHERE point = 'outage'");
            CHECK(row.front() == "operating Not checked: air of the cold store (cold-store cold-air).");
        }
        SECTION("an action answers it") {
            record::Acted act;
            act.finding = {receipt.seq, "outage", 0};
            act.process = "probed what lay there, 4.6C";
            act.disposition = "release";
            b.did(act);
            for (const auto& open : b.site->status().open_findings) CHECK(open.finding.point != "outage");
        }
        SECTION("a void gives the gaps back and clears nothing") {
            REQUIRE(b.site->void_entry(receipt.seq, "QA", "there was none").ok());
            CHECK(b.ask("SELECT verdict || ' ' || (kept_by IS NOT NULL) FROM finding WHERE point = 'outage'") == Gaps{"1 1"});
            CHECK(b.gaps().size() == 1);
            CHECK(b.gaps().front().ends_with(" 1 2 2:51 without a check"));  // 03:30 to 06:21
        }
        SECTION("amended to another place it is of that place alone") {
            auto elsewhere = power;
            elsewhere.places = {"cold-store"};
            b.amended(receipt.seq, elsewhere);
            CHECK(b.ask("SELECT place || ' ' || detail FROM finding WHERE point = 'outage'") ==
                  Gaps{"cold-store Not checked: air of the cold store (cold-store cold-air)."});
            CHECK(b.gaps().size() == 1);
        }
    }
    CHECK(b.faults() == "");
}

TEST_CASE("an outage is over, has length and places of the plan, and is no longer than a week") {
    House b;
    const auto refusal = [&](const std::string& from, const std::string& until, std::vector<std::string> places, const std::string& why) {
        return told(b.refused(record::Outage{b.moment(from), b.moment(until), std::move(places), why}));
    };
    b.set("2026-11-17 06:20");
    CHECK(refusal("2026-11-17 04:10", "2026-11-17 06:30", {}, "power") ==
          "an outage until 2026-11-17 06:30 | one that is over, by now, 2026-11-17 06:20 | record it when checks can be made again");
    CHECK(refusal("2026-11-17 06:15", "2026-11-17 06:15", {}, "power") ==
          "an outage from 2026-11-17 06:15 until 2026-11-17 06:15 | an end after its beginning | check --from and --until, and type the "
          "dates");
    CHECK(refusal("2026-11-10 06:00", "2026-11-17 06:01", {}, "flood") == "an outage of 168:01 | at most 168:00 | state it in parts");
    CHECK(refusal("2026-11-17 04:10", "2026-11-17 06:15", {"cold-stroe"}, "power") ==
          "place 'cold-stroe' | a place of the plan in force | check the word, or leave places out for the whole house | cold-store");
    CHECK(refusal("2026-11-17 04:10", "2026-11-17 06:15", {}, "") == "an outage without a reason | why it was done | add --why \"...\"");
}

TEST_CASE("instruments that are to be calibrated and were not in time") {
    House b;
    const auto overdue = [&](const std::string& when) {
        fold::Ledger ledger(book::Book::open(b.folder / "book.db", book::Book::Mode::read));
        std::vector<std::string> out;
        for (const auto& one : fold::overdue_instruments(ledger, b.moment(when)))
            out.push_back(one.instrument + (one.due ? " since " + to_iso(*one.due) : " never"));
        return out;
    };
    b.set("2026-11-17 05:00");
    b.did(Bakery::calibrated(true));
    record::Calibrated only_said = Bakery::calibrated(true, "old-probe");
    only_said.read.reset();
    b.did(only_said);
    CHECK(overdue("2026-11-17 06:00") == std::vector<std::string>{"old-probe never"});
    // 28 days after 2026-11-17 05:00 +01:00.
    CHECK(overdue("2026-12-16 06:00") == std::vector<std::string>{"probe since 2026-12-15T04:00:00.000Z", "old-probe never"});
}
