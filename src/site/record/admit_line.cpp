// What a line takes as it runs: put on, taken off.
#include <algorithm>

#include "base/text.h"
#include "site/record/admit.h"
#include "site/record/admit_amounts.h"

namespace peelbook::site {
namespace {

std::vector<std::string> places(const plan::Plan& plan) {
    std::vector<std::string> ids;
    for (const auto& place : plan.places) ids.push_back(place.id);
    return ids;
}

// Codes of what stands on the line then, this lot's own entry left aside.
std::vector<std::string> on_line(const Request& r, const std::string& line) {
    std::vector<std::string> codes;
    for (const auto& feed : r.rows().line_feeds(line, r.happened.ms, r.happened.ms)) {
        const auto lot = r.rows().lot(feed.lot);
        const bool ends_now = feed.until_ms && *feed.until_ms <= r.happened.ms;
        if (lot && feed.seq != r.amending && !ends_now) codes.push_back(lot->code);
    }
    return codes;
}

bool contains(const std::vector<std::string>& codes, const std::string& code) {
    return std::find(codes.begin(), codes.end(), code) != codes.end();
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::LineFed& given) {
    auto s = given;
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    s.lot = lot->code;
    if (!r.plan().place(s.line)) return known_id("place", s.line, places(r.plan()), "check the name of the line").refusal();
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    const auto standing = on_line(r, s.line);
    if (s.off && r.amending == 0 && !contains(standing, s.lot)) {
        return Refusal{s.lot + " off " + s.line, "a lot that is on the line: " + (standing.empty() ? "none is" : joined(standing, ", ")),
                       "check the code, or record first when it was put on: peelbook line on " + s.lot + " " + s.line + " --at ...",
                       nearest(s.lot, standing)};
    }
    if (s.off) return Admitted{{}, s, {}};
    if (contains(standing, s.lot)) {
        return Refusal{s.lot + " on " + s.line + ", where it is already", "a lot that is not there yet", "nothing is to be recorded", {}};
    }
    s.already_done = s.already_done || r.draft.already_done;
    if (s.why.empty() && r.amending == 0) s.why = r.draft.why;
    std::string note = "every batch that runs on " + s.line + " until it is taken off may hold it";
    if (!standing.empty()) note += "; still on the line: " + joined(standing, ", ");
    return Admitted{{}, s, {note}};
}

}  // namespace peelbook::site
