#pragma once
// What a recall must add up, whom it asks, and what changed since it was opened. Pure values; the caller loads them.
//
// Reconciliation (common practice), to the milligram and the piece, of each lot and in total:
//   made    = on hand + shipped + moved on + rework + waste + samples + unaccounted
//   shipped = returned + destroyed + consumed + found there + unaccounted
// "Moved on" are the same goods under another lot: racks, packs, a vessel's blend. In a total they count once, where they
// stand now. Returned goods stand under shipped, never on hand. What is said of shipped goods: trace/outside.h.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "trace/outside.h"
#include "trace/trace.h"

namespace peelbook::trace {

inline constexpr std::int64_t hundred_percent = 100'000;  // thousandths of a per cent

// One quantity (mg or pieces) of one lot, or of several summed.
struct Account {
    std::int64_t made = 0;
    std::int64_t on_hand = 0, shipped = 0, moved_on = 0, rework = 0, waste = 0, samples = 0;
    std::int64_t returned = 0, destroyed = 0, consumed = 0, found_there = 0;  // of shipped
    // Summed lot by lot, so that too much in one lot never hides what another lacks: what is missing in the house and at
    // customers, and what is there beyond what was made (a count, a slip of the pen). Never negative.
    std::int64_t missing = 0, surplus = 0;
    std::int64_t missing_shipped = 0;  // of `missing`: shipped, and no customer accounts for it

    std::int64_t unaccounted() const;          // of made; negative when more is there than was made
    std::int64_t shipped_unaccounted() const;  // of shipped
    bool closes() const { return missing == 0 && surplus == 0; }
    // (made - missing) / made in thousandths of a per cent, rounded down: 100,000 only when nothing is missing. Never below
    // 0. Absent when nothing was made.
    std::optional<std::int64_t> percent_found() const;
    // The same of (made - missing in the house): what the records can place, whatever became of it at customers.
    std::optional<std::int64_t> percent_placed() const;
};

struct LotAccount {
    LotId lot = 0;
    std::string code;
    LotKind kind = LotKind::received;
    std::string name;
    std::optional<Account> mg, pieces;  // absent: the lot was not weighed, or is not counted in pieces
};

struct Total {
    Account mg, pieces;
    int lots = 0, not_weighed = 0, not_counted = 0;  // of these lots; what is not weighed is not in `mg`
};

struct Reconciliation {
    std::vector<LotAccount> lots;  // in the order given
    Total goods;                   // batches, racks, packs
    Total materials;               // received lots and blends
    Total all;                     // both; supply lots (water) never run out and are in no total
};

// `uses` are those out of the lots, `moves` theirs, `parcels` what of these left the house; what belongs to other lots is passed over.
Reconciliation reconcile(const std::vector<Lot>& lots, const std::vector<Use>& uses, const std::vector<Move>& moves,
                         const std::vector<Parcel>& parcels);

// --- effectiveness checks ----------------------------------------------------------------------------------------------
// 21 CFR 7.42(b)(3) (from memory): level A asks all consignees, B a percentage above 10 and below 100 set for the case, C 10
// per cent, D 2 per cent, E none.
enum class CheckLevel { a, b, c, d, e };

Result<CheckLevel> parse_check_level(std::string_view text);  // "A" to "E", either case

// How many of `consignees` to ask, rounded up. `percent_b` in thousandths of a per cent, for level B only.
Result<std::int64_t> effectiveness_count(std::int64_t consignees, CheckLevel level, std::int64_t percent_b = 0);

// Whom to ask: in order of code, each consignee once. The same consignees and seed give the same sample in whatever order
// they come: Fisher-Yates over the sorted codes, drawn by splitmix64 (trace/splitmix.h).
Result<std::vector<std::string>> effectiveness_sample(std::vector<std::string> consignees, CheckLevel level, std::int64_t percent_b,
                                                      std::uint64_t seed);

// --- the snapshot and what came after ----------------------------------------------------------------------------------

struct Snapshot {
    std::vector<Reached> lots;
    std::vector<Delivery> deliveries;
};

struct DeliveryChange {  // the same partner and code, other amounts, ways or certainty
    Delivery before, now;
};

struct SnapshotChanges {
    std::vector<LotId> added_lots, removed_lots;                 // by id
    std::vector<LotId> surer_lots, less_sure_lots;               // possible to certain, and back
    std::vector<Delivery> added_deliveries, removed_deliveries;  // in order of partner then code
    std::vector<DeliveryChange> changed_deliveries;
};
SnapshotChanges compare(const Snapshot& before, const Snapshot& now);

}  // namespace peelbook::trace
