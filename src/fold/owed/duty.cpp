#include "fold/owed/duty.h"

#include <algorithm>

#include "fold/instrument_state.h"
#include "fold/owed/closed_hours.h"

namespace peelbook::fold {
namespace {

std::optional<Duty> duty_of(Ledger& ledger, const plan::Point& point, Instant now) {
    PlaceOwing owing(ledger, point.place, point.id);
    const PlaceMoments moments(ledger, point.place, point.id);
    const auto last = moments.before(now + Duration{1});
    auto owed = last ? owing.after(*last) : std::nullopt;
    const bool never = !owed || owed->dropped;  // since it is asked for, or asked for again
    if (never) {
        const auto adoption = owing.brought(now);
        if (!adoption) return {};
        owed = owing.from_adoption(*adoption);
    }
    Duty duty{point.place, point.id, point.name, point.name + ": " + point.limit_text, point.grade, owed->since, owed->due, never, ""};
    if (never) return duty;
    if (const auto open = open_closed_hours(ledger, owing, moments, owed->by, *last, now)) {
        duty.closed = open->wanted + ", of " + hours_text(ledger.zone(), open->hours);
        duty.due = std::min(duty.due, open->by);
    }
    return duty;
}

}  // namespace

std::vector<Duty> duties_at(Ledger& ledger, Instant now) {
    std::vector<Duty> out;
    const auto governing = ledger.plan_at(now);
    if (governing.seq == 0 || governing.before_first) return out;
    for (const plan::Point& point : governing.plan->points) {
        if (!asks_for(*governing.plan, point.place, point.id)) continue;
        if (auto duty = duty_of(ledger, point, now)) out.push_back(*std::move(duty));
    }
    return out;
}

std::optional<Duty> duty_at(Ledger& ledger, const std::string& place, const std::string& point, Instant now) {
    const auto governing = ledger.plan_at(now);
    if (governing.before_first || !asks_for(*governing.plan, place, point)) return {};
    return duty_of(ledger, *governing.plan->point(point), now);
}

std::vector<OverdueInstrument> overdue_instruments(Ledger& ledger, Instant now) {
    std::vector<OverdueInstrument> out;
    const auto governing = ledger.plan_at(now);
    for (const plan::Instrument& instrument : governing.plan->instruments) {
        const auto state = instrument_state(ledger, instrument.id, now);
        const bool overdue = state == judge::InstrumentState::lapsed || state == judge::InstrumentState::uncalibrated;
        if (!instrument.calibrate_every || !overdue) continue;
        OverdueInstrument late{instrument.id, instrument.name, {}};
        const auto span = ledger.rows().span_at(instrument.id, now.ms);
        if (span) {
            const auto before = ledger.rows().span_at(instrument.id, span->from_ms - 1);
            if (before && before->state == judge::InstrumentState::valid) late.due = Instant{span->from_ms - 1};  // the last moment in time
        }
        out.push_back(std::move(late));
    }
    return out;
}

}  // namespace peelbook::fold
