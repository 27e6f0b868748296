#include <algorithm>

#include "fold/fold.h"

namespace peelbook::fold {
namespace {

using book::SubjectKind;

struct Subjects {
    Ledger& ledger;
    const Effective& entry;
    std::vector<book::Touch> out;

    void add(SubjectKind kind, std::string subject) {
        book::Touch touch{kind, std::move(subject), entry.happened.ms, entry.seq};
        if (std::find(out.begin(), out.end(), touch) == out.end()) out.push_back(std::move(touch));
    }
    void lot(Seq id) { add(SubjectKind::lot, std::to_string(id)); }
    void made() { lot(entry.seq); }
    void lot(const std::string& code) {
        if (auto found = ledger.rows().lot(code)) lot(found->id);
    }
    bool vessel(const std::string& id) {
        if (!ledger.plan_at(entry.happened).plan->vessel(id)) return false;
        add(SubjectKind::vessel, id);
        return true;
    }
    void checked(const std::string& subject, const std::string& point) {
        if (auto found = ledger.rows().lot(subject)) {
            lot(found->id);
        } else {
            add(SubjectKind::place, place_subject(subject, point));
            piece(subject);
        }
    }
    void piece(const std::string& id) {
        if (ledger.plan_at(entry.happened).plan->piece(id)) add(SubjectKind::equipment, id);
    }

    void operator()(const record::Received&) { made(); }
    void operator()(const record::Started&) { made(); }
    void operator()(const record::Filled& s) {
        made();
        vessel(s.vessel);
    }
    void operator()(const record::Emptied& s) { vessel(s.vessel); }
    void operator()(const record::Cleaned& s) {
        vessel(s.subject);
        piece(s.subject);
    }
    void operator()(const record::LabelChecked& s) { add(SubjectKind::place, place_subject(s.line, s.point)); }
    void operator()(const record::LabelsCounted& s) { add(SubjectKind::place, place_subject(s.line, s.point)); }
    void operator()(const record::Used& s) {
        lot(s.into);
        vessel(s.lot);
    }
    void operator()(const record::StepDone& s) { lot(s.lot); }
    void operator()(const record::Finished& s) { lot(s.lot); }
    void operator()(const record::Split& s) {
        made();
        lot(s.lot);
    }
    void operator()(const record::Packed& s) {
        made();
        for (const auto& part : s.from) lot(part.lot);
    }
    void operator()(const record::Stored& s) { lot(s.lot); }
    void operator()(const record::LineFed& s) {
        add(SubjectKind::line, s.line);
        lot(s.lot);
    }
    void operator()(const record::CoPacked&) { made(); }
    void operator()(const record::CultureRenewed& s) { lot(s.lot); }
    void operator()(const record::MovedOut& s) {
        lot(s.lot);
        for (const auto& code : s.any_of) lot(code);
    }
    void operator()(const record::Returned& s) { lot(s.lot); }
    void operator()(const record::Counted& s) { lot(s.lot); }
    void operator()(const record::ReadingTaken& s) { checked(s.subject, s.point); }
    void operator()(const record::SeriesTaken& s) { checked(s.subject, s.point); }
    void operator()(const record::Inspected& s) { checked(s.subject, s.point); }
    void operator()(const record::Calibrated& s) { add(SubjectKind::instrument, s.instrument); }
    void operator()(const record::ServiceChanged& s) { add(SubjectKind::instrument, s.instrument); }
    void operator()(const record::Held& s) {
        for (const auto& code : s.lots) lot(code);
    }
    void operator()(const record::Released& s) {
        for (const auto& code : s.lots) lot(code);
    }
    template <class Other> void operator()(const Other&) {}  // people, partners, plans, actions, reviews: no fold
};

}  // namespace

std::string place_subject(const std::string& place, const std::string& point) { return place + "#" + point; }

std::pair<std::string, std::string> place_and_point(const std::string& subject) {
    const auto cut = subject.find('#');
    return {subject.substr(0, cut), subject.substr(cut + 1)};
}

std::vector<book::Touch> touches_of(Ledger& ledger, const Effective& e) {
    Subjects subjects{ledger, e, {}};
    std::visit(subjects, e.says);
    return std::move(subjects.out);
}

}  // namespace peelbook::fold
