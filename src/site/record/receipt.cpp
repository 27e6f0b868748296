#include "site/record/receipt.h"

#include <algorithm>

#include "base/text.h"
#include "fold/dates.h"
#include "fold/gate/gate.h"
#include "fold/logger/series.h"
#include "fold/lot_facts.h"
#include "fold/standing.h"
#include "fold/weigh_sheet.h"
#include "judge/judge.h"
#include "site/ask/friction.h"
#include "site/ask/outlook.h"
#include "site/record/weighed.h"

namespace peelbook::site {
namespace {

std::string amount(std::int64_t pieces, const std::optional<Measure>& mass) {
    const std::string weight = !mass ? "" : mass->unit == Unit::mg ? mass_text(mass->value) : to_text(*mass);
    if (pieces == 0) return weight;
    return std::to_string(pieces) + " pieces" + (weight.empty() ? "" : ", " + weight);
}

std::string with(const std::string& before, const std::string& text) { return text.empty() ? "" : before + text; }

struct Summary {
    std::string operator()(const record::Opened& s) const { return "opened the book of " + s.name; }
    std::string operator()(const record::PersonAdded& s) const {
        return "person " + s.initials + ", " + s.name + with(", ", s.role) + with(", ", s.state);
    }
    std::string operator()(const record::PartnerAdded& s) const {
        return "partner " + s.code + ", " + s.name + ", " + joined(s.roles, ", ");
    }
    std::string operator()(const record::PlanAdopted& s) const {
        return "adopted the plan, " + std::to_string(s.files.size()) + " files" + with(", hazard: ", s.hazard);
    }
    std::string operator()(const record::Received& s) const {
        return "received " + s.lot + ", " + s.material + with(" ", amount(s.pieces, s.mass)) + with(" from ", s.supplier) +
               with(", supplier lot ", s.supplier_lot) + (s.status == word(book::LotStatus::accepted) ? "" : ", " + s.status);
    }
    std::string operator()(const record::Filled& s) const {
        return "filled " + amount(0, s.mass) + " of " + s.lot + " into " + s.vessel + ", which now holds " + s.blend;
    }
    std::string operator()(const record::Emptied& s) const { return "emptied " + s.vessel + (s.inspected ? ", inspected" : ""); }
    std::string operator()(const record::Started& s) const { return "started " + s.lot + ", " + s.product; }
    std::string operator()(const record::Used& s) const {
        return "used " + amount(s.pieces, s.mass) + " of " + s.lot + " into " + s.into + (s.already_done ? ", already done" : "");
    }
    std::string operator()(const record::StepDone& s) const { return s.step + (s.again ? " again, " : " done, ") + s.lot; }
    std::string operator()(const record::Finished& s) const {
        return "finished " + s.lot + ", " + amount(s.pieces, s.mass) +
               (s.spoiled > 0 ? ", " + std::to_string(s.spoiled) + " spoiled" : "") + with(": ", s.why);
    }
    std::string operator()(const record::Split& s) const { return "split " + amount(s.pieces, s.mass) + " of " + s.lot + " as " + s.child; }
    std::string operator()(const record::Packed& s) const {
        std::vector<std::string> from;
        for (const auto& part : s.from) from.push_back(part.lot);
        return "packed " + joined(from, ", ") + " as " + s.lot + " under label " + s.label + ", printed code " + s.printed_code;
    }
    std::string operator()(const record::LineFed& s) const { return s.lot + (s.off ? " taken off " : " put on ") + s.line; }
    std::string operator()(const record::CoPacked& s) const {
        return "back from " + s.partner + ": " + amount(s.pieces, s.mass) + " of " + s.product + " as " + s.lot + ", made of " +
               (s.possible ? "any of " : "") + joined(s.from, ", ");
    }
    std::string operator()(const record::CultureRenewed& s) const { return s.lot + " counts as a new culture: " + s.why; }
    std::string operator()(const record::ClockStarted& s) const { return s.clock + " " + (s.another ? "another of " : "") + s.lot; }
    std::string operator()(const record::Stored& s) const { return "moved " + s.lot + " to " + s.place; }
    std::string operator()(const record::MovedOut& s) const {
        return s.way + ": " + amount(s.pieces, s.mass) + " of " + (s.lot.empty() ? "any lot of " + s.product : s.lot) +
               with(" to ", s.partner) + with(" on pallet ", s.sscc) + with(", round ", s.round);
    }
    std::string operator()(const record::Returned& s) const {
        return "returned " + amount(s.pieces, s.mass) + " of " + s.lot + " from " + (s.partner.empty() ? s.way : s.partner);
    }
    std::string operator()(const record::Counted& s) const {
        return "counted " + (s.pieces ? std::to_string(*s.pieces) + " pieces " : std::string()) + (s.mass ? to_text(*s.mass) + " " : "") +
               "of " + s.lot;
    }
    std::string operator()(const record::ReadingTaken& s) const {
        return s.point + " " + to_text(s.value) + " of " + s.subject + with(", ", s.unit) + with(", with ", s.instrument) +
               with(", slip ", s.slip);
    }
    std::string operator()(const record::SeriesTaken& s) const { return s.point + " of " + s.subject + ", logger file " + s.file; }
    std::string operator()(const record::Inspected& s) const {
        return s.point + (s.passed ? " yes" : " no") + " of " + s.subject + with(", ", s.unit) + with(", slip ", s.slip);
    }
    std::string operator()(const record::Calibrated& s) const {
        return "calibrated " + s.instrument + with(" by ", s.method) + (s.passed ? ": passed" : ": failed") + with(", ", s.note);
    }
    std::string operator()(const record::ServiceChanged& s) const {
        return s.instrument + (s.in_service ? " in service" : " out of service");
    }
    std::string operator()(const record::Outage& s) const {
        return "outage of " + to_text(s.until - s.from) + ", " + (s.places.empty() ? "the whole house" : joined(s.places, ", ")) + ": " +
               s.why;
    }
    std::string operator()(const record::Cleaned& s) const { return "cleaned " + s.subject + with(", ", s.how); }
    std::string operator()(const record::LabelChecked& s) const {
        return "label " + s.label + " read on " + s.line + " at the " + s.moment + with(", code ", s.printed_code) +
               (s.date ? ", date " + to_text(*s.date) : "") + with(", reel ", s.reel);
    }
    std::string operator()(const record::LabelsCounted& s) const {
        return "labels " + s.label + " on " + s.line + ": " + std::to_string(s.issued) + " issued, " + std::to_string(s.applied) +
               " applied, " + std::to_string(s.spoiled) + " spoiled, " + std::to_string(s.returned) + " returned";
    }
    std::string operator()(const record::Held& s) const { return "held " + joined(s.lots, ", ") + ": " + s.why; }
    std::string operator()(const record::Released& s) const { return "released " + joined(s.lots, ", ") + ": " + s.why; }
    std::string operator()(const record::Acted& s) const {
        return "action for " + std::to_string(s.finding.anchor) + ":" + s.finding.point + ":" + std::to_string(s.finding.ord) +
               with(", ", s.disposition);
    }
    std::string operator()(const record::Reviewed& s) const { return "reviewed " + s.what; }
    std::string operator()(const record::Sealed& s) const { return "sealed " + s.head + ", given to " + s.given_to; }
    std::string operator()(const record::RecallOpened& s) const {
        return "opened " + s.recall + ": " + s.hazard + ", " + std::to_string(s.snapshot.size()) +
               (s.snapshot.size() == 1 ? " lot" : " lots") + ", " + std::to_string(s.deliveries.size()) +
               (s.deliveries.size() == 1 ? " delivery" : " deliveries");
    }
    std::string operator()(const record::RecallDecided& s) const {
        return s.recall + " decided" + with(": ", s.decision) + with(", class ", s.grade) + with(", left out ", joined(s.out, ", "));
    }
    std::string operator()(const record::RecallWidened& s) const {
        std::vector<std::string> codes = s.back;
        for (const auto& one : s.lots) codes.push_back(one.lot);
        return s.recall + " now covers " + joined(codes, ", ");
    }
    std::string operator()(const record::Contacted& s) const {
        return (s.recall.empty() ? "call list: " : s.recall + ": ") + s.partner + (s.reached ? " reached" : " not reached") +
               with(", ", s.person) + with(", ", s.how) + (s.check ? ", effectiveness check" : "");
    }
    std::string operator()(const record::RecallTold& s) const {
        return s.recall + ": " + s.whom + " told" + with(", ", s.name) + with(", ", s.how);
    }
    std::string operator()(const record::RecallCounted& s) const {
        return s.recall + ": " + s.what + " " + (s.pieces == 0 && !s.mass ? "0 pieces" : amount(s.pieces, s.mass)) + " of " + s.code +
               with(" at ", s.partner.empty() ? s.way : s.partner);
    }
    std::string operator()(const record::RecallClosed& s) const { return "closed " + s.recall + with(": ", s.why); }
    std::string operator()(const record::Voided& s) const {
        return (s.undo ? "took back entry " : "voided entry ") + std::to_string(s.target) + with(": ", s.why);
    }
    std::string operator()(const record::Countersigned& s) const {
        std::vector<std::string> entries;
        for (const Seq entry : s.entries) entries.push_back(std::to_string(entry));
        return (s.refused ? "refused entry " : "countersigned entry ") + joined(entries, ", ") + (s.alone ? ", alone" : "") +
               with(": ", s.why);
    }
};

// What the gate would let into the batch, first expired first.
std::vector<std::string> lots_to_use(fold::Ledger& ledger, const std::string& item, book::LotId into, const Receipt& receipt) {
    const Instant at = receipt.happened;
    std::vector<std::tuple<book::Int, book::Int, std::string>> found;  // until when it may be used, since when it is there, its code
    for (const auto& lot : ledger.rows().lots_of_item(item)) {
        const auto stock = ledger.rows().stock(lot.id);
        const bool there = lot.kind == LotKind::supply || (stock && fold::is_on_hand(*stock));
        if (!there || lot.happened > at.ms || lot.kind == LotKind::pack) continue;
        if (fold::kept_by(ledger, {fold::act_of_use(lot), lot.id, into}, at, receipt.written)) continue;
        const auto ends = fold::ends_of_use(ledger, lot, at);
        found.emplace_back(ends.empty() ? fold::for_ever : ends.front().until_ms, lot.happened,
                           lot.kind == LotKind::blend ? lot.vessel : lot.code);
    }
    std::sort(found.begin(), found.end());
    std::vector<std::string> codes;
    for (const auto& [until, since, code] : found) {
        if (std::find(codes.begin(), codes.end(), code) == codes.end()) codes.push_back(code);
    }
    const auto governing = ledger.plan_at(at);
    const auto* material = governing.plan->material(item);
    if (codes.empty() && material && material->supply) codes.push_back(item);  // its first use makes this month's lot
    constexpr std::size_t most_offered = 3;
    if (codes.size() > most_offered) codes.resize(most_offered);
    return codes;
}

// What was checked, and at which point of the plan: of every kind that names a point.
struct Checked {
    std::string subject, point;
};
template <class S> Checked check_in(const S& s) {
    if constexpr (requires {
                      s.point;
                      s.subject;
                  }) {
        return {s.subject, s.point};
    } else if constexpr (requires { s.point; }) {
        return {s.line, s.point};
    } else {
        return {};
    }
}

// As the fold told the judge; gathered where the entry folded nothing (one told again for its token).
judge::Facts facts_of(fold::Ledger& ledger, const std::map<book::LotId, judge::Facts>& judged, book::LotId lot, const Receipt& receipt) {
    if (const auto found = judged.find(lot); found != judged.end()) return found->second;
    fold::Derivation derivation{ledger, receipt.seq, receipt.written};
    return gather(derivation, lot).facts;
}

void add_next(const std::string& line, Receipt& receipt) {
    if (std::find(receipt.next.begin(), receipt.next.end(), line) == receipt.next.end()) receipt.next.push_back(line);
}

// What the points of a step still want after its end, or now that it goes on.
void add_step_state(fold::Ledger& ledger, const std::map<book::LotId, judge::Facts>& judged, const record::StepDone& says,
                    Receipt& receipt) {
    const auto lot = ledger.rows().lot(says.lot);
    if (!lot) return;
    const auto facts = facts_of(ledger, judged, lot->id, receipt);
    const auto plans = fold::plans_of_lot(ledger, *lot);
    const auto governing = ledger.plan_version(lot->plan_seq);
    for (const auto* own : governing.plan->points_of_product(lot->item)) {
        if (own->step != says.step || own->read_on <= Duration{}) continue;
        for (const auto* point : fold::points_judging(ledger, plans, own->id, facts)) {
            const auto at_point = judge::judge_point(*point, facts);
            const bool open = at_point.standing == judge::Standing::open || at_point.part_open;
            if (open && !at_point.next.empty()) add_next(point->id + ": " + at_point.next, receipt);
        }
    }
}

}  // namespace

std::string summary(const record::Statement& says) { return std::visit(Summary{}, says); }

ToldFinding told(fold::Ledger& ledger, const book::Finding& finding) {
    ToldFinding out;
    out.finding = finding;
    out.point_name = finding.point;
    out.lot_code = finding.place;
    out.actions = ledger.rows().actions(finding.anchor, finding.point, finding.ord);
    if (finding.lot) {
        if (const auto lot = ledger.rows().lot(*finding.lot)) out.lot_code = lot->code;
    }
    const auto governing = ledger.plan_version(finding.plan_seq);
    if (const auto* point = governing.plan->point(finding.point)) {
        out.point_name = point->name.empty() ? point->id : point->name;
        out.product_action = point->product_action;
        out.process_action = point->process_action;
    }
    if (finding.waits > 0) out.waits = ledger.rows().waits(finding.anchor, finding.point, finding.ord);
    const auto cleared_by = finding.cleared_by ? ledger.rows().fact(*finding.cleared_by) : std::nullopt;
    out.withdrawn = cleared_by && cleared_by->kind == record::Voided::kind.name;
    return out;
}

void add_waiting(fold::Ledger& ledger, Receipt& receipt) {
    const auto row = ledger.rows().waiting(receipt.seq);
    const bool waits = row ? !row->decided_by : !ledger.rows().waiting_for(receipt.seq).empty();
    if (!waits) return;
    const std::string entry = std::to_string(receipt.seq);
    receipt.next.push_back("entry " + entry + " waits for another person, until then the worse counts: peelbook countersign " + entry);
}

void add_weigh_sheet(fold::Ledger& ledger, const record::Started& says, Seq seq, Receipt& receipt) {
    const auto governing = ledger.plan_at(receipt.happened);
    const auto* product = governing.plan->product(says.product);
    if (!product || seq == 0) return;
    const auto sheet = fold::weigh_sheet(*product, says);
    if (!sheet) return;
    for (const auto& item : sheet->items) {
        receipt.weigh_sheet.push_back({item.item, governing.plan->name_of(item.item), item.mass_mg, item.micro_percent,
                                       lots_to_use(ledger, item.item, seq, receipt)});
    }
    receipt.pieces_expected = sheet->pieces;
    receipt.water = water_advice(ledger, says, receipt.happened);
}

void add_series(fold::Ledger& ledger, Seq seq, Receipt& receipt) {
    for (auto& line : series_lines(ledger, seq)) receipt.said.push_back(std::move(line));
    const auto series = ledger.rows().series(seq);
    if (!series || series->lot) return;
    constexpr std::size_t most_told = 8;
    std::stable_sort(receipt.findings.begin(), receipt.findings.end(),
                     [](const auto& a, const auto& b) { return a.finding.verdict > b.finding.verdict; });
    if (receipt.findings.size() <= most_told) return;
    receipt.next.push_back(std::to_string(receipt.findings.size() - most_told) + " more findings of this file stand in the book");
    receipt.findings.resize(most_told);
}

void add_point_state(fold::Ledger& ledger, const std::map<book::LotId, judge::Facts>& judged, const record::Statement& says,
                     Receipt& receipt) {
    if (const auto* s = std::get_if<record::Used>(&says)) {
        if (auto line = weighed_line(ledger, *s, receipt.happened)) receipt.next.push_back(std::move(*line));
    }
    const auto* finished = std::get_if<record::Finished>(&says);
    const auto* clock = std::get_if<record::ClockStarted>(&says);
    if (const auto of = ledger.rows().lot(finished ? finished->lot : clock ? clock->lot : "")) {
        if (auto line = fold::told_of_use(ledger, *of, receipt.happened); !line.empty()) receipt.next.push_back(std::move(line));
    }
    if (const auto* step = std::get_if<record::StepDone>(&says)) add_step_state(ledger, judged, *step, receipt);
    const auto [subject, point_id] = std::visit([](const auto& s) { return check_in(s); }, says);
    if (subject.empty()) return;
    const auto lot = ledger.rows().lot(subject);
    auto all = lot ? ledger.rows().findings(lot->id) : ledger.rows().findings_at(receipt.seq);
    if (!lot && std::holds_alternative<record::SeriesTaken>(says)) {  // a year of days is no answer: the first stands for them
        if (!receipt.findings.empty()) return;
        if (all.size() > 1) receipt.said.push_back("within on each of its " + std::to_string(all.size()) + " production days; the first:");
        if (!all.empty()) all.resize(1);
    }
    const auto already = [&](const book::Finding& f) {
        return std::any_of(receipt.findings.begin(), receipt.findings.end(), [&](const auto& t) {
            return t.finding.anchor == f.anchor && t.finding.point == f.point && t.finding.ord == f.ord;
        });
    };
    for (const auto& f : all) {
        if (f.point == point_id && !already(f)) receipt.findings.push_back(told(ledger, f));
    }
    if (!lot) return;
    const auto governing = ledger.plan_version(lot->plan_seq);
    const auto* point = governing.plan->point(point_id);
    if (!point) return;
    const auto facts = facts_of(ledger, judged, lot->id, receipt);
    for (const auto* judging : fold::points_judging(ledger, fold::plans_of_lot(ledger, *lot), point_id, facts)) {
        const auto at_point = judge::judge_point(*judging, facts);
        if (!at_point.next.empty()) add_next(point_id + ": " + at_point.next, receipt);
    }
    receipt.outlook = outlook_of(ledger, *lot, *point, facts);
    for (const auto& one : receipt.outlook) receipt.next.push_back(outlook_line(one));
}

}  // namespace peelbook::site
