// Lots come to be: received, started, filled into a vessel, split into racks, packed.
#include <algorithm>

#include "base/gs1.h"
#include "base/text.h"
#include "base/words.h"
#include "fold/label.h"
#include "fold/standing.h"
#include "fold/weigh_sheet.h"
#include "judge/judge.h"
#include "judge/possible.h"
#include "plan/allergens.h"
#include "site/record/admit.h"
#include "site/record/admit_amounts.h"
#include "site/record/admit_dates.h"
#include "site/record/codes.h"

namespace peelbook::site {
namespace {

std::vector<std::string> partner_codes(const Request& r, const std::string& role) {
    std::vector<std::string> codes;
    for (const auto& partner : r.rows().partners()) {
        if (partner.roles.find(role) != std::string::npos) codes.push_back(partner.code);
    }
    return codes;
}

Check allergen_words(const std::vector<std::string>& words) {
    for (const auto& word : words) {
        if (auto checked = plan::check_allergen(word); !checked) return checked;
    }
    return {};
}

std::string initials_of_code(const std::string& code, const std::string& id) { return code.empty() ? uppered(id) : code; }

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::Received& given) {
    auto s = given;
    const auto* material = r.plan().material(s.material);
    if (!material)
        return known_id("material", s.material, ids_of_materials(r.plan()), "check the word, or add the material to the plan").refusal();
    if (!material->supply || !s.supplier.empty()) {
        const auto known = partner_codes(r, "supplier");
        if (std::find(known.begin(), known.end(), s.supplier) == known.end()) {
            return Refusal{"supplier '" + shown(s.supplier) + "'", "a partner with the role supplier", "add them with: peelbook partner",
                           nearest(s.supplier, known)};
        }
    }
    if (!s.mass && s.pieces == 0 && !material->supply) {
        return Refusal{"no quantity", "how much came", "add --mass 500kg or --pieces 240", {}};
    }
    if (s.pieces < 0) return Refusal{std::to_string(s.pieces) + " pieces", "a number of pieces above nothing", "type what came", {}};
    if (auto checked = wanted_dimension("mass", s.mass, Dimension::mass); !checked) return checked.refusal();
    if (auto checked = wanted_dimension("temperature", s.temperature, Dimension::temperature); !checked) return checked.refusal();
    for (const auto* point : r.plan().points_of_material(s.material)) {
        if (!s.temperature || point->dimension != Dimension::temperature || judge::is_possible(*point, *s.temperature)) continue;
        return not_possible(*point, *s.temperature, "receive it without, and record it: peelbook reading LOT " + point->id + " ... --sure");
    }
    if (!s.gtin.empty()) {
        if (auto checked = check_gtin(s.gtin); !checked) return checked.refusal();
    }
    if (!s.sscc.empty()) {
        if (auto checked = check_sscc(s.sscc); !checked) return checked.refusal();
    }
    if (auto checked = allergen_words(s.allergens.contains); !checked) return checked.refusal();
    if (auto checked = allergen_words(s.allergens.may_contain); !checked) return checked.refusal();
    if (s.status.empty()) s.status = word(book::LotStatus::accepted);
    const auto status = from_word<book::LotStatus>(s.status);
    if (status != book::LotStatus::accepted && status != book::LotStatus::held && status != book::LotStatus::refused) {
        return Refusal{"status '" + shown(s.status) + "'", "accepted, held or refused", "type one of these", {}};
    }
    if (status != book::LotStatus::accepted && trimmed(s.why).empty()) {
        return Refusal{"a lot " + s.status + " without a reason", "why it was " + s.status, "add --why \"...\"", {}};
    }
    if (auto checked = not_past_its_date(r, s, *material); !checked) return checked.refusal();
    if (!s.instrument.empty() && !r.plan().instrument(s.instrument)) {
        return Refusal{"instrument '" + shown(s.instrument) + "'", "an instrument of the plan", "check the name", {}};
    }
    if (s.lot.empty()) s.lot = next_code(r.ledger, initials_of_code(material->code, material->id), r.happened);
    if (auto checked = free_code(r, s.lot); !checked) return checked.refusal();
    Admitted out{{}, s, {}};
    if (!s.date && material->date_kind == DateKind::use_by)
        out.notes.push_back("no use-by date of " + s.lot + " is stated, so none is watched: amend it with the date on it");
    for (const auto& lot : r.rows().lots_by_supplier(s.supplier_lot)) {
        if (!s.supplier_lot.empty() && lot.item == s.material && lot.partner == s.supplier) {
            out.notes.push_back("supplier lot " + s.supplier_lot + " came before, as " + lot.code + "; a trace takes both");
            for (const auto& row : r.rows().recalls_of(lot.id)) {
                const auto closed = r.rows().recall(row.recall);
                if (closed->closed_seq && closed->drill == 0 && row.asked != 0)
                    out.notes.push_back("it was recalled by " + closed->code + ": " + closed->hazard + ". Hold it, or open that anew");
            }
        }
        const auto recall = lot.item == s.material && lot.partner != s.supplier ? r.rows().covering(lot.id) : std::nullopt;
        if (recall && !s.supplier_lot.empty()) {
            out.notes.push_back(recall->code + " covers lot " + s.supplier_lot + " of " + lot.partner +
                                ": if this is the same, sold on by another, take it in: peelbook recall widen " + recall->code + " " +
                                s.lot);
        }
    }
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::Started& given) {
    auto s = given;
    const auto* product = r.plan().product(s.product);
    if (!product)
        return known_id("product", s.product, ids_of_products(r.plan()), "check the word, or add the product to the plan").refusal();
    if (auto checked = wanted_dimension("flour", s.flour, Dimension::mass); !checked) return checked.refusal();
    if (auto checked = wanted_dimension("dough", s.dough, Dimension::mass); !checked) return checked.refusal();
    if (s.pieces < 0) return Refusal{std::to_string(s.pieces) + " pieces", "a number of pieces above nothing", "type the wanted size", {}};
    if ((s.flour ? 1 : 0) + (s.dough ? 1 : 0) + (s.pieces > 0 ? 1 : 0) > 1) {
        return Refusal{"more than one size", "one of --flour, --dough, --pieces", "keep the one that is meant", {}};
    }
    if (auto sheet = fold::weigh_sheet(*product, s); !sheet) return sheet.refusal();
    if (s.line.empty()) s.line = product->line;
    if (s.lot.empty()) s.lot = next_code(r.ledger, initials_of_code(product->code, product->id), r.happened);
    if (auto checked = free_code(r, s.lot); !checked) return checked.refusal();
    return Admitted{{}, s, {}};
}

namespace {

// Waste wants a reason, and so does a yield far from what the dough makes: pieces that nobody counted may be anywhere.
Check yield_explained(const Request& r, const book::Lot& lot, const plan::Product* product, const record::Finished& s) {
    if (reason_given(r, s.why, "") || !product || s.pieces + s.spoiled == 0) return {};
    const auto made = r.ledger.effective(lot.id);
    const auto sheet = fold::weigh_sheet(*product, std::get<record::Started>(made.says));
    const std::int64_t expected = sheet ? sheet->pieces : 0, tolerance = product->yield_tolerance_milli_percent;
    if (const auto off = judge::judge_yield(s.pieces, s.spoiled, expected, tolerance, r.happened)) {
        return Refusal{
            off->measured + " of " + lot.code + ": " + std::to_string(s.pieces) + " good, " + std::to_string(s.spoiled) + " spoiled",
            judge::yield_limit_text(expected, tolerance) + ", or the reason",
            "count again, the spoiled ones too (--spoiled N); if it is so, add --why \"...\"",
            {}};
    }
    if (s.spoiled > 0) return reason_given(r, s.why, std::to_string(s.spoiled) + " spoiled pieces of " + lot.code);
    return {};
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::Finished& given) {
    auto s = given;
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    if (lot->kind != LotKind::batch)
        return Refusal{"lot " + lot->code + ", a " + in_words(lot->kind) + " lot", "a batch", "check the code", {}};
    if (lot->finished && r.amending == 0) {
        return Refusal{"batch " + lot->code + ", finished " + to_text(r.ledger.zone(), {*lot->finished}),
                       "an open batch",
                       "correct the yield with: peelbook amend",
                       {}};
    }
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    if (auto checked = wanted_dimension("mass", s.mass, Dimension::mass); !checked) return checked.refusal();
    const auto governing = r.ledger.plan_version(lot->plan_seq);
    const auto* product = governing.plan->product(lot->item);
    if (s.pieces < 0 || s.spoiled < 0 || (s.pieces + s.spoiled == 0 && product && product->counted_in_pieces())) {
        return Refusal{"no pieces for " + lot->code,
                       "the yield in pieces: the plan counts " + lot->item + " so",
                       "add --pieces N (what came out, without the waste)",
                       {}};
    }
    if (s.spoiled > 0 && product && !product->counted_in_pieces()) {
        return Refusal{std::to_string(s.spoiled) + " spoiled pieces of " + lot->code,
                       "a mass: the plan does not count " + lot->item + " in pieces",
                       "finish it with all that came out, then: peelbook discard " + lot->code + " --mass ... --why ...",
                       {}};
    }
    if (!s.mass) return Refusal{"no mass for " + lot->code, "the yield by weight", "add --mass, the weight of what came out", {}};
    if (auto checked = yield_explained(r, *lot, product, s); !checked) return checked.refusal();
    s.lot = lot->code;
    if (s.why.empty() && r.amending == 0) s.why = r.draft.why;
    auto out = Admitted{{}, s, {}};
    if (s.spoiled > 0) out.notes.push_back("a core read beside spoiled pieces is not that of the coldest place");
    if (lot->input_mg && s.mass->value > *lot->input_mg) {
        out.notes.push_back("more came out (" + to_text(*s.mass) + ") than went in (" + mass_text(*lot->input_mg) +
                            "): is a use missing, or the scale wrong?");
    }
    return out;
}

namespace {

// Pieces are counted at finish: nothing is taken from a batch before that.
Check not_before_finish(const Request& r, const book::Lot& lot) {
    if (auto checked = not_before_lot(r, lot); !checked) return checked;
    if (lot.kind != LotKind::batch || !lot.finished || r.happened.ms >= *lot.finished) return {};
    return Refusal{
        to_text(r.ledger.zone(), r.happened, true) + " for " + lot.code + ", finished " + to_text(r.ledger.zone(), {*lot.finished}, true),
        "a time from its finish on",
        "check --at; if it was finished earlier, amend that entry first",
        {}};
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::Split& given) {
    auto s = given;
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    s.lot = lot->code;
    if (lot->kind != LotKind::batch || !lot->finished) {
        return Refusal{"split of " + lot->code, "a finished batch: its pieces are counted at finish", "record finish first", {}};
    }
    if (auto checked = not_before_finish(r, *lot); !checked) return checked.refusal();
    if (auto checked = check_code("rack", s.unit); !checked) return checked.refusal();
    auto amount = take_from(r, *lot, s.pieces, s.mass, false);
    if (!amount) return amount.refusal();
    s.pieces = amount->pieces;
    s.mass = amount->mass;
    if (s.child.empty()) s.child = lot->code + "/" + s.unit;
    if (auto checked = free_code(r, s.child); !checked) return checked.refusal();
    return Admitted{{}, s, {}};
}

Result<Admitted> admit_kind(const Request& r, const record::Packed& given) {
    auto s = given;
    if (s.pieces < 0) return Refusal{std::to_string(s.pieces) + " packs", "a number of packs above nothing", "type what was packed", {}};
    if (s.from.empty()) return Refusal{"nothing to pack", "the batch or rack that was packed", "type its code", {}};
    const auto* label = r.plan().label(s.label);
    std::vector<book::LotId> sources;
    std::string item;
    for (auto& part : s.from) {
        auto lot = known_lot(r, part.lot);
        if (!lot) return lot.refusal();
        part.lot = lot->code;
        if (!is_goods(lot->kind)) {
            return Refusal{"lot " + lot->code + ", a " + in_words(lot->kind) + " lot",
                           "a batch or rack to pack, or packs to pack anew",
                           "check the code",
                           {}};
        }
        if (fold::is_open(*lot)) {
            return Refusal{
                "batch " + lot->code + ", not finished", "a finished batch: its pieces are counted at finish", "record finish first", {}};
        }
        if (s.label.empty()) {
            if (const auto* product = r.plan().product(lot->item)) s.label = product->label;
            label = r.plan().label(s.label);
        }
        if (auto checked = not_before_finish(r, *lot); !checked) return checked.refusal();
        auto amount = take_from(r, *lot, part.pieces, part.mass, false);
        if (!amount) return amount.refusal();
        part.pieces = amount->pieces;
        part.mass = amount->mass;
        sources.push_back(lot->id);
        item = lot->item;
    }
    if (!label) {
        std::vector<std::string> ids;
        for (const auto& l : r.plan().labels) ids.push_back(l.id);
        return known_id("label", s.label, ids, "scan the label that is on the packs").refusal();
    }
    if (s.printed_code.empty()) {
        return Refusal{"no printed code", "the code as read from the pack: a recall names it", "add --printed CODE", {}};
    }
    const auto surplus = label_gaps(r.ledger, r.plan(), *label, item, sources).surplus;
    s.already_done = s.already_done || r.draft.already_done;
    if (s.why.empty() && r.amending == 0) s.why = r.draft.why;
    const auto* product = r.plan().product(item);
    if (s.lot.empty()) s.lot = next_code(r.ledger, initials_of_code(product ? product->code : "", item) + "-P", r.happened);
    if (auto checked = free_code(r, s.lot); !checked) return checked.refusal();
    Admitted out{{}, s, {}};
    const auto same = r.rows().lots_with_printed_code(s.printed_code);
    if (!same.empty() && same.front().item != item) {
        out.notes.push_back("printed code " + s.printed_code + " is also on " + same.front().item + ": a recall cannot tell them apart");
    }
    if (!surplus.empty()) {
        out.notes.push_back("warning: label " + label->id + " declares " + joined(surplus, ", ") +
                            ", which nothing that was used and nothing in the formula brings");
    }
    if (product && !label->product.empty() && label->product != item) {
        out.notes.push_back("label " + label->id + " is the plan's label of " + label->product);
    }
    return out;
}

}  // namespace peelbook::site
