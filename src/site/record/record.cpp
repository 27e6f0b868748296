// One command, one transaction: admit, append, derive, hold what deviates, commit, and only then tell.
#include <algorithm>
#include <set>

#include "base/text.h"
#include "base/words.h"
#include "fold/apply.h"
#include "fold/gate/gate.h"
#include "fold/logger/series.h"
#include "fold/standing.h"
#include "record/hasher.h"
#include "site/impl.h"
#include "site/record/admit.h"
#include "site/record/amendable.h"
#include "site/record/holds.h"
#include "site/record/reached.h"
#include "site/record/recall_guard.h"
#include "site/record/recall_hooks.h"
#include "site/record/receipt.h"
#include "site/record/undo.h"
#include "trace/trace.h"

namespace peelbook::site {
namespace {

class Recording {
  public:
    Recording(fold::Ledger& ledger, Instant now) : ledger_(ledger), now_(now) {}

    Result<Receipt> run(const Draft& draft);
    Result<Receipt> correct(Seq target, const Draft& rest);  // rest.says replaces the target's statement

  private:
    Seq append(const record::Payload& payload, Instant happened, const std::string& by, const std::string& token);
    std::optional<Receipt> repeated(const std::string& token);
    // Refused, unless it is practice: then it is told.
    Check pass(const fold::Passages& passages, Instant happened, const std::vector<fold::Passage>& before = {});
    void hold(const std::vector<HoldToWrite>& holds, const std::string& by);
    // Holds that the program writes; they may raise nothing themselves.
    void hold_what_deviates(const std::string& by);
    // While a recall is open all that it covers and is here is held (recall_guard.h). Told in lines.
    std::vector<std::string> guard(Seq seq, const std::string& by);
    Receipt receipt_of(Seq seq, const record::Statement& says, Instant happened);
    Check no_less_than_nothing(Seq target);
    Check no_cycle_made();
    // All that the lots of an entry reached, and whether some of it left the house.
    HoldReach reach_of(Seq target);

