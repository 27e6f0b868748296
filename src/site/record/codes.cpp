#include "site/record/codes.h"

#include <algorithm>
#include <charconv>

#include "base/text.h"
#include "site/record/admit.h"

namespace peelbook::site {

std::string next_code(fold::Ledger& ledger, const std::string& prefix, Instant at) {
    const Date day = from_days(ledger.production_day(at).day);
    std::string stem = to_text(day);  // 2026-11-16 -> 261116
    stem = prefix + "-" + stem.substr(2, 2) + stem.substr(5, 2) + stem.substr(8, 2) + "-";
    int last = 0;
    for (const auto& code : ledger.rows().codes_like(stem)) {
        int n = 0;
        const char* end = code.data() + code.size();
        const auto [rest, error] = std::from_chars(code.data() + stem.size(), end, n);
        if (error == std::errc() && rest == end) last = std::max(last, n);
    }
    return stem + std::to_string(last + 1);
}

Check free_code(const Request& r, const std::string& code) {
    if (auto checked = check_code("lot code", code); !checked) return checked;
    if (r.plan().vessel(code) || r.plan().place(code)) {
        return Refusal{"lot code '" + code + "'", "a code that is not the name of a vessel or place", "choose another code", {}};
    }
    const auto taken = r.rows().lot(code);
    if (taken && taken->id == r.amending) return {};
    if (const auto spent = taken ? std::nullopt : r.rows().spent_code(code)) {
        return Refusal{"lot code '" + code + "', which entry " + std::to_string(spent->lot) + " gave, and which was voided with it",
                       "a code that no lot ever had: labels with this one may still hang somewhere",
                       "leave --code out to get the next free one",
                       {}};
    }
    if (!taken) return {};
    return Refusal{"lot code '" + code + "', which is already " + taken->item + " of " + to_text(r.ledger.zone(), {taken->happened}),
                   "a code that is not in the book",
                   "leave --code out to get the next free one",
                   {}};
}

}  // namespace peelbook::site
