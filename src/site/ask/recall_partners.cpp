// Who has some of what a recall covers: by customer and printed code what went, what is back or spoken for, and who was told of it.
#include <algorithm>
#include <tuple>

#include "base/words.h"
#include "site/ask/recall_view.h"

namespace peelbook::site {
namespace {

class Partners {
  public:
    Partners(fold::Ledger& ledger, const trace::Outside& outside, const trace::Snapshot& before, RecallView& view)
        : rows_(ledger.rows()), outside_(outside), before_(before), view_(view) {}

    void run() {
        for (const auto& line : view_.lots) lines_.emplace(line.lot.id, &line);
        for (const auto& d : view_.deliveries) {
            auto& goods = d.partner.empty() ? view_.unnamed : partner(d.partner, d.partner_name).had;
            goods.push_back({d, {}, {d.mass_mg, d.pieces}, {}, {}, true, true});
        }
        for (const auto& parcel : outside_.parcels) take(parcel);
        for (const auto& one : outside_.excess) ask(one);
        hear_contacts();
        for (auto& [code, one] : partners_) {
            for (const auto& goods : one.had) {
                one.shipped += {goods.delivery.mass_mg, goods.delivery.pieces};
                one.open += goods.open;
            }
            view_.partners.push_back(std::move(one));
        }
        add_ways();
        add_check();
    }

  private:
    RecallPartner& partner(const std::string& code, const std::string& name) {
        auto& one = partners_[code];
        if (one.partner.code.empty()) one.partner = rows_.partner(code).value_or(book::Partner{code, name, "", "", "", "", "", 0});
        return one;
    }

    // Those of one holder under a code, and where a name is given of that product.
    RecallGoods* goods_of(const std::string& holder, std::optional<Way> way, const std::string& code, const std::string& name) {
        auto& goods = holder.empty() ? view_.unnamed : partner(holder, "").had;
        const auto found = std::find_if(goods.begin(), goods.end(), [&](const RecallGoods& one) {
            return one.delivery.code() == code && (name.empty() || one.delivery.item_name == name) &&
                   (!holder.empty() || (way && one.delivery.way == word(*way)));
        });
        return found == goods.end() ? nullptr : &*found;
    }

    static const std::string& code_of(const trace::Lot& lot) { return lot.printed_code.empty() ? lot.code : lot.printed_code; }

    void take(const trace::Parcel& parcel) {
        const auto& [lot, state] = std::tie(lines_.at(parcel.lot)->lot, lines_.at(parcel.lot)->state);
        RecallGoods* goods = goods_of(parcel.partner, parcel.way, code_of(lot), lot.name);
        if (!goods) return;
        goods->open += parcel.open();
        goods->left_out = goods->left_out && state == RecallLotState::left_out;
        goods->repacked -= parcel.went;  // of what was sent, all that is not there as what it was
    }

    // Also of somebody, or of a code, that the records have nothing of.
    void ask(const trace::Excess& excess) {
        const auto& said = excess.said;
        const std::string code = said.lots.empty() ? said.code : code_of(lines_.at(said.lots.front())->lot);
        RecallGoods* goods = goods_of(said.partner, said.way, code, "");
        if (!goods) {
            auto& all = said.partner.empty() ? view_.unnamed : partner(said.partner, "").had;
            goods = &all.emplace_back();
            goods->delivery.partner = said.partner;
            if (said.way) goods->delivery.way = word(*said.way);
            goods->delivery.printed_code = code;
            goods->delivery.first = goods->delivery.last = said.happened;
            goods->delivery.certain = false;
        }
        goods->excess += excess.amount;
        goods->asked = goods->asked && std::any_of(view_.steps.begin(), view_.steps.end(), [&](const auto& step) {
                           return step.kind == book::RecallStepKind::contacted && step.reached != 0 && step.whom == said.partner &&
                                  std::pair(step.happened, step.seq) > std::pair(said.happened, said.seq);
                       });
    }

    void hear_contacts() {
        std::map<Seq, std::set<std::string>> codes;
        for (const auto& row : rows_.recall_told_codes(view_.recall.seq)) codes[row.seq].insert(row.code);
        for (const auto& step : view_.steps) {
            const auto found = partners_.find(step.whom);
            if (step.kind != book::RecallStepKind::contacted || found == partners_.end()) continue;
            RecallPartner& one = found->second;
            one.last_try = step.happened;
            one.checked = one.checked || (step.reached != 0 && step.checks != 0);
            for (RecallGoods& goods : one.had) {
                if (!goods.told && codes[step.seq].contains(goods.delivery.code())) goods.told = step.happened;
            }
        }
    }

    void add_ways() {
        std::map<Way, RecallWay> ways;
        for (const auto& parcel : outside_.parcels) ways[parcel.way].open += parcel.open();
        for (const auto& move : view_.moves) {
            if (move.way != Way::returned) ways[move.way].went += {move.mass_mg.value_or(0), move.pieces.value_or(0)};
        }
        for (const auto& one : view_.partners) {
            for (const auto& goods : one.had) {
                if (goods.repacked != trace::Amounts{}) ways[Way::co_packer].went += goods.repacked;
            }
        }
        for (auto& [way, one] : ways) {
            one.way = way;
            view_.ways.push_back(one);
        }
    }

    // The sample is drawn from the customers of the snapshot; whoever a later entry adds is asked besides.
    void add_check() {
        if (view_.recall.check_level.empty()) return;
        std::vector<std::string> consignees;
        for (const auto& d : before_.deliveries) {
            if (!d.partner.empty()) consignees.push_back(d.partner);
        }
        const auto level = trace::parse_check_level(view_.recall.check_level);
        const auto sample =
            trace::effectiveness_sample(consignees, *level, view_.recall.check_percent, static_cast<std::uint64_t>(view_.recall.seed));
        if (sample) view_.sample = *sample;
        for (auto& one : view_.partners) {
            const auto& code = one.partner.code;
            const bool new_one = std::find(consignees.begin(), consignees.end(), code) == consignees.end();
            if (new_one && *level != trace::CheckLevel::e) view_.sample.push_back(code);
            one.to_check = std::find(view_.sample.begin(), view_.sample.end(), code) != view_.sample.end();
        }
    }

    book::Derived& rows_;
    const trace::Outside& outside_;
    const trace::Snapshot& before_;
    RecallView& view_;
    std::map<trace::LotId, const RecallLotLine*> lines_;
    std::map<std::string, RecallPartner> partners_;
};

}  // namespace

bool RecallPartner::to_tell() const {
    return std::any_of(had.begin(), had.end(), [](const auto& goods) { return !goods.left_out; });
}

std::optional<std::int64_t> RecallPartner::reached() const {
    std::optional<std::int64_t> last;
    for (const auto& goods : had) {
        if (goods.left_out) continue;
        if (!goods.told) return {};
        last = std::max(last, goods.told);
    }
    return last;
}

void add_partners(fold::Ledger& ledger, const trace::Outside& outside, const trace::Snapshot& before, RecallView& view) {
    Partners(ledger, outside, before, view).run();
}

}  // namespace peelbook::site
