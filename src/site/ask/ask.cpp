// Questions about now: what is open, what is due, what one lot is.
#include <algorithm>

#include "base/text.h"
#include "fold/dates.h"
#include "site/ask/outlook.h"
#include "site/ask/owed_now.h"
#include "site/ask/waiting.h"
#include "site/impl.h"
#include "site/record/admit.h"
#include "site/record/receipt.h"

namespace peelbook::site {

Status Site::status() const {
    auto& ledger = impl_->ledger;
    Status out;
    if (ledger.book.next_seq() > 1) {
        const auto opened = ledger.effective(1);
        if (const auto* says = std::get_if<record::Opened>(&opened.says)) out.site_name = says->name;
    }
    out.entries = ledger.book.next_seq() - 1;
    out.head = record::to_hex(ledger.book.head());
    const Instant now = impl_->clock.now();
    out.practice = ledger.in_practice();
    out.plan = ledger.rows().plan_in_force(now.ms);
    const auto governing = ledger.plan_at(now);
    if (governing.seq != 0) out.site_name = governing.plan->site.name;
    constexpr Duration open_for = days(14);  // a batch open for longer is in the weekly workbook
    out.open_batches = ledger.rows().lots_open((now - open_for).ms, now.ms + 1);
    for (const auto& f : ledger.rows().undecided_findings()) out.open_findings.push_back(told(ledger, f));
    for (auto& item : owed_now(ledger, now, now)) {
        if (item.overdue && item.owed.subject_kind != book::SubjectKind::instrument) out.owed_not_done.push_back(std::move(item));
    }
    for (auto& hold : ledger.rows().open_holds()) {
        const auto lot = ledger.rows().lot(hold.lot);
        out.open_holds.emplace_back(std::move(hold), lot ? lot->code : "");
    }
    out.waiting = waiting_entries(ledger);
    return out;
}

std::vector<WaitingEntry> Site::waiting() const { return waiting_entries(impl_->ledger); }
bool Site::in_practice() const { return impl_->ledger.in_practice(); }
bool Site::is_practice(Seq seq) const { return impl_->ledger.is_practice(seq); }

std::vector<DueItem> Site::due(Instant until) const {
    auto out = owed_now(impl_->ledger, impl_->clock.now(), until);
    for (auto& item : out) {
        if (item.owed.subject_kind != book::SubjectKind::lot) continue;
        if (const auto lot = impl_->ledger.rows().lot(item.owed.subject)) item.outlook = outlook_of(impl_->ledger, *lot, item.owed.point);
    }
    return out;
}

std::vector<std::string> Site::owed_of(const book::Lot& lot) const { return owed_of_lot(impl_->ledger, lot, impl_->clock.now()); }

std::string Site::use_of(const book::Lot& lot) const { return fold::told_of_use(impl_->ledger, lot, impl_->clock.now()); }

Result<book::Lot> Site::lot(const std::string& code) const {
    Draft nothing;
    Request r{impl_->ledger, nothing, {}, {}, {}, 0};
    return known_lot(r, code);
}

std::vector<ToldFinding> Site::findings_of(const std::string& lot_code) const {
    std::vector<ToldFinding> out;
    if (const auto lot = impl_->ledger.rows().lot(lot_code)) {
        for (const auto& f : impl_->ledger.rows().findings(lot->id)) out.push_back(told(impl_->ledger, f));
    }
    return out;
}

}  // namespace peelbook::site
