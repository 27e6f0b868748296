// What the packer reads from labels on a line, and labels counted.
#include <algorithm>

#include "base/text.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

// The point of the line that labels are read at: the named one, or the only one.
Result<const plan::Point*> label_point_of(const Request& r, const std::string& line, const std::string& named) {
    std::vector<std::string> lines;
    std::vector<const plan::Point*> fit;
    for (const auto& point : r.plan().points) {
        if (!std::holds_alternative<plan::LabelLimit>(point.limit)) continue;
        lines.push_back(point.place);
        if (point.place == line && (named.empty() || named == point.id)) fit.push_back(&point);
    }
    if (!fit.empty()) return fit.front();
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) {
        return Refusal{"line '" + shown(line) + "'",
                       lines.empty() ? "a line whose labels are read: the plan has no point for that" : "a line whose labels are read",
                       "check the name, or add a point with limit = { label = { at = [\"start\"] } } to the plan", nearest(line, lines)};
    }
    std::vector<std::string> ids;
    for (const auto* point : r.plan().points_of_place(line)) ids.push_back(point->id);
    return Refusal{"point '" + shown(named) + "' of " + line, "the point at which its labels are read", "leave the point out",
                   nearest(named, ids)};
}

Check known_label(const Request& r, const std::string& label) {
    std::vector<std::string> ids;
    for (const auto& l : r.plan().labels) ids.push_back(l.id);
    return known_id("label", label, ids, "type what stands on the label; if it is of no version in the plan, do not pack under it");
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::LabelChecked& given) {
    auto s = given;
    const auto point = label_point_of(r, s.line, s.point);
    if (!point) return point.refusal();
    s.point = (*point)->id;
    const std::vector<std::string> moments(std::begin(plan::label_moments), std::end(plan::label_moments));
    if (auto checked = known_id("moment", s.moment, moments, "start, reel, change (of date or product) or end"); !checked)
        return checked.refusal();
    if (auto checked = known_label(r, s.label); !checked) return checked.refusal();
    return Admitted{{}, s, {}};
}

Result<Admitted> admit_kind(const Request& r, const record::LabelsCounted& given) {
    auto s = given;
    const auto point = label_point_of(r, s.line, s.point);
    if (!point) return point.refusal();
    s.point = (*point)->id;
    if (auto checked = known_label(r, s.label); !checked) return checked.refusal();
    for (const auto& [what, count] :
         {std::pair{"issued", s.issued}, {"applied", s.applied}, {"spoiled", s.spoiled}, {"returned", s.returned}}) {
        if (count < 0) return Refusal{std::to_string(count) + " labels " + what, "a number from 0 on", "type what was counted", {}};
    }
    if (s.issued == 0) return Refusal{"no labels issued", "how many were on the reels at the start", "add --issued N", {}};
    return Admitted{{}, s, {}};
}

}  // namespace peelbook::site
