#include "fold/vessel_past.h"

#include <algorithm>
#include <tuple>

namespace peelbook::fold {
namespace {

struct Settings {
    bool first_in = false;
    book::Int heel_mg = 0, smear_mg = 0, clock_ms = 0;
};

bool is_first_in(const plan::Vessel& vessel) { return vessel.model == "first-in"; }

Settings settings_of(Ledger& ledger, const std::string& id, Instant at) {
    Settings out;
    bool any = false;
    for (const auto& governing : {ledger.plan_at(at), ledger.plan_at({std::numeric_limits<std::int64_t>::max()})}) {
        out.clock_ms = std::max(out.clock_ms, governing.plan->site.clock_uncertainty.ms);
        const auto* vessel = governing.plan->vessel(id);
        if (!vessel) continue;
        out.first_in = is_first_in(*vessel) && (out.first_in || !any);
        out.heel_mg = std::max(out.heel_mg, vessel->heel_mg);
        out.smear_mg = std::max(out.smear_mg, vessel->smear_mg);
        any = true;
    }
    return out;
}

book::Int end_of(const Effective& fill) {
    const auto& says = std::get<record::Filled>(fill.says);
    return says.until ? std::max(says.until->ms, fill.happened.ms) : fill.happened.ms;
}

bool is_fill(const Effective& e) { return !e.voided_by && std::holds_alternative<record::Filled>(e.says); }
bool is_draw(const Effective& e) { return !e.voided_by && std::holds_alternative<record::Used>(e.says); }
bool is_emptying(const Effective& e) { return !e.voided_by && std::holds_alternative<record::Emptied>(e.says); }

// Where the past may begin among entries that are loaded, or that it may not.
class Beginning {
  public:
    Beginning(Ledger& ledger, const std::string& vessel, const Settings& settings, const std::vector<Effective>& entries, bool all_loaded)
        : ledger_(ledger), vessel_(vessel), entries_(entries), clock_(settings.clock_ms), all_(all_loaded) {}

    // The fill whose blend the past of a mixed vessel may stand on. Fills end within `longest_fill`, so what is not loaded is over.
    std::optional<std::size_t> on_blend(book::Int from) const {
        for (std::size_t k = entries_.size(); k-- > 0;) {
            const Effective& fill = entries_[k];
            if (!is_fill(fill) || end_of(fill) + clock_ >= from - clock_) continue;
            if (!reaches_back(fill.happened.ms) || !closed_before(k)) continue;
            const auto* known = ledger_.plan_at(fill.happened).plan->vessel(vessel_);
            if (known && !is_first_in(*known)) return k;
        }
        return {};
    }

    // The first fill after an inspected emptying that nothing is in doubt about.
    std::optional<std::size_t> after_emptying(book::Int from) const {
        for (std::size_t e = entries_.size(); e-- > 0;) {
            if (!is_emptying(entries_[e]) || !std::get<record::Emptied>(entries_[e].says).inspected) continue;
            const book::Int at = entries_[e].happened.ms;
            if (!reaches_back(at) || in_a_fill(at)) continue;
            std::size_t k = e + 1;
            while (k < entries_.size() && !is_fill(entries_[k])) ++k;
            if (k == entries_.size()) continue;
            const book::Int fill = entries_[k].happened.ms;
            if (fill > at + 2 * clock_ && fill < from - clock_) return k;
        }
        return {};
    }

  private:
    bool reaches_back(book::Int to) const {
        return all_ || (!entries_.empty() && entries_.front().happened.ms <= to - longest_fill.ms - 2 * clock_);
    }
    // Every earlier fill was over, and no draw or emptying may have come before as well as after it.
    bool closed_before(std::size_t k) const {
        const book::Int begins = entries_[k].happened.ms;
        for (std::size_t i = 0; i < k; ++i) {
            const Effective& e = entries_[i];
            if (is_fill(e) && end_of(e) + clock_ >= begins) return false;
            if ((is_draw(e) || is_emptying(e)) && e.happened.ms >= begins - clock_) return false;
        }
        return true;
    }
    bool in_a_fill(book::Int at) const {
        return std::any_of(entries_.begin(), entries_.end(),
                           [&](const Effective& e) { return is_fill(e) && e.happened.ms - clock_ <= at && at <= end_of(e) + clock_; });
    }

