#include "site/ask/one_step.h"

#include <algorithm>
#include <limits>
#include <map>
#include <tuple>

#include "fold/standing.h"
#include "site/ask/ask_trace.h"
#include "site/ask/trace_answer.h"
#include "site/impl.h"

namespace peelbook::site {
namespace {

class Stepping {
  public:
    explicit Stepping(fold::Ledger& ledger)
        : ledger_(ledger), rows_(ledger.rows()), plan_(ledger.plan_at({std::numeric_limits<std::int64_t>::max()})) {
        for (auto& partner : rows_.partners()) partners_.emplace(partner.code, partner);
    }

    OneStep run(std::vector<book::Lot> lots) {
        OneStep out;
        out.asked = lots;
        add_sources(out, answer_of(ledger_, lots, false));
        add_recipients(out, goods_of(lots));
        return out;
    }

  private:
    Firm firm(const std::string& code) const {
        const auto known = partners_.find(code);
        if (known == partners_.end()) return {"", code, "", "", ""};
        const auto& p = known->second;
        return {p.code, p.name, p.address, p.phone, p.email};
    }

    static void ask_for(OneStep& out, const std::string& whose, const Firm& firm) {
        std::string lacks;
        if (firm.address.empty()) lacks += ", no address";
        if (firm.phone.empty() && firm.email.empty()) lacks += ", no telephone or e-mail";
        if (firm.name.empty()) lacks = ", not stated";
        if (lacks.empty()) return;
        const std::string text = whose + (firm.code.empty() && firm.name.empty() ? "" : " " + (firm.code.empty() ? firm.name : firm.code)) +
                                 ":" + lacks.substr(1);
        if (std::find(out.missing.begin(), out.missing.end(), text) == out.missing.end()) out.missing.push_back(text);
    }

    void add_sources(OneStep& out, const TraceAnswer& answer) const {
        for (const auto& reached : answer.reached) {
            auto lot = rows_.lot(reached.lot);
            if (!lot || lot->kind != LotKind::received) continue;
            Source source{*lot, plan_.plan->name_of(lot->item), firm(lot->partner), firm(lot->carrier), reached.certain};
            ask_for(out, "supplier of " + lot->code, source.from);
            ask_for(out, "carrier of " + lot->code, source.carrier);
            if (lot->supplier_lot.empty()) out.missing.push_back("supplier's lot of " + lot->code + ": not stated");
            out.sources.push_back(std::move(source));
        }
        std::sort(out.sources.begin(), out.sources.end(), [](const auto& a, const auto& b) {
            return std::tie(a.name, a.lot.happened, a.lot.id) < std::tie(b.name, b.lot.happened, b.lot.id);
        });
    }

    // The lots and what carries the same goods on: racks and packs, not doughs that took some as rework.
    // Certain or not.
    std::map<book::LotId, bool> goods_of(const std::vector<book::Lot>& lots) const {
        std::map<book::LotId, bool> goods;
        std::vector<std::pair<book::LotId, bool>> next;
        for (const auto& lot : lots) next.emplace_back(lot.id, true);
        while (!next.empty()) {
            const auto [id, certain] = next.back();
            next.pop_back();
            const auto [known, fresh] = goods.emplace(id, certain);
            if (!fresh && (known->second || !certain)) continue;  // nothing new is learned
            known->second = certain;
            for (const auto& use : rows_.uses_from(id)) {
                const auto into = rows_.lot(use.into_lot);
                if (into && is_part_of_a_lot(into->kind)) next.emplace_back(into->id, certain && use.sure != 0);
            }
        }
        return goods;
    }

    void add_recipients(OneStep& out, const std::map<book::LotId, bool>& goods) const {
        for (const auto& [id, certain] : goods) {
            const auto lot = rows_.lot(id);
            for (const auto& move : rows_.moves(id)) {
                if (!fold::has_recipient(move)) continue;
                Recipient to{lot->code,
                             lot->printed_code,
                             plan_.plan->name_of(lot->item),
                             move.way,
                             move.document,
                             move.partner.empty() ? Firm{} : firm(move.partner),
                             firm(move.carrier),
                             move.pieces,
                             move.mass_mg,
                             move.happened,
                             certain && move.sure != 0};
                if (!move.partner.empty()) ask_for(out, "recipient", to.to);
                if (move.way == Way::customer) ask_for(out, "carrier to " + move.partner, to.carrier);
                out.recipients.push_back(std::move(to));
            }
        }
        std::sort(out.recipients.begin(), out.recipients.end(), [](const auto& a, const auto& b) {
            return std::tie(a.happened, a.to.code, a.lot) < std::tie(b.happened, b.to.code, b.lot);
        });
    }

    fold::Ledger& ledger_;
    book::Derived& rows_;
    fold::GoverningPlan plan_;
    std::map<std::string, book::Partner> partners_;
};

}  // namespace

OneStep one_step_of(fold::Ledger& ledger, std::vector<book::Lot> lots) { return Stepping(ledger).run(std::move(lots)); }

Result<OneStep> Site::one_step(const std::string& lot) const {
    auto named = named_lots(impl_->ledger, lot, "");
    if (!named) return named.refusal();
    return one_step_of(impl_->ledger, std::move(*named));
}

}  // namespace peelbook::site
