#include "site/record/recall_count.h"

#include <algorithm>

#include "base/text.h"
#include "base/units.h"
#include "base/words.h"
#include "site/ask/recall_view.h"

namespace peelbook::site {
namespace {

trace::Statement statement_of(const Request& r, const RecallView& view, const record::RecallCounted& s) {
    trace::Statement said{lots_of_code(view, s.code), s.code, s.partner, {}, stored_word<Fate>(s.what), {}, {}, r.happened.ms, 0};
    said.way = stored_word_or_none<Way>(s.way);
    said.seq = r.ledger.book.next_seq();
    if (s.mass) said.mass_mg = s.mass->value;
    if (s.pieces != 0 || !s.mass) said.pieces = s.pieces;
    return said;
}

Refusal code_not_covered(const RecallView& view, const std::string& code) {
    std::vector<std::string> known;
    for (const auto& d : view.deliveries) known.push_back(d.code());
    return {"code '" + shown(code) + "'", "a printed code or lot that " + view.recall.code + " covers", "read it from the pack again",
            nearest(code, known)};
}

record::Part part_of(const RecallView& view, const trace::Share& share, bool weighed) {
    record::Part part;
    for (const auto& line : view.lots) {
        if (line.lot.id == share.lot) part.lot = line.lot.code;
    }
    part.pieces = share.amount.pieces;
    if (weighed || part.pieces == 0) part.mass = measure_of(share.amount.mg, Unit::kg);
    return part;
}

}  // namespace

Result<Admitted> count_by_lot(const Request& r, const book::Recall& recall, record::RecallCounted s) {
    const auto view = recall_view(r.ledger, recall, r.now);
    auto statements = view.said;
    statements.push_back(statement_of(r, view, s));
    const auto said = statements.back();
    if (said.lots.empty()) return code_not_covered(view, s.code);
    const auto outside = trace::outside(view.moves, statements);
    s.parts.clear();
    for (const auto& share : outside.shares) {
        if (share.seq == said.seq) s.parts.push_back(part_of(view, share, s.mass.has_value()));
    }
    s.excess_pieces = s.excess_mg = 0;
    for (const auto& excess : outside.excess) {
        if (excess.said.seq != said.seq) continue;
        s.excess_pieces = excess.amount.pieces;
        s.excess_mg = excess.amount.mg;
    }
    Admitted out{{}, {}, {}};
    const std::string holder = s.partner.empty() ? s.way : s.partner;
    if (s.excess_pieces != 0 || s.excess_mg != 0) {
        out.notes.push_back(not_accounted_text(s.excess_mg, s.excess_pieces) + " of " + s.code + " more than the records have at " +
                            holder + ": it credits nobody. Ask: is a shipment not recorded, or was another code read?");
    }
    if (s.what == word(Fate::returned) && recall.drill == 0 && !s.parts.empty()) {
        for (const auto& part : s.parts)
            out.before.push_back(record::Returned{part.lot, s.partner, part.pieces, part.mass, {}, recall.code, s.way});
        out.notes.push_back("recorded as a return too: held and kept apart, it is not stock");
    }
    out.says = std::move(s);
    return out;
}

}  // namespace peelbook::site
