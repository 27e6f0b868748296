#pragma once
// Shorthands for the judge's tests: a batch written as a baker would say it. Times count from midnight of one
// invented day.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "judge/judge.h"

namespace bench {

using namespace peelbook;
using judge::Facts;
using judge::Finding;
using judge::InstrumentState;
using judge::Judged;
using judge::Standing;
using judge::Verdict;

inline Instant clock(std::int64_t hour, std::int64_t minute, std::int64_t second = 0) {
    return Instant{1'795'000'000'000} + hours(hour) + minutes(minute) + seconds(second);
}

inline Measure measure(std::string_view text) {
    auto parsed = parse_measure(text);
    REQUIRE(parsed.ok());
    return *parsed;
}

// "21C" or "21C | 70F"
inline plan::Bound bound(std::string_view text) {
    const auto bar = text.find('|');
    if (bar == std::string_view::npos) return {measure(text), std::nullopt};
    return {measure(text.substr(0, bar - 1)), measure(text.substr(bar + 2))};
}

struct Batch {
    Facts facts;
    std::int64_t next_seq = 100;

    Batch() {
        facts.steps = {"mix", "bake", "cool", "pack"};
        facts.finish_step = "cool";
        facts.started = clock(4, 0);
    }
    Batch& read(Instant at, std::string_view value, std::string unit = "", InstrumentState instrument = InstrumentState::valid) {
        facts.readings.push_back({next_seq++, 0, at, "p", measure(value), std::move(unit), instrument, "AB", false});
        return *this;
    }
    Batch& inspect(Instant at, bool passed, std::string unit = "", InstrumentState state = InstrumentState::none) {
        facts.inspections.push_back({next_seq++, at, "p", std::move(unit), passed, state, false});
        return *this;
    }
    Batch& step(std::string name, Instant at) {
        facts.steps_done.push_back({next_seq++, std::move(name), at});
        return *this;
    }
    Batch& again(std::string name, Instant at) {
        facts.steps_done.push_back({next_seq++, std::move(name), at, true});
        return *this;
    }
    // The book knows of the batch up to here.
    Batch& known(Instant at) {
        facts.as_of = at;
        return *this;
    }
    // When the last reading was typed, and from which slip.
    Batch& typed(Instant at, std::string slip = "") {
        facts.readings.back().written = at;
        facts.readings.back().slip = std::move(slip);
        return *this;
    }
    Batch& finish(Instant at) {
        facts.finished = at;
        return *this;
    }
    Batch& pack(Instant at) {
        facts.packed.push_back(at);
        return *this;
    }
    Batch& ship(Instant at) {
        facts.shipped.push_back(at);
        return *this;
    }
    Batch& void_reading(std::size_t i) {
        facts.readings[i].voided = true;
        return *this;
    }
};

inline plan::Point point(std::string step, plan::Limit limit) {
    plan::Point p;
    p.id = "p";
    p.step = std::move(step);
    p.measures = "core temperature";
    p.limit = std::move(limit);
    p.instrument_needed = true;
    return p;
}
inline plan::Point at_least(std::string step, std::string_view least) {
    return point(std::move(step), plan::RangeLimit{bound(least), std::nullopt});
}
inline plan::Point at_most(std::string step, std::string_view most) {
    return point(std::move(step), plan::RangeLimit{std::nullopt, bound(most)});
}

// FDA Food Code 2022, 3-501.14(A): 57 C (135 F) to 21 C (70 F) within 2 h and to 5 C (41 F) within a total of
// 6 h.
inline plan::CoolingLimit food_code() {
    return {bound("57C | 135F"), {{bound("21C | 70F"), hours(2)}, {bound("5C | 41F"), hours(6)}}, false, "", ""};
}

// The one finding of a point; fails the test when there is none or several.
inline Finding only(const plan::Point& p, const Batch& batch) {
    const Judged judged = judge::judge_point(p, batch.facts);
    REQUIRE(judged.standing == Standing::judged);
    REQUIRE(judged.findings.size() == 1);
    return judged.findings.front();
}
inline Verdict verdict(const plan::Point& p, const Batch& batch) { return only(p, batch).verdict; }
inline Standing standing(const plan::Point& p, const Batch& batch) { return judge::judge_point(p, batch.facts).standing; }

}  // namespace bench

namespace Catch {
template <> struct StringMaker<peelbook::judge::Verdict> {
    static std::string convert(peelbook::judge::Verdict v) { return std::string(peelbook::judge::word(v)); }
};
}  // namespace Catch
