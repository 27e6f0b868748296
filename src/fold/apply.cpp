#include "fold/apply.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/apply_recall.h"
#include "fold/fold.h"
#include "fold/label_readings.h"
#include "fold/owed/owing.h"
#include "fold/plan_rows.h"
#include "fold/ratchet/waiting.h"
#include "fold/standing.h"
#include "fold/touches.h"
#include "plan/compiled.h"
#include "plan/reader.h"

namespace peelbook::fold {
namespace {

using book::SubjectKind;

void put_fact(Derivation& d, const record::Entry& entry) {
    book::Fact fact;
    fact.seq = entry.seq;
    fact.kind = std::string(record::kind_of(entry.payload).name);
    fact.happened = entry.happened.ms;
    fact.written = entry.written.ms;
    fact.by = entry.by;
    fact.token = entry.token;
    const Duration allowed = d.ledger.plan_at(entry.happened).plan->site.late_after;
    fact.late = entry.written - entry.happened > allowed ? 1 : 0;
    d.ledger.rows().put(fact);
}

// A draw after the last fill of a mixed vessel changes no blend, only what was drawn into.
bool changes_no_blend(Derivation& d, const book::Touch& touch) {
    const auto latest = d.ledger.rows().blend_at(touch.subject, std::numeric_limits<book::Int>::max());
    if (latest && latest->happened > touch.happened) return false;
    return fold_draw(d, touch.subject, touch.seq);
}

// The rows that the entries on a place say themselves, then all that hangs on a set of touches.
void fold_subjects(Derivation& d, const std::vector<book::Touch>& touches, bool vessels_too) {
    Queue queue;
    for (const auto& touch : touches) {
        const Instant at{touch.happened};
        switch (touch.subject_kind) {
            case SubjectKind::vessel:
                if (vessels_too || !changes_no_blend(d, touch)) queue.add(Subject::since(Rank::vessel, touch.subject, at));
                break;
            case SubjectKind::line:
                queue.add(Subject::since(Rank::line, touch.subject, at));
                break;
            case SubjectKind::lot:
                queue.add(Subject::of_lot(Rank::lot, std::stoll(touch.subject)));
                break;
            case SubjectKind::equipment:
                queue.add(Subject::since(Rank::equipment, touch.subject, at));
                break;
            case SubjectKind::instrument:
                queue.add(Subject::since(Rank::instrument, touch.subject, at));
                break;
            case SubjectKind::outage:
                queue.add(put_outage(d, touch.seq));
                break;
            case SubjectKind::place: {
                const auto [place, point] = place_and_point(touch.subject);
                queue.add(put_checks(d, place, point, at));
                queue.add(packs_of_label_run(d.ledger, place, point, at));
                break;
            }
        }
    }
    drain(d, queue);
}

bool changes_vessel(const record::Statement& says) {
    return std::holds_alternative<record::Filled>(says) || std::holds_alternative<record::Emptied>(says);
}

class Apply {
  public:
    Apply(Derivation& d, const record::Entry& entry) : d_(d), entry_(entry), rows_(d.ledger.rows()) {}

    void run() {
        put_fact(d_, entry_);
        if (const auto* amended = std::get_if<record::Amended>(&entry_.payload)) {
            amend(*amended);
        } else {
            std::visit(*this, std::get<record::Statement>(entry_.payload));
        }
    }

    void operator()(const record::Opened&) {}
    void operator()(const record::PersonAdded& s) {
        book::Person person{s.initials, s.name, s.role, entry_.seq, {}};
        const auto known = rows_.person(s.initials);
        if (s.state == "left") person.left = known && known->left ? *known->left : entry_.happened.ms;
        rows_.put(person);
    }
    void operator()(const record::PartnerAdded& s) {
        rows_.put(book::Partner{s.code, s.name, joined(s.roles, " "), s.address, s.phone, s.email, s.gln, entry_.seq});
    }
    void operator()(const record::PlanAdopted& s);
    void operator()(const record::Acted& s);
    void operator()(const record::Reviewed& s) {
        rows_.put(book::Review{entry_.seq, s.what, s.digest, entry_.by, s.note, entry_.happened.ms, {}});
    }
    void operator()(const record::Sealed&) {}
    void operator()(const record::Voided& s);
    void operator()(const record::Countersigned& s);
    void operator()(const record::RecallOpened& s) { apply_recall(d_.ledger, entry_, s); }
    void operator()(const record::RecallDecided& s) { apply_recall(d_.ledger, entry_, s); }
    void operator()(const record::RecallWidened& s) { apply_recall(d_.ledger, entry_, s); }
    void operator()(const record::Contacted& s) { apply_recall(d_.ledger, entry_, s); }
    void operator()(const record::RecallTold& s) { apply_recall(d_.ledger, entry_, s); }
    void operator()(const record::RecallCounted& s) { apply_recall(d_.ledger, entry_, s); }
    void operator()(const record::RecallClosed& s) { apply_recall(d_.ledger, entry_, s); }
    template <class S>
    requires(!OfNoSubject<S>) void operator()(const S& says) { fold(says); }

