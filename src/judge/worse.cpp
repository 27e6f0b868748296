#include "judge/worse.h"

#include <algorithm>
#include <set>

namespace peelbook::judge {

int badness(const Judged& judged, const Finding* finding) {
    if (finding && finding->verdict > Verdict::within) return 1 + static_cast<int>(finding->verdict);
    if (finding && !judged.part_open) return 0;
    return judged.owed ? 1 : -1;
}

const Finding* of_unit(const Judged& judged, std::int64_t ord) {
    const auto found = std::find_if(judged.findings.begin(), judged.findings.end(), [&](const auto& f) { return f.ord == ord; });
    return found == judged.findings.end() ? nullptr : &*found;
}

Judged worse_of(const Judged& a, const Judged& b) {
    std::set<std::int64_t> units;
    for (const Judged* judged : {&a, &b})
        for (const Finding& finding : judged->findings) units.insert(finding.ord);
    if (units.empty()) return a.standing == Standing::not_judged && a.owed ? a : b;
    Judged out;
    out.owed = a.owed || b.owed;
    bool all_struck = false;  // in the worse of them nothing is left that was read of a unit
    for (const std::int64_t ord : units) {
        const Finding *of_a = of_unit(a, ord), *of_b = of_unit(b, ord);
        const bool b_is_worse = badness(b, of_b) > badness(a, of_a);
        const Judged& worse = b_is_worse ? b : a;
        const Finding* finding = b_is_worse ? of_b : of_a;
        if (finding) out.findings.push_back(*finding);
        out.part_open |= !finding || worse.part_open;
        all_struck |= !finding && worse.standing == Standing::not_judged;
        if (out.next.empty()) out.next = worse.next;
    }
    out.standing = !out.findings.empty() ? Standing::judged : all_struck ? Standing::not_judged : Standing::open;
    if (out.findings.empty()) out.part_open = false;
    return out;
}

}  // namespace peelbook::judge
