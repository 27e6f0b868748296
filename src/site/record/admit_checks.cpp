// What people measure and look at: readings, logger files, inspections, calibrations; people and partners too.
#include <algorithm>

#include "base/gs1.h"
#include "base/text.h"
#include "fold/derivation.h"
#include "fold/instrument_state.h"
#include "fold/logger/series.h"
#include "fold/lot_facts.h"
#include "fold/lot_racks.h"
#include "judge/possible.h"
#include "plan/instruments.h"
#include "plan/words.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

struct CheckedSubject {
    std::optional<book::Lot> lot;   // else a place
    fold::GoverningPlan governing;  // that judges it
    const plan::Point* point = nullptr;
};

bool names(const std::vector<std::string>& list, const std::string& id) { return std::find(list.begin(), list.end(), id) != list.end(); }

Result<CheckedSubject> point_of(const Request& r, const std::string& subject, const std::string& point) {
    CheckedSubject out{r.rows().lot(subject), r.governing, nullptr};
    if (out.lot) {
        if (auto checked = not_before_lot(r, *out.lot); !checked) return checked.refusal();
        out.governing = r.ledger.plan_version(out.lot->plan_seq);
    } else if (!r.plan().place(subject)) {
        auto known = r.rows().all_codes(2000);
        for (const auto& place : r.plan().places) known.push_back(place.id);
        return Refusal{"'" + shown(subject) + "'", "a lot in the book or a place of the plan", "check the code", nearest(subject, known)};
    }
    const auto& plan = *out.governing.plan;
    out.point = plan.point(point);
    std::vector<std::string> fit;
    const auto own =
        out.lot ? (out.lot->kind == LotKind::received ? plan.points_of_material(out.lot->item) : plan.points_of_product(out.lot->item))
                : plan.points_of_place(subject);
    for (const auto* one : own) fit.push_back(one->id);
    if (out.point && names(fit, point)) return out;
    auto near = nearest(point, fit);
    return Refusal{"point '" + shown(point) + "' for " + subject,
                   fit.empty() ? "a control point: the plan has none for it" : "one of its control points",
                   fit.empty() ? "add one to the plan and adopt it" : "choose one", near.empty() ? fit : near};
}

Check check_unit(const plan::Point& point, const std::string& unit) {
    if (point.units.empty() || names(point.units, unit)) return {};
    return Refusal{unit.empty() ? "no unit for " + point.id : "unit '" + shown(unit) + "' of " + point.id,
                   "which one was probed: " + joined(point.units, ", "), "add --unit", nearest(unit, point.units)};
}

Check check_instrument(const Request& r, const plan::Plan& plan, const std::string& instrument, Admitted& out, const plan::Point& point) {
    if (instrument.empty()) {
        if (point.instrument_needed) out.notes.push_back("no instrument named: the reading proves nothing for a critical point");
        return {};
    }
    const auto* known = r.plan().instrument(instrument) ? r.plan().instrument(instrument) : plan.instrument(instrument);
    if (known) {
        const std::string why = plan::unfit_because(point, *known);
        if (!why.empty()) out.notes.push_back(instrument + " " + why + ": the reading proves nothing for " + point.id);
        return {};
    }
    std::vector<std::string> ids;
    for (const auto& i : r.plan().instruments) ids.push_back(i.id);
    return known_id("instrument", instrument, ids, "check the name on it").refusal();
}

std::string possible_words(const plan::Point& point) { return plan::range_words(point.possible_least, point.possible_most); }

}  // namespace

Refusal not_possible(const plan::Point& point, const Measure& value, const std::string& how) {
    return {to_text(value) + " for " + point.id,
            "what it can be: " + possible_words(point),
            "type it again; if it really reads so, " + how,
            {}};
}

