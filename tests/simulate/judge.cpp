#include "simulate/judge.h"

#include <algorithm>
#include <map>

#include "simulate/owed.h"

namespace peelbook::simulate {
namespace {

using Reads = std::vector<Read>;

constexpr std::int64_t degree = 1'000;
constexpr std::int64_t scatter = 3 * degree;  // of two readings of one thing by hand
// So long after the end of its step it is still good evidence: as the plan says, else as long as anybody may take to type.
Duration carried_on(const std::string& id) { return minutes(id == "core" ? 10 : 15); }

// Of each product: the critical points that a lot of it must have settled before anybody gets it.
const std::map<std::string, std::vector<std::string>> points_of = {
    {"milk", {"milk-cold"}}, {"custard", {"boil", "cooling"}}, {"loaf", {"core"}}, {"seeded", {"core"}}, {"bun", {"core"}}};
const std::map<std::string, std::set<std::string>> declared_by = {
    {"loaf-1", {"wheat", "rye"}}, {"seeded-1", {"wheat", "sesame"}}, {"bun-1", {"wheat", "milk"}}};

enum class Standing { within, nothing, bad };

// A limit to one side: every value on its good side, or the bad one followed in time by a good one; and one good one to be believed.
Standing one_sided(const Facts& facts, const Reads& reads, std::int64_t limit, bool least) {
    const auto good = [&](const Read& r) { return least ? r.value >= limit : r.value <= limit; };
    bool shown = false;
    for (const auto& read : reads) {
        if (good(read)) {
            shown = shown || facts.is_trusted(read);
            continue;
        }
        const bool corrected =
            least && std::any_of(reads.begin(), reads.end(), [&](const Read& later) { return later.at > read.at && good(later); });
        if (!corrected) return Standing::bad;
    }
    return shown ? Standing::within : Standing::nothing;
}

bool warmer_after(const Reads& reads, const Read& read, std::int64_t target) {
    return std::any_of(reads.begin(), reads.end(),
                       [&](const Read& later) { return later.at > read.at && later.value > std::max(target, read.value + scatter); });
}

// 57C to 21C in two hours and to 5C in six, counted from the last moment that it was known to be hot. What is read first below a
// threshold bounds how long it took; nothing is assumed in between. What was warmer again later had not crossed yet.
Standing cooled(const Facts& facts, const Reads& reads, std::optional<Instant> boiled) {
    std::optional<Instant> hot = boiled;
    for (const auto& read : reads)
        if (read.value > 57 * degree) hot = std::max(hot.value_or(read.at), read.at);
    if (reads.empty() || !hot) return Standing::nothing;
    const auto stage = [&](std::int64_t target, Duration within) {
        for (const auto& read : reads) {
            const bool late = read.at > *hot + within;
            const bool crossed = read.at >= *hot && read.value <= target && facts.is_trusted(read) && !warmer_after(reads, read, target);
            if (crossed) return late ? Standing::bad : Standing::within;
            if (late && read.value > target) return Standing::bad;
        }
        return Standing::nothing;
    };
    return std::max(stage(21 * degree, hours(2)), stage(5 * degree, hours(6)));
}

// What was read after a decision and is worse than all that its signer could see.
bool worse_since(const Reads& reads, Seq decided, bool least, std::int64_t limit) {
    std::optional<std::int64_t> seen, since;
    const auto worse = [&](std::optional<std::int64_t>& of, std::int64_t value) {
        if (!of || (least ? value < *of : value > *of)) of = value;
    };
    for (const auto& read : reads) worse(read.seq < decided ? seen : since, read.value);
    if (!since || (least ? *since >= limit : *since <= limit)) return false;
    return !seen || (least ? *since < *seen : *since > *seen);
}

Attempt as_lot(Attempt attempt, const Lot& lot) {
    attempt.act = "customer";
    attempt.lot = lot.code;
    return attempt;
}

std::int64_t core_limit(int plan) { return degree * (plan % 2 ? 95 : 94); }

std::string word_of(const std::string& state) { return state.substr(0, state.find(':')); }

bool leaves(const std::string& act) {
    static const std::set<std::string> ways = {"customer", "van", "own-shop", "staff-shop", "donation", "animal-feed", "co-packer"};
    return ways.contains(act);
}

}  // namespace

// What is hot shows something from the start on, until its step has ended and a while longer. Of two ends of one stretch of work the
// first: with the other it is to be judged as well, and that is no harder.
Judge::Window Judge::window_of(const Lot& lot, const std::string& id) const {
    const std::string step = id == "core" ? "bake" : "boil";
    Window window;
    std::vector<StepTold> told;
    const Lot* whole = &lot;
    for (const Lot* part = &lot; part; part = facts_.lot(part->whole)) {
        whole = part;
        if (const auto found = part->steps.find(step); found != part->steps.end())
            told.insert(told.end(), found->second.begin(), found->second.end());
    }
    std::stable_sort(told.begin(), told.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    for (const auto& one : told) {
        if (one.again)
            window.ended.reset();
        else if (!window.ended)
            window.ended = one.at;
    }
    if (told.empty() && step == "boil") window.ended = whole->finished_at;
    window.from = whole->at;
    return window;
}

void Judge::point(const Lot& lot, const std::string& id, States& states) const {
    Reads reads;
    std::vector<Decision> decisions;
    for (const Lot* part = &lot; part; part = facts_.lot(part->whole)) {  // a rack is read as what it was part of, and as itself
        for (const auto& read : part->reads)
            if (read.point == id) reads.push_back(read);
        if (!decisions.empty()) continue;  // what is signed for the rest of a batch is not signed for a rack that has its own
        for (const auto& one : part->decisions)
            if (one.point == id) decisions.push_back(one);
    }
    std::stable_sort(reads.begin(), reads.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    const auto window = window_of(lot, id);
    const bool of_step = id == "core" || id == "boil";
    std::erase_if(reads, [&](const Read& read) {
        return of_step && (read.at < window.from || (window.ended && read.at > *window.ended + carried_on(id)));
    });
    std::sort(decisions.begin(), decisions.end(), [](const auto& a, const auto& b) { return a.seq < b.seq; });
    const bool least = id != "milk-cold" && id != "cooling";
    const std::int64_t limit = id == "core" ? core_limit(lot.plan) : degree * (id == "boil" ? 84 : 7);
    const Standing standing = id == "declaration" ? Standing::nothing
                              : id == "cooling"   ? cooled(facts_, reads, window.ended)
                                                  : one_sided(facts_, reads, limit, least);
    if (standing == Standing::within) return;
    const bool seen_worse = id != "cooling" && !decisions.empty() && worse_since(reads, decisions.back().seq, least, limit);
    if (decisions.empty() || seen_worse) {
        const bool over = lot.kind == "received" || (standing == Standing::bad && lot.finished);
        states.insert((over ? "finding: " : "owed: ") + id + (seen_worse ? ", worse than signed" : ""));
    } else if (decisions.back().disposition != "release") {
        const bool rework = decisions.back().disposition == "rework";
        states.insert((rework ? "to-rework: " : decisions.back().disposition == "discard" ? "to-discard: " : "downgraded: ") + id);
    }
}

void Judge::unsettled(const Lot& lot, States& states, std::set<std::string>& seen, const Lot* baked_in) const {
    if (!seen.insert(lot.code).second) return;
    const auto points = points_of.find(lot.item);
    const bool has_points = lot.kind == "batch" || lot.kind == "rack" || lot.kind == "received";
    const bool as_strict =
        baked_in && points_of.contains(baked_in->item) && baked_in->item != "custard" && core_limit(baked_in->plan) >= core_limit(lot.plan);
    if (has_points && points != points_of.end())
        for (const auto& id : points->second)
            if (!(id == "core" && as_strict)) point(lot, id, states);
    const bool silent = lot.kind == "received" && lot.allergens.empty() && !lot.refused;
    if (silent) point(lot, "declaration", states);
    const Lot* whole = facts_.lot(lot.whole);
    const Lot& made = whole ? *whole : lot;
    for (const auto& code : made.from) {
        const Lot* from = facts_.lot(code);
        if (!from) continue;
        States inherited;
        unsettled(*from, inherited, seen, made.raw.contains(code) ? &made : nullptr);
        if (made.kind == "batch") std::erase_if(inherited, [](const auto& s) { return word_of(s) == "to-rework"; });  // so it was
        states.merge(inherited);
    }
}

// Of a pack: the check of the detector before it passed and the one after it must both be good, and no further apart than the plan asks.
// Of what is packed, or goes unpacked: the last one.
void Judge::device(const Lot& lot, const Attempt& attempt, States& states) const {
    static const std::set<std::string> of_the_line = {"loaf", "seeded", "bun"};
    const bool packed = lot.kind == "pack";
    if (!of_the_line.contains(lot.item) || lot.kind == "co-packed") return;
    if (!packed && attempt.act != "pack" && !leaves(attempt.act)) return;
    const Instant passed = packed ? lot.at : attempt.at;
    const Read *before = nullptr, *after = nullptr;
    for (const auto& check : facts_.checks("detector")) {
        if (check.at <= passed) before = &check;
        if (check.at > passed && !after) after = &check;
    }
    if (!packed) after = nullptr;
    for (const Read* check : {before, after})
        if (check && check->value == 0 && !facts_.is_decided(check->seq, 0)) states.insert("device-bad");
    if (!packed) return;
    const SlowCount count(facts_);
    if (before && after && count.is_gap("detector", before->at, after->at) && !facts_.is_decided(before->seq, 1))
        states.insert("device-bad: gap");
    if (after) return;
    const auto next = count.next_of("detector", attempt.now);
    states.insert(next && next->due < attempt.now ? "device-bad: overdue" : "unchecked");
}

void Judge::place(const Lot& lot, const Attempt& attempt, States& states) const {
    if (lot.place != "chill" || !leaves(attempt.act)) return;
    const auto next = SlowCount(facts_).next_of("chill", attempt.now);
    if (next && next->due < attempt.now) states.insert("unchecked: chill");
}

// What was made of a held lot, and of which nothing was left then, is held while that is, once something is there again.
bool Judge::is_held(const Lot& lot) const {
    if (lot.held.empty()) return false;
    if (!lot.held.ends_with("none left then")) return true;
    return std::any_of(lot.from.begin(), lot.from.end(), [&](const auto& code) {
        const Lot* from = facts_.lot(code);
        return from && is_held(*from);
    });
}

std::set<std::string> Judge::allergens(const std::string& code, std::set<std::string>& seen) const {
    const Lot* lot = facts_.lot(code);
    if (!lot || !seen.insert(code).second) return {};
    auto all = lot->allergens;
    for (const auto& from : lot->from) all.merge(allergens(from, seen));
    return all;
}

// Of a packing: by its label. Of a use: no label of the batch's product covers what would go in.
bool Judge::label_short(const Attempt& attempt) const {
    const Lot* into = facts_.lot(attempt.into);
    const std::string label = into && attempt.label.empty() ? into->item + "-1" : attempt.label;
    const auto declares = declared_by.find(label);
    if (declares == declared_by.end()) return false;
    std::set<std::string> seen;
    const auto inside = allergens(attempt.lot, seen);
    return !std::includes(declares->second.begin(), declares->second.end(), inside.begin(), inside.end());
}

// It was baked at the latest when it was packed, and lasts a day: a best-before date is that of the next day at most. A use-by date is the
// last day that is over by then, but for the day of the bake.
bool Judge::misdated(const Lot& lot, const Attempt& attempt) const {
    if (lot.item != "loaf" && lot.item != "seeded" && lot.item != "bun") return false;
    const auto last = to_days(zone_.to_local(attempt.at + days(1)).date) - (lot.item == "bun" ? 1 : 0);
    return attempt.date.empty() || attempt.date > to_text(from_days(last));
}

std::vector<const Lot*> Judge::packs_of(const std::string& product) const {
    std::vector<const Lot*> out;
    for (const auto& [code, lot] : facts_.lots())
        if ((lot.kind == "pack" || lot.kind == "co-packed") && lot.item == product && lot.pieces > 0) out.push_back(&lot);
    return out;
}

std::set<std::string> Judge::states_of(const Attempt& attempt) const {
    static const std::map<std::string, bool> by_use = {{"milk", true},    {"bun", true},   {"wheat-flour", false},
                                                       {"sesame", false}, {"loaf", false}, {"seeded", false}};
    States states;
    if (attempt.act == "by-product") {
        for (const auto* lot : packs_of(attempt.lot)) states.merge(states_of(as_lot(attempt, *lot)));
        return states;
    }
    const Lot* lot = facts_.lot(attempt.lot);
    if (!lot || lot->kind == "supply") return {"free"};
    if (is_held(*lot)) states.insert("held: " + lot->kind + ", " + lot->held);
    if (lot->refused) states.insert("refused");
    if (facts_.is_recalled(lot->code)) states.insert("recalled");
    if (!lot->finished) states.insert("unfinished");
    const auto by = by_use.find(lot->item);
    if (by != by_use.end() && !lot->date.empty() && lot->date < to_text(zone_.to_local(attempt.at).date))
        states.insert(by->second ? "past-use-by" : "past-best-before");
    std::set<std::string> seen;
    const bool used = attempt.act == "use" || attempt.act == "rework";
    unsettled(*lot, states, seen, lot->finished ? nullptr : facts_.lot(attempt.into));
    device(*lot, attempt, states);
    place(*lot, attempt, states);
    if (attempt.act == "pack" && misdated(*lot, attempt)) states.insert("misdated");
    if ((attempt.act == "pack" || used) && label_short(attempt)) states.insert("label-short");
    if (states.empty()) states.insert("free");
    return states;
}

bool Judge::is_in(const Lot& lot, const std::string& act, const std::string& state, Instant now) const {
    if (state == "label-short" || state == "misdated") return true;  // it depends on where it goes, and on what is printed
    Attempt attempt;
    attempt.act = act;
    attempt.lot = lot.code;
    attempt.at = attempt.now = now;
    const auto all = states_of(attempt);
    return std::any_of(all.begin(), all.end(), [&](const auto& one) { return word_of(one) == state; });
}

std::set<std::string> Judge::forbidding(const Attempt& attempt) const {
    if (attempt.already_done) return {};
    if (attempt.act == "returned") return {"held: came back"};
    if (attempt.act == "by-product") {
        std::int64_t free = 0;
        for (const auto* lot : packs_of(attempt.lot))
            if (forbidding(as_lot(attempt, *lot)).empty()) free += lot->pieces;
        return free >= std::max<std::int64_t>(attempt.pieces, 1) ? States{} : States{"held: too little of it is free"};
    }
    auto states = states_of(attempt);
    std::erase_if(states, [&](const auto& state) {
        const auto& answer = word_of(state) == "free" ? "yes" : gate_table().answer(attempt.act, word_of(state));
        return answer != "no" && (answer != "why" || attempt.why);
    });
    return states;
}

}  // namespace peelbook::simulate
