// Checked against brute force over every order (the definition itself), and by hand where the answer is a
// sentence.
#include "calc/sequence.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <ctime>
#include <numeric>
#include <random>

#include "calc/sequence_methods.h"

using namespace peelbook::calc;

namespace {

SequenceQuestion random_question(std::mt19937& random, std::size_t n, bool with_dues, unsigned barred_in_ten) {
    SequenceQuestion q;
    std::int64_t work = 0;
    for (std::size_t i = 0; i < n; ++i) {
        q.jobs.push_back({"product " + std::to_string(i + 1), static_cast<std::int64_t>(10 + random() % 50), {}});
        work += q.jobs.back().minutes;
    }
    for (SequenceJob& job : q.jobs) {
        if (!with_dues || random() % 2 == 0) continue;
        job.due = job.minutes + static_cast<std::int64_t>(random() % static_cast<unsigned>(work + 1));
    }
    const auto changeover = [&] { return Changeover{static_cast<std::int64_t>(random() % 4) * 15, random() % 10 >= barred_in_ten}; };
    for (std::size_t i = 0; i < n; ++i) {
        q.cleaning.emplace_back();
        for (std::size_t k = 0; k < n; ++k) q.cleaning.back().push_back(changeover());
    }
    if (random() % 2 == 0) {
        for (std::size_t i = 0; i < n; ++i) q.first.push_back(changeover());
    }
    return q;
}

struct BruteForce {
    bool found = false;
    std::int64_t least = 0;
};

BruteForce try_every_order(const SequenceQuestion& q) {
    BruteForce out;
    std::vector<std::size_t> order(q.jobs.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    do {
        std::int64_t now = 0, cleaning = 0;
        bool fits = true;
        for (std::size_t i = 0; fits && i < order.size(); ++i) {
            Changeover before;
            if (i > 0)
                before = q.cleaning[order[i - 1]][order[i]];
            else if (!q.first.empty())
                before = q.first[order[i]];
            cleaning += before.minutes;
            now += before.minutes + q.jobs[order[i]].minutes;
            fits = before.allowed && (!q.jobs[order[i]].due || now <= *q.jobs[order[i]].due);
        }
        if (fits && (!out.found || cleaning < out.least)) out = {true, cleaning};
    } while (std::next_permutation(order.begin(), order.end()));
    return out;
}

}  // namespace

TEST_CASE("the exact order equals brute force on 1,000 random small instances") {
    std::mt19937 random(20261125);
    int found = 0, impossible = 0;
    for (int i = 0; i < 1'000; ++i) {
        const auto q = random_question(random, 1 + random() % 7, i % 3 != 0, static_cast<unsigned>(i % 5));
        const auto expected = try_every_order(q);
        const auto answer = best_sequence(q);
        REQUIRE(answer.ok());
        REQUIRE(answer->found == expected.found);
        REQUIRE(answer->proven);
        if (expected.found) {
            ++found;
            REQUIRE(answer->check.cleaning_minutes == expected.least);
            REQUIRE(answer->check.late.empty());
            REQUIRE(answer->check.forbidden.empty());
            REQUIRE(check_order(q, answer->order)->cleaning_minutes == expected.least);
        } else {
            ++impossible;
            REQUIRE_FALSE(answer->reasons.empty());
        }
    }
    CHECK(found > 300);
    CHECK(impossible > 100);
}

TEST_CASE("the search and the bound enclose the least cleaning") {
    // What large instances rely on, tried where the exact method knows the truth.
    std::mt19937 random(7);
    int searched_best = 0, bound_tight = 0, tried = 0;
    for (int i = 0; i < 40; ++i) {
        const auto q = random_question(random, 6 + random() % 5, i % 2 == 0, static_cast<unsigned>(i % 3));
        const auto exact = exact_order(q);
        if (!exact) continue;
        const std::int64_t least = checked(q, *exact).cleaning_minutes;
        const auto bound = cleaning_bound(q);
        REQUIRE(bound.has_value());
        REQUIRE(*bound <= least);
        const SequenceCheck searched = checked(q, searched_order(q));
        if (works(searched)) REQUIRE(searched.cleaning_minutes >= least);
        ++tried;
        searched_best += works(searched) && searched.cleaning_minutes == least;
        bound_tight += *bound == least;
    }
    CHECK(tried >= 20);
    CHECK(searched_best >= tried * 9 / 10);
    CHECK(bound_tight >= tried / 3);
}

TEST_CASE("60 products with allergen classes take less than 5 seconds and show the gap", "[timed]") {
    // Invented: each product carries some of five allergens; cleaning is needed when the next lacks one the
    // last had.
    std::mt19937 random(60);
    SequenceQuestion q;
    std::vector<unsigned> allergens;
    for (int i = 0; i < 60; ++i) {
        q.jobs.push_back({"product " + std::to_string(i), 20, {}});
        allergens.push_back(random() & random() & 31u);
    }
    for (std::size_t i = 0; i < 60; ++i) {
        q.cleaning.emplace_back();
        for (std::size_t k = 0; k < 60; ++k) {
            const unsigned residue = allergens[i] & ~allergens[k];
            q.cleaning[i].push_back({residue == 0 ? 0 : residue & 1u ? 45 : 20, true});
        }
    }
    const std::clock_t begin = std::clock();  // processor time: other work on the machine does not count
    const auto answer = best_sequence(q);
    [[maybe_unused]] const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    REQUIRE(answer->found);
#ifndef __SANITIZE_ADDRESS__  // the sanitizers' build takes several times as long
    CHECK(took < 5.0);
#endif
    CHECK(answer->bound <= answer->check.cleaning_minutes);
    CHECK(answer->check.cleaning_minutes <= check_order(q,
                                                        [] {
                                                            std::vector<std::size_t> given(60);
                                                            std::iota(given.begin(), given.end(), std::size_t{0});
                                                            return given;
                                                        }())
                                                ->cleaning_minutes);
    INFO("cleaning " << answer->check.cleaning_minutes << " min, bound " << answer->bound << ", " << took << " s");
    CHECK(answer->bound > 0);
}

TEST_CASE("plain before nut saves the cleaning, unless the nut loaf is due first") {
    SequenceQuestion q;
    q.jobs = {{"nut loaf", 60, {}}, {"plain loaf", 60, {}}};
    q.cleaning = {{{0}, {40}}, {{0}, {0}}};
    auto answer = best_sequence(q);
    CHECK(answer->order == std::vector<std::size_t>{1, 0});
    CHECK(answer->check.cleaning_minutes == 0);
    CHECK(answer->check.done == std::vector<std::int64_t>{60, 120});

    q.jobs[0].due = 60;
    answer = best_sequence(q);
    CHECK(answer->order == std::vector<std::size_t>{0, 1});
    CHECK(answer->check.cleaning_minutes == 40);
    CHECK(answer->check.done == std::vector<std::int64_t>{60, 160});
    CHECK(check_order(q, {1, 0})->late == std::vector<std::size_t>{0});
}

TEST_CASE("why no order works") {
    SequenceQuestion q;
    q.jobs = {{"nut loaf", 60, {}}, {"sesame loaf", 30, {}}};
    q.cleaning = {{{0}, {0}}, {{0}, {0}}};
    SECTION("too late even as the first") {
        q.jobs[0].due = 50;
        const auto answer = best_sequence(q);
        CHECK_FALSE(answer->found);
        CHECK(answer->proven);
        CHECK(answer->reasons.front() == "'nut loaf' takes 60 min and is due after 50 min: too late even as the first");
        CHECK_FALSE(answer->with_extra_cleaning.has_value());
    }
    SECTION("too much work before the due times") {
        q.jobs[0].due = q.jobs[1].due = 80;
        CHECK(best_sequence(q)->reasons.front() ==
              "the products due up to 80 min after the start take 90 min even without any cleaning ('sesame "
              "loaf' "
              "would be 10 min late)");
    }
    SECTION("nothing may follow either, and the extra cleaning that would help") {
        q.cleaning[0][1] = {45, false};
        q.cleaning[1][0] = {25, false};
        const auto answer = best_sequence(q);
        CHECK_FALSE(answer->found);
        CHECK(answer->reasons.back() == "nothing may follow 'nut loaf' and 'sesame loaf', and only one product can be the last");
        REQUIRE(answer->with_extra_cleaning.has_value());
        CHECK(*answer->with_extra_cleaning == std::vector<std::size_t>{1, 0});
        CHECK(answer->with_extra_check->cleaning_minutes == 25);
        CHECK(answer->with_extra_check->forbidden == std::vector<std::size_t>{1});
    }
    SECTION("no cleaning time left") {
        q.jobs[0].due = q.jobs[1].due = 100;
        q.cleaning[0][1] = q.cleaning[1][0] = {20, true};
        const auto answer = best_sequence(q);
        CHECK_FALSE(answer->found);
        CHECK(answer->reasons.front() == "no order meets every due time with the changeovers that are allowed");
    }
}

TEST_CASE("a sequence question that cannot be is refused") {
    SequenceQuestion q;
    q.jobs = {{"loaf", 60, {}}};
    CHECK(best_sequence(q).refusal().given == "a cleaning table of 0 rows");
    q.cleaning = {{}};
    CHECK(best_sequence(q).refusal().given == "cleaning after 'loaf' with 0 entries");
    q.cleaning = {{{0}}};
    q.jobs[0].minutes = -1;
    CHECK(best_sequence(q).refusal().given == "'loaf' with -1 minutes");
    q.jobs[0].minutes = 60;
    CHECK(check_order(q, {0, 0}).refusal().given == "an order of 2 products");
    CHECK(best_sequence(SequenceQuestion{})->found);
}
