#pragma once
// The rows of a trace, told once for text and JSON: each function names the fields of one row in their order and hands every value as it
// is. `tell` takes (name, value) for a text, a whole number, a share, a truth, an instant, and the absence of one of these.
#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "site/ask/delivery_row.h"
#include "site/site.h"
#include "trace/near.h"

namespace peelbook::cli {

// Lots by their number; of two with the same number the one that stands last.
class TracedLots {
  public:
    explicit TracedLots(const trace::Graph& graph) {
        by_id_.reserve(graph.lots.size());
        for (const trace::Lot& lot : graph.lots) by_id_.emplace_back(lot.id, &lot);
        std::stable_sort(by_id_.begin(), by_id_.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    }
    const trace::Lot* find(trace::LotId id) const {
        const auto after =
            std::upper_bound(by_id_.begin(), by_id_.end(), id, [](trace::LotId wanted, const auto& one) { return wanted < one.first; });
        return after != by_id_.begin() && std::prev(after)->first == id ? std::prev(after)->second : nullptr;
    }
    std::string code(trace::LotId id) const {
        const trace::Lot* lot = find(id);
        return lot ? lot->code : std::to_string(id);
    }

  private:
    std::vector<std::pair<trace::LotId, const trace::Lot*>> by_id_;
};

// Pieces mean nothing for a lot that is not counted in pieces.
inline std::optional<std::int64_t> pieces(bool counted, std::int64_t n) { return counted ? std::optional(n) : std::nullopt; }

template <class Tell> void tell_lot(Tell& tell, const trace::Lot& lot, const trace::Reached& reached, trace::Near near) {
    tell("code", lot.code);
    tell("kind", word(lot.kind));
    tell("item", lot.item);
    tell("name", lot.name);
    tell("happened", Instant{lot.happened});
    tell("step", to_text(near));
    tell("depth", std::int64_t{reached.depth});
    tell("certain", reached.certain);
    tell("made_mg", lot.made_mg);
    tell("made_pieces", lot.made_pieces);
    tell("on_hand_mg", lot.on_hand_mg);
    tell("on_hand_pieces", pieces(lot.made_pieces.has_value(), lot.on_hand_pieces));
    tell("held", lot.held);
    tell("share_expected", reached.share_expected);
    tell("share_largest", reached.share_largest);
    tell("suspect_mg", reached.suspect_mg);
    tell("mg_per_kg", reached.mg_per_kg);
    tell("printed_code", lot.printed_code);
    tell("supplier", lot.supplier);
    tell("supplier_lot", lot.supplier_lot);
}

template <class Tell> void tell_customer(Tell& tell, const trace::Delivery& d) {
    tell("partner", d.partner);
    tell("name", d.partner_name);
    site::tell_delivery(tell, d);
}

template <class Tell> void tell_balance(Tell& tell, const trace::Balance& b, const std::string& code) {
    const bool counted = b.made_pieces != 0 || b.used_pieces != 0 ||
                         std::any_of(b.out.begin(), b.out.end(), [](const auto& way) { return way.pieces.has_value(); });
    tell("lot", code);
    tell("made_mg", b.made_mg);
    tell("used_mg", b.used_mg);
    tell("out_mg", b.out_mg());
    tell("on_hand_mg", b.on_hand_mg);
    tell("gap_mg", b.gap_mg);
    tell("returned_mg", b.returned_mg);
    tell("unaccounted_mg", b.unaccounted_mg());
    tell("made_pieces", pieces(counted, b.made_pieces));
    tell("used_pieces", pieces(counted, b.used_pieces));
    tell("out_pieces", pieces(counted, b.out_pieces()));
    tell("on_hand_pieces", pieces(counted, b.on_hand_pieces));
    tell("gap_pieces", pieces(counted, b.gap_pieces));
    tell("returned_pieces", pieces(counted, b.returned_pieces));
    tell("unaccounted_pieces", pieces(counted, b.unaccounted_pieces()));
    tell("closes", b.closes());
}

template <class Tell> void tell_use(Tell& tell, const trace::Use& use, const TracedLots& lots) {
    tell("from_lot", lots.code(use.from));
    tell("into_lot", lots.code(use.into));
    tell("mass_mg", use.mass_mg);
    tell("largest_mg", use.largest_mg);
    tell("pieces", use.pieces);
    tell("certain", use.sure);
    tell("happened", Instant{use.happened});
    tell("entry", use.seq);
}

template <class Tell> void tell_possible(Tell& tell, const book::Lot& lot) {
    tell("code", lot.code);
    tell("item", lot.item);
    tell("happened", Instant{lot.happened});
}

}  // namespace peelbook::cli
