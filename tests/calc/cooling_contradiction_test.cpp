// Readings of a cooling of which one must be wrong (rule 54): by the method written in calc/cooling.h. The rule is this program's
// own; 3 C between two readings by hand, and the fastest times, are common practice.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "calc/cooling.h"

using namespace peelbook;
using namespace peelbook::calc;

namespace {

Instant at(std::int64_t minute) { return Instant{} + minutes(minute); }

// 57 C to 21 C in 2 h and to 5 C in 6 h, at the fastest in 20 min and 1 h.
CoolingRule tray() { return {57'000, {{21'000, hours(2), minutes(20)}, {5'000, hours(6), minutes(60)}}, false}; }

CoolingInput read(const std::vector<std::pair<std::int64_t, std::int64_t>>& minute_and_milli_c) {
    CoolingInput input;
    for (const auto& [minute, value] : minute_and_milli_c) input.readings.push_back({at(minute), value, {}});
    input.scatter = 3'000;
    input.clocks = minutes(15);
    return input;
}

std::optional<Contradiction::Kind> kind_of(const CoolingRule& rule, const CoolingInput& input) {
    const auto found = contradiction_in(rule, input);
    return found ? std::optional(found->kind) : std::nullopt;
}

constexpr auto rise = Contradiction::Kind::rise;
constexpr auto fall = Contradiction::Kind::fall;
constexpr auto hot = Contradiction::Kind::hot;

}  // namespace

TEST_CASE("a rise beyond what two readings by hand may differ by contradicts the colder one") {
    CHECK_FALSE(kind_of(tray(), read({{0, 57'000}, {60, 30'000}, {70, 33'000}, {110, 20'000}})));
    const auto found = contradiction_in(tray(), read({{0, 57'000}, {60, 30'000}, {70, 33'001}, {110, 20'000}}));
    REQUIRE(found);
    CHECK(found->kind == rise);
    CHECK(found->earlier == at(60));
    CHECK(found->later == at(70));
    // Little by little is as much, and before the clock starts the core may still warm up.
    CHECK(kind_of(tray(), read({{0, 57'000}, {60, 30'000}, {70, 32'000}, {80, 34'000}})) == rise);
    CHECK_FALSE(kind_of(tray(), read({{0, 60'000}, {5, 75'000}, {30, 58'000}})));
    CoolingInput coarse = read({{0, 57'000}, {60, 30'000}, {70, 34'000}});
    coarse.tolerance = 4'000;  // of the instrument
    CHECK_FALSE(kind_of(tray(), coarse));
}

TEST_CASE("a fall that no such product makes contradicts what was read before it") {
    // 4 C, with 3 C to spare 7 C, takes 20 + 40 x (21 - 7) / (21 - 5) = 55 min; a minute is what a typed time may be off by.
    CHECK(kind_of(tray(), read({{0, 57'000}, {53, 4'000}})) == fall);
    CHECK_FALSE(kind_of(tray(), read({{0, 57'000}, {54, 4'000}})));
    // From 40 C it is 20 x (57 - 40) / (57 - 21) = 9:27 less, so 45:33.
    CHECK(kind_of(tray(), read({{0, 57'000}, {60, 40'000}, {104, 4'000}})) == fall);
    CHECK_FALSE(kind_of(tray(), read({{0, 57'000}, {60, 40'000}, {105, 4'000}})));
    // From above 57 C the time of that fall is not known, from an event that it was hot at it is.
    CHECK_FALSE(kind_of(tray(), read({{0, 95'000}, {54, 4'000}})));
    CoolingInput baked = read({{53, 4'000}});
    CHECK_FALSE(kind_of(tray(), baked));
    baked.known_hot_at = at(0);
    CHECK(kind_of(tray(), baked) == fall);
    // Small steps together are as fast as one: 57 C to 7 C in 10 min.
    std::vector<std::pair<std::int64_t, std::int64_t>> steps;
    for (std::int64_t i = 0; i <= 10; ++i) steps.emplace_back(i, 57'000 - 5'000 * i);
    CHECK(kind_of(tray(), read(steps)) == fall);
    // Each stage from the one before: 20 min and then 60.
    CoolingRule each = tray();
    each.each_from_previous = true;
    CHECK(kind_of(each, read({{0, 57'000}, {70, 4'000}})) == fall);  // 20 + 60 x 14 / 16 = 72:30
    CHECK_FALSE(kind_of(each, read({{0, 57'000}, {72, 4'000}})));
    CoolingRule silent = tray();
    for (auto& stage : silent.stages) stage.fastest.reset();
    CHECK_FALSE(kind_of(silent, read({{0, 57'000}, {1, 4'000}})));
}

TEST_CASE("a product that is heated anew begins anew, and one known to be hot after it was read cold contradicts itself") {
    CoolingInput boiled = read({{10, 50'000}, {70, 30'000}, {85, 45'000}, {100, 80'000}, {160, 40'000}});
    boiled.known_hot_at = at(98);
    CHECK(kind_of(tray(), boiled) == rise);
    boiled.heated_again = at(80);
    CHECK_FALSE(kind_of(tray(), boiled));
    CHECK(judge_cooling(tray(), boiled).stages[0].start.after == at(100));
    CoolingInput pressed = read({{0, 60'000}, {20, 50'000}, {60, 35'000}});
    pressed.known_hot_at = at(35);  // 15 min after: pressed late
    CHECK_FALSE(kind_of(tray(), pressed));
    pressed.known_hot_at = at(36);
    CHECK(kind_of(tray(), pressed) == hot);
    pressed.known_hot_at = at(90);
    CHECK(kind_of(tray(), pressed) == hot);
    CHECK(judge_cooling(tray(), pressed).stages[0].start.after == at(0));  // the clock runs from the readings all the same
}

TEST_CASE("what contradicts itself is not shown; what even the last crossing leaves too late stays a deviation") {
    const auto judged = [](const CoolingInput& input) { return judge_cooling(tray(), input); };
    CHECK(judged(read({{0, 57'000}, {60, 40'000}, {110, 20'500}, {300, 5'000}})).shown());
    const auto stray = judged(read({{0, 57'000}, {60, 4'000}, {61, 40'000}, {110, 20'500}, {300, 5'000}}));
    CHECK(stray.worst() == StageVerdict::within);
    CHECK_FALSE(stray.shown());
    CHECK(judged(read({{0, 57'000}, {60, 4'000}, {121, 25'000}, {300, 5'000}})).stages[0].verdict == StageVerdict::deviation);
    // Once it is cold and its time is over, three degrees are of the keeping; before, and beyond them, of the cooling.
    CHECK(judged(read({{0, 57'000}, {110, 20'500}, {300, 5'000}, {361, 8'000}})).shown());
    CHECK(judged(read({{0, 57'000}, {110, 20'500}, {300, 5'000}, {360, 8'000}})).stages[1].verdict == StageVerdict::deviation);
    CHECK(judged(read({{0, 57'000}, {110, 20'500}, {300, 5'000}, {361, 8'001}})).stages[1].verdict == StageVerdict::deviation);
}

namespace {

// A tray that cools by Newton's law in 2 C air, with a third to spare to what tray() says is the fastest, read by hand: each off by at most 1.5 C.
struct ReadTray {
    CoolingInput input;
    bool within = true;  // in truth

    explicit ReadTray(std::mt19937& random) {
        const auto between = [&](std::int64_t low, std::int64_t high) {
            return std::uniform_int_distribution<std::int64_t>(low, high)(random);
        };
        // 57 C to 21 C takes ln(55 / 19) / k: 30 to 150 min; to 5 C 2.74 times as long.
        const double k = std::log(55.0 / 19.0) / static_cast<double>(between(30, 150));
        const auto minute_of = [&](double celsius) { return std::log(78.0 / (celsius - 2)) / k; };
        within = minute_of(21) - minute_of(57) <= 120 && minute_of(5) - minute_of(57) <= 360;
        std::vector<std::pair<std::int64_t, std::int64_t>> readings;
        for (std::int64_t minute = 0; minute < 460; minute += between(5, 45)) {
            const double truth = 2 + 78 * std::exp(-k * static_cast<double>(minute));
            readings.emplace_back(minute, std::llround(truth * 1e3) + between(-1'500, 1'500));
        }
        input = read(readings);
    }
};

}  // namespace

TEST_CASE("who reads by hand what truly cools is never told of a contradiction") {
    std::mt19937 random(1430);
    for (int run = 0; run < 5'000; ++run) {
        INFO("run " << run);
        REQUIRE_FALSE(kind_of(tray(), ReadTray(random).input));
    }
}

TEST_CASE("a decimal point left out in the middle of a cooling never makes it better") {
    std::mt19937 random(400);
    int slow = 0;
    for (int run = 0; run < 3'000; ++run) {
        const CoolingInput honest = ReadTray(random).input;
        if (judge_cooling(tray(), honest).shown()) continue;
        ++slow;
        for (std::size_t i = 0; i + 1 < honest.readings.size(); ++i) {
            CoolingInput slip = honest;
            if (honest.readings[i + 1].value < 10'000) break;  // a tenth is near what truly follows
            slip.readings[i].value /= 10;
            INFO("run " << run << ", reading " << i);
            REQUIRE_FALSE(judge_cooling(tray(), slip).shown());
        }
    }
    CHECK(slow > 500);
}

TEST_CASE("rule 8: a reading left out of a series that falls as such a product can never shows more") {
    std::mt19937 random(8);
    int lost = 0;
    for (int run = 0; run < 3'000; ++run) {
        CoolingInput all = ReadTray(random).input;
        for (std::size_t i = 1; i < all.readings.size(); ++i)  // what the curve is, without the hand
            all.readings[i].value = std::min(all.readings[i].value, all.readings[i - 1].value - 1);
        if (contradiction_in(tray(), all)) continue;  // the hand took it for falling too fast
        const bool shown = judge_cooling(tray(), all).shown();
        for (std::size_t gone = 0; gone < all.readings.size(); ++gone) {
            CoolingInput fewer = all;
            fewer.readings.erase(fewer.readings.begin() + static_cast<std::ptrdiff_t>(gone));
            const bool still = judge_cooling(tray(), fewer).shown();
            INFO("run " << run << ", without " << gone);
            REQUIRE((shown || !still));
            lost += shown && !still ? 1 : 0;
        }
    }
    CHECK(lost > 100);
}
