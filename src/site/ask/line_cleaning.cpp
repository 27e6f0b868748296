#include "site/ask/line_cleaning.h"

#include <algorithm>

#include "base/text.h"
#include "fold/label.h"

namespace peelbook::site {
namespace {

constexpr std::int64_t ms_per_minute = 60'000;
constexpr std::size_t most_cleanings_tried = 10;  // of one piece: beyond that the widest are tried

std::int64_t minutes_of(const plan::Cleaning& cleaning) { return (cleaning.time.ms + ms_per_minute - 1) / ms_per_minute; }

void add_brought(const plan::Plan& plan, const std::string& product, std::set<std::string>& seen, std::map<std::string, bool>& all) {
    const auto* made = plan.product(product);
    if (!made || !seen.insert(product).second) return;
    for (const auto& item : made->formula) {
        add_brought(plan, item.item, seen, all);
        const auto* material = plan.material(item.item);
        if (!material) continue;
        for (const auto& a : material->allergens) all[a] = all[a] || !item.optional;
        for (const auto& a : material->may_contain) all.try_emplace(a, false);
    }
}

std::vector<const plan::Equipment*> pieces_of_line(const plan::Plan& plan, const std::string& line) {
    std::vector<const plan::Equipment*> out;
    for (const auto& piece : plan.equipment) {
        if (among(piece.lines, line)) out.push_back(&piece);
    }
    return out;
}

std::vector<const plan::Cleaning*> cleanings_of(const plan::Plan& plan, const std::string& piece) {
    std::vector<const plan::Cleaning*> out;
    for (const auto& cleaning : plan.cleanings) {
        if (among(cleaning.equipment, piece)) out.push_back(&cleaning);
    }
    std::stable_sort(out.begin(), out.end(), [](const auto* a, const auto* b) { return a->clears.size() > b->clears.size(); });
    if (out.size() > most_cleanings_tried) out.resize(most_cleanings_tried);
    return out;
}

// The cleanings of a piece that together clear all of `wanted` in the least minutes, then at the least cost;
// none when they cannot.
std::vector<const plan::Cleaning*> least_cleanings(const std::vector<const plan::Cleaning*>& known, const std::set<std::string>& wanted) {
    std::vector<const plan::Cleaning*> best;
    std::pair<std::int64_t, std::int64_t> least{-1, 0};
    for (std::size_t set = 1; set < (std::size_t{1} << known.size()); ++set) {
        std::vector<const plan::Cleaning*> chosen;
        std::set<std::string> cleared;
        std::pair<std::int64_t, std::int64_t> price{0, 0};
        for (std::size_t i = 0; i < known.size(); ++i) {
            if ((set >> i & 1) == 0) continue;
            chosen.push_back(known[i]);
            cleared.insert(known[i]->clears.begin(), known[i]->clears.end());
            price.first += minutes_of(*known[i]);
            price.second += known[i]->cost;
        }
        if (!std::includes(cleared.begin(), cleared.end(), wanted.begin(), wanted.end())) continue;
        if (least.first >= 0 && price >= least) continue;
        least = price;
        best = chosen;
    }
    return best;
}

std::int64_t longest_minutes(const plan::Plan& plan, const std::vector<const plan::Cleaning*>& known) {
    std::int64_t longest = 0;
    for (const auto* cleaning : known) longest = std::max(longest, minutes_of(*cleaning));
    if (longest > 0) return longest;
    for (const auto& cleaning : plan.cleanings) longest = std::max(longest, minutes_of(cleaning));
    return longest;
}

void clean_piece(const plan::Plan& plan, const std::string& piece, std::set<std::string> wanted, LineCleaning& out) {
    const auto known = cleanings_of(plan, piece);
    std::set<std::string> clearable;
    for (const auto* cleaning : known) clearable.insert(cleaning->clears.begin(), cleaning->clears.end());
    bool all = true;
    for (auto allergen = wanted.begin(); allergen != wanted.end();) {
        if (clearable.contains(*allergen)) {
            ++allergen;
            continue;
        }
        all = false;
        out.cannot.push_back(*allergen + " on " + piece);
        allergen = wanted.erase(allergen);
    }
    if (!all) out.minutes += longest_minutes(plan, known);
    if (wanted.empty()) return;
    LineCleaning::Piece done{piece, {}, {wanted.begin(), wanted.end()}};
    for (const auto* cleaning : least_cleanings(known, wanted)) {
        done.cleanings.push_back(cleaning->id);
        if (all) out.minutes += minutes_of(*cleaning);
        out.cost += cleaning->cost;
    }
    out.pieces.push_back(std::move(done));
}

}  // namespace

std::map<std::string, bool> brought_by(const plan::Plan& plan, const std::string& product) {
    std::map<std::string, bool> all;
    std::set<std::string> seen;
    add_brought(plan, product, seen, all);
    return all;
}

bool may_meet(const plan::Plan& plan, const std::string& product, const std::string& allergen) {
    const auto own = brought_by(plan, product);
    if (const auto found = own.find(allergen); found != own.end() && found->second) return true;
    book::Lot batch;
    batch.kind = LotKind::batch;
    batch.item = product;
    return fold::declared_by_all(fold::labels_for(plan, batch), allergen);
}

Lying can_lie(const plan::Plan& plan, const std::string& line, const std::vector<std::string>& products, const Lying& now) {
    Lying all = now;
    for (const auto& product : products) {
        const auto own = brought_by(plan, product);
        for (const auto* piece : plan.pieces_of(product, line)) {
            for (const auto& [allergen, sure] : own) all[piece->id].insert(allergen);
        }
    }
    return all;
}

Lying left_by(const plan::Plan& plan, const std::string& line, const std::string& product, const Lying& at_all) {
    Lying left;
    for (const auto& [piece, allergens] : at_all) {
        for (const auto& allergen : allergens) {
            if (may_meet(plan, product, allergen)) left[piece].insert(allergen);
        }
    }
    const auto own = brought_by(plan, product);
    for (const auto* piece : plan.pieces_of(product, line)) {
        for (const auto& [allergen, sure] : own) left[piece->id].insert(allergen);
    }
    return left;
}

LineCleaning cleaning_before(const plan::Plan& plan, const std::string& line, const Lying& lying, const std::string& product) {
    LineCleaning out;
    for (const auto* piece : pieces_of_line(plan, line)) {
        const auto there = lying.find(piece->id);
        if (there == lying.end()) continue;
        std::set<std::string> wanted;
        for (const auto& allergen : there->second) {
            if (!may_meet(plan, product, allergen)) wanted.insert(allergen);
        }
        if (!wanted.empty()) clean_piece(plan, piece->id, std::move(wanted), out);
    }
    return out;
}

}  // namespace peelbook::site