    Ledger& ledger_;
    const std::string& vessel_;
    const std::vector<Effective>& entries_;
    book::Int clock_;
    bool all_;
};

void put(VesselPast& past, Ledger& ledger, const Effective& e) {
    if (is_fill(e)) {
        const auto& says = std::get<record::Filled>(e.says);
        const auto lot = ledger.rows().lot(says.lot);
        if (lot && says.mass) past.history.fills.push_back({e.seq, lot->id, says.mass->value, e.happened.ms, end_of(e)});
    } else if (is_draw(e)) {
        const auto& mass = std::get<record::Used>(e.says).mass;
        if (mass) past.history.draws.push_back({e.seq, mass->value, e.happened.ms});
    } else if (is_emptying(e)) {
        past.history.emptied.push_back({e.happened.ms, std::get<record::Emptied>(e.says).inspected});
    }
}

bool first_in_throughout(Ledger& ledger, const std::string& vessel, const std::vector<Effective>& entries) {
    return std::all_of(entries.begin(), entries.end(), [&](const Effective& e) {
        const auto* known = ledger.plan_at(e.happened).plan->vessel(vessel);
        return !is_fill(e) || !known || is_first_in(*known);
    });
}

// The blend that the first fill made: all of it is what the past begins with.
void stand_on_blend(VesselPast& past, Ledger& ledger) {
    auto& first = past.history.fills.front();
    const auto blend = ledger.rows().lot(first.id);
    book::Int most = 0;
    for (const auto& use : ledger.rows().uses_into(first.id)) most += use.largest_mg.value_or(use.mass_mg.value_or(0));
    past.history.under_mg = std::max<book::Int>(0, (blend ? blend->made_mg.value_or(0) : 0) - first.mass_mg);
    past.history.under_largest_mg = std::max(past.history.under_mg, most - first.mass_mg);
}

}  // namespace

VesselPast vessel_past(Ledger& ledger, const std::string& vessel, Instant from, Draws draws) {
    const Settings settings = settings_of(ledger, vessel, from);
    const std::vector<Effective> since = ledger.effective_touching(book::SubjectKind::vessel, vessel, from);
    const std::string without = draws == Draws::none && !settings.first_in ? std::string(record::Used::kind.name) : "";
    VesselPast past;
    past.history.model = settings.first_in ? trace::VesselModel::first_in : trace::VesselModel::mixed;
    past.history.heel_mg = settings.heel_mg;
    past.history.smear_mg = settings.smear_mg;
    past.history.clock_uncertainty_ms = settings.clock_ms;
    std::optional<std::size_t> first;
    // Fills lie days apart, draws minutes.
    for (book::Int most = without.empty() ? 64 : 4; !first; most *= 4) {
        past.entries = ledger.effective_before(book::SubjectKind::vessel, vessel, from, most, without);
        const bool all = static_cast<book::Int>(past.entries.size()) < most;
        std::reverse(past.entries.begin(), past.entries.end());
        const Beginning beginning(ledger, vessel, settings, past.entries, all);
        if (!settings.first_in) first = beginning.on_blend(from.ms);
        past.on_blend = first.has_value();
        if (!first) first = beginning.after_emptying(from.ms);
        if (!first && all) first = 0;
    }
    if (*first < past.entries.size()) {
        const book::Int begins = past.entries[*first].happened.ms - (past.on_blend ? 0 : settings.clock_ms);
        const bool whole = *first == 0 && !past.on_blend;
        if (!whole) {
            const Effective beginning = past.entries[*first];
            std::erase_if(past.entries, [&](const Effective& e) {
                return e.happened.ms < begins ||
                       (is_fill(e) && std::tie(e.happened.ms, e.seq) < std::tie(beginning.happened.ms, beginning.seq));
            });
        }
    }
    past.entries.insert(past.entries.end(), since.begin(), since.end());
    for (const auto& e : past.entries) put(past, ledger, e);
    if (settings.first_in && !first_in_throughout(ledger, vessel, past.entries)) past.history.model = trace::VesselModel::mixed;
    past.on_blend = past.on_blend && !past.history.fills.empty();
    if (past.on_blend) {
        past.open_from = from.ms - settings.clock_ms;
        stand_on_blend(past, ledger);
    }
    return past;
}

std::map<Seq, std::vector<DrawPart>> draw_parts(const VesselPast& past) {
    std::map<Seq, std::vector<DrawPart>> out;
    if (past.history.model == trace::VesselModel::first_in) {
        for (const auto& draw : trace::draw_contents(past.history)) {
            auto& parts = out[draw.draw];
            for (const auto& c : draw.contents) parts.push_back({c.fill, c.expected_mg, c.largest_mg, c.certain});
        }
        return out;
    }
    for (const auto& draw : past.history.draws) {
        if (draw.at >= past.open_from) out[draw.id];
    }
    for (const auto& d : trace::blend_chain(past.history).draws) {
        const auto open = out.find(d.draw);
        if (open != out.end()) open->second.push_back({d.blend, d.expected_mg, d.largest_mg, d.certain});
    }
    return out;
}

std::vector<DrawPart> parts_of_draw(Ledger& ledger, const std::string& vessel, Instant at, book::Int mass_mg) {
    VesselPast past = vessel_past(ledger, vessel, at, Draws::none);
    constexpr Seq asked = std::numeric_limits<Seq>::max();
    past.history.draws.push_back({asked, mass_mg, at.ms});
    return draw_parts(past)[asked];
}

}  // namespace peelbook::fold
