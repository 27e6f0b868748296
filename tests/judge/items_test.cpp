// Formula items, instruments over time, and the words of the verdicts.
#include "judge/bench.h"

using namespace bench;

TEST_CASE("rule 20: a formula item not covered within tolerance is a missing use") {
    constexpr std::int64_t two_percent = 2'000;  // thousandths of a percent
    const auto item = [](std::int64_t wanted, std::int64_t used, bool optional = false) {
        return judge::judge_item({"rye", "rye flour", wanted, used, optional}, two_percent, clock(6, 0));
    };
    const std::int64_t kg = 1'000'000;
    CHECK_FALSE(item(50 * kg, 50 * kg).has_value());
    CHECK_FALSE(item(50 * kg, 49 * kg).has_value());  // 2 % of 50 kg is 1 kg: inclusive
    CHECK_FALSE(item(50 * kg, 51 * kg).has_value());
    const auto little = item(50 * kg, 49 * kg - 1);
    REQUIRE(little.has_value());
    CHECK(little->verdict == Verdict::missing);
    CHECK(little->point == judge::missing_use_point);
    CHECK(little->unit == "rye");
    CHECK(little->happened == clock(6, 0));
    const auto forgotten = item(50 * kg, 0);
    CHECK(forgotten->verdict == Verdict::missing);
    CHECK(forgotten->measured == "0kg of 50kg");
    CHECK(forgotten->detail == "rye flour: 0kg recorded, 50kg wanted, 50kg not accounted for; tolerance 2%.");
    const auto much = item(50 * kg, 51 * kg + 1);
    CHECK(much->verdict == Verdict::deviation);
    CHECK(item(50 * kg, 55 * kg)->detail == "rye flour: 55kg recorded, 50kg wanted, 5kg too much; tolerance 2%.");
    CHECK_FALSE(item(50 * kg, 0, true).has_value());
    CHECK_FALSE(item(0, 0).has_value());
    CHECK(item(0, 1)->verdict == Verdict::deviation);
    CHECK_FALSE(item(3, 3).has_value());
    CHECK(item(3, 2)->verdict == Verdict::missing);  // nothing is rounded: 2 mg is less than 2.94 mg
}

namespace {

using judge::CalibrationFact;
using judge::ServiceFact;
using judge::StateSpan;

Instant day(std::int64_t n) { return clock(0, 0) + days(n); }

std::string story(const std::vector<StateSpan>& spans) {
    std::string text;
    for (const StateSpan& span : spans) {
        const char* word = "";
        switch (span.state) {
            case InstrumentState::valid:
                word = "valid";
                break;
            case InstrumentState::none:
                word = "none";
                break;
            case InstrumentState::out_of_service:
                word = "out";
                break;
            case InstrumentState::lapsed:
                word = "lapsed";
                break;
            case InstrumentState::uncalibrated:
                word = "never";
                break;
            case InstrumentState::unfit:
                word = "unfit";
                break;
            case InstrumentState::failed:
                word = "failed";
                break;
        }
        text += std::to_string((span.from - day(0)).ms / days(1).ms) + ":" + word + " ";
        REQUIRE((&span == &spans.back()) == !span.until.has_value());
        if (span.until) REQUIRE(*span.until == (&span + 1)->from);
    }
    return text;
}

}  // namespace

TEST_CASE("a calibration lapses after its interval, inclusive") {
    const auto state = [](Instant at) { return judge::instrument_state(days(30), {}, {{day(0), true}}, at); };
    CHECK(state(day(0) - Duration{1}) == InstrumentState::uncalibrated);
    CHECK(state(day(0)) == InstrumentState::valid);
    CHECK(state(day(30)) == InstrumentState::valid);
    CHECK(state(day(30) + Duration{1}) == InstrumentState::lapsed);
    CHECK(story(judge::instrument_spans(days(30), {}, {{day(0), true}, {day(20), true}})) == "0:valid 50:lapsed ");
    CHECK(story(judge::instrument_spans(days(30), {}, {{day(0), true}, {day(40), true}})) == "0:valid 30:lapsed 40:valid 70:lapsed ");
    CHECK(story(judge::instrument_spans(std::nullopt, {}, {{day(0), true}})) == "0:valid ");
    CHECK(judge::instrument_spans(days(30), {}, {}).empty());
    CHECK(judge::instrument_state(days(30), {}, {}, day(1)) == InstrumentState::uncalibrated);
    CHECK(judge::instrument_state(std::nullopt, {}, {}, day(1)) == InstrumentState::valid);
}

