#include "trace/recall.h"

#include <algorithm>
#include <stdexcept>
#include <unordered_map>

#include "base/units.h"

namespace peelbook::trace {
namespace {

enum class Quantity { mg, pieces };

// The same goods under another lot.
bool carries_goods_on(LotKind kind) { return is_part_of_a_lot(kind) || kind == LotKind::blend; }

template <class T> std::int64_t amount(const T& entry, Quantity quantity) {
    return (quantity == Quantity::mg ? entry.mass_mg : entry.pieces).value_or(0);
}

std::optional<Account>& account_of(LotAccount& lot, Quantity quantity) { return quantity == Quantity::mg ? lot.mg : lot.pieces; }

void settle(Account& account) {
    account.missing_shipped = std::max<std::int64_t>(0, account.shipped_unaccounted());
    for (const std::int64_t open : {account.unaccounted(), account.shipped_unaccounted()}) {
        account.missing += std::max<std::int64_t>(0, open);
        account.surplus += std::max<std::int64_t>(0, -open);
    }
}

void add_to(Account& sum, const Account& one) {
    for (const auto member : {&Account::made, &Account::on_hand, &Account::shipped, &Account::moved_on, &Account::rework, &Account::waste,
                              &Account::samples, &Account::returned, &Account::destroyed, &Account::consumed, &Account::found_there,
                              &Account::missing, &Account::surplus, &Account::missing_shipped}) {
        sum.*member += one.*member;
    }
}

class Reconciling {
  public:
    explicit Reconciling(const std::vector<Lot>& lots) {
        for (const Lot& lot : lots) {
            if (!index_.emplace(lot.id, result_.lots.size()).second) continue;
            LotAccount account{lot.id, lot.code, lot.kind, lot.name, std::nullopt, std::nullopt};
            if (lot.made_mg) account.mg = opened(*lot.made_mg, lot.on_hand_mg);
            if (lot.made_pieces) account.pieces = opened(*lot.made_pieces, lot.on_hand_pieces);
            result_.lots.push_back(std::move(account));
        }
    }

    Reconciliation run(const std::vector<Use>& uses, const std::vector<Move>& moves, const std::vector<Parcel>& parcels) {
        for (const Quantity quantity : {Quantity::mg, Quantity::pieces}) {
            for (const Use& use : uses) take_use(use, quantity);
            for (const Move& move : moves) take_used_up(move, quantity);
            for (const Parcel& parcel : parcels) take_parcel(parcel, quantity);
            for (LotAccount& lot : result_.lots) {
                if (auto& account = account_of(lot, quantity)) settle(*account);
            }
        }
        for (const LotAccount& lot : result_.lots) count_in_totals(lot);
        for (const Use& use : uses) count_once(use);
        return std::move(result_);
    }

  private:
    static Account opened(std::int64_t made, std::int64_t on_hand) {
        Account account;
        account.made = made;
        account.on_hand = on_hand;
        return account;
    }

    LotAccount* lot(LotId id) {
        const auto it = index_.find(id);
        return it == index_.end() ? nullptr : &result_.lots[it->second];
    }

    Account* account(LotId id, Quantity quantity) {
        LotAccount* found = lot(id);
        if (!found) return nullptr;
        auto& account = account_of(*found, quantity);
        return account ? &*account : nullptr;
    }

    bool moves_on(const Use& use) {
        const LotAccount* into = lot(use.into);
        return into && carries_goods_on(into->kind);
    }

    void take_use(const Use& use, Quantity quantity) {
        Account* from = account(use.from, quantity);
        if (from) (moves_on(use) ? from->moved_on : from->rework) += amount(use, quantity);
    }

    void take_used_up(const Move& move, Quantity quantity) {
        Account* from = feeds_nobody(move.way) ? account(move.lot, quantity) : nullptr;
        if (from) (move.way == Way::waste ? from->waste : from->samples) += amount(move, quantity);
    }

    void take_parcel(const Parcel& parcel, Quantity quantity) {
        Account* of = account(parcel.lot, quantity);
        if (!of) return;
        const auto said = [&](const Amounts& amounts) { return quantity == Quantity::mg ? amounts.mg : amounts.pieces; };
        of->shipped += said(parcel.went);
        of->returned += said(parcel.returned);
        of->destroyed += said(parcel.destroyed);
        of->consumed += said(parcel.consumed);
        of->found_there += said(parcel.found_there);
    }

    void count_in_totals(const LotAccount& lot) {
        if (lot.kind == LotKind::supply) return;
        for (Total* total : {&result_.all, is_goods(lot.kind) ? &result_.goods : &result_.materials}) {
            ++total->lots;
            if (lot.mg) add_to(total->mg, *lot.mg);
            if (lot.pieces) add_to(total->pieces, *lot.pieces);
            total->not_weighed += lot.mg ? 0 : 1;
            total->not_counted += lot.pieces ? 0 : 1;
        }
    }

    // Goods moved on into a lot of the same total are made twice there: take them out of both sides.
    void count_once(const Use& use) {
        const LotAccount *from = lot(use.from), *into = lot(use.into);
        if (!from || !into || !moves_on(use) || from->kind == LotKind::supply) return;
        const bool goods = is_goods(from->kind);
        std::vector<Total*> totals{&result_.all};
        if (goods == is_goods(into->kind)) totals.push_back(goods ? &result_.goods : &result_.materials);
        for (Total* total : totals) {
            if (from->mg && into->mg) take_out(total->mg, amount(use, Quantity::mg));
            if (from->pieces && into->pieces) take_out(total->pieces, amount(use, Quantity::pieces));
        }
    }

    static void take_out(Account& total, std::int64_t twice) {
        total.made -= twice;
        total.moved_on -= twice;
    }

    std::unordered_map<LotId, std::size_t> index_;
    Reconciliation result_;
};

std::optional<std::int64_t> part_of(std::int64_t made, std::int64_t missing) {
    if (made <= 0) return std::nullopt;
    const std::int64_t found = std::max<std::int64_t>(0, made - missing);
    return static_cast<std::int64_t>(Wide(found) * hundred_percent / made);
}

}  // namespace

std::int64_t Account::unaccounted() const { return made - on_hand - shipped - moved_on - rework - waste - samples; }

std::int64_t Account::shipped_unaccounted() const { return shipped - returned - destroyed - consumed - found_there; }

std::optional<std::int64_t> Account::percent_found() const { return part_of(made, missing); }

std::optional<std::int64_t> Account::percent_placed() const { return part_of(made, missing - missing_shipped); }

Reconciliation reconcile(const std::vector<Lot>& lots, const std::vector<Use>& uses, const std::vector<Move>& moves,
                         const std::vector<Parcel>& parcels) {
    return Reconciling(lots).run(uses, moves, parcels);
}

}  // namespace peelbook::trace
