#include "site/ask/recall_view.h"

#include <algorithm>

#include "base/text.h"
#include "site/ask/recall_changes.h"
#include "site/ask/recall_scope.h"
#include "site/ask/trace_answer.h"
#include "site/impl.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

class Viewing {
  public:
    Viewing(fold::Ledger& ledger, const book::Recall& recall, Instant now)
        : ledger_(ledger), rows_(ledger.rows()), now_(now), plan_(ledger.plan_at({recall.happened})) {
        view_.recall = recall;
    }

    RecallView run() {
        before_ = snapshot_of(ledger_, view_.recall);
        scope_ = recall_scope(ledger_, view_.recall);
        view_.notes = scope_.notes;
        view_.steps = rows_.recall_steps(view_.recall.seq);
        for (const auto& out : rows_.recall_outs(view_.recall.seq)) {
            if (!out.ended_by) outs_.emplace(out.lot, out);
        }
        add_changes();
        add_lots();
        const auto outside = add_accounts(ledger_, scope_, view_);
        add_partners(ledger_, outside, before_, view_);
        add_holds();
        add_timings(*plan_.plan, now_, view_);
        return std::move(view_);
    }

  private:
    void add_changes() {
        for (auto& change : scope_changes(ledger_, view_.recall, before_, scope_)) {
            if (change.lot != 0) causes_[change.lot] = change.by;
            view_.changes.push_back({change.what, change.text, change.by});
        }
    }

    void add_lots() {
        std::map<trace::LotId, book::RecallLot> was;
        for (const auto& row : rows_.recall_lots(view_.recall.seq)) was.emplace(row.lot, row);
        const auto lots = scope_.by_id();
        const auto add = [&](const trace::Reached& one, RecallLotState state) {
            RecallLotLine line;
            const auto known = lots.find(one.lot);
            const auto old = was.find(one.lot);
            if (known != lots.end()) line.lot = *known->second;
            if (known == lots.end()) lose(line, one.lot, old->second.code);
            line.asked = old != was.end() && old->second.asked != 0;
            line.certain = one.certain;
            line.state = state;
            if (state != RecallLotState::covered) line.by = causes_[one.lot];
            if (const auto out = outs_.find(one.lot); out != outs_.end()) {
                line.state = RecallLotState::left_out;
                line.by = {out->second.seq};
            }
            view_.lots.push_back(std::move(line));
        };
        for (const auto& one : scope_.reach.lots) {
            reached_.insert(one.lot);
            const auto row = was.find(one.lot);
            const bool later = row == was.end() || row->second.since != view_.recall.seq;
            add(one, later ? RecallLotState::added : RecallLotState::covered);
        }
        for (const auto& [id, row] : was) {
            if (reached_.contains(id)) continue;
            trace::Reached gone;
            gone.lot = id;
            gone.depth = 1;
            add(gone, outs_.contains(id) ? RecallLotState::left_out : RecallLotState::cut_off);
        }
    }

    // A lot that was in the snapshot and is reached no more, or is not in the book any more.
    void lose(RecallLotLine& line, trace::LotId id, const std::string& code) {
        trace::Lot& out = line.lot;
        out.id = id;
        out.code = code;
        const auto lot = rows_.lot(id);
        line.gone = !lot;
        if (!lot) return;
        out.kind = lot->kind;
        out.item = lot->item;
        out.name = plan_.plan->name_of(lot->item);
        out.happened = lot->happened;
        out.printed_code = lot->printed_code;
        out.supplier = lot->partner;
        out.supplier_lot = lot->supplier_lot;
        out.held = rows_.is_held(id);
        if (const auto stock = rows_.stock(id)) {
            out.made_mg = stock->made_mg;
            out.made_pieces = stock->made_pieces;
            out.on_hand_mg = stock->on_hand_mg;
            out.on_hand_pieces = stock->on_hand_pieces;
        }
    }

    void add_holds() {
        std::set<trace::LotId> out;
        for (const auto& one : outs_) out.insert(one.first);
        for (const auto& code : to_hold(ledger_, scope_, out)) {
            if (view_.recall.drill != 0 || !rows_.is_held(rows_.lot(code)->id)) view_.to_hold.push_back(code);
        }
    }

