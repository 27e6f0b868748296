#include "calc/chart.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "calc/capability.h"
#include "calc/run_rules.h"
#include "calc/summary.h"
#include "calc/trend.h"

using namespace peelbook::calc;

TEST_CASE("the printed constants agree with the distribution of the range") {
    // Exact values by SciPy 1.10.1, reference_scipy.py: d2, d3, A2, D3, D4 for subgroups of 2 to 10.
    const double exact[9][5] = {
        {1.1284, 0.8525, 1.8800, 0, 3.2665},      {1.6926, 0.8884, 1.0233, 0, 2.5746},      {2.0588, 0.8798, 0.7286, 0, 2.2821},
        {2.3259, 0.8641, 0.5768, 0, 2.1145},      {2.5344, 0.8480, 0.4832, 0, 2.0038},      {2.7044, 0.8332, 0.4193, 0.0757, 1.9243},
        {2.8472, 0.8198, 0.3725, 0.1362, 1.8638}, {2.9700, 0.8078, 0.3367, 0.1840, 1.8160}, {3.0775, 0.7971, 0.3083, 0.2230, 1.7770}};
    for (int n = 2; n <= 10; ++n) {
        const auto k = control_constants(n);
        const double printed[5] = {k->d2, k->d3, k->a2, k->lower_range, k->upper_range};
        for (int i = 0; i < 5; ++i) CHECK(printed[i] == Approx(exact[n - 2][i]).margin(0.00061));
    }
    CHECK(control_constants(1).refusal().next == "use the individuals chart");
    CHECK(control_constants(11).refusal().next == "take smaller subgroups");
}

TEST_CASE("Western Electric's rules together raise a false alarm once in about 92 points") {
    // Average run length 91.75: Champ and Woodall, Technometrics 29 (1987), quoted in numerics.net
    // documentation.
    // Seeded; the standard error of 8,000 runs is about 1.
    std::mt19937 random(92);
    std::normal_distribution<double> normal;
    double points = 0;
    constexpr int runs = 8'000;
    for (int run = 0; run < runs; ++run) {
        std::vector<double> recent;  // the rules look back eight points at most
        for (int count = 1;; ++count) {
            recent.push_back(normal(random));
            if (recent.size() > 8) recent.erase(recent.begin());
            const auto signals = run_signals(recent, 0, 1, RuleSet::western_electric);
            if (!signals.empty() && signals.back().last + 1 == recent.size()) {
                points += count;
                break;
            }
        }
    }
    CHECK(points / runs == Approx(91.75).margin(4));
}

TEST_CASE("signals name the points of their pattern") {
    const auto signals = run_signals({0, 3.5, 0, 2.5, 2.6}, 0, 1, RuleSet::nelson);
    REQUIRE(signals.size() == 3);
    CHECK((signals[0].rule == RunRule::beyond_3_sigma && signals[0].first == 1 && signals[0].last == 1));
    CHECK((signals[1].rule == RunRule::two_of_three_beyond_2_sigma && signals[1].first == 1 && signals[1].last == 3));
    CHECK((signals[2].rule == RunRule::two_of_three_beyond_2_sigma && signals[2].first == 2 && signals[2].last == 4));
    CHECK(run_signals({1, 1, 1, 1, 1, 1, 1, 1, 1, 1}, 1, 0, RuleSet::nelson).empty());  // nothing varies
}

TEST_CASE("what the charts refuse") {
    CHECK(individuals_chart({1}).refusal().given == "1 value(s)");
    CHECK(individuals_chart({1, std::nan("")}).refusal().given == "a value that is not a number");
    CHECK(xbar_chart({{1, 2}}).refusal().given == "1 subgroup(s)");
    CHECK(xbar_chart({{1, 2}, {1, 2, 3}}).refusal().given == "subgroup 2 with 3 values");
    CHECK(xbar_chart({{1}, {2}}).refusal().given == "subgroups of 1");
    CHECK(capability({1, 1, {}, {}, {}, 0.95}).refusal().given == "no specification limit");
    CHECK(capability({1, 1, {}, 5, 4, 0.95}).refusal().given == "limits of 5 to 4");
    CHECK(capability({1, 1, {}, 4, 5, 95}).refusal().given == "a confidence of 95");
}

TEST_CASE("large values with a small spread keep their digits") {
    // NIST StRD "NumAcc3" (memory; it can be checked by hand): mean 1000000.2, standard deviation 0.1.
    std::vector<double> values = {1'000'000.2};
    for (int i = 0; i < 500; ++i) {
        values.push_back(1'000'000.1);
        values.push_back(1'000'000.3);
    }
    const Summary s = summarise(values);
    CHECK(s.mean == Approx(1'000'000.2).epsilon(1e-15));
    CHECK(*s.sd == Approx(0.1).epsilon(1e-8));
    CHECK_FALSE(summarise({5}).sd.has_value());
    CHECK(summarise({}).n == 0);
}

TEST_CASE("a trend looks at the limit it moves towards, and not too far ahead") {
    const std::vector<Point> falling = {{0, 10}, {1, 9.1}, {2, 7.9}, {3, 7}, {4, 6.1}, {5, 5}};
    CHECK(trend_towards(falling, 4.0, 12.0)->limit == 4.0);
    CHECK(trend_towards(falling, 4.0, 12.0)->reaches_at == Approx(6).margin(0.1));
    CHECK_FALSE(trend_towards(falling, -40.0, {})->reaches_at.has_value());  // 50 days off, 20 is the horizon
    CHECK_FALSE(trend_towards(falling, {}, 12.0)->limit.has_value());
    CHECK(trend_towards(falling, 4.9, {})->early_at == 5.0);       // already now
    CHECK_FALSE(trend_towards({{0, 1}, {1, 2}}, 0.0, 9.0)->real);  // two points show nothing
}
