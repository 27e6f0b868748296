#include "trace/outside.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "base/units.h"

namespace peelbook::trace {
namespace {

struct Event {
    Statement said;
    bool moved = false;  // the book has the goods back
    Amounts credited{};
};

bool of_one_holder(const Statement& a, const Statement& b) { return a.partner == b.partner && a.way == b.way; }

// Whether two of one holder speak of the same goods.
bool speak_alike(const Statement& a, const Statement& b) {
    if (!of_one_holder(a, b)) return false;
    return a.code == b.code || std::any_of(a.lots.begin(), a.lots.end(),
                                           [&](LotId lot) { return std::find(b.lots.begin(), b.lots.end(), lot) != b.lots.end(); });
}

bool holds(const Parcel& parcel, const Statement& s) {
    if (parcel.partner != s.partner || (s.partner.empty() && (parcel.way != s.way || s.fate == Fate::used))) return false;
    return std::find(s.lots.begin(), s.lots.end(), parcel.lot) != s.lots.end();
}

Amounts& credited_as(Parcel& parcel, Fate fate) {
    switch (fate) {
        case Fate::returned:
            return parcel.returned;
        case Fate::destroyed:
            return parcel.destroyed;
        case Fate::used:
            return parcel.consumed;
        case Fate::found:
            break;
    }
    return parcel.found_there;
}

class Hearing {
  public:
    Outside run(const std::vector<Move>& moves, const std::vector<Statement>& statements) {
        for (const Move& move : moves) {
            if (feeds_nobody(move.way)) continue;
            if (move.way == Way::returned) {
                come_back(move);
            } else {
                parcel_of(move).went += {move.mass_mg.value_or(0), move.pieces.value_or(0)};
            }
        }
        for (const Statement& s : statements) events_.push_back({s});
        const auto earlier = [](const Event& a, const Event& b) {
            return std::pair(a.said.happened, a.said.seq) < std::pair(b.said.happened, b.said.seq);
        };
        std::stable_sort(events_.begin(), events_.end(), earlier);
        for (const bool moved : {true, false}) {
            for (Event& e : events_) {
                if (e.moved == moved && e.said.fate != Fate::found) e.credited = credit(e.said);
            }
        }
        for (const Statement& s : last_found()) credit(s);
        return std::move(out_);
    }

  private:
    Parcel& parcel_of(const Move& move) {
        const auto [known, fresh] = index_.emplace(std::tuple(move.lot, move.partner, move.way), out_.parcels.size());
        if (fresh) {
            of_lot_[move.lot].push_back(known->second);
            out_.parcels.push_back({move.lot, move.partner, move.way, {}, {}, {}, {}, {}});
        }
        return out_.parcels[known->second];
    }

    void come_back(const Move& move) {
        Statement s{{move.lot}, "", move.partner, {}, Fate::returned, {}, move.pieces, move.happened, move.seq};
        if (move.partner.empty()) s.way = move.left_by;
        if (move.weighed || !move.pieces) s.mass_mg = move.mass_mg;
        events_.push_back({std::move(s), true});
    }

    std::vector<std::size_t> parcels_with(const Statement& s) const {
        std::vector<std::size_t> places;
        for (const LotId lot : s.lots) {
            const auto of = of_lot_.find(lot);
            if (of == of_lot_.end()) continue;
            std::copy_if(of->second.begin(), of->second.end(), std::back_inserter(places),
                         [&](std::size_t at) { return holds(out_.parcels[at], s); });
        }
        std::sort(places.begin(), places.end());
        return places;
    }

    static std::int64_t mass_of(const Parcel& parcel, std::int64_t pieces) {
        if (pieces == 0 || parcel.went.pieces <= 0) return 0;
        const Amounts open = parcel.open();
        const std::int64_t spoken_of = parcel.went.pieces - open.pieces + pieces;
        const std::int64_t then = static_cast<std::int64_t>(Wide(parcel.went.mg) * spoken_of / parcel.went.pieces);
        return std::max<std::int64_t>(0, then - (parcel.went.mg - open.mg));
    }

    Amounts credit(const Statement& s) {
        Amounts left{s.mass_mg.value_or(0), s.pieces.value_or(0)}, sum;
        const bool in_mass_alone = left.pieces == 0;
        const auto places = parcels_with(s);
        for (const std::size_t at : places) {
            Parcel& parcel = out_.parcels[at];
            const Amounts open = parcel.open();
            Amounts part{0, std::min(left.pieces, open.pieces)};
            part.mg = mass_of(parcel, part.pieces);
            if (s.mass_mg) part.mg = std::min({left.mg, open.mg, in_mass_alone || at == places.back() ? open.mg : part.mg});
            if (part == Amounts{}) continue;
            credited_as(parcel, s.fate) += part;
            out_.shares.push_back({s.seq, parcel.lot, part});
            sum += part;
            left.pieces -= part.pieces;
            if (s.mass_mg) left.mg -= part.mg;
        }
        if (left != Amounts{}) out_.excess.push_back({s, left});
        return sum;
    }

    // What stands at each holder by its last word, less what was returned, destroyed or used since.
    std::vector<Statement> last_found() const {
        std::vector<Statement> found;
        for (const Event& e : events_) {
            if (e.said.fate == Fate::found) {
                std::erase_if(found, [&](const Statement& f) { return speak_alike(f, e.said); });
                found.push_back(e.said);
                continue;
            }
            for (Statement& f : found) {
                if (!speak_alike(f, e.said)) continue;
                const bool counted = f.pieces.value_or(0) > 0;
                if (f.pieces) f.pieces = std::max<std::int64_t>(0, *f.pieces - e.said.pieces.value_or(0));
                if (f.mass_mg) f.mass_mg = std::max<std::int64_t>(0, *f.mass_mg - e.said.mass_mg.value_or(e.credited.mg));
                if (counted && f.pieces == 0) f.mass_mg.reset();
            }
        }
        return found;
    }

    Outside out_;
    std::map<std::tuple<LotId, std::string, Way>, std::size_t> index_;
    std::map<LotId, std::vector<std::size_t>> of_lot_;
    std::vector<Event> events_;
};

}  // namespace

Amounts& Amounts::operator+=(const Amounts& other) {
    mg += other.mg;
    pieces += other.pieces;
    return *this;
}

Amounts& Amounts::operator-=(const Amounts& other) {
    mg -= other.mg;
    pieces -= other.pieces;
    return *this;
}

Amounts Parcel::open() const {
    Amounts left = went;
    for (const Amounts* part : {&returned, &destroyed, &consumed, &found_there}) left -= *part;
    return left;
}

Outside outside(const std::vector<Move>& moves, const std::vector<Statement>& statements) {
    std::vector<Move> in_order = moves;
    std::stable_sort(in_order.begin(), in_order.end(),
                     [](const Move& a, const Move& b) { return std::pair(a.happened, a.seq) < std::pair(b.happened, b.seq); });
    return Hearing().run(in_order, statements);
}

}  // namespace peelbook::trace
