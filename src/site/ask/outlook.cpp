#include "site/ask/outlook.h"

#include <algorithm>

#include "base/units.h"
#include "fold/derivation.h"
#include "fold/lot_facts.h"

namespace peelbook::site {
namespace {

struct Room {
    std::optional<Measure> temperature;
    std::string from;  // "as planned", "read 13:40"
};

Room room_of(fold::Ledger& ledger, const plan::Plan& plan, const plan::Point& point, Instant at) {
    if (point.room) return {point.room, "as planned"};
    const auto* read = plan.point(point.room_point);
    if (!read) return {};
    const auto last = ledger.rows().reading_before(read->place, read->id, at.ms, 0);
    if (!last || at - Instant{last->happened} > oldest_room) return {};
    const auto typed = parse_measure(last->typed);
    if (!typed) return {};
    return {*typed, "read " + clock_text(ledger.zone(), Instant{last->happened})};
}

// The clock; with the date when it is another day than `beside`.
std::string moment_text(const Zone& zone, Instant t, Instant beside) {
    const bool same_day = zone.to_local(t).date == zone.to_local(beside).date;
    return same_day ? clock_text(zone, t) : to_text(zone, t);
}

std::string room_text(const judge::CoolingAhead& ahead, const Room& room) {
    const std::string celsius = to_text(to_canonical(ahead.room_c, Unit::celsius), Unit::celsius, 1);
    return "room " + celsius + " " + (ahead.room_fitted ? "fitted" : room.from);
}

std::string warning_text(const judge::CoolingAhead& ahead) {
    if (ahead.late()) return ": TOO LATE at this rate, act now";
    return ahead.may_be_late() ? ": may be late, look again soon" : "";
}

bool cools(const plan::Point& point) {
    return std::holds_alternative<plan::CoolingLimit>(point.limit) || std::holds_alternative<plan::BeforePackingLimit>(point.limit);
}

std::string text_of(const judge::CoolingAhead& ahead, const Room& room, const Zone& zone, Instant last) {
    const std::string target = to_text(ahead.target.first);
    std::string text = ahead.unit.empty() ? "" : ahead.unit + ": ";
    const auto moment = [&](Instant t) { return moment_text(zone, t, last); };
    if (ahead.never()) {
        text += target + " is never reached in this place";
    } else {
        text += target + " at " + moment(*ahead.at);
        if (ahead.earliest && ahead.latest) {
            text += " (" + moment(*ahead.earliest) + " to " + moment(*ahead.latest) + ")";
        } else if (ahead.earliest) {
            text += " (" + moment(*ahead.earliest) + " or later)";
        }
    }
    if (ahead.limit) text += "; limit " + moment(*ahead.limit);
    return text + warning_text(ahead) + " (" + std::to_string(ahead.readings) + " readings, " + room_text(ahead, room) + ")";
}

}  // namespace

std::vector<Outlook> outlook_of(fold::Ledger& ledger, const book::Lot& lot, const plan::Point& point, const judge::Facts& facts) {
    if (!cools(point) || facts.passed(point.step)) return {};
    Instant last{};
    for (const auto& r : facts.readings) {
        if (r.point == point.id && !r.voided) last = std::max(last, r.at);
    }
    const auto governing = ledger.plan_version(lot.plan_seq);
    const Room room = room_of(ledger, *governing.plan, point, last);
    std::vector<Outlook> all;
    for (auto& ahead : judge::cooling_ahead(point, facts, room.temperature)) {
        Outlook one{lot.code, point.id, std::move(ahead), ""};
        one.text = text_of(one.ahead, room, ledger.zone(), last);
        all.push_back(std::move(one));
    }
    return all;
}

std::vector<Outlook> outlook_of(fold::Ledger& ledger, const book::Lot& lot, const std::string& point_id) {
    const auto governing = ledger.plan_version(lot.plan_seq);
    const auto* point = governing.plan->point(point_id);
    if (!point || !cools(*point)) return {};
    fold::Derivation derivation{ledger, 0, {}};
    return outlook_of(ledger, lot, *point, gather(derivation, lot.id).facts);
}

std::string outlook_line(const Outlook& outlook) {
    return outlook.point + ": expected " + outlook.text + "; a prediction, the readings decide";
}

}  // namespace peelbook::site
