#pragma once
// Random lot graphs as a bakery makes them, the same for a seed everywhere: flour lots, water, a leaven fed
// from itself, silos as chains of blends, doughs with rework of earlier batches, packs. A lot only uses lots
// made before it.
#include <random>

#include "trace/trace.h"

namespace peelbook::trace::testing {

inline constexpr std::int64_t kg = 1'000'000;  // in mg

class GraphMaker {
  public:
    explicit GraphMaker(unsigned seed) : random_(seed) {}

    std::int64_t between(std::int64_t low,
                         std::int64_t high) {  // not std::uniform_int_distribution: it may differ
        return low + static_cast<std::int64_t>(random_() % static_cast<std::uint64_t>(high - low + 1));
    }

    LotId lot(LotKind kind, std::optional<std::int64_t> made_mg = std::nullopt) {
        Lot made;
        made.id = static_cast<LotId>(graph.lots.size()) * 7 + 3;
        made.code = "L" + std::to_string(made.id);
        made.kind = kind;
        made.happened = made.id * 60'000;
        made.made_mg = made_mg;
        graph.lots.push_back(made);
        return made.id;
    }

    void use(LotId into, LotId from, std::optional<std::int64_t> mass_mg, bool sure = true) {
        Use u;
        u.into = into;
        u.from = from;
        u.seq = static_cast<std::int64_t>(graph.uses.size()) + 1;
        u.mass_mg = mass_mg;
        u.sure = sure;
        graph.uses.push_back(u);
    }

    std::int64_t mass() { return between(1, 400'000'000); }  // up to 400 kg
    LotId any(const std::vector<LotId>& lots) {
        return lots[static_cast<std::size_t>(between(0, static_cast<std::int64_t>(lots.size()) - 1))];
    }

    // About five times `days` lots.
    void bakery(int days) {
        const LotId water = lot(LotKind::supply);
        LotId leaven = lot(LotKind::received, mass());
        LotId silo = lot(LotKind::received, mass());
        for (int day = 0; day < days; ++day) {
            flours.push_back(lot(LotKind::received, mass()));
            const LotId blend = lot(LotKind::blend);
            use(blend, silo, mass());
            use(blend, any(flours), mass());
            silo = blend;
            const LotId fed = lot(LotKind::batch);
            use(fed, leaven, mass());
            use(fed, any(flours), mass());
            use(fed, water, mass());
            leaven = fed;
            const LotId dough = lot(LotKind::batch);
            use(dough, silo, mass());
            use(dough, leaven, mass(), between(0, 9) != 0);
            use(dough, water, mass());
            if (between(0, 2) == 0) use(dough, any(flours), mass(), between(0, 1) == 0);
            if (!doughs.empty() && between(0, 2) == 0) use(dough, any(doughs), mass());
            doughs.push_back(dough);
            const LotId pack = lot(LotKind::pack);
            use(pack, dough, mass());
            if (between(0, 3) == 0) use(pack, any(doughs), mass());
        }
    }

    // One to three flour lots to trace.
    std::vector<LotId> suspects() {
        std::vector<LotId> start;
        for (std::int64_t n = between(1, 3); n > 0; --n) start.push_back(any(flours));
        return start;
    }

    Graph graph;
    std::vector<LotId> flours, doughs;

  private:
    std::mt19937_64 random_;
};

inline const Reached* found(const std::vector<Reached>& reached, LotId lot) {
    for (const Reached& r : reached) {
        if (r.lot == lot) return &r;
    }
    return nullptr;
}

}  // namespace peelbook::trace::testing
