#include "site/record/at_place.h"

#include <algorithm>

#include "base/text.h"
#include "fold/place_moments.h"
#include "site/record/holds.h"

namespace peelbook::site {
namespace {

// What happened at a place while nobody knew it to be good; `until` is not included.
struct Doubt {
    book::Int from = 0, until = std::numeric_limits<book::Int>::max();
};

bool is_gap(const book::Finding& f) { return f.verdict == Verdict::missing; }

// Checks by hand of the place and point of a finding.
class Checks {
  public:
    Checks(fold::Ledger& ledger, const book::Finding& f) : rows_(ledger.rows()), f_(f) {}

    std::optional<book::Int> last_good(book::Int at) const {
        auto check = rows_.reading_before(f_.place, f_.point, at, 0);
        while (check && !good(*check)) check = rows_.reading_before(f_.place, f_.point, check->happened - 1, check->seq);
        return check ? std::optional(check->happened) : std::nullopt;
    }
    std::optional<book::Int> next_good(book::Int after) const {
        auto check = rows_.reading_after(f_.place, f_.point, after, f_.anchor);
        while (check && !good(*check)) check = rows_.reading_after(f_.place, f_.point, check->happened, check->seq);
        return check ? std::optional(check->happened) : std::nullopt;
    }

  private:
    bool good(const book::Reading& check) const {
        const auto finding = rows_.finding(check.seq, f_.point, 0);
        return finding && finding->verdict == Verdict::within;
    }

    book::Derived& rows_;
    const book::Finding& f_;
};

// The last moment at which part of the batch may still have passed: a packing or shipping, the finish, or now.
book::Int last_seen(fold::Ledger& ledger, const book::Lot& lot, book::Int otherwise) {
    book::Int last = lot.finished.value_or(otherwise);
    for (const auto& use : ledger.rows().uses_from(lot.id)) last = std::max(last, use.happened);
    return last;
}

std::vector<book::LotId> batches_on(fold::Ledger& ledger, const plan::Point& point, const Doubt& doubt, book::Int found) {
    constexpr book::Int longest_batch = 3 * 86'400'000LL;  // a batch started earlier is past the device: common practice
    std::vector<book::LotId> out;
    for (const auto& lot : ledger.rows().lots_started(doubt.from > 0 ? doubt.from - longest_batch : 0, doubt.until)) {
        const auto started = ledger.effective(lot.id);
        const auto* says = std::get_if<record::Started>(&started.says);
        if (!says || !point.checks_device_of(says->line)) continue;
        if (last_seen(ledger, lot, found) >= doubt.from) out.push_back(lot.id);
    }
    return out;
}

std::vector<book::LotId> packs_on(fold::Ledger& ledger, const plan::Point& point, const Doubt& doubt) {
    std::vector<book::LotId> out;
    for (const auto& line : point.lines) {
        for (const auto& run : ledger.rows().runs_on(line, doubt.from, doubt.until)) out.push_back(run.lot);
    }
    return out;
}

Instant day_begins(fold::Ledger& ledger, std::int64_t day, Instant around) {
    const int minutes = ledger.plan_at(around).plan->site.day_start_minutes;
    return ledger.zone().day_start(from_days(day), minutes / 60, minutes % 60);
}

Doubt doubt_of_room(fold::Ledger& ledger, const book::Finding& f) {
    Doubt out;
    const Checks checks(ledger, f);
    const fold::PlaceMoments moments(ledger, f.place, f.point);
    const Instant day_start = day_begins(ledger, f.day, {f.happened});
    if (is_gap(f)) {
        const auto before = moments.before({f.happened});
        const auto after = moments.after({f.happened}, fold::ever);
        out.from = before ? before->ms : ledger.rows().fact(f.anchor)->happened;
        if (after) out.until = after->ms;
    } else if (ledger.rows().series(f.anchor)) {
        out = {day_start.ms, day_begins(ledger, f.day + 1, {f.happened}).ms};
    } else {
        const bool since_reset = f.unit == "max" || f.unit == "min";
        out.from = checks.last_good((since_reset ? day_start.ms : f.happened) - 1).value_or(0);
        out.until = checks.next_good(f.happened).value_or(out.until);
    }
    return out;
}

}  // namespace

bool is_of_device(fold::Ledger& ledger, const book::Finding& f) {
    const auto governing = ledger.plan_version(f.plan_seq);
    const auto* point = governing.plan->point(f.point);
    return !f.place.empty() && point && point->interval && point->interval->device_check;
}

std::vector<book::LotId> passed_device(fold::Ledger& ledger, const book::Finding& f) {
    const auto governing = ledger.plan_version(f.plan_seq);
    const auto* point = governing.plan->point(f.point);
    const Checks checks(ledger, f);
    if (!is_gap(f))
        return batches_on(ledger, *point,
                          {checks.last_good(f.happened - 1).value_or(0), checks.next_good(f.happened).value_or(Doubt{}.until)}, f.happened);
    const book::Int opened = ledger.rows().fact(f.anchor)->happened;  // the check before, or the adoption
    return packs_on(ledger, *point, {checks.last_good(opened).value_or(opened), checks.next_good(opened).value_or(Doubt{}.until)});
}

std::vector<book::LotId> stored_there(fold::Ledger& ledger, const book::Finding& f) {
    const auto governing = ledger.plan_version(f.plan_seq);
    const auto* point = governing.plan->point(f.point);
    if (!point || std::holds_alternative<plan::LabelLimit>(point->limit)) return {};  // labels read on a line are of its packs
    const auto doubt = doubt_of_room(ledger, f);
    return ledger.rows().lots_stored(f.place, doubt.from, doubt.until);
}

std::vector<std::string> stored_lines(fold::Ledger& ledger, const book::Finding& f) {
    const auto lots = stored_there(ledger, f);
    if (lots.empty()) return {};
    std::vector<std::string> codes;
    for (const auto id : lots) {
        if (const auto lot = ledger.rows().lot(id)) codes.push_back(lot->code);
    }
    std::vector<std::string> lines{"lay in " + f.place + " then: " + joined(codes, ", ")};
    if (ledger.rows().has_hold_for(f.anchor, f.point, f.ord)) return lines;  // its receipt says who has the rest
    for (const auto& who : hold_reach(ledger, lots).customers) lines.push_back("left the house: " + who);
    return lines;
}

}  // namespace peelbook::site
