#include "fold/touches.h"

#include <algorithm>

namespace peelbook::fold {
namespace {

using book::SubjectKind;

struct Touches {
    Ledger& ledger;
    const Effective& entry;
    std::vector<book::Touch> out;

    void add(SubjectKind kind, std::string subject) {
        book::Touch touch{kind, std::move(subject), entry.happened.ms, entry.seq};
        if (std::find(out.begin(), out.end(), touch) == out.end()) out.push_back(std::move(touch));
    }
    void lot(Seq id) { add(SubjectKind::lot, std::to_string(id)); }
    void lot(const std::string& code) {
        if (auto found = ledger.rows().lot(code)) lot(found->id);
    }
    void vessel(const std::string& id) {
        if (ledger.plan_at(entry.happened).plan->vessel(id)) add(SubjectKind::vessel, id);
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

    template <OfNoSubject S> void operator()(const S&) {}
    template <OneOf<record::Received, record::Started, record::CoPacked> S> void operator()(const S&) {}  // the lot they make
    template <OneOf<record::StepDone, record::Finished, record::Split, record::Stored, record::CultureRenewed, record::Returned,
                    record::Counted, record::ClockStarted>
                  S>
    void operator()(const S& s) {
        lot(s.lot);
    }
    template <OneOf<record::Held, record::Released> S> void operator()(const S& s) {
        for (const auto& code : s.lots) lot(code);
    }
    template <OneOf<record::ReadingTaken, record::SeriesTaken, record::Inspected> S> void operator()(const S& s) {
        checked(s.subject, s.point);
    }
    template <OneOf<record::LabelChecked, record::LabelsCounted> S> void operator()(const S& s) {
        add(SubjectKind::place, place_subject(s.line, s.point));
    }
    template <OneOf<record::Calibrated, record::ServiceChanged> S> void operator()(const S& s) {
        add(SubjectKind::instrument, s.instrument);
    }
    void operator()(const record::Outage&) { add(SubjectKind::outage, "house"); }
    void operator()(const record::Filled& s) { vessel(s.vessel); }
    void operator()(const record::Emptied& s) { vessel(s.vessel); }
    void operator()(const record::Cleaned& s) {
        vessel(s.subject);
        piece(s.subject);
    }
    void operator()(const record::Used& s) {
        lot(s.into);
        vessel(s.lot);
    }
    void operator()(const record::Packed& s) {
        for (const auto& part : s.from) lot(part.lot);
    }
    void operator()(const record::LineFed& s) {
        add(SubjectKind::line, s.line);
        lot(s.lot);
    }
    void operator()(const record::MovedOut& s) {
        lot(s.lot);
        for (const auto& code : s.any_of) lot(code);
    }
};

}  // namespace

std::string place_subject(const std::string& place, const std::string& point) { return place + "#" + point; }

std::pair<std::string, std::string> place_and_point(const std::string& subject) {
    const auto cut = subject.find('#');
    return {subject.substr(0, cut), subject.substr(cut + 1)};
}

std::vector<book::Touch> touches_of(Ledger& ledger, const Effective& e) {
    Touches touches{ledger, e, {}};
    if (record::kind_of(e.says).makes_lot()) touches.lot(e.seq);
    std::visit(touches, e.says);
    return std::move(touches.out);
}

}  // namespace peelbook::fold
