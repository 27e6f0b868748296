#include "site/ask/round.h"

#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/dates.h"
#include "fold/gate/gate.h"
#include "site/impl.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

bool is_shop(std::string_view whom) { return whom == word(Way::own_shop) || whom == word(Way::staff_shop); }
bool is_sold(Way way) { return way == Way::customer || way == Way::van || way == Way::donation; }

class Rounds {
  public:
    Rounds(fold::Ledger& ledger, const RoundQuestion& q, Instant now)
        : ledger_(ledger), rows_(ledger.rows()), q_(q), now_(now), plan_(ledger.plan_at(q.at)) {
        const auto today = ledger.production_day(q.at).day;
        const int start = plan_.plan->site.day_start_minutes;
        day_began_ = ledger.zone().day_start(from_days(today), start / 60, start % 60);
        day_ends_ = ledger.zone().day_start(from_days(today + 1), start / 60, start % 60);
    }

    Result<Round> run() {
        if (auto checked = begin(); !checked) return checked.refusal();
        for (const auto& order : q_.orders) {
            if (auto checked = take(order); !checked) return checked.refusal();
        }
        for (const auto& skip : q_.skip) {
            if (auto checked = leave_out(skip); !checked) return checked.refusal();
        }
        std::sort(lines_.begin(), lines_.end(), [](const auto& a, const auto& b) {
            return std::tie(a.whom, a.item, a.lot, a.label) < std::tie(b.whom, b.item, b.lot, b.label);
        });
        deduct_gone();
        for (auto& line : lines_) propose(line);
        return Round{q_.name, std::move(lines_), {kept_.begin(), kept_.end()}};
    }

  private:
    Check begin() {
        if (q_.orders_only) return {};
        const Instant from = day_began_ - round_looks_back;
        std::vector<book::Move> moves;
        for (const auto& customer : q_.customers) {
            if (auto checked = known_customer(customer); !checked) return checked;
            for (auto& move : rows_.moves_to(customer)) {
                if (is_sold(move.way)) moves.push_back(std::move(move));
            }
        }
        if (q_.customers.empty()) moves = rows_.moves_of_round(q_.name, from.ms, day_began_.ms);
        std::map<std::string, std::int64_t> last;  // production day of each customer
        for (const auto& move : moves) {
            if (move.happened < from.ms || move.happened >= day_began_.ms) continue;
            const auto day = ledger_.production_day({move.happened}).day;
            if (q_.like && from_days(day) != *q_.like) continue;
            auto& latest = last[whom_of(move)];
            latest = std::max(latest, day);
        }
        std::set<Seq> seen;
        for (const auto& move : moves) {
            const auto day = ledger_.production_day({move.happened}).day;
            const auto found = last.find(whom_of(move));
            if (found == last.end() || found->second != day || move.of_returned != 0 || !seen.insert(move.seq).second) continue;
            add(line_of(move), from_days(day));
        }
        if (!lines_.empty() || !q_.orders.empty()) return {};
        return Refusal{"round '" + shown(q_.name) + "', by which nothing went in the " + std::to_string(round_looks_back.ms / days(1).ms) +
                           " days before" + (q_.like ? " on " + to_text(*q_.like) : ""),
                       "a round that was driven, or what a new one begins with",
                       "check the name; or add --to CUSTOMER,..., --set CUSTOMER:PRODUCT=AMOUNT or --list FILE",
                       nearest(q_.name, rows_.rounds())};
    }

    static std::string whom_of(const book::Move& move) { return move.partner.empty() ? std::string(word(move.way)) : move.partner; }

    // As it was stated: a row of what left by product does not say how much.
    RoundLine line_of(const book::Move& move) {
        const auto says = std::get<record::MovedOut>(ledger_.effective(move.seq).says);
        const auto lot = *rows_.lot(move.lot);
        RoundLine line;
        line.whom = whom_of(move);
        line.way = move.way;
        line.item = lot.item;
        line.label = lot.label;
        line.packed = lot.kind == LotKind::pack;
        line.in_mass = says.pieces == 0;
        line.wanted = line.in_mass ? says.mass.value_or(Measure{}).value : says.pieces;
        return line;
    }

    void add(RoundLine line, Date day) {
        for (auto& one : lines_) {
            if (std::tie(one.whom, one.way, one.item, one.label, one.packed, one.in_mass) !=
                std::tie(line.whom, line.way, line.item, line.label, line.packed, line.in_mass))
                continue;
            one.wanted += line.wanted;
            return;
        }
        line.like = day;
        lines_.push_back(std::move(line));
    }

    Check known_customer(const std::string& whom) {
        if (is_shop(whom) || rows_.partner(whom)) return {};
        std::vector<std::string> codes;
        for (const auto& partner : rows_.partners()) codes.push_back(partner.code);
        return Refusal{"customer '" + shown(whom) + "'", "a partner in the book, own-shop or staff-shop", "check the code",
                       nearest(whom, codes)};
    }

