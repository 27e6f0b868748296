#include "fold/ratchet/waiting.h"

#include <algorithm>

#include "fold/calibration.h"
#include "fold/instrument_state.h"
#include "fold/standing.h"
#include "fold/touches.h"
#include "judge/judge.h"

namespace peelbook::fold {
namespace {

template <class... Kinds> bool is_one_of(const record::Statement& says) { return (std::holds_alternative<Kinds>(says) || ...); }

void take_back(book::Derived& rows, const book::Waiting& row) {
    auto fact = *rows.fact(row.target);
    if (fact.voided_by == row.entry) {
        fact.voided_by.reset();
    } else if (row.target == row.entry) {
        fact.voided_by = row.decided_by;  // it corrects nothing: it is itself what shall not count
    } else {
        fact.amended_by = row.previous;
        fact.happened = row.happened;
    }
    rows.put(fact);
}

bool is_of_instrument(const record::Statement& says) { return is_one_of<record::Calibrated, record::ServiceChanged>(says); }

bool did_not_hold(Ledger& ledger, const Effective& e) {
    const auto findings = ledger.rows().findings_at(e.seq);
    return std::any_of(findings.begin(), findings.end(), [](const auto& f) { return f.ord == 0 && is_open(f); });
}

bool of_the_same(Ledger& ledger, const Effective& one, const Effective& other) {
    const auto a = touches_of(ledger, one), b = touches_of(ledger, other);
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const auto& x, const auto& y) { return x.subject_kind == y.subject_kind && x.subject == y.subject; });
}

// Without a date nothing ends.
bool is_later(const std::optional<Date>& now, const std::optional<Date>& before) { return before && (!now || *now > *before); }

}  // namespace

void wait(Derivation& d, Seq entry) {
    if (d.ledger.rows().waiting(entry)) return;
    const bool corrects = d.correction && d.correction->entry == entry;
    d.ledger.rows().put(corrects ? *d.correction : book::Waiting{entry, entry, {}, d.ledger.entry(entry).happened.ms, {}, 0, 0});
}

bool is_measurement(const record::Statement& says) {
    return is_one_of<record::ReadingTaken, record::SeriesTaken, record::Inspected, record::Calibrated, record::LabelChecked,
                     record::LabelsCounted>(says);
}

bool correction_waits(const record::Statement& was, const record::Statement* now, bool moved) {
    if (is_measurement(was) || is_one_of<record::ServiceChanged, record::Used, record::ClockStarted>(was)) return true;
    if (!now) return false;
    if (const auto* received = std::get_if<record::Received>(&was)) {
        const auto& instead = std::get<record::Received>(*now);
        return !(received->allergens == instead.allergens) || is_later(instead.date, received->date);
    }
    return is_one_of<record::StepDone>(was) || (moved && is_one_of<record::Started, record::Finished>(was));
}

std::optional<Before> before_waiting(Ledger& ledger, const Effective& now) {
    if (!now.amended_by && !now.voided_by) return {};
    const auto row = ledger.rows().waiting_on(now.seq);
    if (!row) return {};
    Before before{row->entry, now};
    before.entry.voided_by.reset();
    if (now.voided_by == row->entry) return before;
    const record::Entry& stated = ledger.entry(row->previous.value_or(now.seq));
    const auto* amended = std::get_if<record::Amended>(&stated.payload);
    before.entry.says = amended ? amended->statement : std::get<record::Statement>(stated.payload);
    before.entry.happened = {row->happened};
    before.entry.written = stated.written;
    before.entry.amended_by = row->previous;
    return before;
}

bool is_bad(Ledger& ledger, const Effective& e) {
    if (const auto* service = std::get_if<record::ServiceChanged>(&e.says)) return !service->in_service;
    if (const auto* calibrated = std::get_if<record::Calibrated>(&e.says))
        return calibration_shows(ledger, *calibrated, e.happened) == false;
    if (const auto* inspected = std::get_if<record::Inspected>(&e.says)) return !inspected->passed;
    const auto* reading = std::get_if<record::ReadingTaken>(&e.says);
    const auto governing = ledger.plan_at(e.happened);
    const auto* point = reading ? governing.plan->point(reading->point) : nullptr;
    if (!point) return false;
    judge::ReadingFact fact;
    fact.at = e.happened;
    fact.point = point->id;
    fact.value = reading->value;
    fact.instrument = judge::InstrumentState::valid;
    return judge::judge_place_reading(*point, fact).verdict == Verdict::deviation;
}

Effective as_it_counts(Ledger& ledger, const Effective& now) {
    const auto waits = is_one_of<record::SeriesTaken>(now.says) ? std::nullopt : before_waiting(ledger, now);
    if (!waits || !(is_measurement(now.says) || is_of_instrument(now.says))) return now;
    const Effective& stood = waits->entry;
    if (is_bad(ledger, stood) || did_not_hold(ledger, stood)) return stood;
    if (now.voided_by) return now;
    const bool same = of_the_same(ledger, stood, now), bad = is_bad(ledger, now);
    if (!bad && (!same || is_of_instrument(now.says))) return stood;
    Effective out = now;
    if (same) out.happened = stood.happened;
    return out;
}

record::Declaration declared_of(Ledger& ledger, const Effective& receipt) {
    auto now = std::get<record::Received>(receipt.says).allergens;
    const auto waits = before_waiting(ledger, receipt);
    if (!waits) return now;
    const auto& before = std::get<record::Received>(waits->entry.says).allergens;
    const auto add = [](std::vector<std::string>& to, const std::vector<std::string>& more) {
        for (const auto& one : more)
            if (std::find(to.begin(), to.end(), one) == to.end()) to.push_back(one);
    };
    now.stated = now.stated && before.stated;
    add(now.contains, before.contains);
    add(now.may_contain, before.may_contain);
    return now;
}

std::optional<Date> date_of(Ledger& ledger, const Effective& receipt) {
    const auto& now = std::get<record::Received>(receipt.says).date;
    const auto waits = before_waiting(ledger, receipt);
    if (!waits) return now;
    const auto& before = std::get<record::Received>(waits->entry.says).date;
    return is_later(now, before) ? before : now;
}

std::vector<Seq> decide(Derivation& d, const record::Countersigned& says) {
    auto& rows = d.ledger.rows();
    std::vector<Seq> targets;
    for (const Seq entry : says.entries) {
        auto row = rows.waiting(entry).value_or(book::Waiting{entry, entry, {}, d.ledger.entry(entry).happened.ms, {}, 0, 0});
        if (row.decided_by) {  // it was countersigned alone, and now somebody else has looked
            row.alone = 0;
            rows.put(row);
            continue;
        }
        row.decided_by = d.cause;
        row.refused = says.refused ? 1 : 0;
        row.alone = says.alone ? 1 : 0;
        rows.put(row);
        if (says.refused) take_back(rows, row);
        targets.push_back(row.target);
    }
    return targets;
}

}  // namespace peelbook::fold
