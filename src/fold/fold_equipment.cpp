// A piece of equipment: what ran on it, was cleaned and verified there, and which lots met residue.
// Everything from the last run before the change on is judged again; what lay there before that run is taken
// from its rows.
#include <algorithm>
#include <limits>
#include <set>

#include "fold/findings.h"
#include "fold/fold.h"
#include "judge/changeover.h"

namespace peelbook::fold {
namespace {

book::AllergenLevel level_of(const judge::AllergenThere& there) {
    return there.sure ? book::AllergenLevel::contains : book::AllergenLevel::may_contain;
}

judge::ResidueSpan span_of(const book::Residue& row) {
    return {{row.allergen, row.level == book::AllergenLevel::contains}, row.lot, {row.from_ms}, {}, 0};
}

book::Residue row_of(const std::string& equipment, const judge::ResidueSpan& span) {
    book::Residue row;
    row.equipment = equipment;
    row.allergen = span.allergen.id;
    row.from_ms = span.from.ms;
    row.level = level_of(span.allergen);
    row.lot = span.lot;
    if (span.until) {
        row.until_ms = span.until->ms;
        row.cleaned_by = span.cleaned_by;
    }
    return row;
}

std::vector<judge::EquipmentRun> runs_from(Ledger& ledger, const std::string& equipment, book::Int from) {
    std::vector<judge::EquipmentRun> out;
    for (const auto& run : ledger.rows().runs_on(equipment, from, for_ever)) {
        judge::EquipmentRun one{run.lot, {run.at}, {}};
        for (const auto& a : ledger.rows().allergens(run.lot)) {
            if (book::is_brought(a.level)) one.brings.push_back({a.allergen, a.level == book::AllergenLevel::contains});
        }
        out.push_back(std::move(one));
    }
    return out;
}

struct Done {
    std::vector<judge::EquipmentCleaning> cleanings;
    std::vector<judge::EquipmentCheck> checks;
};

void add_cleaning(Ledger& ledger, const Effective& e, const record::Cleaned& says, Done& done) {
    const auto governing = ledger.plan_at(e.happened);
    const auto* cleaning = governing.plan->cleaning(says.how);
    if (!cleaning) return;
    judge::EquipmentCleaning one{e.seq, e.happened, cleaning->clears, {}};
    for (const auto& id : cleaning->verify) {
        const auto* point = governing.plan->point(id);
        if (point && point->place == says.subject) one.points.push_back(id);
    }
    if (!one.points.empty()) done.cleanings.push_back(std::move(one));
}

Done done_after(Ledger& ledger, const std::string& equipment, book::Int after) {
    Done done;
    for (const auto& e : ledger.effective_touching(book::SubjectKind::equipment, equipment, Instant{after + 1})) {
        if (e.voided_by) continue;
        if (const auto* cleaned = std::get_if<record::Cleaned>(&e.says)) {
            add_cleaning(ledger, e, *cleaned, done);
            continue;
        }
        std::string point;
        if (const auto* reading = std::get_if<record::ReadingTaken>(&e.says)) point = reading->point;
        if (const auto* inspected = std::get_if<record::Inspected>(&e.says)) point = inspected->point;
        const auto finding = ledger.rows().finding(e.seq, point, 0);
        done.checks.push_back({e.happened, point, finding && finding->verdict == Verdict::within});
    }
    return done;
}

}  // namespace

Subjects fold_equipment(Derivation& d, const std::string& equipment, Instant from) {
    if (!d.ledger.plan_at(from).plan->piece(equipment)) return {};  // a line: its runs only tell who was checked there
    auto& rows = d.ledger.rows();
    const auto before = rows.run_before(equipment, from.ms);
    const book::Int start = before ? before->at : std::numeric_limits<book::Int>::min() / 2;
    std::vector<judge::ResidueSpan> lying;
    for (const auto& row : rows.residues_after(equipment, start)) {
        if (row.from_ms < start) lying.push_back(span_of(row));
    }
    const auto done = done_after(d.ledger, equipment, start);
    const auto judged = judge::judge_changeovers(std::move(lying), runs_from(d.ledger, equipment, start), done.cleanings, done.checks);
    std::vector<book::Residue> residues;
    for (const auto& span : judged.spans) residues.push_back(row_of(equipment, span));
    std::vector<book::CarryOver> now;
    for (const auto& met : judged.met) {
        const auto& residue = met.residue;
        now.push_back({equipment, met.at.ms, met.lot, residue.allergen.id, level_of(residue.allergen), residue.lot, residue.from.ms});
    }
    const auto was = rows.carry_over_on(equipment, start);
    rows.set_residues_after(equipment, start, residues);
    rows.set_carry_over_on(equipment, start, now);
    std::set<book::LotId> changed;
    const auto add_missing = [&](const std::vector<book::CarryOver>& list, const std::vector<book::CarryOver>& other) {
        for (const auto& row : list) {
            if (std::find(other.begin(), other.end(), row) == other.end()) changed.insert(row.lot);
        }
    };
    add_missing(was, now);
    add_missing(now, was);
    Subjects dirtied;
    for (const auto lot : changed) {
        dirtied.push_back(Subject::of_lot(Rank::carried, lot));
        dirtied.push_back(Subject::of_lot(Rank::findings, lot));
    }
    return dirtied;
}

}  // namespace peelbook::fold
