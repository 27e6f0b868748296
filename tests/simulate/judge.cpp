#include "simulate/judge.h"

#include <algorithm>
#include <map>

namespace peelbook::simulate {
namespace {

using Reads = std::vector<Read>;

constexpr std::int64_t degree = 1'000;
constexpr Duration carried_on = minutes(10);  // a core is still good evidence so long after the end of its step

// Of each product: the critical points that a lot of it must have settled before anybody gets it.
const std::map<std::string, std::vector<std::string>> points_of = {
    {"milk", {"milk-cold"}}, {"custard", {"boil", "cooling"}}, {"loaf", {"core"}}, {"seeded", {"core"}}, {"bun", {"core"}}};
const std::map<std::string, std::set<std::string>> declared_by = {
    {"loaf-1", {"wheat", "rye"}}, {"seeded-1", {"wheat", "sesame"}}, {"bun-1", {"wheat", "milk"}}};

enum class Standing { within, nothing, bad };

// A limit to one side: every value on its good side, or the bad one followed in time by a good one; and one good one to be believed.
Standing one_sided(const Reads& reads, std::int64_t limit, bool least, std::optional<Instant> end) {
    const auto good = [&](const Read& r) { return least ? r.value >= limit : r.value <= limit; };
    bool shown = false;
    for (const auto& read : reads) {
        if (good(read)) {
            shown = shown || read.trusted;
            continue;
        }
        const bool corrected = least && std::any_of(reads.begin(), reads.end(), [&](const Read& later) {
                                   return later.at > read.at && good(later) && (!end || later.at <= *end + carried_on);
                               });
        if (!corrected) return Standing::bad;
    }
    return shown ? Standing::within : Standing::nothing;
}

// 57C to 21C in two hours and to 5C in six, counted from the last moment that it was known to be hot. What is read first below a
// threshold bounds how long it took; nothing is assumed in between.
Standing cooled(const Reads& reads, std::optional<Instant> boiled) {
    std::optional<Instant> hot = boiled;
    for (const auto& read : reads)
        if (read.value > 57 * degree) hot = std::max(hot.value_or(read.at), read.at);
    if (reads.empty() || !hot) return Standing::nothing;
    const auto stage = [&](std::int64_t target, Duration within) {
        for (const auto& read : reads) {
            const bool late = read.at > *hot + within;
            if (read.at >= *hot && read.value <= target && read.trusted) return late ? Standing::bad : Standing::within;
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
    attempt.act = "ship by lot";
    attempt.lot = lot.code;
    return attempt;
}

}  // namespace

void Judge::point(const Lot& lot, const std::string& id, States& states) const {
    Reads reads;
    std::vector<Decision> decisions;
    for (const Lot* part = &lot; part; part = facts_.lot(part->whole)) {  // a rack is read as what it was part of, and as itself
        for (const auto& read : part->reads)
            if (read.point == id) reads.push_back(read);
        for (const auto& one : part->decisions)
            if (one.point == id) decisions.push_back(one);
    }
    std::stable_sort(reads.begin(), reads.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    std::sort(decisions.begin(), decisions.end(), [](const auto& a, const auto& b) { return a.seq < b.seq; });
    const auto end_of = [&](const std::string& step) -> std::optional<Instant> {
        for (const Lot* part = &lot; part; part = facts_.lot(part->whole))
            if (const auto found = part->steps.find(step); found != part->steps.end()) return found->second;
        return {};
    };
    const bool least = id != "milk-cold" && id != "cooling";
    const std::int64_t limit = degree * (id == "core" ? (lot.plan % 2 ? 95 : 94) : id == "boil" ? 84 : 7);
    const Standing standing =
        id == "cooling" ? cooled(reads, end_of("boil")) : one_sided(reads, limit, least, end_of(id == "core" ? "bake" : "boil"));
    if (standing == Standing::within) return;
    if (decisions.empty()) {
        states.insert((standing == Standing::bad ? "finding open: " : "not recorded: ") + id);
    } else if (id != "cooling" && worse_since(reads, decisions.back().seq, least, limit)) {
        states.insert("worse than signed: " + id);
    } else if (decisions.back().disposition != "release") {
        states.insert(decisions.back().disposition + ": " + id);
    }
}

void Judge::unsettled(const Lot& lot, States& states, std::set<std::string>& seen, bool raw) const {
    if (!seen.insert(lot.code).second) return;
    const auto points = points_of.find(lot.item);
    const bool has_points = lot.kind == "batch" || lot.kind == "rack" || lot.kind == "received";
    if (has_points && points != points_of.end())
        for (const auto& id : points->second)
            if (!(raw && id == "core")) point(lot, id, states);
    const Lot* whole = facts_.lot(lot.whole);
    const Lot& made = whole ? *whole : lot;
    for (const auto& code : made.from)
        if (const Lot* from = facts_.lot(code)) unsettled(*from, states, seen, made.raw.contains(code));
}

// The check of the detector before the pack passed it and the one after it must both be good.
void Judge::device(const Lot& pack, States& states) const {
    const Read *before = nullptr, *after = nullptr;
    for (const auto& check : facts_.detector()) {
        if (check.at <= pack.at) before = &check;
        if (check.at > pack.at && !after) after = &check;
    }
    for (const Read* check : {before, after}) {
        if (check && check->value == 0 && pack.released < check->seq) states.insert("device bad");
        if (!check) states.insert("device open");
    }
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
    const std::string label = attempt.act == "pack" ? attempt.label : into ? into->item + "-1" : "";
    const auto declares = declared_by.find(label);
    if (declares == declared_by.end()) return false;
    std::set<std::string> seen;
    const auto inside = allergens(attempt.lot, seen);
    return !std::includes(declares->second.begin(), declares->second.end(), inside.begin(), inside.end());
}

std::vector<const Lot*> Judge::packs_of(const std::string& product) const {
    std::vector<const Lot*> out;
    for (const auto& [code, lot] : facts_.lots())
        if (lot.kind == "pack" && lot.item == product && lot.pieces > 0) out.push_back(&lot);
    return out;
}

std::set<std::string> Judge::states_of(const Attempt& attempt) const {
    States states;
    if (attempt.act == "ship by product") {
        for (const auto* lot : packs_of(attempt.lot)) states.merge(states_of(as_lot(attempt, *lot)));
        return states;
    }
    const Lot* lot = facts_.lot(attempt.lot);
    if (!lot) return {"free"};
    if (!lot->held.empty()) states.insert("held: " + lot->kind + ", " + lot->held);
    if (lot->refused) states.insert("refused");
    if (!lot->finished) states.insert("not finished");
    if (!lot->use_by.empty() && lot->use_by < to_text(zone_.to_local(attempt.at).date)) states.insert("past use-by");
    std::set<std::string> seen;
    const bool used = attempt.act == "use" || attempt.act == "rework";
    if (lot->finished || used) unsettled(*lot, states, seen, !lot->finished);  // else nothing is owed of it yet
    if (lot->kind == "pack") device(*lot, states);
    if ((attempt.act == "pack" || used) && label_short(attempt)) states.insert("label short");
    if (states.empty()) states.insert("free");
    return states;
}

std::set<std::string> Judge::forbidding(const Attempt& attempt) const {
    static const std::set<std::string> never = {"count up", "split", "move", "waste", "sample", "return"};
    if (attempt.already_done || never.contains(attempt.act)) return {};
    if (attempt.act == "ship by product") {
        std::int64_t free = 0;
        for (const auto* lot : packs_of(attempt.lot))
            if (states_of(as_lot(attempt, *lot)).contains("free")) free += lot->pieces;
        return free >= std::max<std::int64_t>(attempt.pieces, 1) ? States{} : States{"held: too little of it is free"};
    }
    auto states = states_of(attempt);
    if (attempt.act == "returned goods") {
        states = {"held: came back"};
    } else if (attempt.act == "release") {
        std::erase_if(states, [](const auto& s) { return !s.starts_with("finding open") && !s.starts_with("worse"); });
    } else {
        std::erase_if(states, [](const auto& s) { return s == "free" || s.starts_with("rework") || s.starts_with("downgrade"); });
        if (attempt.act == "use" || attempt.act == "rework") states.erase("device open"), states.erase("not finished");
    }
    return states;
}

}  // namespace peelbook::simulate
