#include "site/record/holds.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/findings.h"
#include "fold/standing.h"

namespace peelbook::site {
namespace {

std::string amount_text(const book::Move& move) {
    if (move.pieces) return std::to_string(*move.pieces) + " pieces";
    return move.mass_mg ? mass_text(*move.mass_mg) : "an unknown part";
}

bool is_device_check(const plan::Plan& plan, const book::Finding& f) {
    const auto* point = plan.point(f.point);
    return point && point->interval && point->interval->device_check && f.ord == 0;
}

// The last moment at which part of the batch may still have passed: a packing or shipping, the finish, or now.
book::Int last_seen(fold::Ledger& ledger, const book::Lot& lot, book::Int otherwise) {
    book::Int last = lot.finished.value_or(otherwise);
    for (const auto& use : ledger.rows().uses_from(lot.id)) last = std::max(last, use.happened);
    return last;
}

// Since the last good check of the device and up to the next good one: every batch of its lines that was between start and last
// packing in that time.
std::vector<book::LotId> passed_device(fold::Ledger& ledger, const plan::Plan& plan, const book::Finding& f) {
    auto& rows = ledger.rows();
    const auto* point = plan.point(f.point);
    const auto good = [&](const book::Reading& check) {
        const auto finding = rows.finding(check.seq, f.point, 0);
        return finding && finding->verdict == Verdict::within;
    };
    auto before = rows.reading_before(f.place, f.point, f.happened - 1, f.anchor);
    while (before && !good(*before)) before = rows.reading_before(f.place, f.point, before->happened - 1, before->seq);
    auto after = rows.reading_after(f.place, f.point, f.happened, f.anchor);
    while (after && !good(*after)) after = rows.reading_after(f.place, f.point, after->happened, after->seq);
    const book::Int from = before ? before->happened : 0;
    const book::Int until = after ? after->happened : std::numeric_limits<book::Int>::max();
    constexpr book::Int longest_batch = 3 * 86'400'000LL;  // a batch started earlier is past the device: common practice
    std::vector<book::LotId> out;
    for (const auto& lot : rows.lots_started(before ? from - longest_batch : 0, until)) {
        const auto started = ledger.effective(lot.id);
        const auto* says = std::get_if<record::Started>(&started.says);
        if (!says || std::find(point->lines.begin(), point->lines.end(), says->line) == point->lines.end()) continue;
        if (last_seen(ledger, lot, f.happened) >= from) out.push_back(lot.id);
    }
    return out;
}

// A signature covers what its signer saw: what got worse since is held again (rule 36).
bool holds_already(book::Derived& rows, const book::Finding& f) {
    if (!f.lot) return rows.has_hold_for(f.anchor, f.point, f.ord);
    return rows.is_held_for(*f.lot, f.anchor, f.point, f.ord) || fold::is_settled(rows, f);
}

}  // namespace

HoldReach hold_reach(fold::Ledger& ledger, const std::vector<book::LotId>& lots) {
    HoldReach out;
    std::set<book::LotId> reached(lots.begin(), lots.end());
    for (const auto& lot : ledger.rows().forward(lots).lots) reached.insert(lot.id);
    const std::set<book::LotId> named(lots.begin(), lots.end());
    for (book::LotId id : reached) {
        const auto lot = ledger.rows().lot(id);
        if (!lot) continue;
        if (named.contains(id) || fold::is_here(ledger.rows(), *lot)) out.on_hand.push_back(lot->code);
        for (const auto& move : ledger.rows().moves(id)) {
            if (!fold::left_the_house(move)) continue;
            const std::string who = move.partner.empty() ? in_words(move.way) : move.partner;
            out.customers.push_back(who + ": " + amount_text(move) + " of " + lot->code +
                                    (lot->printed_code.empty() ? "" : ", printed code " + lot->printed_code));
        }
    }
    return out;
}

std::vector<HoldToWrite> holds_for(fold::Ledger& ledger, const std::vector<book::Finding>& changed) {
    std::vector<HoldToWrite> out;
    std::set<record::FindingKey> seen;
    for (const auto& f : changed) {
        const record::FindingKey key{f.anchor, f.point, f.ord};
        if (f.grade != Grade::critical || f.verdict != Verdict::deviation || f.cleared_by) continue;
        if (!seen.insert(key).second || holds_already(ledger.rows(), f)) continue;
        const auto governing = ledger.plan_version(f.plan_seq);
        std::vector<book::LotId> lots;
        if (f.lot) lots = {*f.lot};
        if (!f.lot && is_device_check(*governing.plan, f)) lots = passed_device(ledger, *governing.plan, f);
        if (lots.empty()) continue;
        auto reach = hold_reach(ledger, lots);
        if (reach.on_hand.empty()) continue;
        HoldToWrite hold;
        hold.says.lots = std::move(reach.on_hand);
        hold.says.why =
            "critical deviation: " + f.point + (f.unit.empty() ? "" : " " + f.unit) + ", " + f.measured + "; limit: " + f.limit_text;
        if (hold.says.why.size() > longest_note) hold.says.why.resize(longest_note);
        hold.says.cause = key;
        hold.customers = std::move(reach.customers);
        out.push_back(std::move(hold));
    }
    return out;
}

std::vector<HoldToWrite> holds_carried(fold::Ledger& ledger, const std::set<book::LotId>& restocked) {
    auto& rows = ledger.rows();
    std::vector<HoldToWrite> out;
    for (const auto id : restocked) {
        const auto lot = rows.lot(id);
        if (!lot || rows.is_held(id)) continue;
        for (const auto& behind : rows.back({id}).lots) {
            if (!rows.is_held(behind.id)) continue;
            HoldToWrite hold;
            hold.says.lots = {lot->code};
            hold.says.why = "there is some of it again, and " + behind.code + ", which is in it, is on hold";
            out.push_back(std::move(hold));
            break;
        }
    }
    return out;
}

}  // namespace peelbook::site
