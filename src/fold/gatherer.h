#pragma once
// How the facts of one lot are gathered from the entries about it; asked for by lot_facts.h alone. What it is, what left it and what was
// decided stands in lot_facts.cpp, what went in in lot_inputs.cpp, what was read in lot_readings.cpp.
#include "fold/derivation.h"
#include "fold/ratchet/waiting.h"
#include "fold/touches.h"

namespace peelbook::fold {

inline std::optional<book::Int> mass_or_none(const std::optional<Measure>& mass) {
    return mass ? std::optional<book::Int>(mass->value) : std::nullopt;
}
inline std::optional<book::Int> pieces_or_none(std::int64_t pieces) { return pieces > 0 ? std::optional<book::Int>(pieces) : std::nullopt; }

// Kinds that are about a vessel, a line's labels, an instrument or a piece of equipment, and reach lots through those.
template <class S>
concept NeverOfLot = OfNoSubject<S> || OneOf<S, record::Emptied, record::Cleaned, record::LabelChecked, record::LabelsCounted,
                                             record::Calibrated, record::ServiceChanged, record::Outage>;

class Gatherer {
  public:
    Gatherer(Derivation& d, book::LotId id) : d_(d), ledger_(d.ledger), id_(id) {
        if (auto row = ledger_.rows().lot(id)) out_.row = *row;
        out_.row.id = id;
        out_.uses_before = ledger_.rows().uses_into(id);
        out_.facts.as_of = {};
    }

    void take(const Effective& e) {
        const auto before = before_waiting(ledger_, e);
        if (before) take_as_it_stood(*before);
        entry_ = &e;
        in_ = {before ? std::optional(before->waits) : std::nullopt, {}};
        std::visit(*this, e.says);
        in_ = {};
        out_.facts.as_of = std::max(out_.facts.as_of, e.written);
    }
    LotFacts finish();

    void operator()(const record::Received& s);
    void operator()(const record::Started& s);
    void operator()(const record::Filled& s);
    void operator()(const record::Used& s);
    void operator()(const record::StepDone& s);
    void operator()(const record::Finished& s);
    void operator()(const record::Split& s);
    void operator()(const record::Packed& s);
    void operator()(const record::CoPacked& s);
    void operator()(const record::CultureRenewed& s);
    void operator()(const record::Stored& s);
    void operator()(const record::ClockStarted& s);
    void operator()(const record::MovedOut& s);
    void operator()(const record::Returned& s);
    void operator()(const record::Counted& s);
    void operator()(const record::ReadingTaken& s);
    void operator()(const record::SeriesTaken& s);
    void operator()(const record::Inspected& s);
    void operator()(const record::Held& s);
    void operator()(const record::Released& s);
    void operator()(const record::LineFed& s) {  // the batches that ran on the line take from it: line_uses
        if (!voided()) already_done(s.already_done, "put on " + s.line + ": " + s.why);
    }
    template <NeverOfLot S> void operator()(const S&) {}

  private:
    // Of an entry whose correction waits: what was measured, the times of the batch and what went in, as they stood before.
    void take_as_it_stood(const Before& before);
    bool as_it_stood() const { return in_.only_without.has_value(); }
    // A correction may move an entry to another lot; until it is decided both are told of it.
    bool is_of_this(const std::string& code) const {
        if (!in_.only_with && !in_.only_without) return true;
        const auto lot = ledger_.rows().lot(code);
        return lot && lot->id == id_;
    }
    bool made_here() const { return entry_->seq == id_; }
    bool voided() const { return entry_->voided_by.has_value(); }
    void born(LotKind kind, const std::string& code, const std::string& item);
    void take_part(const std::string& code, std::optional<book::Int> mass, std::optional<book::Int> pieces, bool sure,
                   const std::string& note);
    std::optional<book::LotId> lot_named(const std::string& code) const;
    // Of the plan that the lot is judged by, which the ledger keeps.
    const plan::Point* point_named(const std::string& id) const { return ledger_.plan_version(out_.row.plan_seq).plan->point(id); }
    void take_draw(bool possible, const std::string& note);
    void add_reading(const std::string& point, const Measure& value, const std::string& unit, const std::string& instrument,
                     std::int64_t row, Instant at);
    bool undone() const;
    std::optional<Instant> typed_at() const;
    void already_done(bool flag, const std::string& why);
    void carry_holds();
    void add_left_packs();
    void end_culture();
    void age();

    Derivation& d_;
    Ledger& ledger_;
    book::LotId id_;
    const Effective* entry_ = nullptr;
    judge::InWorlds in_;  // that the entry is taken in
    LotFacts out_;
};

}  // namespace peelbook::fold
