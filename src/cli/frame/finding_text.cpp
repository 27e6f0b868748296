#include "cli/frame/finding_text.h"

#include <charconv>

#include "base/text.h"
#include "base/words.h"

namespace peelbook::cli {
namespace {

// "bake-core oven-1 80C of PAN-261116-1, limit at least 93C"
std::string measured_text(const site::ToldFinding& told, bool name_lot) {
    const book::Finding& f = told.finding;
    std::string text = f.point;
    if (!f.unit.empty()) text += " " + f.unit;
    if (!f.measured.empty()) text += " " + f.measured;
    if (name_lot && !told.lot_code.empty()) text += " of " + told.lot_code;
    if (name_lot && told.lot_code.empty() && !f.place.empty()) text += " at " + f.place;
    if (!f.limit_text.empty()) text += ", limit " + f.limit_text;
    return text;
}

// "struck and binned; chiller thawed; disposition discard (entry 1753, QO)"
std::string done_text(const book::Action& action) {
    std::vector<std::string> parts;
    for (const std::string& part : {action.product, action.process})
        if (!part.empty()) parts.push_back(part);
    if (action.disposition) parts.push_back("disposition " + in_words(action.disposition));
    return joined(parts, "; ") + " (entry " + std::to_string(action.seq) + ", " + action.by + ")";
}

}  // namespace

std::string key_text(const book::Finding& finding) {
    std::string text = std::to_string(finding.anchor) + ":" + finding.point;
    if (finding.ord != 0) text += ":" + std::to_string(finding.ord);
    return text;
}

Result<record::FindingKey> parse_key(std::string_view text) {
    const Refusal refusal{"finding '" + shown(text) + "'",
                          "a finding as it was printed: the entry, the point and, if printed, its number (412:bake-core)",
                          "see `peelbook status` for the open ones",
                          {}};
    const std::vector<std::string> parts = split(text, ':');
    if (parts.size() != 2 && parts.size() != 3) return refusal;
    const auto number = [](const std::string& part, std::int64_t& to) {
        const char* last = part.data() + part.size();
        const auto [end, error] = std::from_chars(part.data(), last, to);
        return error == std::errc() && end == last && to >= 0;
    };
    record::FindingKey key;
    key.point = parts[1];
    if (!number(parts[0], key.anchor) || key.point.empty()) return refusal;
    if (parts.size() == 3 && !number(parts[2], key.ord)) return refusal;
    return key;
}

std::string finding_text(const site::ToldFinding& told) {
    const book::Finding& f = told.finding;
    if (f.verdict == Verdict::within) {
        std::string line = "within: " + measured_text(told, f.cleared_by || !f.corrected.empty()) + "\n";
        if (!f.corrected.empty()) line += "  corrected in process: " + f.corrected + "\n";
        if (!f.breaks_newer.empty()) line += "  would break the plan of " + f.breaks_newer + "\n";
        if (f.cleared_by)
            line += "  finding " + key_text(f) + (told.withdrawn ? " is withdrawn by entry " : " is cleared by entry ") +
                    std::to_string(*f.cleared_by) + "\n";
        return line;
    }
    if (f.cleared_by) {
        const std::string how = told.withdrawn ? "withdrawn by entry " : "cleared by entry ";
        return how + std::to_string(*f.cleared_by) + ", was " + in_words(f.verdict) + ": " + measured_text(told, true) + "\n";
    }
    std::string lines = uppered(word(f.verdict)) + ": " + measured_text(told, true);
    lines += " (" + in_words(f.grade) + ")\n";
    if (!f.detail.empty()) lines += "  " + f.detail + "\n";
    if (!told.product_action.empty()) lines += "  product: " + told.product_action + "\n";
    if (!told.process_action.empty()) lines += "  process: " + told.process_action + "\n";
    for (const auto entry : told.waits)
        lines += "  entry " + std::to_string(entry) + " would make it milder, and waits for another person\n";
    bool decided = false;
    for (const auto& action : told.actions) {
        lines += "  done: " + done_text(action) + "\n";
        decided = decided || action.disposition.has_value();
    }
    if (!decided) lines += "  answer it: peelbook act " + key_text(f) + "\n";
    return lines;
}

output::Json finding_json(const site::ToldFinding& told, const Zone& zone) {
    const book::Finding& f = told.finding;
    auto json = output::Json::object();
    json.set("finding", key_text(f)).set("verdict", word(f.verdict)).set("grade", word(f.grade));
    json.set("point", f.point).set("point_name", told.point_name).set("unit", f.unit);
    json.set("lot", told.lot_code).set("place", f.place);
    json.set("measured", f.measured).set("limit", f.limit_text).set("detail", f.detail).set("corrected", f.corrected);
    json.set("breaks_newer", f.breaks_newer);
    json.set("happened", to_iso(zone, Instant{f.happened}));
    json.set("product_action", told.product_action).set("process_action", told.process_action);
    json.set("cleared_by", f.cleared_by);
    auto waits = output::Json::array();
    for (const auto entry : told.waits) waits.add(entry);
    json.set("waits_for", std::move(waits));
    auto actions = output::Json::array();
    for (const auto& action : told.actions) {
        actions.add(output::Json::object()
                        .set("entry", action.seq)
                        .set("by", action.by)
                        .set("product", action.product)
                        .set("process", action.process)
                        .set("disposition", in_words(action.disposition)));
    }
    json.set("actions", std::move(actions));
    return json;
}

}  // namespace peelbook::cli
