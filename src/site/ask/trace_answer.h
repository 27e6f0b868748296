#pragma once
// The parts of a trace question that recalls ask too.
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "site/site.h"

namespace peelbook::site {

// Our code, a printed code, a vessel, a supply, SUPPLIER:LOT, or a supplier's code: all lots that carry it, of `material` when
// one is named. Refused with the nearest codes when there is none.
Result<std::vector<book::Lot>> named_lots(fold::Ledger& ledger, const std::string& word,
                                          const std::string& material);

// Where these lots went (forward), or what is behind them.
TraceAnswer answer_of(fold::Ledger& ledger, std::vector<book::Lot> start, bool forward, const TraceWindow& window = {});

// Who gave what is in these lots, and who got them (site/ask/one_step.h).
OneStep one_step_of(fold::Ledger& ledger, std::vector<book::Lot> lots);

}  // namespace peelbook::site
