// Loggers' files on a place and on a batch: what is read, what is odd, what is judged, in whatever order
// things are recorded. The files are made up; what is expected of them was counted by hand.
#include "site/bakery.h"

using namespace peelbook;
using namespace peelbook::site;
using namespace peelbook::site::testing;

namespace {

constexpr const char* loggers = R"toml(
[[logger]]
id = "export"
name = "cold store, exported"
separator = ";"
decimal = ","
header_lines = 2
date = "Datum"
time = "Zeit"
time_format = "DD.MM.YYYY hh:mm"
every = "1h"
no_value = ["---"]
values = [ { column = "Luft", unit = "C", point = "cold-air" } ]
[[logger]]
id = "fahrenheit"
name = "in degrees F, standard time all year"
time_format = "MM/DD/YYYY hh:mm:ss AP"
zone = "+01:00"
every = "30min"
values = [ { column = "2", unit = "F" }, { column = "3", unit = "F", point = "cooling" } ]
)toml";

constexpr const char* head = "Logger 7;;\nDatum;Zeit;Luft\n";

struct Logged : Bakery {
    Logged() {
        files.create(folder / "loggers.toml", loggers);
        REQUIRE(site->adopt_plan("MK").ok());
        did(record::ServiceChanged{"probe", true, ""});
    }
    Result<Receipt> import(const std::string& text, const std::string& logger = "export", const std::string& subject = "cold-store",
                           const std::string& point = "cold-air", const std::string& column = "") {
        record::SeriesTaken series;
        series.column = column;
        series.subject = subject;
        series.point = point;
        series.instrument = "probe";
        series.file = "log.csv";
        series.logger = logger;
        if (logger.empty()) series.value_unit = "C";
        BytesInMemory bytes(text);
        return site->record_series(series, bytes, {.says = {}, .by = "MK", .happened = {}, .token = "", .already_done = false, .why = ""});
    }
    Receipt imported(const std::string& text, const std::string& logger = "export") {
        auto receipt = import(text, logger);
        INFO((receipt ? "" : told(receipt.refusal())));
        REQUIRE(receipt.ok());
        return *receipt;
    }
    // Findings of the cold store without what depends on the number of an entry.
    std::vector<std::string> findings() const {
        return ask(
            "SELECT ord, verdict, local_time(happened), measured, detail FROM finding WHERE place = "
            "'cold-store' ORDER BY happened, ord, detail");
    }
};

std::string hourly(const std::string& day, int from, int until, const std::string& value) {
    std::string text;
    for (int h = from; h < until; ++h) text += day + ";" + (h < 10 ? "0" : "") + std::to_string(h) + ":00;" + value + "\n";
    return text;
}

}  // namespace

TEST_CASE("a logger's file is read as the plan says, and judged production day by production day") {
    Logged b;
    b.set("2026-11-19 09:00");
    // The production day begins at 03:00: 00:00 to 02:00 of the 18th belong to the 17th.
    const auto receipt =
        b.imported(head + hourly("17.11.2026", 3, 24, "3,5") + hourly("18.11.2026", 0, 3, "5,5") + hourly("18.11.2026", 3, 24, "-0,25"));
    CHECK(receipt.said.at(1) == "45 rows, 2026-11-17 03:00 to 2026-11-18 23:00, -0.25C to 5.5C");
    CHECK(b.ask("SELECT rows, least, most, mean, outside, longest_ms / 60000, week FROM series_day ORDER BY "
                "day") == std::vector<std::string>{"24 3500 5500 3750 3 120 202647", "21 -250 -250 -250 0 0 202647"});
    // Owed every 4 h since the adoption, 05:00 on the 16th, and first read 22 h later.
    CHECK(b.findings() == std::vector<std::string>{"20773 2 2026-11-16 09:00 22:00 without a check A check of air is owed every 4:00; this "
                                                   "gap is 18:00 longer.",
                                                   "41548 3 2026-11-18 00:00 5.5C 5.5C is 0.5C above the limit of at most 5C. 24 rows of a "
                                                   "logger, 3 outside the limit, the longest stretch of them 2:00.",
                                                   "41550 0 2026-11-18 03:00 -0.25C -0.25C, limit at most 5C. 21 rows of a logger."});
    CHECK(receipt.findings.size() == 2);
    CHECK(b.ask("SELECT count(*) FROM reading WHERE place = 'cold-store'") == std::vector<std::string>{"0"});
    CHECK(b.faults() == "");
}

