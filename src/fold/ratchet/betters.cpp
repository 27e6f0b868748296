#include "fold/ratchet/betters.h"

#include <algorithm>

#include "fold/ratchet/waiting.h"
#include "judge/judge.h"

namespace peelbook::fold {
namespace {

using record::Statement;

// The table, a line a group of kinds.
struct Row {
    Matter matter;

    Betters only(std::initializer_list<Matter> which, Betters so) const {
        return std::find(which.begin(), which.end(), matter) != which.end() ? so : Betters::never;
    }

    template <class S> Betters operator()(const S&) const { return Betters::never; }
    // Measurements and checks: their own point, and what the plan reckons from it.
    template <OneOf<record::ReadingTaken, record::SeriesTaken, record::Inspected, record::LabelChecked, record::LabelsCounted> S>
    Betters operator()(const S&) const {
        return only({Matter::point, Matter::check, Matter::label, Matter::residue}, Betters::in_time);
    }
    // Events of a batch: points that count from them.
    template <OneOf<record::StepDone, record::Split, record::Packed, record::LineFed, record::Stored, record::MovedOut> S>
    Betters operator()(const S&) const {
        return only({Matter::point}, Betters::in_time);
    }
    template <OneOf<record::Used, record::Finished> S> Betters operator()(const S&) const {
        return matter == Matter::formula ? Betters::always : only({Matter::point}, Betters::in_time);
    }
    Betters operator()(const record::Cleaned&) const { return only({Matter::residue}, Betters::in_time); }
    template <OneOf<record::Calibrated, record::ServiceChanged> S> Betters operator()(const S&) const {
        return only({Matter::point, Matter::check}, Betters::in_time);
    }
    Betters operator()(const record::Outage&) const { return only({Matter::check}, Betters::in_time); }
};

// A void of an event takes back what the event alone made missing, and what no critical limit is about; what was measured stays
// measured. A void of a measurement betters nothing.
bool is_withdrawn(const Statement& was, const book::Finding& old) {
    return !is_measurement(was) && (old.verdict == Verdict::missing || old.grade != Grade::critical);
}

// A countersign, and a refusal by another person too, betters what its entries kept, and nothing that waits for others.
bool covers(const record::Countersigned& s, const book::Finding& old) {
    return !old.kept_by || std::find(s.entries.begin(), s.entries.end(), *old.kept_by) != s.entries.end();
}

constexpr Duration outage_told_within = days(1);  // of its end; common practice: by the next working day
constexpr Duration file_read_within = days(8);    // of its last row: a weekly file

}  // namespace

Matter matter_of(const book::Finding& f) {
    if (f.point == judge::missing_use_point || f.point == judge::yield_point) return Matter::formula;
    if (f.point == judge::label_point || f.point == judge::declaration_point) return Matter::label;
    if (f.point == judge::changeover_point) return Matter::residue;
    if (f.point == judge::already_done_point) return Matter::done;
    return f.lot ? Matter::point : Matter::check;
}

Betters betters(const Statement& says, Matter matter) { return std::visit(Row{matter}, says); }

bool in_time(Ledger& ledger, const record::Entry& entry) {
    const auto& says = std::get<Statement>(entry.payload);
    const auto governing = ledger.plan_at(entry.happened);
    if (const auto* outage = std::get_if<record::Outage>(&says)) return entry.written - outage->until <= outage_told_within;
    if (std::holds_alternative<record::SeriesTaken>(says)) {
        const auto series = ledger.rows().series(entry.seq);
        return entry.written - (series ? Instant{series->last_ms} : entry.happened) <= file_read_within;
    }
    if (const auto* reading = std::get_if<record::ReadingTaken>(&says); reading && !reading->slip.empty()) return true;
    if (const auto* inspected = std::get_if<record::Inspected>(&says); inspected && !inspected->slip.empty()) return true;
    return entry.written - entry.happened <= governing.plan->site.late_after;
}

bool may_better(const Derivation& d, const book::Finding& old, const std::optional<book::Finding>& now) {
    if (old.point == judge::negative_stock_point) return true;  // a sum, and no verdict on food: whoever says what is there mends it
    const auto* says = std::get_if<Statement>(&d.entry->payload);
    if (!says) return false;  // an amendment
    if (const auto* countersigned = std::get_if<record::Countersigned>(says)) return covers(*countersigned, old);
    if (old.kept_by) return false;
    if (const auto* voided = std::get_if<record::Voided>(says)) return is_withdrawn(d.ledger.effective(voided->target).says, old);
    switch (betters(*says, matter_of(old))) {
        case Betters::never:
            return false;
        case Betters::in_time:
            // What was missing may become unproven by a record from memory: the judge holds it there.
            return in_time(d.ledger, *d.entry) || (now && now->waits > 0 && old.verdict == Verdict::missing);
        case Betters::always:
            return true;
    }
    return false;
}

}  // namespace peelbook::fold
