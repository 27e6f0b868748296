// What the judge says of a lot, from all that the book knows of it by now, and what it owes next.
#include <algorithm>
#include <map>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/dates.h"
#include "fold/findings.h"
#include "fold/fold.h"
#include "fold/label.h"
#include "fold/label_readings.h"
#include "fold/lot_racks.h"
#include "fold/owed/opening.h"
#include "fold/owed_lot.h"
#include "fold/weigh_sheet.h"
#include "judge/declaration.h"
#include "judge/judge.h"
#include "plan/boundaries.h"

namespace peelbook::fold {
namespace {

class Findings {
  public:
    Findings(const LotFacts& lot, const plan::Plan& plan) : lot_(lot), plan_(plan) {}

    void judge_points(Ledger& ledger);
    void judge_items(Ledger& ledger);
    void judge_pieces();
    void judge_label(Ledger& ledger);
    void judge_declaration();
    void judge_changeover(Ledger& ledger);
    void judge_label_checks(Ledger& ledger);
    void judge_printed_date(Ledger& ledger);
    void tell_already_done();

    // What was raised stays as it is while its point is open again: begun again is not yet corrected.
    bool stays(const book::Finding& before) const;

    std::vector<book::Finding> rows;
    std::vector<std::vector<Seq>> waits;  // for each of them
    std::vector<book::Unsettled> open;    // critical points that no record shows yet

  private:
    void judge_points_by(Ledger& ledger, const GoverningPlan& by, std::optional<Instant> open_at = {});
    void add(book::Finding one, std::vector<Seq> entries);
    std::string broken_of_newer(Ledger& ledger, const plan::Point& point, const judge::Finding& finding) const;
    std::vector<judge::Finding> all_voided(const plan::Point& point) const;
    bool measured_on_pack(const plan::Point& point) const;
    judge::Judged proven_before_split(const plan::Point& point) const;
    bool proven_on_the_whole(const plan::Point& point, const judge::Judged& judged) const;
    book::Finding row(Seq anchor, std::string_view point, const judge::Finding& f, plan::Grade grade, std::string limit) const;

