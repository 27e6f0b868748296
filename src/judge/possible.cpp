#include "judge/possible.h"

#include <algorithm>
#include <cstdlib>

#include "judge/compare.h"
#include "plan/words.h"

namespace peelbook::judge {
namespace {

constexpr std::int64_t probes_scatter_milli = 3'000;  // thousandths of a degree C

std::int64_t off_by(const ReadingFact& reading) {
    const bool known = reading.tolerance && reading.tolerance->dimension() == reading.value.dimension();
    return known ? canonical_difference(*reading.tolerance) : 0;
}

bool breaks_range(const plan::Point& point, const Measure& value) {
    const auto* range = std::get_if<plan::RangeLimit>(&point.limit);
    return range && !meets(value, sides_of(range->least, range->most));
}

}  // namespace

bool is_possible(const plan::Point& point, const Measure& value) {
    const auto of_its_kind = [&](const std::optional<plan::Bound>& bound) {
        return bound && bound->first.dimension() == value.dimension() ? &*bound : nullptr;
    };
    return meets(value, {of_its_kind(point.possible_least), of_its_kind(point.possible_most)});
}

bool agree(const ReadingFact& one, const ReadingFact& other) {
    if (one.seq == other.seq || one.unit != other.unit || one.value.dimension() != other.value.dimension()) return false;
    std::int64_t scatter = off_by(one) + off_by(other);
    if (one.value.dimension() == Dimension::temperature) scatter = std::max(scatter, probes_scatter_milli);
    return std::llabs(one.value.value - other.value.value) <= scatter;
}

bool is_doubtful(const plan::Point& point, const ReadingFact& reading, const ReadingList& all) {
    if (is_possible(point, reading.value)) return false;
    if (reading.logged) return true;
    if (breaks_range(point, reading.value)) return false;
    return std::none_of(all.begin(), all.end(), [&](const ReadingFact* other) {
        return !other->logged && agree(reading, *other) && (is_possible(point, other->value) || other->by != reading.by);
    });
}

std::string doubt_text(const plan::Point& point, const ReadingFact& doubtful) {
    return to_text(doubtful.value) + " is beyond what it can be, " + plan::range_words(point.possible_least, point.possible_most) +
           (doubtful.logged ? ": a row of a logger that proves nothing" : ": it proves nothing until a second reading agrees");
}

std::optional<Believed> believed(const plan::Point& point, const ReadingList& records) {
    if (!point.possible_least && !point.possible_most) return std::nullopt;
    Believed out;
    for (const ReadingFact* reading : records) {
        const bool doubtful = is_doubtful(point, *reading, records);
        if (doubtful && !out.doubtful) out.doubtful = reading;
        if (!doubtful) out.sure.push_back(reading);
        if (!doubtful || !reading->logged) out.counted.push_back(reading);
    }
    return out.doubtful ? std::optional(std::move(out)) : std::nullopt;
}

}  // namespace peelbook::judge
