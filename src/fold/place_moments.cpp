#include "fold/place_moments.h"

#include <algorithm>

namespace peelbook::fold {
namespace {

void keep_later(std::optional<book::Int>& latest, std::optional<book::Int> other) {
    if (other && (!latest || *other > *latest)) latest = other;
}
void keep_earlier(std::optional<book::Int>& earliest, std::optional<book::Int> other) {
    if (other && (!earliest || *other < *earliest)) earliest = other;
}
std::optional<Instant> moment(std::optional<book::Int> ms) { return ms ? std::optional<Instant>(Instant{*ms}) : std::nullopt; }

}  // namespace

std::optional<Instant> PlaceMoments::before(Instant at) const {
    std::optional<book::Int> latest;
    if (const auto reading = rows_.reading_before(place_, point_, at.ms - 1, 0)) latest = reading->happened;
    if (const auto series = rows_.series_ended(place_, point_, at.ms)) keep_later(latest, series->last_ms);
    for (const auto& series : rows_.series_within(place_, point_, at.ms, at.ms - 1)) {  // that began before and end later
        keep_later(latest, rows_.series_row_before(series.seq, at.ms - 1));
    }
    return moment(latest);
}

std::optional<Instant> PlaceMoments::after(Instant at, Seq seq) const {
    for (const auto& reading : rows_.readings_of_place(place_, point_, at.ms, at.ms + 1)) {
        if (reading.seq > seq && !reading.voided_by) return at;
    }
    std::optional<book::Int> earliest;
    if (const auto reading = rows_.reading_after(place_, point_, at.ms, 0)) earliest = reading->happened;
    for (const auto& series : rows_.series_within(place_, point_, at.ms, ever)) {
        if (series.seq > seq && rows_.series_row_before(series.seq, at.ms) == at.ms) return at;
        keep_earlier(earliest, series.first_ms > at.ms ? series.first_ms : rows_.series_row_after(series.seq, at.ms));
    }
    return moment(earliest);
}

std::optional<Instant> PlaceMoments::first(Instant from) const { return after({from.ms - 1}, std::numeric_limits<Seq>::max()); }

}  // namespace peelbook::fold