Result<Admitted> admit_kind(const Request& r, const record::ReadingTaken& s) {
    auto found = point_of(r, s.subject, s.point);
    if (!found) return found.refusal();
    const auto& point = *found->point;
    Admitted out{{}, s, {}};
    if (std::holds_alternative<plan::LossLimit>(point.limit)) {
        return Refusal{"a reading for " + point.id,
                       "nothing: it is reckoned from two weighings, " + point.limit_text,
                       "record these, and finish the batch",
                       {}};
    }
    if (!plan::is_measured(point)) {
        const bool yes_no = std::holds_alternative<plan::YesNoLimit>(point.limit);
        return Refusal{"a reading for " + point.id,
                       yes_no ? "yes or no" : "the ends of the steps it lies between",
                       yes_no ? "record it with: peelbook inspect " + s.subject + " " + point.id + " yes|no"
                              : "record the steps with: peelbook step " + s.subject + " STEP",
                       {}};
    }
    if (!point.dimension && !plan::is_read_in(point, s.value.dimension())) {
        return Refusal{to_text(s.value) + " for " + point.id, "a pH or a water activity", "type it like 5.6pH or 0.93aw", {}};
    }
    if (!plan::is_read_in(point, s.value.dimension())) {
        std::vector<std::string> fits;
        for (const auto unit : symbols_of(*point.dimension)) fits.emplace_back(unit);
        return Refusal{to_text(s.value) + " for " + point.id,
                       "a " + std::string(name_of(*point.dimension)) + (point.measures.empty() ? "" : " (" + point.measures + ")"),
                       "use a unit of: " + joined(fits, ", "),
                       {}};
    }
    if (auto checked = check_unit(point, s.unit); !checked) return checked.refusal();
    if (auto checked = check_instrument(r, *found->governing.plan, s.instrument, out, point); !checked) return checked.refusal();
    if (judge::is_possible(point, s.value)) return out;
    if (!s.sure) return not_possible(point, s.value, r.amending != 0 ? "amend sure=yes with it" : "add --sure");
    out.notes.push_back(to_text(s.value) + " is beyond what " + point.id + " can be, " + possible_words(point) +
                        ": read again; it proves nothing until a second reading agrees");
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::SeriesTaken& given) {
    const auto filled_in = fold::with_logger(r.ledger, given, r.now);
    if (!filled_in) return filled_in.refusal();
    const record::SeriesTaken& s = *filled_in;
    auto found = point_of(r, s.subject, s.point);
    if (!found) return found.refusal();
    Admitted out{{}, s, {}};
    const auto unit = unit_from_symbol(s.value_unit);
    if (!unit || !plan::is_read_in(*found->point, dimension_of(*unit))) {
        return Refusal{"values in '" + shown(s.value_unit) + "' for " + s.point,
                       "a unit of what the point measures",
                       "name the file's unit with --unit-of-values",
                       {}};
    }
    if (auto checked = check_unit(*found->point, s.unit); !checked) return checked.refusal();
    if (auto checked = check_instrument(r, *found->governing.plan, s.instrument, out, *found->point); !checked) return checked.refusal();
    if (!r.ledger.book.open_attachment(s.sha256)) {
        return Refusal{"file '" + shown(s.sha256) + "'", "a logger's file that is kept in the book", "record it with: peelbook series", {}};
    }
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::Inspected& s) {
    auto found = point_of(r, s.subject, s.point);
    if (!found) return found.refusal();
    if (!std::holds_alternative<plan::YesNoLimit>(found->point->limit)) {
        return Refusal{"yes or no for " + s.point,
                       "a measured value: " + found->point->limit_text,
                       "record it with: peelbook reading " + s.subject + " " + s.point + " VALUE",
                       {}};
    }
    Admitted out{{}, s, {}};
    if (auto checked = check_unit(*found->point, s.unit); !checked) return checked.refusal();
    if (!s.instrument.empty()) {
        if (auto checked = check_instrument(r, *found->governing.plan, s.instrument, out, *found->point); !checked)
            return checked.refusal();
    }
    return out;
}

