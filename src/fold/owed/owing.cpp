#include "fold/owed/owing.h"

#include <algorithm>

namespace peelbook::fold {

bool asks_for(const plan::Plan& plan, const std::string& place, const std::string& point) {
    const plan::Point* known = plan.point(point);
    return known && known->interval && known->place == place;
}

PlaceOwing::PlaceOwing(Ledger& ledger, std::string place, std::string point, Seq without)
    : ledger_(ledger), place_(std::move(place)), point_(std::move(point)), without_(without) {}

PlaceOwing::Version PlaceOwing::version(std::size_t i) {
    const auto& row = ledger_.plan_versions()[i];
    Version out{{row.from_ms}, {}, ledger_.plan_version(row.seq), nullptr};
    const plan::Plan& plan = *out.governing.plan;
    out.begin = judge::first_shift(plan, ledger_.zone(), out.from);
    if (asks_for(plan, place_, point_)) out.point = plan.point(point_);
    return out;
}

bool PlaceOwing::never_counted(std::size_t i) {
    const auto& versions = ledger_.plan_versions();
    return i + 1 < versions.size() && versions[i + 1].from_ms <= version(i).begin.ms;
}

std::optional<std::size_t> PlaceOwing::in_force(Instant at) {
    const auto& versions = ledger_.plan_versions();
    const auto later = std::find_if(versions.begin(), versions.end(), [&](const auto& v) { return v.from_ms > at.ms; });
    if (later == versions.begin()) return {};
    return static_cast<std::size_t>(later - versions.begin()) - 1;
}

judge::OwedTime PlaceOwing::time(const GoverningPlan& by, Instant from) {
    std::vector<judge::Span> outages;
    for (const auto& outage : ledger_.rows().outages_at(place_, from.ms, for_ever))
        if (outage.seq != without_) outages.push_back({{outage.from_ms}, {outage.until_ms}});
    return {*by.plan, *point(by).interval, ledger_.zone(), std::move(outages)};
}

std::optional<Owing> PlaceOwing::walk(std::size_t first, Instant since) {
    const Version begins = version(first);
    if (!begins.point) return {};
    Owing out{std::max(since, begins.begin), {}, begins.governing, {}};
    out.due = time(out.by, out.since).due(out.since);
    for (std::size_t i = first + 1; i < ledger_.plan_versions().size(); ++i) {
        const Version next = version(i);
        if (never_counted(i)) continue;
        if (!next.point) {
            if (out.due >= next.from) return {};
            out.dropped = next.from;
            return out;
        }
        if (out.due < next.begin) continue;  // overdue by then
        const auto by_next = time(next.governing, out.since);
        out.due = std::min(by_next.due(next.begin), std::max(out.due, by_next.due(out.since)));
        out.by = next.governing;
    }
    return out;
}

std::optional<Owing> PlaceOwing::after(Instant last) {
    const auto latest = in_force(last);
    if (!latest) return {};
    std::size_t counted = *latest;
    while (counted > 0 && (version(counted).begin > last || never_counted(counted))) --counted;
    const Version then = version(counted);
    const bool owed_then = then.point && then.begin <= last;
    return walk(owed_then ? counted : *latest, last);
}

Owing PlaceOwing::from_adoption(std::size_t i) { return *walk(i, version(i).begin); }

std::vector<std::size_t> PlaceOwing::brought_in(std::optional<Instant> after, Instant until) {
    std::vector<std::size_t> out;
    const auto last = in_force(until);
    if (!last) return out;
    bool asked = false;
    std::size_t i = 0;
    if (after) {
        const auto before = in_force(*after);
        i = before ? *before + 1 : 0;
        for (std::size_t k = i; k > 0 && i <= *last; --k) {
            if (never_counted(k - 1)) continue;
            asked = version(k - 1).point != nullptr;
            break;
        }
    }
    for (; i <= *last; ++i) {
        if (never_counted(i)) continue;
        const bool asks = version(i).point != nullptr;
        if (asks && !asked) out.push_back(i);
        asked = asks;
    }
    return out;
}

std::optional<std::size_t> PlaceOwing::brought(Instant now) {
    const auto last = in_force(now);
    if (!last || !version(*last).point) return {};
    std::size_t first = *last;
    for (std::size_t i = *last; i > 0; --i) {
        if (never_counted(i - 1)) continue;
        if (!version(i - 1).point) break;
        first = i - 1;
    }
    return first;
}

}  // namespace peelbook::fold