    fold::Ledger& ledger_;
    book::Derived& rows_;
    Instant now_;
    fold::GoverningPlan plan_;
    RecallView view_;
    trace::Snapshot before_;
    RecallScope scope_;
    std::set<trace::LotId> reached_;  // as it stands now
    std::map<trace::LotId, book::RecallOut> outs_;
    std::map<trace::LotId, std::vector<Seq>> causes_;
};

// The lesser of mass and pieces; all when nothing was made.
std::int64_t lesser(std::optional<std::int64_t> mg, std::optional<std::int64_t> pieces) {
    constexpr std::int64_t all = 100'000;
    return std::min(mg.value_or(all), pieces.value_or(all));
}

}  // namespace

std::int64_t RecallView::placed() const {
    return lesser(reconciliation.all.mg.percent_placed(), reconciliation.all.pieces.percent_placed());
}

std::int64_t RecallView::found() const { return lesser(reconciliation.all.mg.percent_found(), reconciliation.all.pieces.percent_found()); }

std::string not_accounted_text(std::int64_t mg, std::int64_t pieces) {
    std::vector<std::string> parts;
    if (pieces != 0) parts.push_back(std::to_string(pieces) + " pieces");
    if (mg != 0) parts.push_back(mass_text(mg));
    return joined(parts, ", ");
}

std::string first_of(const std::vector<std::string>& all, std::size_t most) {
    if (all.size() <= most) return joined(all, "; ");
    return joined({all.begin(), all.begin() + static_cast<std::ptrdiff_t>(most)}, "; ") + "; and " + std::to_string(all.size() - most) +
           " more";
}

std::string RecallView::stamp(bool with_reason) const {
    std::vector<std::string> parts;
    if (recall.drill != 0) parts.push_back("DRILL");
    const auto open = recall.closed_open.empty() ? std::vector<std::string>{} : split(recall.closed_open, '\n');
    if (!open.empty()) {
        parts.push_back(first_of(open, with_reason ? 6 : 1) + (with_reason ? " (" + recall.closed_why + ")" : ""));
    } else if (recall.missing_mg != 0 || recall.missing_pieces != 0) {  // closed before the rest was kept
        parts.push_back("NOT ACCOUNTED FOR: " + not_accounted_text(recall.missing_mg, recall.missing_pieces) +
                        (with_reason ? " (" + recall.closed_why + ")" : ""));
    }
    return joined(parts, ". ");
}

RecallView recall_view(fold::Ledger& ledger, const book::Recall& recall, Instant now) { return Viewing(ledger, recall, now).run(); }

Result<book::Recall> known_recall(fold::Ledger& ledger, const std::string& code) {
    if (auto recall = ledger.rows().recall(code)) return *recall;
    std::vector<std::string> known;
    for (const auto& one : ledger.rows().recalls()) known.push_back(one.code);
    return Refusal{
        "recall '" + shown(code) + "'", known.empty() ? "a recall or drill in the book: there is none" : "a recall or drill in the book",
        known.empty() ? "open one with: peelbook recall open, or: peelbook drill open" : "see: peelbook recall list", nearest(code, known)};
}

Result<RecallView> Site::recall(const std::string& code) const {
    const auto recall = known_recall(impl_->ledger, code);
    if (!recall) return recall.refusal();
    return recall_view(impl_->ledger, *recall, impl_->clock.now());
}

std::vector<book::Recall> Site::recalls() const { return impl_->ledger.rows().recalls(); }

std::vector<Callee> Site::call_list() const {
    auto& rows = impl_->ledger.rows();
    std::optional<Duration> within;
    for (const auto& d : impl_->ledger.plan_at(impl_->clock.now()).plan->deadlines) {
        if (d.step == "call-list") within = d.within;
    }
    std::vector<book::RecallStep> tries = rows.recall_steps(0);
    std::vector<Callee> out;
    for (auto& partner : rows.partners()) {
        const auto roles = split(partner.roles, ' ');
        const auto has = [&](const char* role) { return std::find(roles.begin(), roles.end(), role) != roles.end(); };
        if (!has("customer") && !has("authority")) continue;
        Callee one;
        for (const auto& step : tries) {
            if (step.whom != partner.code) continue;
            one.tried = step.happened;
            if (step.reached != 0) one.reached = step.happened;
        }
        if (within) one.overdue = !one.reached || impl_->clock.now().ms - *one.reached > within->ms;
        one.partner = std::move(partner);
        out.push_back(std::move(one));
    }
    return out;
}

}  // namespace peelbook::site
