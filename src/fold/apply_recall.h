#pragma once
// Rows of recalls and drills. They follow from the entry alone, and from the recall it names.
#include "fold/ledger.h"

namespace peelbook::fold {

void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallOpened& s);
void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallDecided& s);
void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallWidened& s);
void apply_recall(Ledger& ledger, const record::Entry& entry, const record::Contacted& s);
void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallTold& s);
void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallCounted& s);
void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallClosed& s);

// What a recall began with, in words: "RF-1, RF-2", "wheat-flour from 2026-11-13 08:00 on".
std::string scope_text(const Zone& zone, const record::RecallOpened& s);

}  // namespace peelbook::fold
