#include "fold/owed/opening.h"

#include "judge/owed_time.h"

namespace peelbook::fold {

bool stood_before_the_plan(Ledger& ledger, const book::Lot& lot) {
    const auto& versions = ledger.plan_versions();
    if (versions.empty() || lot.happened >= versions.front().from_ms) return false;
    const auto written = ledger.rows().fact(lot.id);
    if (!written) return false;
    const Instant adopted{versions.front().from_ms};
    const auto first = ledger.plan_version(versions.front().seq);
    if (first.plan->shifts.empty()) return ledger.production_day({written->written}).day == ledger.production_day(adopted).day;
    return Instant{written->written} < judge::first_shift(*first.plan, ledger.zone(), adopted);
}

}  // namespace peelbook::fold
