#pragma once
// Every way a lot, or part of it, can go on, every state it can be in, and the one table of what is then allowed. The same table
// stands as text in tests/site/gate/table.txt; the test compares the two and does each cell through the public face.
#include <array>
#include <string_view>

#include "base/way.h"

namespace peelbook::fold {

enum class Act {
    use,     // into a batch, or onto a line
    rework,  // goods that were baked already, into a batch; or packs, packed anew under another label
    fill,    // into a vessel
    pack,
    customer,
    van,
    own_shop,
    staff_shop,
    donation,
    animal_feed,
    co_packer,
    count,    // so much of it is there
    release,  // from a hold
    store,    // put elsewhere in the house
    split,
    waste,
    sample,
    supplier,  // given back
    onto,      // it stands in a vessel, and something is filled onto it
};
inline constexpr std::size_t acts = 19;

constexpr std::string_view word(Act act) {
    constexpr std::array<std::string_view, acts> words{
        "use",       "rework", "fill",    "pack",  "customer", "van",   "own-shop", "staff-shop", "donation", "animal-feed",
        "co-packer", "count",  "release", "store", "split",    "waste", "sample",   "supplier",   "onto"};
    return words[static_cast<std::size_t>(act)];
}

// A way out is an act; that goods came back is none.
constexpr Act act_of(Way way) {
    switch (way) {
        case Way::customer:
            return Act::customer;
        case Way::own_shop:
            return Act::own_shop;
        case Way::van:
            return Act::van;
        case Way::staff_shop:
            return Act::staff_shop;
        case Way::donation:
            return Act::donation;
        case Way::animal_feed:
            return Act::animal_feed;
        case Way::co_packer:
            return Act::co_packer;
        case Way::waste:
            return Act::waste;
        case Way::sample:
            return Act::sample;
        case Way::supplier:
            return Act::supplier;
        case Way::returned:
            break;
    }
    return Act::store;
}
constexpr bool leaves_the_house(Act act) { return act >= Act::customer && act <= Act::co_packer; }

// The worst to tell comes first. A lot can be in several.
enum class State {
    refused,   // at the door
    recalled,  // covered by an open recall, and not left out of it
    held,
    finding,     // a critical point is not within, and nobody signed what becomes of the product
    to_rework,   // signed
    downgraded,  // signed: to another use than food for people
    to_discard,  // signed
    owed,        // a critical point is open: no record shows it yet
    unfinished,  // a batch that nobody closed
    device_bad,  // it passed a device whose check before or after was not good
    unchecked,   // a check is owed: at the end of its packing run, or of the place that it lies in
    past_use_by,
    past_best_before,
    label_short,  // of what goes in, something is on no label of the product, or not on that of the packs
    misdated,     // its packs bear a later date than was worked out, or none where there must be one
};
inline constexpr std::size_t states = 15;

constexpr std::string_view word(State state) {
    constexpr std::array<std::string_view, states> words{
        "refused",    "recalled",   "held",      "finding",     "to-rework",        "downgraded",  "to-discard", "owed",
        "unfinished", "device-bad", "unchecked", "past-use-by", "past-best-before", "label-short", "misdated"};
    return words[static_cast<std::size_t>(state)];
}

// What keeps a lot for the plan's points alone. In practice (rule 58) this is told and lets pass; what a person decided, what is past
// its use-by, a label that does not cover, and what nobody counted stay as they are.
constexpr bool is_practised(State state) {
    return state == State::finding || state == State::owed || state == State::device_bad || state == State::unchecked;
}

enum class Answer {
    yes,
    along,  // it may, and what comes of it is in the same state
    no,     // unless it has happened: then a critical deviation that holds what came of it
    why,    // with a reason
    never,  // there is no such lot to be taken so
};

constexpr Answer answer(Act act, State state) {
    constexpr Answer y = Answer::yes, a = Answer::along, n = Answer::no, w = Answer::why, x = Answer::never;
    // clang-format off
    constexpr std::array<std::array<Answer, acts>, states> table{{
        //                     use rework fill pack customer van own-shop staff-shop donation feed co-packer count-up release store split waste sample supplier onto
        /* refused */          {n, x,     n,   x,   n,       n,  n,       n,         n,       n,   n,        a,       n,      a,    x,    y,    y,     y,     x},
        /* recalled */         {n, n,     n,   n,   n,       n,  n,       n,         n,       n,   n,        a,       n,      a,    a,    y,    y,     y,     n},
        /* held */             {n, n,     n,   n,   n,       n,  n,       n,         n,       n,   n,        a,       y,      a,    a,    y,    y,     y,     n},
        /* finding */          {n, n,     n,   n,   n,       n,  n,       n,         n,       n,   n,        a,       n,      a,    a,    y,    y,     y,     n},
        /* to-rework */        {y, y,     n,   n,   n,       n,  n,       n,         n,       n,   n,        a,       y,      a,    a,    y,    y,     y,     n},
        /* downgraded */       {n, n,     n,   n,   n,       n,  n,       n,         n,       y,   n,        a,       y,      a,    a,    y,    y,     y,     n},
        /* to-discard */       {n, n,     n,   n,   n,       n,  n,       n,         n,       n,   n,        a,       n,      a,    a,    y,    y,     y,     n},
        /* owed */             {n, n,     n,   n,   n,       n,  n,       n,         n,       n,   n,        a,       a,      a,    a,    y,    y,     y,     n},
        /* unfinished */       {y, x,     y,   n,   n,       n,  n,       n,         n,       n,   n,        n,       y,      a,    n,    y,    y,     y,     x},
        /* device-bad */       {x, n,     x,   n,   n,       n,  n,       n,         n,       n,   n,        a,       n,      a,    x,    y,    y,     y,     x},
        /* unchecked */        {x, y,     x,   a,   n,       n,  n,       n,         n,       n,   n,        a,       a,      a,    x,    y,    y,     y,     x},
        /* past-use-by */      {n, n,     n,   n,   n,       n,  n,       n,         n,       n,   n,        a,       a,      a,    a,    y,    y,     y,     n},
        /* past-best-before */ {w, w,     w,   w,   w,       w,  w,       w,         w,       w,   w,        a,       a,      a,    a,    y,    y,     y,     x},
        /* label-short */      {n, n,     x,   n,   x,       x,  x,       x,         x,       x,   x,        x,       x,      x,    x,    x,    x,     x,     x},
        /* misdated */         {x, x,     x,   n,   x,       x,  x,       x,         x,       x,   x,        x,       x,      x,    x,    x,    x,     x,     x},
    }};
    // clang-format on
    return table[static_cast<std::size_t>(state)][static_cast<std::size_t>(act)];
}

}  // namespace peelbook::fold
