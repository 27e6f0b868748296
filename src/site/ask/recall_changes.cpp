// Which later entry added a lot to a recall, and which took one away.
#include "site/ask/recall_changes.h"

#include <algorithm>

#include "fold/touches.h"
#include "site/ask/recall_scope.h"

namespace peelbook::site {
namespace {

using Causes = std::map<trace::LotId, std::set<Seq>>;

class Changes {
  public:
    Changes(fold::Ledger& ledger, const book::Recall& recall, const trace::Snapshot& before, const RecallScope& now)
        : ledger_(ledger), rows_(ledger.rows()), recall_(recall), before_(before), now_(now) {
        for (const auto& c : rows_.corrections_since(recall.seq)) note(c);
    }

    std::vector<ScopeChange> run() {
        const auto changes = trace::compare(before_, now_.reach);
        lots("added", changes.added_lots, added());
        lots("removed", changes.removed_lots, removed());
        lots("surer", changes.surer_lots, corrected_);
        lots("less sure", changes.less_sure_lots, corrected_);
        for (const auto& d : changes.added_deliveries) delivery("delivery added", d, delivery_text(d));
        for (const auto& d : changes.removed_deliveries) delivery("delivery removed", d, delivery_text(d));
        for (const auto& c : changes.changed_deliveries) {
            delivery("delivery changed", c.now, delivery_text(c.before) + "; now " + delivery_text(c.now));
        }
        return std::move(out_);
    }

  private:
    // Every lot that the corrected entry named, before and after.
    void note(const book::Correction& c) {
        const auto& original = ledger_.entry(c.target);
        const auto add = [&](const record::Statement& says) {
            for (const auto& touch : touches_of(ledger_, {c.target, original.happened, original.written, original.by, says, {}, {}})) {
                if (touch.subject_kind == book::SubjectKind::lot) corrected_[std::stoll(touch.subject)].insert(c.seq);
            }
        };
        if (const auto* says = std::get_if<record::Statement>(&original.payload)) add(*says);
        for (const auto& one : rows_.corrections(c.target)) {
            if (const auto* amended = std::get_if<record::Amended>(&ledger_.entry(one.seq).payload)) add(amended->statement);
        }
        entries_[c.target].insert(c.seq);
    }

    // The entry itself when it came after the opening, else its corrections since.
    void take(Seq entry, std::set<Seq>& into) const {
        if (entry > recall_.seq) into.insert(entry);
        if (const auto found = entries_.find(entry); found != entries_.end()) into.insert(found->second.begin(), found->second.end());
    }

    // A lot's own entries, else what added the lots it was made from; in the order of the trace, parents
    // stand first.
    Causes added() const {
        Causes out;
        std::set<trace::LotId> was, is;
        for (const auto& one : before_.lots) was.insert(one.lot);
        for (const auto& one : now_.reach.lots) is.insert(one.lot);
        for (const auto& one : now_.reach.lots) {
            if (was.contains(one.lot)) continue;
            auto& causes = out[one.lot];
            for (const auto& use : rows_.uses_into(one.lot)) {
                if (is.contains(use.from_lot)) take(use.seq, causes);
            }
            if (causes.empty()) take(one.lot, causes);
            for (const auto& use : rows_.uses_into(one.lot)) {
                if (const auto parent = out.find(use.from_lot); causes.empty() && parent != out.end()) causes = parent->second;
            }
        }
        return out;
    }

    Causes removed() const {
        Causes out;
        std::set<trace::LotId> is;
        for (const auto& one : now_.reach.lots) is.insert(one.lot);
        for (const auto& one : before_.lots) {
            if (is.contains(one.lot)) continue;
            auto& causes = out[one.lot];
            if (const auto found = corrected_.find(one.lot); found != corrected_.end()) causes = found->second;
            take(one.lot, causes);
            for (const auto& use : rows_.uses_into(one.lot)) {
                if (const auto parent = out.find(use.from_lot); causes.empty() && parent != out.end()) causes = parent->second;
            }
        }
        return out;
    }

    std::string code_of(trace::LotId id) const {
        if (const auto lot = rows_.lot(id)) return lot->code;
        for (const auto& row : rows_.recall_lots(recall_.seq)) {
            if (row.lot == id) return row.code;
        }
        return "entry " + std::to_string(id);
    }

    void lots(const std::string& what, const std::vector<trace::LotId>& ids, const Causes& causes) {
        for (const auto id : ids) {
            ScopeChange change{what, id, code_of(id), {}};
            if (const auto found = causes.find(id); found != causes.end()) change.by.assign(found->second.begin(), found->second.end());
            out_.push_back(std::move(change));
        }
    }

    void delivery(const std::string& what, const trace::Delivery& d, std::string text) {
        std::set<Seq> by;
        const auto lots = now_.by_id();
        for (const auto& move : now_.moves) {
            const auto lot = lots.find(move.lot);
            if (lot != lots.end() && move.partner == d.partner && lot->second->printed_code == d.printed_code) take(move.seq, by);
        }
        out_.push_back({what, 0, std::move(text), {by.begin(), by.end()}});
    }

    fold::Ledger& ledger_;
    book::Derived& rows_;
    const book::Recall& recall_;
    const trace::Snapshot& before_;
    const RecallScope& now_;
    Causes corrected_;                      // lots, by the corrections of entries that name them
    std::map<Seq, std::set<Seq>> entries_;  // entries, by their corrections
    std::vector<ScopeChange> out_;
};

}  // namespace

std::vector<ScopeChange> scope_changes(fold::Ledger& ledger, const book::Recall& recall, const trace::Snapshot& before,
                                       const RecallScope& now) {
    return Changes(ledger, recall, before, now).run();
}

}  // namespace peelbook::site
