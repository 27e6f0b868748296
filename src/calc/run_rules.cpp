#include "calc/run_rules.h"

#include <cmath>

namespace peelbook::calc {
namespace {

struct Series {
    const std::vector<double>& values;
    double centre, sigma;

    // Is point i beyond k sigma on the side (+1 above, -1 below)?
    bool beyond(std::size_t i, double k, int side) const { return side * (values[i] - centre) > k * sigma; }
    // Rising +1, falling -1, level 0, from point i - 1 to i.
    int step(std::size_t i) const { return (values[i] > values[i - 1]) - (values[i] < values[i - 1]); }
};

// Of the `window` points up to `last`, at least `wanted` beyond k sigma on one side, the last one among them.
bool some_beyond(const Series& s, std::size_t last, std::size_t window, std::size_t wanted, double k) {
    if (last + 1 < window) return false;
    for (int side : {+1, -1}) {
        if (!s.beyond(last, k, side)) continue;
        std::size_t count = 0;
        for (std::size_t i = last + 1 - window; i <= last; ++i) count += s.beyond(i, k, side) ? 1 : 0;
        if (count >= wanted) return true;
    }
    return false;
}

bool trending(const Series& s, std::size_t last, std::size_t window) {
    if (last + 1 < window || s.step(last) == 0) return false;
    for (std::size_t i = last + 2 - window; i <= last; ++i) {
        if (s.step(i) != s.step(last)) return false;
    }
    return true;
}

bool alternating(const Series& s, std::size_t last, std::size_t window) {
    if (last + 1 < window || s.step(last) == 0) return false;
    for (std::size_t i = last + 3 - window; i <= last; ++i) {
        if (s.step(i) != -s.step(i - 1)) return false;
    }
    return true;
}

// All of the window within (or all outside) one sigma of the centre.
bool all_near(const Series& s, std::size_t last, std::size_t window, bool near) {
    if (last + 1 < window || !(s.sigma > 0)) return false;
    for (std::size_t i = last + 1 - window; i <= last; ++i) {
        const bool outside = s.beyond(i, 1, +1) || s.beyond(i, 1, -1);
        if (outside == near) return false;
    }
    return true;
}

struct Test {
    RunRule rule;
    std::size_t window;
};

bool complete(const Series& s, std::size_t last, const Test& test) {
    switch (test.rule) {
        case RunRule::beyond_3_sigma:
            return s.sigma > 0 && some_beyond(s, last, 1, 1, 3);
        case RunRule::two_of_three_beyond_2_sigma:
            return s.sigma > 0 && some_beyond(s, last, 3, 2, 2);
        case RunRule::four_of_five_beyond_1_sigma:
            return s.sigma > 0 && some_beyond(s, last, 5, 4, 1);
        case RunRule::eight_on_one_side:
        case RunRule::nine_on_one_side:
            return some_beyond(s, last, test.window, test.window, 0);
        case RunRule::six_trending:
            return trending(s, last, test.window);
        case RunRule::fourteen_alternating:
            return alternating(s, last, test.window);
        case RunRule::fifteen_within_1_sigma:
            return all_near(s, last, test.window, true);
        case RunRule::eight_outside_1_sigma:
            return all_near(s, last, test.window, false);
    }
    return false;
}

const std::vector<Test>& tests_of(RuleSet rules) {
    static const std::vector<Test> western_electric = {{RunRule::beyond_3_sigma, 1},
                                                       {RunRule::two_of_three_beyond_2_sigma, 3},
                                                       {RunRule::four_of_five_beyond_1_sigma, 5},
                                                       {RunRule::eight_on_one_side, 8}};
    static const std::vector<Test> nelson = {{RunRule::beyond_3_sigma, 1},
                                             {RunRule::nine_on_one_side, 9},
                                             {RunRule::six_trending, 6},
                                             {RunRule::fourteen_alternating, 14},
                                             {RunRule::two_of_three_beyond_2_sigma, 3},
                                             {RunRule::four_of_five_beyond_1_sigma, 5},
                                             {RunRule::fifteen_within_1_sigma, 15},
                                             {RunRule::eight_outside_1_sigma, 8}};
    return rules == RuleSet::western_electric ? western_electric : nelson;
}

}  // namespace

std::string_view rule_text(RunRule rule) {
    switch (rule) {
        case RunRule::beyond_3_sigma:
            return "1 point beyond 3 sigma";
        case RunRule::two_of_three_beyond_2_sigma:
            return "2 of 3 beyond 2 sigma on one side";
        case RunRule::four_of_five_beyond_1_sigma:
            return "4 of 5 beyond 1 sigma on one side";
        case RunRule::eight_on_one_side:
            return "8 in a row on one side of the centre line";
        case RunRule::nine_on_one_side:
            return "9 in a row on one side of the centre line";
        case RunRule::six_trending:
            return "6 in a row rising or falling";
        case RunRule::fourteen_alternating:
            return "14 in a row alternating up and down";
        case RunRule::fifteen_within_1_sigma:
            return "15 in a row within 1 sigma";
        case RunRule::eight_outside_1_sigma:
            return "8 in a row outside 1 sigma";
    }
    return "";
}

std::vector<RunSignal> run_signals(const std::vector<double>& values, double centre, double sigma, RuleSet rules) {
    const Series series{values, centre, sigma};
    std::vector<RunSignal> signals;
    for (std::size_t last = 0; last < values.size(); ++last) {
        for (const Test& test : tests_of(rules)) {
            if (complete(series, last, test)) signals.push_back({test.rule, last + 1 - test.window, last});
        }
    }
    return signals;
}

}  // namespace peelbook::calc