TEST_CASE("a failed calibration turns everything since the last good one") {
    // The principle of "since the last good check", applied to what was measured: common practice in
    // calibration.
    CHECK(story(judge::instrument_spans(days(30), {}, {{day(0), true}, {day(10), true}, {day(20), false}})) == "0:valid 10:failed ");
    CHECK(story(judge::instrument_spans(days(30), {}, {{day(0), true}, {day(10), false}, {day(12), true}})) ==
          "0:failed 12:valid 42:lapsed ");
    CHECK(story(judge::instrument_spans(days(5), {}, {{day(0), true}, {day(10), false}})) == "0:failed ");
    CHECK(judge::instrument_state(std::nullopt, {}, {{day(10), false}}, day(3)) == InstrumentState::failed);
    CHECK(story(judge::instrument_spans(std::nullopt, {}, {{day(10), false}, {day(0), true}})) == "0:failed ");
}

TEST_CASE("in and out of service") {
    CHECK(story(judge::instrument_spans(std::nullopt, {{day(2), true}, {day(5), false}, {day(9), true}}, {})) == "2:valid 5:out 9:valid ");
    CHECK(judge::instrument_state(std::nullopt, {{day(2), true}}, {}, day(1)) == InstrumentState::out_of_service);
    CHECK(judge::instrument_state(std::nullopt, {{day(2), false}}, {}, day(1)) == InstrumentState::valid);
    CHECK(story(judge::instrument_spans(days(30), {{day(0), true}, {day(40), false}}, {{day(1), true}})) ==
          "0:never 1:valid 31:lapsed 40:out ");
    CHECK(story(judge::instrument_spans(days(30), {{day(4), false}}, {{day(1), true}, {day(8), false}})) == "1:failed ");
}

TEST_CASE("a good check puts a spare in service from then on, until it is taken out again") {
    const std::vector<judge::ServiceFact> out_at_2 = {{day(2), false}}, in_at_9 = {{day(9), true}};
    CHECK(story(judge::instrument_spans(days(30), out_at_2, {{day(5), true}})) == "2:out 5:valid 35:lapsed ");
    CHECK(story(judge::instrument_spans(days(30), out_at_2, {{day(5), false}})) == "2:failed ");
    CHECK(story(judge::instrument_spans(days(30), out_at_2, {{day(1), true}})) == "1:valid 2:out ");
    CHECK(story(judge::instrument_spans(days(30), out_at_2, {{day(2), true}})) == "2:out ");  // of one moment the worse
    CHECK(story(judge::instrument_spans(days(30), in_at_9, {{day(5), true}})) == "5:valid 35:lapsed ");
    CHECK(story(judge::instrument_spans(days(30), {{day(2), false}, {day(7), false}}, {{day(5), true}})) == "2:out 5:valid 7:out ");
}

TEST_CASE("figures decide a calibration, and a pass without them shows nothing") {
    const auto shows = [](bool passed, const std::string& read, const std::string& reference, const std::string& tolerance) {
        const auto some = [](const std::string& text) { return text.empty() ? std::nullopt : std::optional(measure(text)); };
        return judge::calibration_shows(passed, some(read), some(reference), some(tolerance));
    };
    CHECK(shows(true, "0.5C", "0C", "0.5C") == true);  // inclusive
    CHECK(shows(true, "0.501C", "0C", "0.5C") == false);
    CHECK(shows(true, "-0.501C", "0C", "0.5C") == false);
    CHECK(shows(true, "33.8F", "32F", "1C") == true);  // 1.8 F are 1 C of difference
    CHECK(shows(true, "33.9F", "32F", "1C") == false);
    CHECK(shows(true, "33.8F", "0C", "1C") == true);   // 33.8 F is 1 C
    CHECK(shows(false, "0C", "0C", "0.5C") == false);  // who says it failed is believed
    CHECK(shows(false, "", "", "") == false);
    CHECK_FALSE(shows(true, "", "", "0.5C").has_value());
    CHECK_FALSE(shows(true, "0C", "", "0.5C").has_value());
    CHECK_FALSE(shows(true, "0C", "0C", "").has_value());
    CHECK_FALSE(shows(true, "4pH", "4pH", "0.5C").has_value());
}

TEST_CASE("verdicts are ordered, and have one word each") {
    CHECK(judge::word(Verdict::within) == "within");
    CHECK(judge::word(Verdict::unproven) == "unproven");
    CHECK(judge::word(Verdict::missing) == "missing");
    CHECK(judge::word(Verdict::deviation) == "deviation");
    CHECK(judge::worse(Verdict::missing, Verdict::unproven) == Verdict::missing);
    CHECK(judge::worse(Verdict::within, Verdict::deviation) == Verdict::deviation);
}
