#include "trace/recall.h"

#include <algorithm>
#include <map>
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

// What customers hold by their last word: a later return, destruction or meal takes from it.
class FoundThere {
  public:
    void hear(const Statement& s, std::int64_t amount) {
        std::int64_t& there = there_[{s.lot, s.partner}];
        there = s.fate == Fate::found ? amount : std::max<std::int64_t>(0, there - amount);
    }
    template <class Add> void for_each(Add add) const {
        for (const auto& [key, amount] : there_) add(key.first, amount);
    }

  private:
    std::map<std::pair<LotId, std::string>, std::int64_t> there_;
};

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

// A return, taken as said at its time, also uses up what the customer had "found".
Statement said_by(const Move& move) { return {move.lot, move.partner, Fate::returned, move.mass_mg, move.pieces, move.happened, move.seq}; }

class Reconciling {
  public:
    Reconciling(const std::vector<Lot>& lots, const std::vector<Move>& moves, const std::vector<Statement>& statements)
        : moves_(moves), said_(statements) {
        for (const Lot& lot : lots) {
            if (!index_.emplace(lot.id, result_.lots.size()).second) continue;
            LotAccount account{lot.id, lot.code, lot.kind, lot.name, std::nullopt, std::nullopt};
            if (lot.made_mg) account.mg = opened(*lot.made_mg, lot.on_hand_mg);
            if (lot.made_pieces) account.pieces = opened(*lot.made_pieces, lot.on_hand_pieces);
            result_.lots.push_back(std::move(account));
        }
        for (const Move& move : moves) {
            if (move.way == Way::returned) said_.push_back(said_by(move));
        }
        std::sort(said_.begin(), said_.end(),
                  [](const Statement& a, const Statement& b) { return std::pair(a.happened, a.seq) < std::pair(b.happened, b.seq); });
    }

    Reconciliation run(const std::vector<Use>& uses) {
        for (const Quantity quantity : {Quantity::mg, Quantity::pieces}) {
            for (const Use& use : uses) take_use(use, quantity);
            for (const Move& move : moves_) take_move(move, quantity);
            take_statements(quantity);
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

    void take_move(const Move& move, Quantity quantity) {
        Account* from = account(move.lot, quantity);
        if (!from || move.way == Way::returned) return;
        std::int64_t& out = move.way == Way::waste ? from->waste : move.way == Way::sample ? from->samples : from->shipped;
        out += amount(move, quantity);
    }

    void take_statements(Quantity quantity) {
        FoundThere found;
        for (const Statement& s : said_) {
            Account* of = account(s.lot, quantity);
            if (!of) continue;
            const std::int64_t said = amount(s, quantity);
            if (s.fate == Fate::used && s.partner.empty()) continue;
            switch (s.fate) {
                case Fate::returned:
                    of->returned += said;
                    break;
                case Fate::destroyed:
                    of->destroyed += said;
                    break;
                case Fate::used:
                    of->consumed += said;
                    break;
                case Fate::found:
                    break;  // by the last word of each customer, below
            }
            found.hear(s, said);
        }
        found.for_each([&](LotId id, std::int64_t there) { account(id, quantity)->found_there += there; });
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

    const std::vector<Move>& moves_;
    std::vector<Statement> said_;
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
                         const std::vector<Statement>& statements) {
    return Reconciling(lots, moves, statements).run(uses);
}

}  // namespace peelbook::trace
