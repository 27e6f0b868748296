// Lots and moves as custody events, and the elements of our own labels: what other companies read of this
// book.
#include <algorithm>
#include <limits>
#include <map>

#include "base/gs1.h"
#include "base/text.h"
#include "base/words.h"
#include "site/impl.h"

namespace peelbook::site {
namespace {

using trace::CustodyEvent;
using trace::Goods;
using Kind = CustodyEvent::Kind;

// What happens to goods on each way, in words of the Core Business Vocabulary. It has none for a sale in the
// firm's own shop other than retail_selling, and destroying stands for every end.
struct Vocabulary {
    std::string_view step, disposition, action;
};
Vocabulary vocabulary_of(Way way) {
    switch (way) {
        case Way::customer:
        case Way::van:
        case Way::donation:
        case Way::animal_feed:
        case Way::co_packer:
        case Way::supplier:
            break;
        case Way::own_shop:
        case Way::staff_shop:
            return {"retail_selling", "retail_sold", "OBSERVE"};
        case Way::waste:
            return {"destroying", "destroyed", "DELETE"};
        case Way::sample:
            return {"sampling", "unavailable", "OBSERVE"};
        case Way::returned:
            return {"receiving", "returned", "OBSERVE"};
    }
    return {"shipping", "in_transit", "OBSERVE"};
}

class Gatherer {
  public:
    explicit Gatherer(fold::Ledger& ledger) : ledger_(ledger) {
        for (auto& partner : ledger.rows().partners()) partners_[partner.code] = partner.gln;
    }

    void lot(const book::Lot& lot) {
        if (lot.kind == LotKind::received) return received(lot);
        CustodyEvent event = of(lot.id, lot.finished.value_or(lot.happened));
        event.goods = {goods(lot, lot.made_pieces, lot.made_mg)};
        for (const book::Use& use : ledger_.rows().uses_into(lot.id)) {
            if (const auto from = ledger_.rows().lot(use.from_lot)) event.inputs.push_back(goods(*from, use.pieces, use.mass_mg));
        }
        if (lot.kind == LotKind::supply) return;  // it has no beginning
        event.step = "commissioning";
        event.disposition = "in_progress";
        event.kind = event.inputs.empty() ? Kind::object : Kind::transformation;
        event.action = event.inputs.empty() ? "ADD" : "";
        events_.push_back(std::move(event));
    }

    void move(const book::Move& move) {
        if (!move.sure) {
            ++left_out_;
            return;
        }
        const auto lot = ledger_.rows().lot(move.lot);
        if (!lot) return;
        const Vocabulary way = vocabulary_of(move.way);
        CustodyEvent event = of(move.seq, move.happened);
        event.step = way.step;
        event.disposition = way.disposition;
        event.action = way.action;
        event.goods = {goods(*lot, move.pieces, move.mass_mg)};
        const bool back = move.way == Way::returned;
        (back ? event.from : event.to) = party(move.partner);
        event.document = move.document;
        if (back) event.issuer = event.from;
        event.stays = back || move.way == Way::sample;
        if (!move.sscc.empty()) return on_pallet(move.sscc, std::move(event));
        events_.push_back(std::move(event));
        if (move.way == Way::sample) {  // what is sampled is used up: CBV 2.0 wants its end told
            CustodyEvent end = events_.back();
            end.part = 1;
            end.step = "destroying";
            end.disposition = "destroyed";
            end.action = "DELETE";
            end.stays = false;
            events_.push_back(std::move(end));
        }
    }

    // Pallets are packed before they leave: their content is told first, then the pallet alone goes.
    std::vector<CustodyEvent> events() {
        for (auto& [sscc, leaves] : pallets_) {
            CustodyEvent packed = leaves;
            packed.kind = Kind::aggregation;
            packed.part = 1;
            packed.step = "packing";
            packed.disposition = "in_progress";
            packed.action = "ADD";
            packed.from = packed.to = {};
            packed.document.clear();
            packed.stays = true;
            events_.push_back(std::move(packed));
            leaves.goods.clear();
            leaves.part = 2;
            events_.push_back(leaves);
        }
        std::stable_sort(events_.begin(), events_.end(),
                         [](const auto& a, const auto& b) { return std::pair(a.happened, a.seq) < std::pair(b.happened, b.seq); });
        return std::move(events_);
    }
    std::size_t left_out() const { return left_out_; }

  private:
    CustodyEvent of(Seq seq, book::Int happened) {
        CustodyEvent event;
        event.seq = seq;
        event.happened = happened;
        const auto fact = ledger_.rows().fact(seq);
        event.written = fact ? fact->written : happened;
        event.offset_minutes = static_cast<int>(ledger_.zone().offset_at(Instant{happened}).ms / minutes(1).ms);
        return event;
    }

    trace::Party party(const std::string& code) const {
        const auto found = partners_.find(code);
        return {code, found == partners_.end() ? "" : found->second};
    }

