#include "judge/label_check.h"

#include <algorithm>

#include "base/text.h"
#include "base/words.h"

namespace peelbook::judge {
namespace {

std::string as_read(const LabelReading& reading) {
    return reading.label + (reading.printed_code.empty() ? "" : ", code " + reading.printed_code) +
           (reading.date.empty() ? "" : ", date " + reading.date);
}

std::vector<std::string> differences(const LabelReading& reading, const PackFact& pack) {
    std::vector<std::string> out;
    const auto compare = [&](const char* what, const std::string& read, const std::string& packed) {
        if (!read.empty() && read != packed) out.push_back(std::string(what) + " " + (packed.empty() ? "none" : packed));
    };
    compare("label", reading.label, pack.label);
    compare("code", reading.printed_code, pack.printed_code);
    compare("date", reading.date, pack.date);
    return out;
}

Finding compared(const plan::Point& point, std::int64_t ord, const LabelReading& reading, const PackFact& pack) {
    Finding finding;
    finding.point = point.id;
    finding.ord = ord;
    finding.happened = pack.at;
    finding.evidence = {reading.seq};
    finding.measured = as_read(reading);
    const auto differ = differences(reading, pack);
    finding.verdict = differ.empty() ? Verdict::within : Verdict::deviation;
    finding.detail = "Read at the " + in_words(reading.moment) + " of the run" +
                     (differ.empty() ? std::string(": what was packed under.") : "; packed with " + joined(differ, ", ") + ".");
    return finding;
}

Finding not_read(const plan::Point& point, std::int64_t ord, Instant at, const std::string& detail) {
    Finding finding;
    finding.point = point.id;
    finding.ord = ord;
    finding.verdict = Verdict::missing;
    finding.happened = at;
    finding.measured = "label not read";
    finding.detail = detail;
    return finding;
}

}  // namespace

std::vector<Finding> judge_label_readings(const plan::Point& point, const plan::LabelLimit& limit, const PackFact& pack,
                                          const std::vector<LabelReading>& readings) {
    std::vector<Finding> out;
    const auto after = std::find_if(readings.begin(), readings.end(), [&](const auto& r) { return r.at > pack.at; });
    if (after == readings.begin()) {
        out.push_back(not_read(point, label_start_ord, pack.at, "No label was read on the line before this packing."));
    } else if (const LabelReading& last = *(after - 1); last.moment == LabelMoment::end) {
        out.push_back(not_read(point, label_start_ord, pack.at, "The run had ended, and no label was read at the start of another."));
    } else {
        out.push_back(compared(point, label_start_ord, last, pack));
    }
    if (after != readings.end() && after->moment == LabelMoment::reel && after->label != pack.label)
        out.push_back(compared(point, label_reel_ord, *after, pack));  // since the last good reading (rule 12)
    if (std::find(limit.at.begin(), limit.at.end(), word(LabelMoment::end)) == limit.at.end()) return out;
    const auto end =
        std::find_if(after, readings.end(), [](const auto& r) { return r.moment == LabelMoment::end || begins_run(r.moment); });
    if (end == readings.end()) return out;
    if (end->moment == LabelMoment::end) {
        out.push_back(compared(point, label_end_ord, *end, pack));
    } else {
        out.push_back(not_read(point, label_end_ord, end->at, "Another run began, and no label was read at the end of this one."));
    }
    return out;
}

Finding judge_label_count(const plan::Point& point, const plan::LabelLimit& limit, const LabelCount& count) {
    const std::int64_t lost = count.issued - count.applied - count.spoiled - count.returned;
    Finding finding;
    finding.point = point.id;
    finding.happened = count.at;
    finding.verdict = lost < 0 || lost > limit.most_lost ? Verdict::deviation : Verdict::within;
    finding.measured = lost == 0  ? "all labels accounted for"
                       : lost > 0 ? std::to_string(lost) + " labels not accounted for"
                                  : std::to_string(-lost) + " labels more than were issued";
    finding.detail = std::to_string(count.issued) + " issued - " + std::to_string(count.applied) + " applied - " +
                     std::to_string(count.spoiled) + " spoiled - " + std::to_string(count.returned) +
                     " returned = " + std::to_string(lost) + ".";
    return finding;
}

}  // namespace peelbook::judge