    fold::Ledger& ledger_;
    Instant now_;
    std::vector<Seq> entries_;  // that were appended
    std::vector<book::Finding> changed_;
    std::vector<AutomaticHold> holds_;
    bool practice_ = ledger_.in_practice();                // rule 58
    std::vector<std::string> practised_;                   // what would be refused or held in earnest
    std::set<book::LotId> rewired_, restocked_;            // lots whose inputs changed; of which there is something again
    std::set<std::pair<book::LotId, book::LotId>> taken_;  // a lot, and what went into it that had not before
    std::map<book::LotId, judge::Facts> judged_;
};

Seq Recording::append(const record::Payload& payload, Instant happened, const std::string& by, const std::string& token) {
    record::Entry entry;
    entry.seq = ledger_.book.next_seq();
    entry.happened = happened;
    entry.written = now_;
    entry.by = by;
    entry.token = token;
    entry.payload = payload;
    ledger_.book.append(entry);
    ledger_.remember(entry);
    entries_.push_back(entry.seq);
    fold::Derivation d{ledger_, entry.seq, now_};
    apply(d, entry);
    changed_.insert(changed_.end(), d.changed.begin(), d.changed.end());
    rewired_.merge(d.rewired);
    restocked_.merge(d.restocked);
    taken_.merge(d.taken);
    d.judged.merge(judged_);  // what was there is older
    judged_.swap(d.judged);
    return entry.seq;
}

void tell_amendment(const record::Amended& amended, Receipt& receipt) {
    receipt.kind = "amended";
    receipt.code.clear();
    receipt.said.insert(receipt.said.begin(), "amended entry " + std::to_string(amended.target) + ": " + amended.why);
}

std::optional<Receipt> Recording::repeated(const std::string& token) {
    if (token.empty()) return {};
    const auto seq = ledger_.rows().seq_of_token(token);
    if (!seq) return {};
    const auto first = ledger_.effective(*seq);
    Receipt receipt = receipt_of(*seq, first.says, first.happened);
    receipt.written = ledger_.entry(*seq).written;
    receipt.repeated = true;
    if (const auto* amended = std::get_if<record::Amended>(&ledger_.entry(*seq).payload)) tell_amendment(*amended, receipt);
    return receipt;
}

void Recording::hold(const std::vector<HoldToWrite>& holds, const std::string& by) {
    for (const auto& hold : holds) {
        const Seq seq = append(record::Statement{hold.says}, now_, by, "");
        holds_.push_back({seq, hold.says.lots, hold.customers, hold.says.why});
    }
}

Check Recording::pass(const fold::Passages& passages, Instant happened, const std::vector<fold::Passage>& before) {
    return gate(ledger_, passages, happened, now_, before, practice_ ? &practised_ : nullptr);
}

// What deviated in practice was not held; it is once the first plan in earnest is adopted.
void Recording::hold_what_deviates(const std::string& by) {
    const bool ends = practice_ && !ledger_.in_practice();
    const auto holds = holds_for(ledger_, ends ? ledger_.rows().undecided_findings() : changed_);
    if (practice_ && !ends) {
        for (const auto& one : holds) practised_.push_back("held: " + joined(one.says.lots, ", ") + ": " + one.says.why);
        return;
    }
    hold(holds, by);
    hold(holds_carried(ledger_, restocked_, taken_), by);
}

std::vector<std::string> Recording::guard(Seq seq, const std::string& by) {
    std::vector<std::string> lines;
    Done done{seq, entries_, rewired_, restocked_, taken_, changed_, {}};
    for (const auto& [lot, facts] : judged_) done.folded.insert(lot);
    const auto widened = widenings(ledger_, done);
    for (const auto& one : widened) {
        append(record::Statement{one}, now_, by, "");
        const auto more = told(ledger_, one);
        lines.insert(lines.end(), more.begin(), more.end());
    }
    hold(recall_holds(ledger_, done, widened), by);
    return lines;
}

Receipt Recording::receipt_of(Seq seq, const record::Statement& says, Instant happened) {
    Receipt receipt;
    receipt.seq = seq;
    receipt.kind = std::string(record::kind_of(says).name);
    receipt.happened = happened;
    receipt.written = now_;
    receipt.code = record::made_code(says);
    receipt.said.push_back(summary(says));
    if (const auto fact = ledger_.rows().fact(seq)) receipt.late = fact->late != 0;
    std::vector<record::FindingKey> seen;
    for (auto f = changed_.rbegin(); f != changed_.rend(); ++f) {  // the last state of each
        const record::FindingKey key{f->anchor, f->point, f->ord};
        if (std::find(seen.begin(), seen.end(), key) != seen.end()) continue;
        seen.push_back(key);
        if (f->verdict == Verdict::within && !f->cleared_by && f->corrected.empty()) continue;
        const auto now = ledger_.rows().finding(f->anchor, f->point, f->ord);
        if (now) receipt.findings.push_back(told(ledger_, *now));
    }
    std::reverse(receipt.findings.begin(), receipt.findings.end());
    receipt.holds = holds_;
    receipt.practice = ledger_.is_practice(seq);
    receipt.practised = practised_;
    if (std::holds_alternative<record::SeriesTaken>(says)) add_series(ledger_, seq, receipt);
    add_reached(ledger_, receipt);
    add_waiting(ledger_, receipt);
    add_point_state(ledger_, judged_, says, receipt);
    if (const auto* started = std::get_if<record::Started>(&says)) add_weigh_sheet(ledger_, *started, seq, receipt);
    return receipt;
}

Result<Receipt> Recording::run(const Draft& draft) {
    if (auto first = repeated(draft.token)) return *first;
    const Instant happened = draft.happened.value_or(now_);
    Request request{ledger_, draft, happened, now_, ledger_.plan_at(happened), 0};
    auto admitted = admit(request);
    if (!admitted) return admitted.refusal();
    const auto* voided = std::get_if<record::Voided>(&admitted->says);
    if (voided) {
        if (auto checked = second_person(ledger_, voided->target, draft.by, voided->undo); !checked) return checked.refusal();
    }
    const auto before_void = voided ? recall_reaches(ledger_) : RecallReaches{};
    for (const auto& before : admitted->before) append(before, happened, draft.by, "");
    const Seq seq = append(admitted->says, happened, draft.by, draft.token);
    if (auto checked = no_cycle_made(); !checked) return checked.refusal();
    if (auto checked = pass(passages_of(ledger_, seq, admitted->says), happened); !checked) return checked.refusal();
    if (voided && voided->undo) {
        if (auto checked = raised_nothing(ledger_, *voided, seq, changed_); !checked) return checked.refusal();
    }
    if (voided) {
        if (auto checked = no_less_than_nothing(voided->target); !checked) return checked.refusal();
    }
    hold_what_deviates(draft.by);
    const auto widened = guard(seq, draft.by);
    Receipt receipt = receipt_of(seq, admitted->says, happened);
    receipt.next.insert(receipt.next.end(), widened.begin(), widened.end());
    for (auto& line : voided ? recall_changes(before_void, recall_reaches(ledger_)) : std::vector<std::string>{})
        receipt.next.push_back(std::move(line));
    receipt.next.insert(receipt.next.begin(), admitted->notes.begin(), admitted->notes.end());
    if (const auto* held = std::get_if<record::Held>(&admitted->says)) {
        std::vector<book::LotId> lots;
        for (const auto& code : held->lots) {
            if (auto lot = ledger_.rows().lot(code)) lots.push_back(lot->id);
        }
        receipt.holds.push_back({seq, held->lots, hold_reach(ledger_, lots).customers, held->why});
    }
    return receipt;
}

// After a correction no lot may have less than nothing today.
Check Recording::no_less_than_nothing(Seq target) {
    std::vector<book::LotId> lots;
    for (const auto& touch : ledger_.rows().touches_of(target)) {
        if (touch.subject_kind != book::SubjectKind::lot) continue;
        lots.push_back(std::stoll(touch.subject));
        for (const auto& use : ledger_.rows().uses_into(lots.back())) {
            if (use.seq == target) lots.push_back(use.from_lot);
        }
    }
    for (const auto id : lots) {
        const auto stock = ledger_.rows().stock(id);
        const auto lot = ledger_.rows().lot(id);
        if (!stock || !lot || (stock->on_hand_mg >= 0 && stock->on_hand_pieces >= 0)) continue;
        return Refusal{"a correction after which " + lot->code + " has " + mass_text(stock->on_hand_mg) + " and " +
                           std::to_string(stock->on_hand_pieces) + " pieces on hand",
                       "no less than nothing: " + mass_text(stock->made_mg) + " made, " + mass_text(stock->used_mg) + " used, " +
                           mass_text(stock->out_mg) + " left the house",
                       "correct the amount, or count the lot first",
                       {}};
    }
    return {};
}

// A time or a lot that was corrected can make a lot come from itself: a fill that moved before the draw it was made from.
Check Recording::no_cycle_made() {
    std::vector<book::LotId> went_on;  // a cycle leads through a lot that was itself used
    for (const auto id : rewired_) {
        if (!ledger_.rows().uses_from(id).empty()) went_on.push_back(id);
    }
    if (went_on.empty()) return {};
    const auto reach = ledger_.rows().forward(went_on);
    trace::Graph graph;
    for (const auto& use : reach.uses) graph.uses.push_back({use.into_lot, use.from_lot, use.seq, {}, {}, true, use.happened});
    auto cycle = trace::cycle_in(graph);
    if (cycle.empty()) return {};
    cycle.push_back(cycle.front());
    std::vector<std::string> codes;
    for (const auto id : cycle) {
        if (const auto lot = ledger_.rows().lot(id)) codes.push_back(lot->code);
    }
    return Refusal{"an entry after which " + codes.front() + " would be made from itself",
                   "a lot that is made from others only",
                   "check the lots and the times: " + joined(codes, " > ") + " would close a cycle",
                   {}};
}

HoldReach Recording::reach_of(Seq target) {
    std::vector<book::LotId> lots;
    for (const auto& touch : ledger_.rows().touches_of(target)) {
        if (touch.subject_kind == book::SubjectKind::lot) lots.push_back(std::stoll(touch.subject));
    }
    return lots.empty() ? HoldReach{} : hold_reach(ledger_, lots);
}

// What an amendment added to the reach of a lot, or took from it: both are listed, since someone may have been told the old one.
std::vector<std::string> reach_changes(const HoldReach& before, const HoldReach& now) {
    std::vector<std::string> told;
    const auto missing_from = [&](const std::vector<std::string>& list, const std::vector<std::string>& other, const char* says) {
        for (const auto& one : list) {
            if (std::find(other.begin(), other.end(), one) == other.end()) told.push_back(says + one);
        }
    };
    missing_from(before.customers, now.customers, "reached before, not now: ");
    missing_from(now.customers, before.customers, "reached now, not before: ");
    return told;
}

Result<Receipt> Recording::correct(Seq target, const Draft& rest) {
    if (auto first = repeated(rest.token)) return *first;
    if (auto checked = may_be_corrected(ledger_, target, false); !checked) return checked.refusal();
    const auto was = ledger_.effective(target);
    if (auto checked = same_identity(was, rest.says); !checked) return checked.refusal();
    const Instant happened = rest.happened.value_or(was.happened);
    Request request{ledger_, rest, happened, now_, ledger_.plan_at(happened), target};
    if (auto checked = reason_given(request, "", "an amendment"); !checked) return checked.refusal();
    auto admitted = admit(request);
    if (!admitted) return admitted.refusal();
    if (auto checked = second_person(ledger_, target, rest.by); !checked) return checked.refusal();
    const auto before_recalls = recall_reaches(ledger_);
    const auto before = reach_of(target);
    if (!before.customers.empty() && rest.by == was.by) {
        return Refusal{"an amendment by " + rest.by + " of their own entry, after goods left the house: " + before.customers.front(),
                       "a second person: someone may already have acted on what was recorded",
                       "let another person amend it",
                       {}};
    }
    const auto sent_on = passages_of(ledger_, target, was.says).all;
    record::Amended amended{target, rest.why, admitted->says, rest.happened};
    const Seq seq = append(amended, now_, rest.by, rest.token);
    if (auto checked = no_cycle_made(); !checked) return checked.refusal();
    if (auto checked = pass(passages_of(ledger_, target, amended.statement), happened, sent_on); !checked) return checked.refusal();
    if (auto checked = no_less_than_nothing(target); !checked) return checked.refusal();
    hold_what_deviates(rest.by);
    const auto widened = guard(seq, rest.by);
    Receipt receipt = receipt_of(seq, amended.statement, happened);
    receipt.next.insert(receipt.next.end(), widened.begin(), widened.end());
    tell_amendment(amended, receipt);
    receipt.next.insert(receipt.next.begin(), admitted->notes.begin(), admitted->notes.end());
    for (auto& line : reach_changes(before, reach_of(target))) receipt.next.push_back(std::move(line));
    for (auto& line : recall_changes(before_recalls, recall_reaches(ledger_))) receipt.next.push_back(std::move(line));
    return receipt;
}

// Whether a logger's file can be read shows when its rows are derived; the transaction is then not committed.
template <class Do> Result<Receipt> tried(Do record) {
    try {
        return record();
    } catch (const fold::UnreadableSeries& unreadable) {
        return unreadable.refusal;
    }
}

// A running transaction that forgets what was read inside it unless it is committed.
class Transaction {
  public:
    explicit Transaction(fold::Ledger& ledger) : ledger_(ledger), work_(ledger.book.begin()) { ledger_.plans_changed(); }
    ~Transaction() {
        if (!committed_) ledger_.forget();
    }
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit() {
        work_.commit();
        committed_ = true;
    }