    // An article number is of what is sold: of packs and of what came in, not of doughs.
    Goods goods(const book::Lot& lot, std::optional<book::Int> pieces, std::optional<book::Int> mass_mg) {
        Goods one{"", lot.code, pieces, mass_mg};
        const auto plan = ledger_.plan_version(lot.plan_seq).plan;
        if (lot.kind == LotKind::received && !lot.gtin.empty() && !lot.supplier_lot.empty())
            one = {gtin14(lot.gtin), lot.supplier_lot, pieces, mass_mg};
        const auto* product = lot.kind == LotKind::pack ? plan->product(lot.item) : nullptr;
        if (product && !product->gtin.empty() && lot.code.size() <= 20) one.gtin = gtin14(product->gtin);
        return one;
    }

    void received(const book::Lot& lot) {
        if (lot.status == book::LotStatus::refused) return;
        CustodyEvent event = of(lot.id, lot.happened);
        event.step = "receiving";
        event.disposition = "in_progress";
        event.action = "OBSERVE";
        event.goods = {goods(lot, lot.made_pieces, lot.made_mg)};
        event.sscc = lot.sscc;
        event.from = party(lot.partner);
        event.document = lot.document;
        event.issuer = event.from;
        events_.push_back(std::move(event));
    }

    void on_pallet(const std::string& sscc, CustodyEvent event) {
        event.sscc = sscc;
        const auto [pallet, is_new] = pallets_.emplace(sscc, event);
        if (is_new) return;
        pallet->second.happened = std::max(pallet->second.happened, event.happened);
        pallet->second.goods.push_back(event.goods.front());
    }

    fold::Ledger& ledger_;
    std::map<std::string, std::string> partners_;  // code to GLN
    std::map<std::string, CustodyEvent> pallets_;
    std::vector<CustodyEvent> events_;
    std::size_t left_out_ = 0;
};

std::string yymmdd(const std::string& date) { return date.substr(2, 2) + date.substr(5, 2) + date.substr(8, 2); }

}  // namespace

Result<trace::Custody> Site::custody(std::optional<Date> from, std::optional<Date> until) const {
    auto& ledger = impl_->ledger;
    const Instant now = impl_->clock.now();
    const auto plan = ledger.plan_at(now).plan;
    if (plan->site.web.empty())
        return Refusal{"an EPCIS document without an address of this site",
                       "web = \"https://...\" under [site] in the plan: lots without a GTIN are named under it",
                       "write your own domain there and adopt the plan; nothing needs to stand under the address",
                       {}};
    const book::Int first = from ? ledger.zone().day_start(*from, 0, 0).ms : std::numeric_limits<book::Int>::min();
    const book::Int last = until ? ledger.zone().day_start(add_days(*until, 1), 0, 0).ms : std::numeric_limits<book::Int>::max();
    Gatherer gatherer(ledger);
    for (const auto& lot : ledger.rows().lots_made(first, last)) gatherer.lot(lot);
    for (const auto& move : ledger.rows().moves_between(first, last)) gatherer.move(move);
    trace::Custody custody{plan->site.name, plan->site.gln, plan->site.web, now.ms, gatherer.events(), gatherer.left_out()};
    return custody;
}

Result<std::vector<Gs1Element>> Site::label_elements(const std::string& code) const {
    auto& ledger = impl_->ledger;
    const bool pallet = code.size() == 18 && code.find_first_not_of("0123456789") == std::string::npos && !ledger.rows().lot(code);
    if (pallet) {
        if (auto checked = check_sscc(code); !checked) return checked.refusal();
        return std::vector<Gs1Element>{{"00", code}};
    }
    const auto found = lot(code);
    if (!found) return found.refusal();
    const auto plan = ledger.plan_at(impl_->clock.now()).plan;
    const auto* product = plan->product(found->item);
    const auto* material = plan->material(found->item);
    std::string gtin = found->gtin, value = found->kind == LotKind::pack ? found->code : found->supplier_lot;
    if (found->kind == LotKind::pack && product) gtin = product->gtin;
    if (gtin.empty() && material && !material->gtins.empty()) gtin = material->gtins.front();
    if (found->kind != LotKind::pack && found->kind != LotKind::received)
        return Refusal{"a label for " + found->code + ", a " + in_words(found->kind),
                       "a packed or received lot: an article number is of what is sold",
                       "pack it first",
                       {}};
    if (gtin.empty())
        return Refusal{"a label for " + found->code,
                       "an article number of " + found->item,
                       "add gtin = \"...\" to it in the plan, and adopt the plan",
                       {}};
    if (value.empty() || value.size() > 20 || value.find('#') != std::string::npos)
        return Refusal{"a label for " + found->code,
                       "a lot code of 1 to 20 characters without '#', as GS1 allows; this is '" + shown(value) + "'",
                       "give the next lot a shorter code with --code",
                       {}};
    std::vector<Gs1Element> elements{{"01", gtin14(gtin)}};
    if (!found->date.empty()) elements.push_back({found->date_kind == DateKind::use_by ? "17" : "15", yymmdd(found->date)});
    elements.push_back({"10", value});
    return elements;
}

}  // namespace peelbook::site