TEST_CASE("gaps, doubled rows, two values, rows out of order, a clock set back and rows without a value are told") {
    Logged b;
    b.set("2026-11-18 09:00");
    const auto receipt = b.imported(std::string(head) +
                                    "16.11.2026;05:00;3,0\n16.11.2026;06:00;3,0\n16.11.2026;06:00;3,0\n"  // doubled
                                    "16.11.2026;07:00;3,1\n16.11.2026;07:00;3,2\n"                        // two values
                                    "16.11.2026;09:00;3,0\n16.11.2026;08:00;3,0\n16.11.2026;11:00;3,0\n"  // out of order; 10:00 is
                                                                                                          // missing
                                    "16.11.2026;12:00;---\n16.11.2026;13:00;\n"                           // no value
                                    "16.11.2026;14:00;3,0\n16.11.2026;15:00;3,0\n"
                                    "16.11.2026;13:30;3,0\n16.11.2026;14:30;3,0\n16.11.2026;15:30;3,0\n16.11.2026;16:30;3,0\n");  // set
                                                                                                                                  // back
    CHECK(b.ask("SELECT rows, gaps, duplicates, two_values, out_of_order, clock_steps, no_values FROM series") ==
          std::vector<std::string>{"14 2 1 1 1 1 2"});
    CHECK(b.ask("SELECT kind, line, local_time(from_ms), rows, detail FROM series_fault ORDER BY ord") ==
          std::vector<std::string>{"duplicate 5 2026-11-16 06:00 1 The same time and value as line 4.",
                                   "two-values 7 2026-11-16 07:00 1 The same time as line 6 and another value; both are judged.",
                                   "out-of-order 9 2026-11-16 08:00 1 1 row stands after a later one, by up to 1:00.",
                                   "gap 10 2026-11-16 09:00 1 2:00 between two rows where 1:00 is expected.",
                                   "gap 15 2026-11-16 11:00 2 2:30 between two rows where 1:00 is expected; no whole number of "
                                   "steps: the clock may have been set, or logging begun anew.",
                                   "no-value 11 2026-11-16 12:00 2 2 rows without a value.",
                                   "clock 15 2026-11-16 15:00 2 The clock went back by 1:30 and went on from there."});
    CHECK(std::count_if(receipt.said.begin(), receipt.said.end(), [](const auto& line) { return line.find("line ") == 0; }) == 5);
    CHECK(b.faults() == "");
}

TEST_CASE("a gap that a check by hand fills is no gap, whichever is recorded first") {
    const std::string file = head + hourly("16.11.2026", 5, 8, "3,0") + hourly("16.11.2026", 14, 20, "3,0");
    const auto check_of = [](Logged& b, const std::string& at) { b.did_at(Bakery::reading("cold-store", "cold-air", "4C"), at); };
    std::vector<std::string> first, second;
    {
        Logged b;
        b.set("2026-11-16 20:30");
        b.imported(file);
        CHECK(b.findings().size() == 2);  // 07:00 to 14:00 is longer than 4 h
        CHECK(b.findings().back().find("7:00 without a check") != std::string::npos);
        check_of(b, "10:30");
        first = b.findings();
        CHECK(b.faults() == "");
    }
    {
        Logged b;
        b.set("2026-11-16 20:30");
        check_of(b, "10:30");
        b.imported(file);
        second = b.findings();
        CHECK(b.faults() == "");
    }
    // The gaps that were raised on the way stay, as cleared (by hand first: from the adoption on); otherwise both orders say the same.
    for (auto* list : {&first, &second}) std::erase_if(*list, [](const auto& f) { return f.find("without a check") != std::string::npos; });
    CHECK(first == second);
    CHECK(second.size() == 2);
}