  private:
    fold::Ledger& ledger_;
    book::Book::Work work_;
    bool committed_ = false;
};

}  // namespace

bool Receipt::judged_bad() const {
    return !practised.empty() || std::any_of(findings.begin(), findings.end(), [](const auto& t) { return fold::is_open(t.finding); });
}

Result<std::vector<Receipt>> Site::record_all(const std::vector<Draft>& drafts) {
    auto& ledger = impl_->ledger;
    Transaction work(ledger);
    std::vector<Receipt> receipts;
    for (const auto& draft : drafts) {
        auto receipt = tried([&] { return Recording(ledger, impl_->clock.now()).run(draft); });
        if (!receipt) return receipt.refusal();
        receipts.push_back(std::move(*receipt));
    }
    work.commit();
    return receipts;
}

Result<Receipt> Site::record(const Draft& draft) {
    auto receipts = record_all({draft});
    if (!receipts) return receipts.refusal();
    return std::move(receipts->front());
}

Result<Receipt> Site::amend(Seq target, const record::Statement& instead, std::optional<Instant> happened, const std::string& by,
                            const std::string& why, const std::string& token) {
    auto& ledger = impl_->ledger;
    Transaction work(ledger);
    const Draft rest{.says = instead, .by = by, .happened = happened, .token = token, .already_done = false, .why = why};
    auto receipt = tried([&] { return Recording(ledger, impl_->clock.now()).correct(target, rest); });
    if (!receipt) return receipt.refusal();
    work.commit();
    return receipt;
}

Result<Receipt> Site::void_entry(Seq target, const std::string& by, const std::string& why, const std::string& token) {
    return record({.says = record::Voided{target, why}, .by = by, .happened = {}, .token = token, .already_done = false, .why = why});
}

Result<Receipt> Site::undo(const std::string& by, const std::string& token) {
    auto& ledger = impl_->ledger;
    Transaction work(ledger);
    Recording recording(ledger, impl_->clock.now());
    const auto target = last_of(ledger, by);  // of its own, not the holds that the program wrote
    const Draft draft{.says = record::Voided{target, "", true}, .by = by, .happened = {}, .token = token, .already_done = false, .why = {}};
    auto receipt = recording.run(draft);
    if (!receipt) return receipt.refusal();
    work.commit();
    return receipt;
}

Result<Receipt> Site::record_series(const record::SeriesTaken& series, Bytes& file, const Draft& rest, const Progress& progress) {
    auto& ledger = impl_->ledger;
    auto draft = rest;
    auto says = series;
    record::Hasher hasher;
    each_part(file, [&](std::string_view part) { hasher.add(part); });
    says.sha256 = hasher.hex();
    draft.says = says;
    Transaction work(ledger);
    ledger.progress = progress;
    ledger.book.attach(says.sha256, file);
    auto receipt = tried([&] { return Recording(ledger, impl_->clock.now()).run(draft); });
    ledger.progress = {};
    if (!receipt) return receipt.refusal();
    work.commit();
    return receipt;
}

}  // namespace peelbook::site
