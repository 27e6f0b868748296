#include "simulate/standings.h"

namespace peelbook::simulate {

Standings standings_of(House& house) {
    Standings out;
    for (const auto& row : house.ask("SELECT code FROM lot")) out.lots.insert(to_text(row[0]));
    for (const auto& row : house.ask("SELECT DISTINCT code FROM hold JOIN lot ON lot.id = hold.lot WHERE released_seq IS NULL"))
        out.held.insert(to_text(row[0]));
    // A count answers a negative stock: that is what it is for.
    for (const auto& row :
         house.ask("SELECT coalesce(lot.code, f.place) || ' ' || f.point, max(iif(f.cleared_by IS NULL, f.verdict, 0)) FROM finding f "
                   "LEFT JOIN lot ON lot.id = f.lot WHERE f.point <> 'negative-stock' GROUP BY 1"))
        out.findings[to_text(row[0])] = std::get<std::int64_t>(row[1]);
    return out;
}

std::vector<Milder> milder(const Standings& before, const Standings& after) {
    static const std::vector<std::string> verdicts = {"within", "unproven", "missing", "deviation"};
    std::vector<Milder> out;
    for (const auto& code : before.held)  // what was voided is no lot any more
        if (!after.held.contains(code) && after.lots.contains(code)) out.push_back({code, "hold", code + " was held", true});
    for (const auto& [key, verdict] : before.findings) {
        const auto now = after.findings.find(key);
        const std::int64_t to = now == after.findings.end() ? -1 : now->second;
        const std::string& word = verdicts.at(static_cast<std::size_t>(verdict));
        if (verdict > 0 && to < verdict)
            out.push_back({key, key.substr(key.find(' ') + 1) + " " + word, key + " stood at " + word, false, verdict, to});
    }
    return out;
}

}  // namespace peelbook::simulate
