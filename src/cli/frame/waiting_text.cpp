#include "cli/frame/waiting_text.h"

#include "base/words.h"
#include "cli/frame/finding_text.h"

namespace peelbook::cli {
namespace {

using output::Json;

std::string paragraph(const site::WaitingEntry& one, const Zone& zone) {
    std::string text = "entry " + std::to_string(one.entry) + ", " + one.kind + " by " + one.by + ", " + to_text(zone, one.written);
    if (one.target != one.entry) text += ": entry " + std::to_string(one.target) + ", " + one.what;
    text += one.alone ? "; counts, decided alone, to be looked at\n" : "\n";
    if (!one.before.empty()) text += "  before: " + one.before + "\n";
    if (!one.after.empty()) text += std::string(one.before.empty() ? "  typed:  " : "  after:  ") + one.after + "\n";
    if (!one.why.empty()) text += "  why:    " + one.why + "\n";
    for (const auto& told : one.findings) {
        const auto& f = told.finding;
        text += "  until then " + in_words(f.verdict) + ": " + f.point + " of " + (told.lot_code.empty() ? f.place : told.lot_code) + ", " +
                f.measured + " [" + key_text(f) + "]\n";
    }
    return text;
}

}  // namespace

std::string waiting_text(const std::vector<site::WaitingEntry>& waiting, const Zone& zone) {
    std::string text;
    for (const auto& one : waiting) text += (text.empty() ? "" : "\n") + paragraph(one, zone);
    return text.empty() ? "Nothing waits.\n" : text;
}

Json waiting_json(const std::vector<site::WaitingEntry>& waiting, const Zone& zone) {
    auto list = Json::array();
    for (const auto& one : waiting) {
        auto findings = Json::array();
        for (const auto& told : one.findings) findings.add(finding_json(told, zone));
        list.add(Json::object()
                     .set("entry", one.entry)
                     .set("target", one.target)
                     .set("kind", one.kind)
                     .set("by", one.by)
                     .set("written", to_iso(zone, one.written))
                     .set("what", one.what)
                     .set("before", one.before)
                     .set("after", one.after)
                     .set("why", one.why)
                     .set("alone", one.alone)
                     .set("findings", std::move(findings)));
    }
    return list;
}

}  // namespace peelbook::cli