namespace {

// A step goes on after its end, on the lot on which it is judged, while one of its points still takes readings. Later it is no part
// of this step any more.
Check may_go_on(const Request& r, const book::Lot& lot, const plan::Plan& plan, const std::string& step) {
    fold::Derivation derivation{r.ledger, 0, {}};
    auto known = gather(derivation, lot.id);
    std::erase_if(known.facts.steps_done, [&](const auto& done) { return done.seq == r.amending; });
    const std::string given = step + " of " + lot.code + " again at " + to_text(r.ledger.zone(), r.happened);
    plan::Point at_step;
    at_step.step = step;
    if (!judged_here(known, at_step)) {
        return Refusal{given,
                       "the lot on which " + step + " is judged: a batch up to its split, its racks after it",
                       "say it of the batch, or of the rack",
                       {}};
    }
    Duration read_on{};
    for (const auto* point : plan.points_of_product(lot.item)) {
        if (point->step == step) read_on = std::max(read_on, point->read_on);
    }
    const auto end = known.facts.works(step, read_on).back().until;
    if (!end || r.happened < *end) {
        return Refusal{given + (end ? ", before its end" : ", which has not ended"),
                       "a recorded end that it goes on after",
                       "go on and measure, then record the end: peelbook step " + lot.code + " " + step,
                       {}};
    }
    const std::string next = "it corrects nothing any more; hold it: peelbook hold " + lot.code + " --why ...";
    if (read_on <= Duration{})
        return Refusal{given, "a step with a point that is read on after its end: the plan has none (read_on)", next, {}};
    if (r.happened <= *end + read_on) return {};
    return Refusal{given + ", " + plan::period_text(Duration{(r.happened - *end).ms / 1000 * 1000}) + " after its end",
                   "at most " + plan::period_text(read_on) + " after it (read_on in the plan)",
                   next,
                   {}};
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::StepDone& given) {
    auto s = given;
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    s.lot = lot->code;
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    const auto governing = r.ledger.plan_version(lot->plan_seq);
    const auto* product = governing.plan->product(lot->item);
    const std::vector<std::string> steps = product ? product->steps : std::vector<std::string>{};
    if (names(steps, s.step)) {
        if (!s.again) return Admitted{{}, s, {}};
        if (auto checked = may_go_on(r, *lot, *governing.plan, s.step); !checked) return checked.refusal();
        return Admitted{{}, s, {"measure again, and record the end anew: peelbook step " + lot->code + " " + s.step}};
    }
    return Refusal{"step '" + shown(s.step) + "' of " + lot->item,
                   "one of its steps: " + (steps.empty() ? "the plan names none" : joined(steps, ", ")), "check the word",
                   nearest(s.step, steps)};
}

Result<Admitted> admit_kind(const Request& r, const record::Calibrated& s) {
    std::vector<std::string> ids;
    for (const auto& i : r.plan().instruments) ids.push_back(i.id);
    if (auto checked = known_id("instrument", s.instrument, ids, "check the name on it, or add it to the plan"); !checked)
        return checked.refusal();
    Admitted out{{}, s, {}};
    const auto shown = fold::calibration_shows(r.ledger, s, r.happened);
    const auto& known = *r.plan().instrument(s.instrument);
    if (s.passed && shown == false)
        return Refusal{s.instrument + " passed with " + to_text(*s.read) + " for " + to_text(*s.reference),
                       "failed: its tolerance is " + to_text(*known.tolerance),
                       "record it as failed, or check the figures",
                       {}};
    if (!shown)
        out.notes.push_back(known.tolerance ? "without figures it shows nothing: what it read, against what reference"
                                            : "it shows nothing: the plan states no tolerance of " + s.instrument);
    if (!s.passed) out.notes.push_back("failed: every reading with " + s.instrument + " since its last good calibration is unproven");
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::ServiceChanged& s) {
    std::vector<std::string> ids;
    for (const auto& i : r.plan().instruments) ids.push_back(i.id);
    if (auto checked = known_id("instrument", s.instrument, ids, "check the name on it, or add it to the plan"); !checked)
        return checked.refusal();
    return Admitted{{}, s, {}};
}

Result<Admitted> admit_kind(const Request& r, const record::Outage& given) {
    auto s = given;
    const Zone& zone = r.ledger.zone();
    if (auto checked = reason_given(r, s.why, "an outage"); !checked) return checked.refusal();
    if (s.why.empty()) s.why = r.draft.why;
    if (s.until <= s.from) {
        return Refusal{"an outage from " + to_text(zone, s.from) + " until " + to_text(zone, s.until),
                       "an end after its beginning",
                       "check --from and --until, and type the dates",
                       {}};
    }
    if (s.until > r.now) {
        return Refusal{"an outage until " + to_text(zone, s.until),
                       "one that is over, by now, " + to_text(zone, r.now),
                       "record it when checks can be made again",
                       {}};
    }
    if (s.until - s.from > record::Outage::longest) {
        return Refusal{"an outage of " + to_text(s.until - s.from), "at most " + to_text(record::Outage::longest), "state it in parts", {}};
    }
    std::sort(s.places.begin(), s.places.end());
    s.places.erase(std::unique(s.places.begin(), s.places.end()), s.places.end());
    std::vector<std::string> known;
    for (const auto& place : r.plan().places) known.push_back(place.id);
    for (const auto& place : s.places) {
        if (auto checked = known_id("place", place, known, "check the word, or leave places out for the whole house"); !checked)
            return checked.refusal();
    }
    return Admitted{{}, s, {}};
}

namespace {

// Of a piece of equipment the plan says what each cleaning clears, so its name must be one of the plan's.
Result<Admitted> admit_cleaning_of_piece(const Request& r, const record::Cleaned& s) {
    std::vector<std::string> fit;
    for (const auto& c : r.plan().cleanings) {
        if (names(c.equipment, s.subject)) fit.push_back(c.id);
    }
    const auto* cleaning = r.plan().cleaning(s.how);
    if (!cleaning || !names(fit, s.how)) {
        auto near = nearest(s.how, fit);
        return Refusal{s.how.empty() ? "no cleaning of " + s.subject + " named" : "cleaning '" + shown(s.how) + "' of " + s.subject,
                       fit.empty() ? "a cleaning of the plan: it has none for this piece" : "one of the plan's cleanings for it",
                       fit.empty() ? "add one to the plan and adopt it" : "add --how", near.empty() ? fit : near};
    }
    Admitted out{{}, s, {}};
    std::vector<std::string> points;
    for (const auto& id : cleaning->verify) {
        const auto* point = r.plan().point(id);
        if (point && point->place == s.subject) points.push_back(id);
    }
    out.notes.push_back("clears " + joined(cleaning->clears, ", ") + " once verified: " + joined(points, ", ") + " at " + s.subject +
                        ", before it runs again");
    return out;
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::Cleaned& s) {
    std::vector<std::string> ids;
    for (const auto& v : r.plan().vessels) ids.push_back(v.id);
    for (const auto& p : r.plan().places) ids.push_back(p.id);
    if (auto checked = known_id("vessel or place", s.subject, ids, "check the name"); !checked) return checked.refusal();
    Admitted out{{}, s, {}};
    if (r.plan().piece(s.subject)) return admit_cleaning_of_piece(r, s);
    if (r.plan().vessel(s.subject)) out.notes.push_back("cleaning alone does not end the trace: an inspected emptying does");
    return out;
}

}  // namespace peelbook::site
