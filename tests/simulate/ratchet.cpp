#include "simulate/ratchet.h"

#include <algorithm>
#include <map>

#include "simulate/table.h"

namespace peelbook::simulate {
namespace {

using record::Statement;

constexpr Duration late_after = minutes(15);  // of plan/site.toml
constexpr std::int64_t unproven = 1, missing = 2;

template <class... Kinds> bool is_one_of(const Statement& says) { return (std::holds_alternative<Kinds>(says) || ...); }
bool is_measured(const Statement& says) {
    return is_one_of<record::ReadingTaken, record::SeriesTaken, record::Inspected, record::Calibrated>(says);
}

std::string point_of(const std::string& key) { return key.substr(key.find(' ') + 1); }

// The table's columns. The points of the plan have names of their own.
std::string matter_of(const std::string& key) {
    static const std::map<std::string, std::string> named = {{"missing-use", "formula"}, {"yield", "formula"},
                                                             {"label", "label"},         {"declaration", "label"},
                                                             {"changeover", "residue"},  {"already-done", "done"}};
    const auto found = named.find(point_of(key));
    if (found != named.end()) return found->second;
    return key.starts_with("chill ") || key.starts_with("detector ") ? "check" : "point";
}

bool in_time(const record::Entry& entry, const Statement& says) {
    if (const auto* outage = std::get_if<record::Outage>(&says)) return entry.written - outage->until <= days(1);
    const auto* reading = std::get_if<record::ReadingTaken>(&says);
    const auto* inspected = std::get_if<record::Inspected>(&says);
    if ((reading && !reading->slip.empty()) || (inspected && !inspected->slip.empty())) return true;
    return entry.written - entry.happened <= late_after;
}

// What is read betters what is read, and of its own subject: a part of it, or what it is a part of. A check from a slip may show that
// nothing fell due in an outage.
bool is_about(const Statement& says, const std::string& key) {
    if (point_of(key) == "outage") return true;
    const auto of = [&](const std::string& subject, const std::string& point) {
        const std::string code = key.substr(0, key.find(' ')), whole = subject.substr(0, subject.find('/'));
        return point_of(key) == point && (code == subject || code.substr(0, code.find('/')) == whole);
    };
    if (const auto* reading = std::get_if<record::ReadingTaken>(&says)) return of(reading->subject, reading->point);
    if (const auto* inspected = std::get_if<record::Inspected>(&says)) return of(inspected->subject, inspected->point);
    return true;
}

// A finding of which nothing is left counts as better than any.
bool may_better(House& house, const record::Entry& entry, const std::string& key, std::int64_t before, std::int64_t after) {
    const auto* says = std::get_if<Statement>(&entry.payload);
    if (!says) return false;  // an amendment
    if (is_one_of<record::Countersigned>(*says)) return true;
    if (const auto* voided = std::get_if<record::Voided>(says)) {
        const auto target = house.site().entry(voided->target);
        const auto* was = target ? std::get_if<Statement>(&target->payload) : nullptr;
        const bool of_quality = matter_of(key) != "point" || point_of(key) == "dough";
        return was && !is_measured(*was) && (before == missing || of_quality);
    }
    if (!is_about(*says, key)) return false;
    const auto found = ratchet_table().answers.find({matter_of(key), std::string(record::kind_of(*says).name)});
    if (found == ratchet_table().answers.end()) return false;
    if (found->second == "time") return in_time(entry, *says) || (before == missing && after == unproven);
    return found->second == "yes";
}

void tell_bettered(House& house, const std::string& typed, const Written& written, std::vector<Violation>& out) {
    const std::string what = typed.substr(0, typed.find(' '));
    for (const auto& one : milder(written.before, written.after)) {
        const bool allowed = std::any_of(written.entries.begin(), written.entries.end(), [&](const record::Entry& entry) {
            if (!one.is_hold) return may_better(house, entry, one.key, one.from, one.to);
            const auto* says = std::get_if<Statement>(&entry.payload);
            return says && is_one_of<record::Released>(*says);
        });
        if (!allowed) out.push_back({"betters: " + what + ", " + one.what, typed + " made milder: " + one.told});
    }
}

const record::Countersigned* countersign_of(const record::Entry& entry) {
    const auto* says = std::get_if<Statement>(&entry.payload);
    return says ? std::get_if<record::Countersigned>(says) : nullptr;
}

}  // namespace

Waiting waiting_of(House& house) {
    Waiting out;
    for (const auto& row : house.ask("SELECT entry, refused FROM waiting WHERE decided_by IS NULL OR refused = 1"))
        (std::get<std::int64_t>(row[1]) ? out.refused : out.open).insert(std::get<std::int64_t>(row[0]));
    return out;
}

std::vector<Violation> ratchet_slips(House& house, const std::string& typed, const Written& written) {
    std::vector<Violation> out;
    tell_bettered(house, typed, written, out);
    std::set<Seq> decided;
    for (const auto& entry : written.entries) {
        const auto* countersigned = countersign_of(entry);
        if (!countersigned) continue;
        decided.insert(countersigned->entries.begin(), countersigned->entries.end());
        for (const Seq seq : countersigned->entries) {
            const auto other = house.site().entry(seq);
            if (other && other->by == entry.by) out.push_back({"countersigned by its own writer", typed + " was accepted"});
        }
    }
    for (const Seq seq : written.waited.open)
        if (!written.waits.open.contains(seq) && !decided.contains(seq))
            out.push_back({"waits no more: " + typed.substr(0, typed.find(' ')),
                           typed + ": entry " + std::to_string(seq) + " waited before, and nobody countersigned it"});
    return out;
}

}  // namespace peelbook::simulate