    const LotFacts& lot_;
    const plan::Plan& plan_;
    std::set<std::string> unshown_;  // points that one of its plans finds open
    std::set<std::string> open_;     // points that still take readings after their step's end
};

book::Finding Findings::row(Seq anchor, std::string_view point, const judge::Finding& f, plan::Grade grade, std::string limit) const {
    book::Finding out;
    out.anchor = anchor;
    out.point = std::string(point);
    out.ord = f.ord;
    out.lot = lot_.row.id;
    out.unit = f.unit;
    out.plan_seq = lot_.row.plan_seq;
    out.grade = grade;
    out.verdict = f.verdict;
    out.happened = f.happened.ms;
    out.measured = f.measured;
    out.figure = f.figure;
    out.limit_text = std::move(limit);
    out.detail = f.detail;
    out.corrected = f.corrected;
    out.day = lot_.row.day;
    out.week = lot_.row.week;
    return out;
}

// A point whose step has passed and whose every reading was voided is not judged, and that is not within: it must stop a packing
// and show in the week, so it stands as unproven.
std::vector<judge::Finding> Findings::all_voided(const plan::Point& point) const {
    const auto passed = lot_.facts.passed_at(point.step);
    if (!passed) return {};
    judge::Finding f;
    f.point = point.id;
    f.verdict = judge::Verdict::unproven;
    f.happened = *passed;
    f.measured = "not judged";
    f.detail = "Every reading was voided.";
    return {f};
}

// A pack is judged by the label it is under when its own content was measured; what is owed is owed by its batch.
bool Findings::measured_on_pack(const plan::Point& point) const {
    const auto& readings = lot_.facts.readings;
    return std::holds_alternative<plan::MarketLimit>(point.limit) &&
           std::any_of(readings.begin(), readings.end(), [&](const auto& r) { return r.point == point.id && !r.voided; });
}

bool shows_deviation(const judge::Judged& judged) {
    return std::any_of(judged.findings.begin(), judged.findings.end(), [](const auto& f) { return f.verdict == Verdict::deviation; });
}

// A deviation that was shown of a whole batch stays its own when it is put on racks, and so that of each of them (rule 50).
judge::Judged Findings::proven_before_split(const plan::Point& point) const {
    auto facts = lot_.facts;
    const auto later = [&](const auto& fact) { return fact.at > *lot_.first_split; };
    std::erase_if(facts.readings, later);
    std::erase_if(facts.inspections, later);
    auto judged = judge::judge_point(point, facts);
    if (!shows_deviation(judged)) return {};
    std::erase_if(judged.findings, [](const auto& f) { return f.verdict != Verdict::deviation; });
    return judged;
}

// Then the rack has no finding of its own: it is kept by that of what it came from.
bool Findings::proven_on_the_whole(const plan::Point& point, const judge::Judged& judged) const {
    const auto own = [&](const auto& fact) { return fact.point == point.id && fact.at.ms > lot_.row.happened; };
    const auto& facts = lot_.facts;
    return shows_deviation(judged) && std::none_of(facts.readings.begin(), facts.readings.end(), own) &&
           std::none_of(facts.inspections.begin(), facts.inspections.end(), own);
}

// Of several plans the hardest counts: what is open by one is not within by another.
void Findings::judge_points(Ledger& ledger) {
    judge_points_by(ledger, ledger.plan_version(lot_.row.plan_seq));
    if (lot_.plans.also.empty() && lot_.plans.for_hazard.empty()) return;
    for (const Seq also : lot_.plans.also) judge_points_by(ledger, ledger.plan_version(also));
    for (const auto& version : lot_.plans.for_hazard) judge_points_by(ledger, ledger.plan_version(version.seq), Instant{version.from_ms});
    for (std::size_t i = rows.size(); i-- > 0;) {
        if (rows[i].verdict > Verdict::within || !unshown_.contains(rows[i].point)) continue;
        rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(i));
        waits.erase(waits.begin() + static_cast<std::ptrdiff_t>(i));
    }
}

void Findings::add(book::Finding one, std::vector<Seq> entries) {
    const auto same =
        std::find_if(rows.begin(), rows.end(), [&](const book::Finding& f) { return f.point == one.point && f.ord == one.ord; });
    if (same == rows.end()) {
        rows.push_back(std::move(one));
        waits.push_back(std::move(entries));
    } else if (one.verdict > same->verdict) {
        waits[static_cast<std::size_t>(same - rows.begin())] = std::move(entries);
        *same = std::move(one);
    }
}

// What was found while a newer plan was in force stands by its own, and it is said what the newer one would make of it.
std::string Findings::broken_of_newer(Ledger& ledger, const plan::Point& point, const judge::Finding& finding) const {
    if (finding.verdict != Verdict::within) return "";
    const auto newer = newer_plan(ledger, lot_.plans, finding.happened);
    if (!newer) return "";
    const auto governing = ledger.plan_version(newer->seq);
    const auto* stricter = governing.plan->point(point.id);
    const auto here = [&](const auto& items) { return std::find(items.begin(), items.end(), lot_.row.item) != items.end(); };
    if (!stricter || stricter->limit_text == point.limit_text || !(here(stricter->products) || here(stricter->materials))) return "";
    const auto judged = judge::judge_point(*stricter, lot_.facts);
    const auto& found = judged.findings;
    const auto by_newer = std::find_if(found.begin(), found.end(), [&](const auto& f) { return f.unit == finding.unit; });
    const bool broken = by_newer == found.end() || by_newer->verdict == Verdict::deviation;  // none: it wants further work first
    return broken ? to_text(ledger.zone(), {newer->from_ms}) + ": " + stricter->limit_text : "";
}

// With `open_at` only what was open then.
void Findings::judge_points_by(Ledger& ledger, const GoverningPlan& by, std::optional<Instant> open_at) {
    const LotKind kind = lot_.row.kind;
    const bool received = kind == LotKind::received;
    if (!received && !is_goods(kind)) return;
    const auto points = received ? by.plan->points_of_material(lot_.row.item) : by.plan->points_of_product(lot_.row.item);
    for (const auto* point : points) {
        const bool here = kind == LotKind::pack ? measured_on_pack(*point) : judged_here(lot_, *point);
        if ((!here && !lot_.first_split) || (open_at && !was_open(ledger, lot_.plans, *point, lot_.facts, *open_at))) continue;
        auto judged = here ? judge::judge_point(*point, lot_.facts) : proven_before_split(*point);
        if (!here && judged.findings.empty()) continue;
        if (judged.standing == judge::Standing::not_judged && judged.owed) judged.findings = all_voided(*point);
        const bool shown = !judged.findings.empty() && !judged.part_open;
        if (kind == LotKind::rack && proven_on_the_whole(*point, judged)) judged.findings.clear();
        if (judged.owed && !shown) unshown_.insert(point->id);
        if (here && point->grade == plan::Grade::critical && judged.owed && !shown) {
            const book::Unsettled unread{lot_.row.id, lot_.row.id, lot_.row.id, point->id, book::open_ord, {}, {}};
            if (std::find(open.begin(), open.end(), unread) == open.end()) open.push_back(unread);
        }
        if (point->read_on > Duration{} && (judged.part_open || judged.standing == judge::Standing::open)) open_.insert(point->id);
        for (const auto& f : judged.findings) {
            auto one = row(lot_.row.id, point->id, f, point->grade, plan::limit_text_for(*point, lot_.facts.product, lot_.facts.label));
            one.plan_seq = by.seq;
            one.breaks_newer = broken_of_newer(ledger, *point, f);
            add(std::move(one), f.waits);
        }
    }
}

void Findings::judge_items(Ledger& ledger) {
    const auto* product = plan_.product(lot_.row.item);
    if (lot_.row.kind != LotKind::batch || !lot_.facts.finished || !lot_.size || !product) return;
    auto sheet = weigh_sheet(*product, *lot_.size);
    if (!sheet) return;
    std::map<std::string, std::int64_t> used;
    for (const auto& use : lot_.uses) {
        if (use.struck_by) continue;
        if (auto from = ledger.rows().lot(use.from_lot)) used[from->item] += use.mass_mg.value_or(0);
    }
    std::int64_t ord = 0;
    for (const auto& item : sheet->items) {
        judge::ItemUse one{item.item, plan_.name_of(item.item), item.mass_mg, used[item.item], item.optional};
        auto f = judge::judge_item(one, product->tolerance_milli_percent, *lot_.facts.finished);
        if (f) {
            f->ord = ord;
            rows.push_back(row(lot_.row.id, judge::missing_use_point, *f, plan::Grade::operating,
                               "each item of the formula within the plan's tolerance"));
            waits.emplace_back();
        }
        ++ord;
    }
}

// What came out against what the dough makes.
void Findings::judge_pieces() {
    const auto* product = plan_.product(lot_.row.item);
    if (lot_.row.kind != LotKind::batch || !lot_.facts.finished || !lot_.size || !product || !lot_.row.made_pieces) return;
    const auto sheet = weigh_sheet(*product, *lot_.size);
    if (!sheet) return;
    const auto tolerance = product->yield_tolerance_milli_percent;
    const auto f = judge::judge_yield(*lot_.row.made_pieces - lot_.spoiled, lot_.spoiled, sheet->pieces, tolerance, *lot_.facts.finished);
    if (!f) return;
    rows.push_back(row(lot_.row.id, judge::yield_point, *f, plan::Grade::operating, judge::yield_limit_text(sheet->pieces, tolerance)));
    waits.emplace_back();
}

// What the pack declares against what is in it. "Not stated" is unproven, not free.
void Findings::judge_label(Ledger& ledger) {
    if (lot_.row.kind != LotKind::pack) return;
    const auto* label = plan_.label(lot_.row.label);
    if (!label) return;
    const auto gaps = label_gaps(ledger, plan_, *label, lot_.row.item, {lot_.row.id});
    const bool unknown = gaps.unknown && !decided_without_declaration(ledger, {lot_.row.id});
    std::vector<std::string> undeclared;
    for (const auto& [allergen, from] : gaps.undeclared) undeclared.push_back(allergen);
    judge::Finding f;
    f.happened = {lot_.row.happened};
    f.verdict = !undeclared.empty() ? judge::Verdict::deviation : unknown ? judge::Verdict::unproven : judge::Verdict::within;
    f.measured = !undeclared.empty() ? "not declared: " + joined(undeclared, ", ")
                 : unknown           ? "a lot in it declared nothing"
                                     : "all allergens declared";
    f.detail = "label " + label->id + " declares " + (label->declares.empty() ? std::string("none") : joined(label->declares, ", "));
    rows.push_back(row(lot_.row.id, judge::label_point, f, plan::Grade::critical,
                       "the label declares every allergen of the lots used and of the formula"));
    waits.emplace_back();
}

// What came in against what its material is specified with, before any of it reaches a dough.
void Findings::judge_declaration() {
    if (lot_.row.kind != LotKind::received || !lot_.declared) return;
    const auto* material = plan_.material(lot_.row.item);
    if (!material || material->packaging) return;
    const auto& declared = *lot_.declared;
    const auto judged =
        judge::judge_declaration(*material, {declared.stated, declared.contains, declared.may_contain}, Instant{lot_.row.happened});
    rows.push_back(
        row(lot_.row.id, judge::declaration_point, judged.finding, judged.grade, "the lot declares what its material is specified with"));
    waits.emplace_back();
}

// Residue that the lot met on equipment, against what the labels it may get declare (rules 37 and 40).
void Findings::judge_changeover(Ledger& ledger) {
    const auto met = ledger.rows().carry_over(lot_.row.id);
    if (met.empty()) return;
    const auto labels = labels_for(plan_, lot_.row);
    judge::Finding f;
    f.happened = Instant{met.front().at};
    std::vector<std::string> undeclared, told;
    for (const auto& one : met) {
        const auto from = ledger.rows().lot(one.from_lot);
        told.push_back(one.allergen + (one.level == book::AllergenLevel::contains ? "" : " (possible)") + " on " + one.equipment +
                       " from " + (from ? from->code : "") + " since " + to_text(ledger.zone(), {one.since}));
        if (declared_by_all(labels, one.allergen)) continue;
        undeclared.push_back(one.allergen + " on " + one.equipment);
        const bool sure = one.level == book::AllergenLevel::contains;
        f.verdict = std::max(f.verdict, sure ? judge::Verdict::deviation : judge::Verdict::unproven);
    }
    f.measured = undeclared.empty() ? "residue is declared" : "residue not declared: " + joined(undeclared, ", ");
    f.detail = "Not cleared by a verified cleaning before this ran: " + joined(told, "; ") + ".";
    rows.push_back(row(lot_.row.id, judge::changeover_point, f, plan::Grade::critical,
                       "residue of what ran before is declared, or cleared by a verified cleaning"));
    waits.emplace_back();
}

// What the packer read from the label on the line, against what was packed there.
void Findings::judge_label_checks(Ledger& ledger) {
    if (lot_.row.kind != LotKind::pack) return;
    for (const auto& run : lot_.runs) {
        for (const auto* point : plan_.points_of_place(run.equipment)) {
            const auto* limit = std::get_if<plan::LabelLimit>(&point->limit);
            if (!limit) continue;
            const judge::PackFact pack{Instant{lot_.row.happened}, lot_.row.label, lot_.row.printed_code, lot_.row.date};
            const auto readings = label_readings(ledger, run.equipment, point->id, Instant{lot_.row.happened});
            for (const auto& f : judge::judge_label_readings(*point, *limit, pack, readings)) {
                rows.push_back(row(lot_.row.id, point->id, f, point->grade, point->limit_text));
                waits.emplace_back();
            }
        }
    }
}

// What became known after the packing may show that the packs bear too late a date.
void Findings::judge_printed_date(Ledger& ledger) {
    const auto& pack = lot_.row;
    const auto at_packing = [&](const auto& done) { return done.seq == pack.id; };  // told already
    if (pack.kind != LotKind::pack || pack.date.empty() || std::any_of(lot_.already_done.begin(), lot_.already_done.end(), at_packing))
        return;
    const auto latest = latest_date(ledger, pack, Instant{pack.happened});
    if (!latest || pack.date <= to_text(latest->date)) return;
    judge::Finding f;
    f.happened = Instant{pack.happened};
    f.verdict = judge::Verdict::deviation;
    f.measured = in_words(pack.date_kind) + " " + pack.date;
    f.detail = "Too late by what is known now: " + latest->why + ".";
    const bool use_by = pack.date_kind == DateKind::use_by || latest->kind == DateKind::use_by;
    rows.push_back(row(pack.id, judge::printed_date_point, f, use_by ? plan::Grade::critical : plan::Grade::quality,
                       "at the latest " + to_text(latest->date)));
    waits.emplace_back();
}

void Findings::tell_already_done() {
    for (const auto& done : lot_.already_done) {
        judge::Finding f;
        f.happened = done.at;
        f.ord = done.ord;
        f.verdict = judge::Verdict::deviation;
        f.measured = "already done";
        f.detail = done.what;
        rows.push_back(row(done.seq, judge::already_done_point, f, plan::Grade::critical, "what the book refuses is not done"));
        waits.emplace_back();
    }
}

bool Findings::stays(const book::Finding& before) const {
    const auto same = [&](const book::Finding& f) { return f.point == before.point && f.ord == before.ord; };
    return before.raised > Verdict::within && open_.contains(before.point) && std::none_of(rows.begin(), rows.end(), same);
}

// The findings that hang on this lot: its own, and what was already done to it (anchored at the entry).
void write_findings(Derivation& d, const LotFacts& lot) {
    Findings findings(lot, *d.ledger.plan_version(lot.row.plan_seq).plan);
    if (!stood_before_the_plan(d.ledger, lot.row)) {
        findings.judge_points(d.ledger);
        findings.judge_items(d.ledger);
    }
    findings.judge_pieces();
    findings.judge_label(d.ledger);
    findings.judge_declaration();
    findings.judge_changeover(d.ledger);
    findings.judge_label_checks(d.ledger);
    findings.judge_printed_date(d.ledger);
    findings.tell_already_done();
    auto before = d.ledger.rows().findings(lot.row.id);
    // The first is stock's own.
    const auto* says = d.entry ? std::get_if<record::Statement>(&d.entry->payload) : nullptr;
    const bool voids = says && std::holds_alternative<record::Voided>(*says);  // what it alone made missing is withdrawn
    std::erase_if(before, [&](const auto& f) {
        return f.point == judge::negative_stock_point || (findings.stays(f) && !(voids && f.verdict == Verdict::missing));
    });
    merge_findings(d, before, findings.rows, findings.waits);
    d.open_points.insert_or_assign(lot.row.id, std::move(findings.open));
}

// Whether the points that keep the lot from going on may be others now.
bool may_be_unsettled(Derivation& d, book::LotId lot, std::size_t changed_before) {
    if (d.changed.size() != changed_before || d.rewired.contains(lot)) return true;
    auto standing = d.ledger.rows().unsettled(lot);
    std::erase_if(standing, [&](const auto& row) { return row.source != lot || row.verdict; });
    return standing != d.open_points.at(lot);
}

}  // namespace

Subjects fold_findings(Derivation& d, book::LotId id) {
    auto known = d.gathered.extract(id);
    if (!known && !d.ledger.rows().lot(id)) return {};  // its maker was voided
    LotFacts lot = known ? std::move(known.mapped()) : gather(d, id);
    weigh(d.ledger, lot);
    const auto changed_before = d.changed.size();
    write_findings(d, lot);
    owe_next(d, lot);
    d.judged.insert_or_assign(id, std::move(lot.facts));
    if (!may_be_unsettled(d, id, changed_before)) return {};
    return {Subject::of_lot(Rank::unsettled, id)};
}

}  // namespace peelbook::fold
