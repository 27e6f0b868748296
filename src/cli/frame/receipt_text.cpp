#include "cli/frame/receipt_text.h"

#include <algorithm>

#include "base/measure.h"
#include "base/text.h"
#include "cli/frame/finding_text.h"
#include "output/text_table.h"

namespace peelbook::cli {
namespace {

using output::Json;

// "held F-1 at 2026-11-16 05:40: stones": the time stands before a reason, never behind it.
std::string with_time(const site::Receipt& receipt, const Zone& zone) {
    std::string text = receipt.said.empty() ? receipt.kind : receipt.said.front();
    const bool leads = receipt.kind == "moved-out";  // "customer: 40 pieces of ..."
    const std::size_t reason = leads ? std::string::npos : text.find(": ");
    return text.insert(std::min(reason, text.size()), " at " + to_text(zone, receipt.happened));
}

std::string first_lines(const site::Receipt& receipt, const Zone& zone) {
    std::string text = receipt.practice ? std::string(practice_line) + "\n" : "";
    text += receipt.repeated ? "recorded before " : "recorded ";
    text += std::to_string(receipt.seq) + "  " + with_time(receipt, zone);
    if (receipt.late)
        text +=
            ", LATE: written " + to_text(zone, receipt.written) + ", " + to_text(receipt.written - receipt.happened) + " after it happened";
    text += "\n";
    for (std::size_t i = 1; i < receipt.said.size(); ++i) text += "  " + receipt.said[i] + "\n";
    if (receipt.repeated) text += "  this token was seen before: nothing new was written\n";
    return text;
}

std::string percent_or_blank(std::int64_t micro_percent) {
    return micro_percent == 0 ? "" : to_text(Measure{micro_percent / 1000, micro_percent, Unit::percent});
}

std::string weigh_sheet(const site::Receipt& receipt) {
    if (receipt.weigh_sheet.empty()) return {};
    Table table{{"weigh", "mass", "of flour", "lots on hand"}, {}};
    std::int64_t total_mg = 0;
    for (const site::WeighLine& line : receipt.weigh_sheet) {
        const std::string lots = line.lots.empty() ? "none on hand" : joined(line.lots, ", ");
        table.rows.push_back(
            {line.name.empty() ? line.item : line.name, mass_text(line.mass_mg), percent_or_blank(line.micro_percent), lots});
        total_mg += line.mass_mg;
    }
    table.rows.push_back({std::string("together"), mass_text(total_mg), std::string(), std::string()});
    std::string text = output::text_table(table, output::TextTableStyle{.indent = 2, .most_width = 60, .headings = true});
    if (receipt.pieces_expected > 0) text += "  makes " + std::to_string(receipt.pieces_expected) + " pieces\n";
    if (receipt.water) text += "  " + receipt.water->text + "\n";
    return text;
}

std::string holds(const site::Receipt& receipt) {
    std::string text;
    for (const std::string& one : receipt.practised) text += "in earnest " + one + "\n";
    for (const site::AutomaticHold& hold : receipt.holds) {
        text += "HELD: " + (hold.lots.empty() ? "nothing left on hand" : joined(hold.lots, ", ")) + " (entry " + std::to_string(hold.seq) +
                "): " + hold.why + "\n";
        for (const std::string& gone : hold.customers) text += "  already gone to " + gone + "\n";
    }
    return text;
}

Json hold_json(const site::AutomaticHold& hold) {
    auto json = Json::object();
    json.set("entry", hold.seq).set("lots", hold.lots).set("already_gone_to", hold.customers).set("why", hold.why);
    return json;
}

Json weigh_json(const site::WeighLine& line) {
    auto json = Json::object();
    json.set("item", line.item).set("name", line.name).set("mass_mg", line.mass_mg);
    json.set("micro_percent_of_flour", line.micro_percent).set("lots", line.lots);
    return json;
}

}  // namespace

std::string receipt_text(const site::Receipt& receipt, const Zone& zone) {
    std::string text = first_lines(receipt, zone) + weigh_sheet(receipt);
    for (const site::ToldFinding& told : receipt.findings) text += finding_text(told);
    text += holds(receipt);
    for (const std::string& next : receipt.next) text += "next: " + next + "\n";
    if (!receipt.findings.empty()) text += std::string(caution) + "\n";
    return text;
}

Json outlook_json(const site::Outlook& outlook, const Zone& zone) {
    const auto& ahead = outlook.ahead;
    const auto moment = [&](const std::optional<Instant>& t) { return t ? Json(to_iso(zone, *t)) : Json(); };
    auto json = Json::object();
    json.set("lot", outlook.lot).set("point", outlook.point).set("unit", ahead.unit);
    json.set("target", to_text(ahead.target.first)).set("at", moment(ahead.at));
    json.set("earliest", moment(ahead.earliest)).set("latest", moment(ahead.latest)).set("limit", moment(ahead.limit));
    json.set("late", ahead.late()).set("may_be_late", ahead.may_be_late());
    json.set("readings", ahead.readings).set("room_c", ahead.room_c).set("room_fitted", ahead.room_fitted);
    return json.set("text", outlook.text);
}

Json water_json(const site::WaterAdvice& water) {
    const auto number = [](const std::optional<double>& c) { return c ? Json(*c) : Json(); };
    auto json = Json::object();
    json.set("wanted", to_text(water.wanted)).set("water_c", number(water.water_c));
    json.set("from_c", number(water.from_c)).set("until_c", number(water.until_c));
    return json.set("text", water.text);
}

Json receipt_json(const site::Receipt& receipt, const Zone& zone) {
    auto json = Json::object();
    json.set("entry", receipt.seq).set("kind", receipt.kind);
    json.set("happened", to_iso(zone, receipt.happened)).set("written", to_iso(zone, receipt.written));
    if (receipt.practice) json.set("practice", true).set("in_earnest", receipt.practised);
    json.set("late", receipt.late).set("repeated", receipt.repeated).set("code", receipt.code).set("said", receipt.said);
    if (!receipt.weigh_sheet.empty()) {
        auto lines = Json::array();
        for (const auto& line : receipt.weigh_sheet) lines.add(weigh_json(line));
        json.set("weigh_sheet", std::move(lines)).set("pieces_expected", receipt.pieces_expected);
        if (receipt.water) json.set("water", water_json(*receipt.water));
    }
    auto findings = Json::array();
    for (const auto& told : receipt.findings) findings.add(finding_json(told, zone));
    auto held = Json::array();
    for (const auto& hold : receipt.holds) held.add(hold_json(hold));
    json.set("findings", std::move(findings)).set("holds", std::move(held)).set("next", receipt.next);
    if (!receipt.outlook.empty()) {
        auto expected = Json::array();
        for (const auto& one : receipt.outlook) expected.add(outlook_json(one, zone));
        json.set("expected", std::move(expected));
    }
    if (!receipt.findings.empty()) json.set("caution", caution);
    return json;
}

}  // namespace peelbook::cli
