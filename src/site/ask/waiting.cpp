#include "site/ask/waiting.h"

#include "fold/ratchet/waiting.h"
#include "fold/standing.h"
#include "record/hasher.h"
#include "site/record/receipt.h"

namespace peelbook::site {
namespace {

void tell_change(fold::Ledger& ledger, WaitingEntry& out) {
    for (const auto& correction : ledger.rows().corrections(out.target)) {
        if (correction.seq != out.entry) continue;
        out.before = correction.before;
        out.after = correction.after;
        out.why = correction.why;
    }
}

}  // namespace

WaitingEntry waiting_entry(fold::Ledger& ledger, Seq seq) {
    const auto& entry = ledger.entry(seq);
    const auto row = ledger.rows().waiting(seq);
    WaitingEntry out;
    out.entry = seq;
    out.target = row ? row->target : seq;
    out.kind = std::string(record::kind_of(entry.payload).name);
    out.by = entry.by;
    out.written = entry.written;
    out.alone = row && row->alone != 0;
    const auto target = ledger.effective(out.target);
    out.what = std::string(record::kind_of(target.says).name);
    if (out.target != out.entry) {
        tell_change(ledger, out);
    } else {
        out.after = record::in_one_line(target.says) + "; at: " + to_text(ledger.zone(), target.happened);
    }
    for (const auto& f : ledger.rows().waiting_for(seq)) out.findings.push_back(told(ledger, f));
    return out;
}

std::vector<WaitingEntry> waiting_entries(fold::Ledger& ledger) {
    std::vector<WaitingEntry> out;
    for (const Seq entry : ledger.rows().all_waiting()) out.push_back(waiting_entry(ledger, entry));
    for (const auto& row : ledger.rows().alone()) out.push_back(waiting_entry(ledger, row.entry));
    return out;
}

std::string digest_of(const WaitingEntry& entry) {
    std::string text = std::to_string(entry.entry) + "\n" + entry.before + "\n" + entry.after + "\n";
    for (const auto& told : entry.findings) text += fold::digest_of(told.finding) + "\n";
    return record::to_hex(record::sha256(text));
}

}  // namespace peelbook::site
