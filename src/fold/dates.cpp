#include "fold/dates.h"

#include <algorithm>

#include "base/words.h"
#include "fold/fold.h"
#include "fold/ratchet/waiting.h"

namespace peelbook::fold {
namespace {

using book::Keeping;
using book::KeptBy;

Keeping end_of(const book::Lot& lot, DateKind kind, book::Int until_ms, KeptBy reason) { return {lot.id, kind, until_ms, reason, lot.id}; }

// Of each clock the one that runs: the first, or the first since another tub or box was begun.
void add_clocks(Ledger& ledger, const book::Lot& lot, Instant at, std::vector<Keeping>& ends) {
    for (const auto kind : {ClockKind::opened, ClockKind::thawed}) {
        std::optional<book::Clock> running;
        for (const auto& clock : ledger.rows().clocks(lot.id)) {
            if (clock.kind == kind && clock.happened <= at.ms && (!running || clock.another != 0)) running = clock;
        }
        if (running && running->until_ms)
            ends.push_back(end_of(lot, DateKind::use_by, *running->until_ms, kind == ClockKind::opened ? KeptBy::opened : KeptBy::thawed));
    }
}

// What it says and how old it gets by itself.
void add_own(Ledger& ledger, const book::Lot& lot, std::vector<Keeping>& ends) {
    const Result<Date> printed = lot.date.empty() ? Result<Date>(Refusal{}) : parse_date(lot.date);
    if (printed && lot.date_kind) {
        const Instant next_day = ledger.zone().day_start(add_days(*printed, 1), 0, 0);
        ends.push_back(end_of(lot, *lot.date_kind, next_day.ms, KeptBy::date));
    }
    const auto governing = ledger.plan_version(lot.plan_seq);
    const auto* product = lot.aged_from ? governing.plan->product(lot.item) : nullptr;
    if (!product) return;
    const Instant made{*lot.aged_from};
    if (product->shelf_life) ends.push_back(end_of(lot, product->date_kind, (made + *product->shelf_life).ms, KeptBy::shelf_life));
    if (product->use_within) ends.push_back(end_of(lot, DateKind::use_by, (made + *product->use_within).ms, KeptBy::age));
}

// Of a use whose corrected time waits for a countersign the later of both: what went in after the kill was not killed.
book::Int went_in(Ledger& ledger, const book::Use& use) {
    const auto waits = before_waiting(ledger, ledger.effective(use.seq));
    return waits ? std::max(use.happened, waits->entry.happened.ms) : use.happened;
}

// A co-packer's work is theirs: where the product has a step that kills, it was done there.
bool was_killed(Ledger& ledger, const book::Lot& lot, const book::Lot& source, const book::Use& use) {
    if (lot.killed != 0) return went_in(ledger, use) <= *lot.aged_from;
    if (lot.kind != LotKind::pack || lot.partner.empty() || source.item == lot.item) return false;
    const auto governing = ledger.plan_version(lot.plan_seq);
    const auto* product = governing.plan->product(lot.item);
    return product && !product->kill_step.empty();
}

// The earliest end of each kind.
std::vector<Keeping> keeping_of(Ledger& ledger, const book::Lot& lot) {
    std::vector<Keeping> ends;
    add_own(ledger, lot, ends);
    for (const auto& use : ledger.rows().uses_into(lot.id)) {
        const auto source = ledger.rows().lot(use.from_lot);
        if (!source || was_killed(ledger, lot, *source, use)) continue;
        const bool same_goods = is_part_of_a_lot(lot.kind) && source->item == lot.item;
        for (auto end : ends_of_use(ledger, *source, Instant{use.happened})) {
            if (end.kind == DateKind::best_before && !same_goods) continue;
            end.lot = lot.id;
            ends.push_back(end);
        }
    }
    const auto order = [](const Keeping& a, const Keeping& b) {
        return std::tuple(word(a.kind), a.until_ms, a.source, a.reason) < std::tuple(word(b.kind), b.until_ms, b.source, b.reason);
    };
    std::sort(ends.begin(), ends.end(), order);
    const auto same_kind = [](const Keeping& a, const Keeping& b) { return a.kind == b.kind; };
    ends.erase(std::unique(ends.begin(), ends.end(), same_kind), ends.end());
    return ends;
}

Date last_day(Ledger& ledger, const Keeping& end) { return ledger.zone().to_local(Instant{end.until_ms - 1}).date; }

Date last_whole_day(Ledger& ledger, const Keeping& end) {
    const Zone& zone = ledger.zone();
    const Date whole = add_days(zone.to_local(Instant{end.until_ms}).date, -1);
    const auto source = ledger.rows().lot(end.source);
    if (end.reason != KeptBy::shelf_life || !source || !source->aged_from) return whole;
    return std::max(whole, zone.to_local(Instant{*source->aged_from}).date);
}

}  // namespace

std::vector<Keeping> ends_of_use(Ledger& ledger, const book::Lot& lot, Instant at) {
    auto ends = ledger.rows().keeping(lot.id);
    add_clocks(ledger, lot, at, ends);
    std::stable_sort(ends.begin(), ends.end(), [](const auto& a, const auto& b) { return a.until_ms < b.until_ms; });
    return ends;
}

std::string words(Ledger& ledger, const Keeping& end, book::LotId of) {
    const auto source = end.source == of ? std::nullopt : ledger.rows().lot(end.source);
    const auto whose = [&](const std::string& what) { return source ? "the " + what + " of " + source->code : "its " + what; };
    const std::string over = ", over " + to_text(ledger.zone(), Instant{end.until_ms});
    switch (end.reason) {
        case KeptBy::date:
            return whose(in_words(end.kind) + " date " + to_text(last_day(ledger, end)));
        case KeptBy::shelf_life:
            return whose("shelf life") + over;
        case KeptBy::age:
            return whose("time for use") + over;
        case KeptBy::opened:
            return whose("time once opened") + over;
        case KeptBy::thawed:
            return whose("time once thawed") + over;
    }
    return {};
}

std::optional<LatestDate> latest_date(Ledger& ledger, const book::Lot& lot, Instant at) {
    std::optional<LatestDate> latest;
    for (const auto& end : ends_of_use(ledger, lot, at)) {
        const Date date = end.kind == DateKind::use_by ? last_whole_day(ledger, end) : last_day(ledger, end);
        if (!latest || date < latest->date) latest = LatestDate{date, end.kind, words(ledger, end, lot.id)};
    }
    const auto governing = ledger.plan_version(lot.plan_seq);
    const auto* product = lot.aged_from && lot.killed == 0 ? governing.plan->product(lot.item) : nullptr;
    if (latest && product && !product->kill_step.empty()) latest->why += "; no end of " + product->kill_step + " is recorded";
    return latest;
}

bool wants_date(const plan::Product& product) { return product.shelf_life && product.sold != "loose" && product.sold != "direct"; }

std::string told_of_use(Ledger& ledger, const book::Lot& lot, Instant at) {
    const auto ends = ends_of_use(ledger, lot, at);
    if (ends.empty() || (ends.front().reason == KeptBy::date && ends.front().source == lot.id)) return {};
    const auto governing = ledger.plan_version(lot.plan_seq);
    const auto* product = lot.kind == LotKind::pack ? nullptr : governing.plan->product(lot.item);
    if (product && wants_date(*product)) {
        const auto latest = latest_date(ledger, lot, at);
        return "print " + in_words(product->date_kind) + " " + to_text(latest->date) + " at the latest: " + latest->why;
    }
    return "use it before " + to_text(ledger.zone(), Instant{ends.front().until_ms}) + ": " + words(ledger, ends.front(), lot.id);
}

Subjects fold_dated(Derivation& d, book::LotId id) {
    auto& rows = d.ledger.rows();
    const auto lot = rows.lot(id);
    if (!lot || lot->kind == LotKind::supply || !rows.set_keeping(id, keeping_of(d.ledger, *lot))) return {};
    Subjects dirtied;
    for (const auto& use : rows.uses_from(id)) dirtied.push_back(Subject::of_lot(Rank::dated, use.into_lot));
    if (lot->kind == LotKind::pack) dirtied.push_back(Subject::of_lot(Rank::findings, id));
    return dirtied;
}

}  // namespace peelbook::fold