    // What is ordered today takes the place of what the list has of the product for them; several lots of it add up.
    Check take(const RoundOrder& order) {
        if (auto checked = known_customer(order.whom); !checked) return checked;
        RoundLine line;
        line.whom = order.whom;
        line.way = is_shop(order.whom) ? *from_word<Way>(order.whom) : Way::customer;
        line.in_mass = order.pieces == 0;
        line.wanted = line.in_mass ? order.mass->value : order.pieces;
        line.item = order.what;
        if (const auto lot = rows_.lot(order.what)) {
            line.item = lot->item;
            line.lot = lot->code;
            line.packed = lot->kind == LotKind::pack;
        } else if (plan_.plan->product(order.what)) {
            for (const auto& label : plan_.plan->labels) line.packed = line.packed || label.product == order.what;
        } else if (!plan_.plan->material(order.what)) {
            std::vector<std::string> items = ids_of_products(*plan_.plan);
            for (const auto& line_there : lines_) items.push_back(line_there.item);
            return Refusal{"'" + shown(order.what) + "' for " + order.whom, "a product, a material or a lot", "check the word",
                           nearest(order.what, items)};
        }
        for (const auto& one : lines_) {  // as it went last: by which way, under which label, packed or loose
            if (one.whom != line.whom) continue;
            line.way = one.way;
            if (one.item != line.item || !one.like || !line.lot.empty()) continue;
            line.label = one.label;
            line.packed = one.packed;
        }
        std::erase_if(lines_, [&](const RoundLine& one) { return one.whom == line.whom && one.item == line.item && one.like; });
        lines_.push_back(std::move(line));
        return {};
    }

    Check leave_out(const std::string& skip) {
        const auto colon = skip.find(':');
        const std::string whom = skip.substr(0, colon), item = colon == std::string::npos ? "" : skip.substr(colon + 1);
        const auto left =
            std::erase_if(lines_, [&](const RoundLine& one) { return one.whom == whom && (item.empty() || one.item == item); });
        if (left > 0) return {};
        std::vector<std::string> there;
        for (const auto& line : lines_) there.push_back(item.empty() ? line.whom : line.whom + ":" + line.item);
        return Refusal{"'" + shown(skip) + "' to leave out", "what is on the list of today", "check the code", nearest(skip, there)};
    }

    // So that a list that was shipped once, or in part, is not shipped twice.
    void deduct_gone() {
        std::set<Seq> seen;
        for (const auto& move : rows_.moves_of_round(q_.name, day_began_.ms, day_ends_.ms)) {
            if (!seen.insert(move.seq).second) continue;
            const auto went = line_of(move);
            const auto lot = rows_.lot(move.lot);
            auto left = went.wanted;
            for (auto& line : lines_) {
                if (line.whom != went.whom || line.item != went.item || line.in_mass != went.in_mass) continue;
                if (!line.lot.empty() && line.lot != lot->code) continue;
                const auto part = std::min(left, line.wanted - line.gone);
                line.gone += part;
                left -= part;
            }
        }
    }

    // What is here of it, first expired first; under the label that went last before all other labels.
    std::vector<book::Lot> candidates(const RoundLine& line) {
        std::vector<std::pair<std::tuple<bool, book::Int, book::Int, book::LotId>, book::Lot>> found;
        for (auto& lot : rows_.lots_of_item(line.item)) {
            if (line.lot.empty() ? (lot.kind == LotKind::pack) != line.packed : lot.code != line.lot) continue;
            if (lot.happened > q_.at.ms || left_of(lot, line.in_mass) <= 0) continue;
            const auto ends = fold::ends_of_use(ledger_, lot, q_.at);
            const bool other_label = !line.label.empty() && lot.label != line.label;
            const std::tuple order(other_label, ends.empty() ? fold::for_ever : ends.front().until_ms, lot.happened, lot.id);
            found.emplace_back(order, std::move(lot));
        }
        std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
        std::vector<book::Lot> out;
        for (auto& [order, lot] : found) out.push_back(std::move(lot));
        return out;
    }

    std::int64_t& left_of(const book::Lot& lot, bool in_mass) {
        const auto stock = rows_.stock(lot.id).value_or(book::Stock{});
        return left_.try_emplace({lot.id, in_mass}, in_mass ? stock.on_hand_mg : stock.on_hand_pieces).first->second;
    }

    void propose(RoundLine& line) {
        std::vector<std::string> not_free;
        for (const auto& lot : candidates(line)) {
            if (line.lacking() == 0) break;
            if (auto stop = fold::kept_by(ledger_, {fold::act_of(line.way), lot.id}, q_.at, now_)) {
                not_free.push_back(std::move(stop->given));
                continue;
            }
            auto& left = left_of(lot, line.in_mass);
            const auto part = std::min(left, line.lacking());
            line.lots.emplace_back(lot.code, part);
            left -= part;
        }
        if (line.lacking() > 0) kept_.insert(not_free.begin(), not_free.end());
    }

    fold::Ledger& ledger_;
    book::Derived& rows_;
    const RoundQuestion& q_;
    Instant now_, day_began_, day_ends_;
    fold::GoverningPlan plan_;
    std::vector<RoundLine> lines_;
    std::map<std::pair<book::LotId, bool>, std::int64_t> left_;  // of each lot, after the lines before
    std::set<std::string> kept_;
};

}  // namespace

std::int64_t RoundLine::lacking() const {
    auto amount = wanted - gone;
    for (const auto& [code, part] : lots) amount -= part;
    return amount;
}

std::vector<record::MovedOut> Round::shipments(const std::string& document, const std::string& carrier) const {
    std::vector<record::MovedOut> out;
    for (const auto& line : lines) {
        for (const auto& [code, part] : line.lots) {
            record::MovedOut moved;
            moved.way = word(line.way);
            moved.lot = code;
            if (!is_shop(line.whom)) moved.partner = line.whom;
            if (line.in_mass) moved.mass = measure_of(part, Unit::mg);
            if (!line.in_mass) moved.pieces = part;
            if (!document.empty()) moved.document = document + "/" + line.whom;
            moved.carrier = carrier;
            moved.round = name;
            out.push_back(std::move(moved));
        }
    }
    return out;
}

Result<Round> Site::round(const RoundQuestion& question) const { return Rounds(impl_->ledger, question, impl_->clock.now()).run(); }

}  // namespace peelbook::site
