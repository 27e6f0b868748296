#pragma once
// The order of the day on one line: the least cleaning that lets every product follow the one before it and
// be done when due.
//
// Each product runs once, all its batches together. Between two products the line is cleaned for the minutes
// that the caller's matrix gives; a changeover that no planned cleaning can clear is not allowed, and its
// minutes are what an extra cleaning would take. Residue outlives a product that merely declares it, so the
// caller lets each product hand on all that may lie on the line when it ends: at most what its label
// declares.
//
// What is guaranteed: an order that was found breaks no due time and no ban, and no order that works needs
// less cleaning than `bound`. Up to 15 products it is the best there is, or none works: dynamic programming
// over (set done, last product), since for one set the time spent is the same but for cleaning, so that least
// cleaning is also earliest (Held and Karp 1962, from memory). Above that it is the best that moving
// stretches of products came to (calc/sequence_search.cpp), and the bound (calc/sequence_bound.cpp) says how
// far from the best it can be. Fixed seeds: the same question gets the same answer. Units: whole minutes; due
// times count from the start of the line. Valid: up to 100 products.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"

namespace peelbook::calc {

struct SequenceJob {
    std::string name;
    std::int64_t minutes = 0;         // of the whole run, cleaning not counted
    std::optional<std::int64_t> due;  // it must be finished by then; absent: any time
};

struct Changeover {
    std::int64_t minutes = 0;
    bool allowed = true;
};

struct SequenceQuestion {
    std::vector<SequenceJob> jobs;
    std::vector<std::vector<Changeover>> cleaning;  // [from][to]; the diagonal is not looked at
    std::vector<Changeover> first;                  // before the first product, from the line's present state; may be empty
};

// What an order costs and breaks. Both lists empty: it works.
struct SequenceCheck {
    std::int64_t cleaning_minutes = 0;   // those of changeovers that are not allowed count too
    std::vector<std::int64_t> done;      // by position: when that product is finished
    std::vector<std::size_t> late;       // jobs finished after they are due, in order
    std::vector<std::size_t> forbidden;  // positions whose changeover from the one before is not allowed
};

struct SequenceAnswer {
    bool found = false;
    std::vector<std::size_t> order;
    SequenceCheck check;               // of `order`
    std::int64_t bound = 0;            // no order that works needs less cleaning
    bool proven = false;               // found: the least possible. Not found: no order works at all
    std::vector<std::string> reasons;  // why none works, when none was found
    // When none was found: an order that needs extra cleaning, its check.forbidden saying where, but meets
    // every due time.
    std::optional<std::vector<std::size_t>> with_extra_cleaning;
    std::optional<SequenceCheck> with_extra_check;
};

inline constexpr std::size_t most_jobs_exact = 15;
inline constexpr std::size_t most_jobs = 100;

// Refuses: a matrix of another size, minutes below 0, more than 100 products.
Check check(const SequenceQuestion& question);
// Refuses as above, and an order that is not each product once.
Result<SequenceCheck> check_order(const SequenceQuestion& question, const std::vector<std::size_t>& order);
Result<SequenceAnswer> best_sequence(const SequenceQuestion& question);

}  // namespace peelbook::calc
