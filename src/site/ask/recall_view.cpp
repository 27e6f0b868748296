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

using Time = std::optional<std::int64_t>;

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
        view_.deliveries = scope_.reach.deliveries;
        view_.steps = rows_.recall_steps(view_.recall.seq);
        for (const auto& out : rows_.recall_outs(view_.recall.seq)) {
            if (!out.ended_by) outs_.emplace(out.lot, out);
        }
        add_changes();
        add_lots();
        reconcile();
        add_partners();
        add_check();
        add_holds();
        add_timings();
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
        out.held = rows_.is_held(id);
        if (const auto stock = rows_.stock(id)) {
            out.made_mg = stock->made_mg;
            out.made_pieces = stock->made_pieces;
            out.on_hand_mg = stock->on_hand_mg;
            out.on_hand_pieces = stock->on_hand_pieces;
        }
    }

    void reconcile() {
        std::vector<trace::Lot> lots;
        std::vector<trace::Use> uses;
        for (const auto& line : view_.lots) {
            if (line.gone) continue;
            lots.push_back(line.lot);
            if (line.lot.kind == LotKind::batch && !line.lot.made_mg && !line.lot.made_pieces) ++view_.unfinished;
            for (const auto& use : rows_.uses_from(line.lot.id)) uses.push_back(traced(use));
        }
        auto moves = scope_.moves;
        for (const auto& line : view_.lots) {
            if (reached_.contains(line.lot.id)) continue;
            for (const auto& m : rows_.moves(line.lot.id)) {
                if (m.of_returned == 0) moves.push_back(traced(m));
            }
        }
        for (const auto& c : rows_.recall_counts(view_.recall.seq)) {
            if (c.what == Fate::returned && view_.recall.drill == 0) continue;  // the book has the goods: a move says so
            said_.push_back({c.lot, c.partner, c.what, c.mass_mg, c.pieces, c.happened, c.seq});
        }
        view_.reconciliation = trace::reconcile(lots, uses, moves, said_);
    }

    // What a partner had, less what is back, destroyed, used or found there.
    void add_partners() {
        std::map<std::string, RecallPartner> by_code;
        for (const auto& d : view_.deliveries) {
            if (d.partner.empty()) continue;
            auto& one = by_code[d.partner];
            one.partner = rows_.partner(d.partner).value_or(book::Partner{d.partner, d.partner_name, "", "", "", "", "", 0});
            one.had.push_back(d);
            one.shipped_pieces += d.pieces;
            one.shipped_mg += d.mass_mg;
            one.missing_pieces += d.pieces - d.returned_pieces;
            one.missing_mg += d.mass_mg - d.returned_mg;
        }
        std::map<std::string, std::pair<std::int64_t, std::int64_t>> said;  // pieces, mg: that a partner's last word places
        for (const auto& [key, amounts] : placed_by_partner()) {
            said[key].first += amounts.first;
            said[key].second += amounts.second;
        }
        for (auto& [code, one] : by_code) {
            one.missing_pieces -= said[code].first;
            one.missing_mg -= said[code].second;
            for (const auto& step : view_.steps) {
                if (step.kind != book::RecallStepKind::contacted || step.whom != code) continue;
                one.last_try = step.happened;
                if (step.reached == 0) continue;
                one.reached = true;
                if (!one.first_reached) one.first_reached = step.happened;
                one.checked = one.checked || step.checks != 0;
            }
            view_.partners.push_back(std::move(one));
        }
    }

    // "found" is a partner's last word of what stands there; what is then returned, destroyed or used is
    // taken from it.
    std::map<std::string, std::pair<std::int64_t, std::int64_t>> placed_by_partner() const {
        std::vector<std::pair<trace::Statement, bool>> events;  // true: back already, and taken from what the partner had
        for (const auto& said : said_) events.emplace_back(said, false);
        for (const auto& m : scope_.moves) {
            if (m.way != Way::returned) continue;
            events.emplace_back(trace::Statement{m.lot, m.partner, Fate::returned, m.mass_mg, m.pieces, m.happened, m.seq}, true);
        }
        std::sort(events.begin(), events.end(), [](const auto& a, const auto& b) {
            return std::pair(a.first.happened, a.first.seq) < std::pair(b.first.happened, b.first.seq);
        });
        std::map<std::pair<std::string, trace::LotId>, std::pair<std::int64_t, std::int64_t>> there;
        std::map<std::string, std::pair<std::int64_t, std::int64_t>> out;
        for (const auto& [e, back] : events) {
            auto& found = there[{e.partner, e.lot}];
            const std::int64_t pieces = e.pieces.value_or(0), mg = e.mass_mg.value_or(0);
            if (e.fate == Fate::found) {
                found = {pieces, mg};
                continue;
            }
            found = {std::max<std::int64_t>(0, found.first - pieces), std::max<std::int64_t>(0, found.second - mg)};
            if (back) continue;
            out[e.partner].first += pieces;
            out[e.partner].second += mg;
        }
        for (const auto& [key, amounts] : there) {
            out[key.first].first += amounts.first;
            out[key.first].second += amounts.second;
        }
        return out;
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

    void add_holds() {
        std::set<trace::LotId> out;
        for (const auto& one : outs_) out.insert(one.first);
        for (const auto& code : to_hold(ledger_, scope_, out)) {
            if (view_.recall.drill != 0 || !rows_.is_held(rows_.lot(code)->id)) view_.to_hold.push_back(code);
        }
    }

    Time told(const std::string& whom) const {
        for (const auto& step : view_.steps) {
            if (step.kind == book::RecallStepKind::told && step.whom == whom) return step.happened;
        }
        return {};
    }

    // When the last of the customers was reached; none while one is missing.
    Time customers_reached() const {
        Time last = view_.recall.happened;
        for (const auto& one : view_.partners) {
            if (!one.reached) return {};
            last = std::max(*last, *one.first_reached);
        }
        return last;
    }

    Time done(const std::string& step) const {
        if (step == "hold") return view_.recall.drill != 0 || view_.to_hold.empty() ? Time{view_.recall.happened} : Time{};
        if (step == "customers") return customers_reached();
        if (step == "close") return view_.recall.closed;
        return told(step);
    }

    void add_timing(const std::string& name, Time done, Time due, const std::string& basis) {
        std::string state = done ? "done" : "not done";
        if (due && done && *done > *due) state = "done late";
        if (due && !done) state = now_.ms > *due ? "overdue" : "open";
        view_.timings.push_back({name, done, due, basis, state});
    }

    void add_timings() {
        const auto& recall = view_.recall;
        add_timing("word came", recall.aware, {}, "");
        add_timing("opened, snapshot frozen", recall.happened, {}, "");
        std::set<std::string> with_deadline;
        for (const auto& d : plan_.plan->deadlines) {
            if (d.step == "call-list") continue;
            with_deadline.insert(d.step);
            const std::string name = d.step == "hold" && recall.drill != 0 ? d.name + " (drill: listed)" : d.name;
            add_timing(name, done(d.step), recall.aware + d.within.ms, d.basis);
        }
        const std::pair<const char*, const char*> others[] = {{"hold", "everything on hand held"},     {"authority", "authority told"},
                                                              {"customers", "every customer reached"}, {"public", "public told"},
                                                              {"supplier", "supplier told"},           {"close", "closed"}};
        for (const auto& [step, name] : others) {
            if (!with_deadline.contains(step)) add_timing(name, done(step), {}, "");
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
    std::vector<trace::Statement> said_;
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
    if (mg == 0 && pieces == 0) return "";
    return (pieces != 0 ? std::to_string(pieces) + " pieces, " : std::string()) + mass_text(mg);
}

std::string RecallView::stamp(bool with_reason) const {
    std::string out = recall.drill != 0 ? "DRILL" : "";
    const std::string open = not_accounted_text(recall.missing_mg, recall.missing_pieces);
    if (!recall.closed_seq || open.empty()) return out;
    return out + (out.empty() ? "" : ". ") + "NOT ACCOUNTED FOR: " + open + (with_reason ? " (" + recall.closed_why + ")" : "");
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