TEST_CASE("two files that overlap, one voided: the gaps of the other are its own again") {
    Logged b;
    b.set("2026-11-17 09:00");
    b.imported(head + hourly("16.11.2026", 5, 8, "3,0") + hourly("16.11.2026", 15, 20, "3,0"));
    const auto filling = b.imported(head + hourly("16.11.2026", 7, 16, "3,0"));
    const std::string open =
        "SELECT count(*) FROM finding WHERE verdict = 2 AND cleared_by IS NULL AND kept_by IS NULL AND place "
        "= 'cold-store'";
    CHECK(b.ask(open) == std::vector<std::string>{"0"});
    REQUIRE(b.site->void_entry(filling.seq, "QA", "of another store").ok());
    CHECK(b.ask(open) == std::vector<std::string>{"1"});
    CHECK(b.faults() == "");
    b.site->rebuild();
    CHECK(b.faults() == "");
}

TEST_CASE("a file in degrees F without summer time, and a limit met in the unit of the file") {
    Logged b;
    b.set("2026-11-17 09:00");
    // 41F is 5C, the limit; +01:00 is Berlin's winter time.
    const auto receipt = b.imported("time,F\n11/16/2026 11:30:00 PM,41\n11/17/2026 12:00:00 AM,41.0\n", "fahrenheit");
    CHECK(receipt.said.at(1) == "2 rows, 2026-11-16 23:30 to 2026-11-17 00:00, 41F to 41F");
    CHECK(b.findings().back().find("41546 0") == 0);
    CHECK(b.faults() == "");
}

TEST_CASE("summer time begins and ends within a file in local time") {
    Logged b;
    b.set("2027-04-01 09:00");
    // Berlin: 2026-10-25 03:00 became 02:00 (02:00 occurs twice); 2027-03-28 02:00 became 03:00 (02:30 never
    // was).
    b.imported(
        "2026-10-25 01:30;3\n2026-10-25 02:00;3\n2026-10-25 02:30;3\n2026-10-25 02:00;3\n2026-10-25 "
        "02:30;3\n2026-10-25 03:00;3\n",
        "");
    CHECK(b.ask("SELECT rows, (last_ms - first_ms) / 60000, clock_steps, out_of_order, duplicates FROM series") ==
          std::vector<std::string>{"6 150 0 0 0"});
    b.imported("2027-03-28 01:30;3\n2027-03-28 02:30;3\n2027-03-28 03:45;3\n", "");
    CHECK(b.ask("SELECT kind, line, local_time(from_ms), detail FROM series_fault") ==
          std::vector<std::string>{"clock 2 2027-03-28 03:30 This local time never was: the clock was not yet set forward."});
}

TEST_CASE("rule 55: an hour that the clock showed twice and a file has once is judged as of either") {
    Logged b;
    b.set("2027-10-31 00:10");
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("MILK-1", "milk", "100kg", "M-1", "2027-11-20");
    b.bun("B-1", "WF-1", "MILK-1");
    b.bun("B-2", "WF-1", "MILK-1");
    b.set("2027-10-31 09:00");
    // Berlin: 03:00 became 02:00. From 70 C at 01:00 to 20.5 C at 02:50 it is 1:50, or 2:50.
    const std::string once = "2027-10-31 01:00;70\n2027-10-31 01:20;50\n2027-10-31 02:50;20.5\n2027-10-31 06:00;4.5\n";
    const auto file = b.import(once, "", "B-1", "cooling");
    REQUIRE(file.ok());
    b.step("B-1", "cool");
    CHECK(b.finding("B-1", "cooling").verdict == Verdict::unproven);
    CHECK(b.ask("SELECT kind, line, rows, detail FROM series_fault") ==
          std::vector<std::string>{"clock 3 1 The clock showed this hour twice, and the file has it once: 1 row may be of either."});
    CHECK(b.faults() == "");
    REQUIRE(b.import("2027-10-31 01:00;70\n2027-10-31 01:20;50\n2027-10-31 02:50;20.5\n2027-10-31 02:10;19\n2027-10-31 06:00;4.5\n", "",
                     "B-2", "cooling")
                .ok());
    b.step("B-2", "cool");
    CHECK(b.finding("B-2", "cooling").verdict == Verdict::within);  // the file has both hours
    CHECK(b.faults() == "");
}

