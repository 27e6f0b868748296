// Goods at a co-packer stay ours. What comes back is a new lot, made of what was sent.
#include <algorithm>

#include "base/text.h"
#include "site/record/admit.h"
#include "site/record/codes.h"

namespace peelbook::site {
namespace {

// Our lots that went to them up to then, in order.
std::vector<std::string> sent_to(const Request& r, const std::string& partner) {
    std::vector<std::string> codes;
    for (const auto& move : r.rows().moves_to(partner)) {
        const auto lot = r.rows().lot(move.lot);
        if (move.way != Way::co_packer || move.happened > r.happened.ms || !lot) continue;
        if (std::find(codes.begin(), codes.end(), lot->code) == codes.end()) codes.push_back(lot->code);
    }
    return codes;
}

Check whole_amount(const Request& r, const record::CoPacked& s) {
    if (auto checked = wanted_dimension("mass", s.mass, Dimension::mass); !checked) return checked;
    if (s.pieces < 0) return Refusal{std::to_string(s.pieces) + " pieces", "a number of pieces above nothing", "type what came back", {}};
    const auto* product = r.plan().product(s.product);
    if (s.pieces == 0 && product->counted_in_pieces()) {
        return Refusal{"no pieces of " + s.product, "how many came back: the plan counts it so", "add --pieces N", {}};
    }
    if (s.pieces == 0 && !s.mass) return Refusal{"no quantity", "how much came back", "add --pieces N or --mass", {}};
    return {};
}

// The lots that they name must have been sent; when they name none, each that was may be in it.
Check made_of(const Request& r, record::CoPacked& s) {
    const auto sent = sent_to(r, s.partner);
    if (sent.empty()) {
        return Refusal{"goods back from " + s.partner + ", who was sent nothing",
                       "a lot that went to them before",
                       "record what was sent first: peelbook ship LOT --way co-packer --to " + s.partner + " --at ...",
                       {}};
    }
    for (const auto& code : s.from) {
        if (std::find(sent.begin(), sent.end(), code) != sent.end()) continue;
        return Refusal{"lot '" + shown(code) + "' at " + s.partner, "a lot that was sent there: " + joined(sent, ", "),
                       "check the code, or leave it out: then each of them is possible", nearest(code, sent)};
    }
    if (!s.from.empty()) return {};
    s.from = sent;
    s.possible = true;
    return {};
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::CoPacked& given) {
    auto s = given;
    const auto* product = r.plan().product(s.product);
    if (!product)
        return known_id("product", s.product, ids_of_products(r.plan()), "check the word, or add the product to the plan").refusal();
    if (!r.rows().partner(s.partner)) {
        std::vector<std::string> known;
        for (const auto& partner : r.rows().partners()) known.push_back(partner.code);
        return Refusal{"partner '" + shown(s.partner) + "'", "a partner in the book", "add them with: peelbook partner",
                       nearest(s.partner, known)};
    }
    if (auto checked = whole_amount(r, s); !checked) return checked.refusal();
    if (auto checked = made_of(r, s); !checked) return checked.refusal();
    if (s.label.empty()) s.label = product->label;
    if (!s.label.empty() && !r.plan().label(s.label)) {
        std::vector<std::string> ids;
        for (const auto& label : r.plan().labels) ids.push_back(label.id);
        return known_id("label", s.label, ids, "read the label that is on the packs").refusal();
    }
    if (s.lot.empty()) s.lot = next_code(r.ledger, (product->code.empty() ? uppered(s.product) : product->code) + "-C", r.happened);
    if (auto checked = free_code(r, s.lot); !checked) return checked.refusal();
    Admitted out{{}, s, {}};
    if (s.possible) out.notes.push_back("no lot was named: each of " + joined(s.from, ", ") + " may be in it");
    return out;
}

}  // namespace peelbook::site