  private:
    void fold(const record::Statement& says) {
        const auto touches = touches_of(d_.ledger, d_.ledger.effective(entry_.seq));
        rows_.set_touches({}, touches);
        fold_subjects(d_, touches, changes_vessel(says));
        if (rows_.fact(entry_.seq)->late != 0) reopen_reviews(entry_.seq, entry_.happened);
    }
    void amend(const record::Amended& s);
    // What is signed for its finding, and so which lots that keeps, may have changed.
    void settle(const record::FindingKey& finding);
    bool left_its_place(const book::Finding& f) const;
    // Folds what the target was about before and is about now.
    void fold_again(Seq target, const std::vector<book::Touch>& before, const record::Statement& says,
                    const std::vector<book::Touch>& as_it_stood = {});
    // Reviews of what the target is about; with `signed_after`, only those signed after that moment.
    void reopen_reviews(Seq target, Instant signed_after = {});

    Derivation& d_;
    const record::Entry& entry_;
    book::Derived& rows_;
};

void Apply::operator()(const record::PlanAdopted& s) {
    std::string all;
    for (const auto& file : s.files) all += file.name + "\n" + file.text + "\n";
    std::vector<plan::Text> texts;
    for (const auto& file : s.files) texts.push_back({file.name, file.text});
    const auto plan = plan::read_adopted_plan(texts);
    rows_.put(
        book::PlanVersion{entry_.seq, entry_.happened.ms, record::to_hex(record::sha256(all)), entry_.by, plan.site.practice, s.hazard},
        point_rows(entry_.seq, plan), item_rows(entry_.seq, plan));
    rows_.put(book::PlanCompiled{entry_.seq, plan::compiled(plan)});
    const auto before = d_.ledger.plan_at(entry_.happened);
    d_.ledger.plans_changed();
    Queue queue;
    if (!s.hazard.empty())
        for (const auto& open : rows_.open_points()) queue.add(Subject::of_lot(Rank::findings, open.lot));
    // What is owed no more ends here.
    for (const auto& point : before.plan->points) {
        if (point.interval && !asks_for(plan, point.place, point.id))
            queue.add({Rank::checks, 0, point.place, point.id, entry_.happened, entry_.happened});
    }
    drain(d_, queue);
}

// An entry of before signatures kept a digest covers the finding as it stood then.
void Apply::operator()(const record::Acted& s) {
    book::Action action{entry_.seq,
                        s.finding.anchor,
                        s.finding.point,
                        s.finding.ord,
                        s.product,
                        s.process,
                        stored_word_or_none<record::Disposition>(s.disposition),
                        s.cause,
                        s.prevention,
                        entry_.by,
                        entry_.happened.ms,
                        Verdict::within,
                        s.seen};
    if (const auto f = rows_.finding(s.finding.anchor, s.finding.point, s.finding.ord)) {
        action.seen_verdict = f->verdict;
        if (action.seen.empty()) action.seen = digest_of(*f);
    }
    rows_.put(action);
    settle(s.finding);
}

void Apply::settle(const record::FindingKey& key) {
    auto f = rows_.finding(key.anchor, key.point, key.ord);
    if (!f) return;
    f->decided = disposition_of(rows_, *f);
    rows_.put(*f);
    if (!f->lot) return;
    Queue queue;
    queue.add(Subject::of_lot(Rank::unsettled, *f->lot));
    drain(d_, queue);
}

void Apply::fold_again(Seq target, const std::vector<book::Touch>& before, const record::Statement& says,
                       const std::vector<book::Touch>& as_it_stood) {
    const auto now = d_.ledger.effective(target);
    auto touches = touches_of(d_.ledger, now);
    if (const auto waits = before_waiting(d_.ledger, now)) {  // until it is decided the entry is about the lots of both
        if (is_measurement(now.says)) std::erase_if(touches, [](const auto& touch) { return touch.subject_kind != SubjectKind::lot; });
        const auto add = [&](const std::vector<book::Touch>& more, bool lots) {
            for (const auto& one : more) {
                const auto same = [&](const auto& touch) { return touch.subject_kind == one.subject_kind && touch.subject == one.subject; };
                if ((one.subject_kind == SubjectKind::lot) == lots && std::none_of(touches.begin(), touches.end(), same))
                    touches.push_back(one);
            }
        };
        add(touches_of(d_.ledger, waits->entry), true);
        add(touches_of(d_.ledger, as_it_counts(d_.ledger, now)), false);
    }
    rows_.set_touches(before, touches);
    const auto still_there = [&](const book::Touch& old) {
        return std::any_of(touches.begin(), touches.end(),
                           [&](const auto& now) { return now.subject_kind == old.subject_kind && now.subject == old.subject; });
    };
    for (const auto& old : before) {
        if (old.subject_kind == SubjectKind::place && !still_there(old)) {
            const auto [place, point] = place_and_point(old.subject);
            clear_left_place(d_, place, point, target);
        }
        if (std::find(touches.begin(), touches.end(), old) == touches.end()) touches.push_back(old);
    }
    for (const auto& old : as_it_stood) {
        if (std::find(touches.begin(), touches.end(), old) == touches.end()) touches.push_back(old);
    }
    fold_subjects(d_, touches, changes_vessel(says));
    reopen_reviews(target);
}

void Apply::amend(const record::Amended& s) {
    const auto was = d_.ledger.effective(s.target);
    const auto before = rows_.touches_of(s.target);
    auto fact = *rows_.fact(s.target);
    d_.correction = book::Waiting{entry_.seq, s.target, fact.amended_by, fact.happened, {}, 0, 0};
    if (correction_waits(was.says, &s.statement, s.happened && *s.happened != was.happened)) wait(d_, entry_.seq);
    fact.amended_by = entry_.seq;
    if (s.happened) fact.happened = s.happened->ms;
    rows_.put(fact);
    std::string time_before, time_after;
    if (s.happened && *s.happened != was.happened) {
        time_before = "; at: " + to_iso(was.happened);
        time_after = "; at: " + to_iso(*s.happened);
    }
    rows_.put(book::Correction{entry_.seq, s.target, "amended", s.why, record::in_one_line(was.says) + time_before,
                               record::in_one_line(s.statement) + time_after});
    fold_again(s.target, before, s.statement);
}

void Apply::operator()(const record::Voided& s) {
    const auto was = d_.ledger.effective(s.target);
    const auto before = rows_.touches_of(s.target);
    auto fact = *rows_.fact(s.target);
    d_.correction = book::Waiting{entry_.seq, s.target, fact.amended_by, fact.happened, {}, 0, 0};
    if (!s.undo && correction_waits(was.says, nullptr, false)) wait(d_, entry_.seq);
    fact.voided_by = entry_.seq;
    rows_.put(fact);
    rows_.put(book::Correction{entry_.seq, s.target, "voided", s.why, record::in_one_line(was.says), ""});
    if (const auto* acted = std::get_if<record::Acted>(&was.says)) {
        rows_.erase_action(s.target);
        settle(acted->finding);
    }
    rows_.erase_recall_step(s.target);
    fold_again(s.target, before, was.says);
}

// What the entries are about, and every finding that waited for them, wherever it stands.
void Apply::operator()(const record::Countersigned& s) {
    std::vector<book::Finding> waited;
    for (const Seq entry : s.entries) {
        for (auto& f : rows_.waiting_for(entry)) waited.push_back(std::move(f));
    }
    std::map<Seq, std::vector<book::Touch>> as_they_stood;
    for (const Seq entry : s.entries) {
        const auto waiting = rows_.waiting(entry);
        const auto before = waiting ? before_waiting(d_.ledger, d_.ledger.effective(waiting->target)) : std::nullopt;
        if (before) as_they_stood[waiting->target] = touches_of(d_.ledger, before->entry);
    }
    for (const Seq target : decide(d_, s))
        fold_again(target, rows_.touches_of(target), d_.ledger.effective(target).says, as_they_stood[target]);
    Queue queue;
    for (const auto& f : waited) {
        if (f.lot) {
            queue.add(Subject::of_lot(Rank::findings, *f.lot));
        } else if (f.point == judge::outage_point) {
            queue.add(Subject::of_lot(Rank::outage, f.anchor));
        } else if (left_its_place(f)) {
            clear_left_place(d_, f.place, f.point, f.anchor);
        } else {
            queue.add({Rank::checks, 0, f.place, f.point, Instant{f.happened}, Instant{f.happened}});
        }
    }
    drain(d_, queue);
}

// A check that was amended to another place or point, or struck.
bool Apply::left_its_place(const book::Finding& f) const {
    const auto touches = rows_.touches_of(f.anchor);
    const auto here = place_subject(f.place, f.point);
    const bool of_place = std::any_of(touches.begin(), touches.end(), [](const auto& t) { return t.subject_kind == SubjectKind::place; });
    return of_place && std::none_of(touches.begin(), touches.end(), [&](const auto& t) { return t.subject == here; });
}

// A review stays, and says that what it reviewed has changed since.
void Apply::reopen_reviews(Seq target, Instant signed_after) {
    std::set<std::string> subjects;
    for (const auto& touch : rows_.touches_of(target)) {
        if (touch.subject_kind != SubjectKind::lot) continue;
        if (auto lot = rows_.lot(std::stoll(touch.subject))) {
            subjects.insert(lot->code);
            subjects.insert(to_text(IsoWeek{static_cast<int>(lot->week / 100), static_cast<int>(lot->week % 100)}));
        }
    }
    const auto day = d_.ledger.production_day({rows_.fact(target)->happened});
    subjects.insert(to_text(IsoWeek{static_cast<int>(day.week / 100), static_cast<int>(day.week % 100)}));
    for (const auto& what : subjects) {
        for (auto review : rows_.reviews(what)) {
            if (review.reopened_by || review.happened < signed_after.ms) continue;
            review.reopened_by = entry_.seq;
            rows_.put(review);
        }
    }
}

}  // namespace

void apply(Derivation& d, const record::Entry& entry) {
    d.cause = entry.seq;
    d.entry = &entry;
    d.written = entry.written;
    Apply(d, entry).run();
}

}  // namespace peelbook::fold