TEST_CASE("a file that cannot be read is refused with its line, and nothing is written") {
    Logged b;
    b.set("2026-11-17 09:00");
    const auto refused = [&](const std::string& text, const std::string& logger = "export") {
        const auto before = b.state();
        auto receipt = b.import(text, logger);
        REQUIRE_FALSE(receipt.ok());
        REQUIRE(b.state() == before);
        return told(receipt.refusal());
    };
    CHECK(refused(head + std::string("16.11.2026;05:00;3.0\n")) ==
          "logger file, line 3: '16.11.2026;05:00;3.0' | a time like DD.MM.YYYY hh:mm in column 2 and a "
          "number in C in column 3 | "
          "correct how the plan reads this logger, or mend a copy of the file and record that one");
    CHECK(refused("Logger 7\nDatum;Zeit;Lfut\n16.11.2026;05:00;3,0\n").find("column 'Luft' | a heading of line 2: Datum, Zeit, Lfut") == 0);
    CHECK(refused(head).find("a logger file without a row") == 0);
    CHECK(refused(head + std::string("18.11.2026;05:00;3,0\n")).find("logger file, line 3: a time that is still to come") == 0);
    CHECK(refused(head, "exprt").find("logger 'exprt' | a logger of the plan in force: export, fahrenheit") == 0);
    CHECK(refused(head, "fahrenheit").find("logger file") == 0);
    CHECK(refused("2026-11-16 05:00;-300\n2026-11-16 06:00;-300\n", "").find("logger file, line 2") == 0);
}

TEST_CASE("a file of a batch makes readings; doubled rows count once and its order does not matter") {
    Logged b;
    b.receive("WF-1", "wheat-flour", "500kg");
    b.receive("MILK-1", "milk", "100kg", "M-1", "2026-12-01");
    b.bun("B-1", "WF-1", "MILK-1");  // 05:00 to 05:10, finished (boiled) at 05:10
    b.set("12:00");
    const std::string file =
        "a,b,c\n11/16/2026 05:10:00 AM,70,194\n11/16/2026 06:40:00 AM,70,68\n11/16/2026 06:10:00 AM,70,104\n"
        "11/16/2026 06:40:00 AM,70,68\n11/16/2026 10:10:00 AM,70,40\n";
    // Column 2 is for any point, column 3 for cooling: two fit, so the person must say which.
    const auto unclear = b.import(file, "fahrenheit", "B-1", "cooling");
    REQUIRE_FALSE(unclear.ok());
    CHECK(told(unclear.refusal()).find("logger fahrenheit for cooling: 2 columns | one of its columns: 2; 3 for cooling") == 0);
    const auto receipt = b.import(file, "fahrenheit", "B-1", "cooling", "3");
    INFO((receipt ? "" : told(receipt.refusal())));
    REQUIRE(receipt.ok());
    CHECK(b.ask("SELECT typed, local_time(happened) FROM reading WHERE point = 'cooling' ORDER BY happened") ==
          std::vector<std::string>{"194F 2026-11-16 05:10", "104F 2026-11-16 06:10", "68F 2026-11-16 06:40", "40F 2026-11-16 10:10"});
    CHECK(b.ask("SELECT rows, duplicates, out_of_order, column_read, lot IS NULL FROM series") == std::vector<std::string>{"5 1 1 3 0"});
    CHECK(b.finding("B-1", "cooling").verdict == Verdict::within);  // 21 C after 1:30 of 2 h, 5 C after 5:00 of 6 h
    CHECK(b.faults() == "");
    REQUIRE(b.site->void_entry(receipt->seq, "QA", "of another batch").ok());
    CHECK(b.ask("SELECT voided_by IS NULL FROM series") == std::vector<std::string>{"0"});
    CHECK(b.faults() == "");
}
