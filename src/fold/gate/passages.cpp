#include "fold/gate/passages.h"

#include <algorithm>

#include "base/words.h"
#include "fold/vessel_past.h"

namespace peelbook::fold {
namespace {

// Kinds that send no lot on: they make one of nothing in the book, say something of one, or decide about it. What a co-packer sends
// back went through the gate when it was sent.
template <class S>
concept SendsNothingOn =
    OneOf<S, record::Opened, record::PersonAdded, record::PartnerAdded, record::PlanAdopted, record::Received, record::Emptied,
          record::Started, record::StepDone, record::Finished, record::ReadingTaken, record::SeriesTaken, record::Inspected,
          record::Calibrated, record::ServiceChanged, record::Cleaned, record::Held, record::Acted, record::Reviewed, record::Sealed,
          record::Voided, record::CoPacked, record::CultureRenewed, record::Returned, record::LabelChecked, record::LabelsCounted,
          record::Outage, record::Countersigned, record::RecallOpened, record::RecallDecided, record::RecallWidened, record::Contacted,
          record::RecallTold, record::RecallCounted, record::RecallClosed, record::ClockStarted>;

constexpr book::Int all_of_it = 1'000'000'000'000;  // mg: more than stands in any vessel

struct Find {
    Ledger& ledger;
    Seq seq;
    Passages out;

    std::optional<book::Lot> lot(const std::string& code) const { return ledger.rows().lot(code); }
    void add(Act act, const std::string& code) {
        if (const auto known = lot(code)) out.all.push_back({act, known->id});
    }
    template <class S> void excused(const S& s) {
        out.already_done = s.already_done;
        out.why = s.why;
    }

    template <SendsNothingOn S> void operator()(const S&) {}
    void operator()(const record::Used& s);
    void operator()(const record::Filled& s);
    void operator()(const record::LineFed& s) {
        if (!s.off) add(Act::use, s.lot);
        excused(s);
    }
    void operator()(const record::Split& s) { add(Act::split, s.lot); }
    void operator()(const record::Stored& s) { add(Act::store, s.lot); }
    void operator()(const record::Released& s) {
        for (const auto& code : s.lots) add(Act::release, code);
        for (auto& passage : out.all) passage.release = seq;
    }
    void operator()(const record::Packed& s) {
        for (const auto& part : s.from) {
            const auto from = lot(part.lot);
            add(from && from->kind == LotKind::pack ? Act::rework : Act::pack, part.lot);  // packs under another label
        }
        for (auto& passage : out.all) {
            passage.label = s.label;
            passage.packed = Passage::Packed{s.date};
        }
        excused(s);
    }
    void operator()(const record::MovedOut& s);
    void operator()(const record::Counted& s) { add(Act::count, s.lot); }
};

// Onto what stands in the vessel: it goes into the blend too, or where what was filled first leaves first, lies below.
void Find::operator()(const record::Filled& s) {
    add(Act::fill, s.lot);
    for (const auto& use : ledger.rows().uses_into(seq)) {
        const auto from = ledger.rows().lot(use.from_lot);
        if (from && from->kind == LotKind::blend && from->vessel == s.vessel) out.all.push_back({Act::onto, from->id});
    }
    const auto at = ledger.effective(seq).happened;
    const auto governing = ledger.plan_at(at);
    const auto* vessel = governing.plan->vessel(s.vessel);
    if (vessel && vessel->model == "first-in") {
        for (const auto& part : parts_of_draw(ledger, s.vessel, at, all_of_it)) {
            if (part.from != seq) out.all.push_back({Act::onto, part.from});
        }
    }
    excused(s);
}

// A draw may be of several lots.
void Find::operator()(const record::Used& s) {
    const auto into = lot(s.into);
    if (!into) return;
    for (const auto& use : ledger.rows().uses_into(into->id)) {
        if (use.seq != seq) continue;
        const auto from = ledger.rows().lot(use.from_lot);
        if (!from) continue;
        out.all.push_back({act_of_use(*from), from->id, into->id, s.label});
    }
    excused(s);
}

// What came back is kept apart, and admitted by where it goes alone, but for a recall.
void Find::operator()(const record::MovedOut& s) {
    excused(s);
    add(act_of(stored_word<Way>(s.way)), s.lot);
    for (auto& passage : out.all) passage.returned = s.of_returned;
    for (const auto& code : s.any_of) {
        if (const auto known = lot(code)) out.any_of.push_back(known->id);
    }
    out.pieces = s.pieces;
    out.seq = seq;
    if (!out.any_of.empty()) out.all.push_back({act_of(stored_word<Way>(s.way)), 0});
}

}  // namespace

Act act_of_use(const book::Lot& from) {
    const bool baked = is_part_of_a_lot(from.kind) || (from.kind == LotKind::batch && from.made_pieces.value_or(0) > 0);
    return baked ? Act::rework : Act::use;
}

Passages passages_of(Ledger& ledger, Seq seq, const record::Statement& says) {
    Find find{ledger, seq, {}};
    std::visit(find, says);
    return std::move(find.out);
}

}  // namespace peelbook::fold
