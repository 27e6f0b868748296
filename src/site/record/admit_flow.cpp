// Lots flow: used, stored, out of the house, back, counted.
#include <algorithm>

#include "base/gs1.h"
#include "base/text.h"
#include "base/words.h"
#include "fold/standing.h"
#include "site/record/admit.h"
#include "site/record/admit_amounts.h"
#include "trace/trace.h"

namespace peelbook::site {
namespace {

const plan::Material* supply(const Request& r, const std::string& id) {
    const auto* material = r.plan().material(id);
    return material && material->supply ? material : nullptr;
}

// Water and ice: one lot a supply and month, made by the first use.
std::string supply_lot(const Request& r, const plan::Material& material, Admitted& out) {
    const std::string day = to_text(from_days(r.ledger.production_day(r.happened).day));
    const std::string code = (material.code.empty() ? uppered(material.id) : material.code) + "-" + day.substr(2, 2) + day.substr(5, 2);
    if (!r.rows().lot(code)) {
        record::Received lot;
        lot.lot = code;
        lot.material = material.id;
        lot.status = word(book::LotStatus::accepted);
        lot.allergens.stated = true;
        out.before.push_back(lot);
    }
    return code;
}

}  // namespace

// A lot that was itself made from `into` closes a cycle only through a wrong code.
Check no_cycle(const Request& r, const book::Lot& into, const book::Lot& from) {
    if (into.id == from.id) {
        return Refusal{"lot " + into.code + " into itself", "another lot", "check both codes", {}};
    }
    if (r.rows().uses_from(into.id).empty()) return {};
    const auto made = r.rows().forward({into.id});  // little, where what it was made from may go back years
    trace::Graph graph;
    for (const auto& lot : made.lots) {
        trace::Lot one;
        one.id = lot.id;
        one.code = lot.code;
        graph.lots.push_back(one);
    }
    for (const auto& use : made.uses) graph.uses.push_back({use.into_lot, use.from_lot, use.seq, {}, {}, true, use.happened});
    const auto cycle = trace::cycle_closed_by(graph, into.id, from.id);
    if (cycle.empty()) return {};
    std::vector<std::string> path;
    for (auto id : cycle) {
        if (auto lot = r.rows().lot(id)) path.push_back(lot->code);
    }
    return Refusal{from.code + " into " + into.code,
                   "a lot that was not itself made from " + into.code,
                   "check the codes: " + joined(path, " > ") + " would close a cycle",
                   {}};
}

void note_formula(const Request& r, const book::Lot& into, const std::string& item, Admitted& out) {
    const auto governing = r.ledger.plan_version(into.plan_seq);
    const auto* product = governing.plan->product(into.item);
    if (!product) return;
    for (const auto& one : product->formula) {
        if (one.item == item) return;
    }
    out.notes.push_back(item + " is not in the formula of " + into.item);
}

Result<Admitted> admit_kind(const Request& r, const record::Used& given) {
    Admitted out{{}, given, {}};
    auto& s = std::get<record::Used>(out.says);
    auto into = known_lot(r, s.into);
    if (!into) return into.refusal();
    s.into = into->code;
    if (into->kind != LotKind::batch)
        return Refusal{"use into " + into->code + ", a " + in_words(into->kind) + " lot", "an open batch", "check the code", {}};
    if (auto checked = not_before_lot(r, *into); !checked) return checked.refusal();
    if (into->finished && r.happened.ms > *into->finished) {
        return Refusal{"use into " + into->code + " after it was finished at " + to_text(r.ledger.zone(), {*into->finished}),
                       "a time up to then",
                       "if it went in earlier, say when with --at",
                       {}};
    }
    if (!s.label.empty() && !r.plan().label(s.label)) {
        std::vector<std::string> ids;
        for (const auto& label : r.plan().labels) ids.push_back(label.id);
        return known_id("label", s.label, ids, "name the label that the batch will be packed under").refusal();
    }
    if (const auto* material = supply(r, s.lot)) {
        s.lot = supply_lot(r, *material, out);
        if (auto checked = wanted_dimension("mass", s.mass, Dimension::mass); !checked) return checked.refusal();
        if (!s.mass) return Refusal{"no mass of " + material->id, "how much", "type it with its unit, as 42kg", {}};
        return out;
    }
    if (r.plan().vessel(s.lot)) return admit_draw(r, *into, std::move(out));
    auto from = known_lot(r, s.lot);
    if (!from) return from.refusal();
    s.lot = from->code;
    if (auto checked = not_before_lot(r, *from); !checked) return checked.refusal();
    if (auto checked = no_cycle(r, *into, *from); !checked) return checked.refusal();
    auto amount = take_from(r, *from, s.pieces, s.mass, s.rest);
    if (!amount) return amount.refusal();
    s.pieces = amount->pieces;
    s.mass = amount->mass;
    s.already_done = s.already_done || r.draft.already_done;
    if (s.why.empty() && r.amending == 0) s.why = r.draft.why;
    note_formula(r, *into, from->item, out);
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::Stored& s) {
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    if (!r.plan().place(s.place)) {
        std::vector<std::string> ids;
        for (const auto& p : r.plan().places) ids.push_back(p.id);
        return known_id("place", s.place, ids, "check the name").refusal();
    }
    return Admitted{{}, record::Stored{lot->code, s.place}, {}};
}

namespace {

Check known_partner(const Request& r, const std::string& code, const std::string& role) {
    if (r.rows().partner(code)) return {};
    std::vector<std::string> known;
    for (const auto& partner : r.rows().partners()) known.push_back(partner.code);
    return Refusal{role + " '" + shown(code) + "'", "a partner in the book", "add them with: peelbook partner", nearest(code, known)};
}

bool needs_partner(Way way) {
    return way == Way::customer || way == Way::van || way == Way::donation || way == Way::animal_feed || way == Way::co_packer ||
           way == Way::supplier;
}

// Whom a recall would have to call is known as a customer. Goods to anybody else are asked about: it may be a slip of the code.
Check known_as_customer(const Request& r, const record::MovedOut& s) {
    const auto partner = r.rows().partner(s.partner);
    const auto roles = split(partner ? partner->roles : "", ' ');
    if (std::find(roles.begin(), roles.end(), "customer") != roles.end() || !trimmed(s.why).empty() || !trimmed(r.draft.why).empty())
        return {};
    return Refusal{
        "goods to " + s.partner + ", " + partner->name + ", who is no customer but " + joined(roles, ", "),
        "a customer, or the reason",
        "check the code; add the role: peelbook partner " + s.partner + " --role " + joined(roles, ",") + ",customer; or add --why \"...\"",
        {}};
}

// Nobody knows how returned food was kept: it is not sold again (common practice). Feed is another law's food.
bool may_leave_returned(Way way) { return feeds_nobody(way) || way == Way::animal_feed || way == Way::supplier; }

Result<Admitted> any_lot_of(const Request& r, record::MovedOut s) {
    if (!r.plan().product(s.product)) return known_id("product", s.product, ids_of_products(r.plan()), "check the word").refusal();
    if (s.pieces <= 0 && !r.draft.already_done) {
        return Refusal{"no number of pieces of " + s.product, "how many went: packs are counted", "add --pieces N", {}};
    }
    for (const auto& lot : r.rows().lots_of_item(s.product)) {
        const auto stock = r.rows().stock(lot.id);
        if (lot.kind == LotKind::pack && lot.happened <= r.happened.ms && stock && stock->on_hand_pieces > 0) s.any_of.push_back(lot.code);
    }
    if (s.any_of.empty()) {
        return Refusal{"a lot of " + s.product + " on hand",
                       "at least one packed lot that is on hand",
                       "record the packing first, or type the lot",
                       {}};
    }
    const std::string note = "any of " + joined(s.any_of, ", ") + ": all are possible in a trace, and stock of none was lowered";
    return Admitted{{}, std::move(s), {note}};
}

Result<Amount> take_returned(const Request& r, const book::Lot& lot, const record::MovedOut& s) {
    const auto stock = r.rows().stock(lot.id).value_or(book::Stock{});
    Amount amount{s.pieces, s.mass};
    if (s.pieces == 0 && !s.mass) {
        amount.pieces = stock.returned_pieces;
        if (!stock.made_pieces) amount.mass = measure_of(stock.returned_mg, Unit::mg);
    }
    const bool enough = amount.pieces <= stock.returned_pieces && (!amount.mass || amount.mass->value <= stock.returned_mg);
    if (enough && (amount.pieces > 0 || (amount.mass && amount.mass->value > 0))) return amount;
    return Refusal{"returned goods of " + lot.code,
                   "at most what came back: " + std::to_string(stock.returned_pieces) + " pieces, " + mass_text(stock.returned_mg),
                   "record the return first",
                   {}};
}

// "new" becomes an SSCC of our own. Its serial is the number of this entry, so that no two are alike; a prefix so long that serials
// come round again leaves 100,000 of them at least (GS1 wants a year between two).
Check number_pallet(const Request& r, std::string& sscc) {
    if (sscc.empty()) return {};
    if (sscc != "new") return check_sscc(sscc);
    const std::string& prefix = r.plan().site.company_prefix;
    if (prefix.empty())
        return Refusal{"a new pallet number without a company prefix",
                       "company_prefix under [site] in the plan: how GS1 lets your numbers begin",
                       "add it and adopt the plan, or type the number on the pallet: --sscc and 18 digits",
                       {}};
    sscc = make_sscc(prefix, r.ledger.book.next_seq());
    return {};
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::MovedOut& given) {
    auto s = given;
    if (std::find(std::begin(record::ways_out), std::end(record::ways_out), s.way) == std::end(record::ways_out)) {
        return Refusal{"way out '" + shown(s.way) + "'",
                       "one of the ways out",
                       "choose one",
                       {std::begin(record::ways_out), std::end(record::ways_out)}};
    }
    const Way way = stored_word<Way>(s.way);
    if (needs_partner(way) || !s.partner.empty()) {
        if (auto checked = known_partner(r, s.partner, "customer"); !checked) return checked.refusal();
    }
    if (way == Way::customer || way == Way::van || way == Way::donation) {
        if (auto checked = known_as_customer(r, s); !checked) return checked.refusal();
    }
    if (!s.carrier.empty()) {
        if (auto checked = known_partner(r, s.carrier, "carrier"); !checked) return checked.refusal();
    }
    if (!s.round.empty()) {
        if (auto checked = check_code("round", s.round); !checked) return checked.refusal();
    }
    if (feeds_nobody(way)) {
        if (auto checked = reason_given(r, s.why, s.way); !checked) return checked.refusal();
    }
    if (s.of_returned && !may_leave_returned(way) && !r.draft.already_done && r.amending == 0) {
        return Refusal{"returned goods as " + s.way,
                       "waste, sample, animal-feed or supplier: what came back is held",
                       "discard it; if it has already left: --already-done --why ...",
                       {}};
    }
    if (auto checked = number_pallet(r, s.sscc); !checked) return checked.refusal();
    if (s.why.empty() && r.amending == 0) s.why = r.draft.why;
    s.already_done = s.already_done || r.draft.already_done;
    if (!s.lot.empty()) {  // known by now: then it was no other one
        s.any_of.clear();
        s.product.clear();
    }
    if (!s.any_of.empty()) return Admitted{{}, s, {}};
    if (s.lot.empty()) return any_lot_of(r, std::move(s));
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    s.lot = lot->code;
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    const auto* product = r.plan().product(lot->item);
    const bool spoils = product && (product->date_kind == DateKind::use_by || product->use_within);
    if (s.of_returned && way == Way::animal_feed && spoils && !s.already_done && r.amending == 0) {
        return Refusal{"returned goods of " + lot->code + " as animal-feed, which had to be used by a date or within a time",
                       "waste, sample or supplier: nobody knows that they were kept cold",
                       "discard them: peelbook discard " + lot->code + " --returned --why ...",
                       {}};
    }
    auto amount = s.of_returned ? take_returned(r, *lot, s) : take_from(r, *lot, s.pieces, s.mass, false);
    if (!amount) return amount.refusal();
    s.pieces = amount->pieces;
    s.mass = amount->mass;
    return Admitted{{}, s, {}};
}

Check one_holder(const std::string& partner, const std::string& way) {
    if (partner.empty() && way.empty())
        return Refusal{"goods of nobody", "who had them", "add --from CUSTOMER, or the way they left: --way own-shop", {}};
    if (!partner.empty() && !way.empty())
        return Refusal{partner + " and " + way, "one of both", "leave --way out: the customer had them", {}};
    if (way.empty()) return {};
    std::vector<std::string> words;
    for (const auto one : record::ways_out) {
        if (!feeds_nobody(stored_word<Way>(one)) && !needs_partner(stored_word<Way>(one))) words.emplace_back(one);
    }
    if (std::find(words.begin(), words.end(), way) != words.end()) return {};
    return Refusal{"way '" + shown(way) + "'", "a way out that names nobody: " + joined(words, ", "), "choose one, or add --from CUSTOMER",
                   nearest(way, words)};
}

Result<Admitted> admit_kind(const Request& r, const record::Returned& given) {
    auto s = given;
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    s.lot = lot->code;
    if (auto checked = one_holder(s.partner, s.way); !checked) return checked.refusal();
    if (!s.partner.empty()) {
        if (auto checked = known_partner(r, s.partner, "customer"); !checked) return checked.refusal();
    }
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    if (auto checked = wanted_dimension("mass", s.mass, Dimension::mass); !checked) return checked.refusal();
    book::Int went_pieces = 0, went_mg = 0;
    for (const auto& move : r.rows().moves(lot->id)) {
        const Way left_by = move.left_by.value_or(move.way);
        if (!fold::has_recipient(move) || move.partner != s.partner || (s.partner.empty() && word(left_by) != s.way)) continue;
        const book::Int sign = move.way == Way::returned ? -1 : 1;
        went_pieces += sign * move.pieces.value_or(0);
        went_mg += sign * move.mass_mg.value_or(0);
    }
    if (s.pieces < 0 || (s.pieces == 0 && !s.mass)) return Refusal{"no quantity", "how much came back", "add --pieces N or --mass", {}};
    if (r.amending != 0) return Admitted{{}, s, {}};
    if (s.pieces > went_pieces || (s.mass && s.mass->value > went_mg)) {
        return Refusal{std::to_string(s.pieces) + " pieces of " + lot->code + " back from " + (s.partner.empty() ? s.way : s.partner),
                       "at most what went there and has not come back: " + std::to_string(went_pieces) + " pieces, " + mass_text(went_mg),
                       "check the lot on the label and the customer",
                       {}};
    }
    return Admitted{
        {}, s, {"held and kept apart; it is not stock. Discard it with: peelbook discard " + lot->code + " --returned --why ..."}};
}

Result<Admitted> admit_kind(const Request& r, const record::Counted& given) {
    auto s = given;
    auto lot = known_lot(r, s.lot);
    if (!lot) return lot.refusal();
    s.lot = lot->code;
    if (lot->kind == LotKind::supply) return Refusal{"a count of " + lot->code, "a lot that runs out", "a supply is not counted", {}};
    if (auto checked = not_before_lot(r, *lot); !checked) return checked.refusal();
    if (auto checked = reason_given(r, s.why, "a stock count"); !checked) return checked.refusal();
    if (!s.pieces && !s.mass) return Refusal{"no quantity", "what was found", "type it: 12kg, or --pieces 30", {}};
    if (s.mass && s.mass->value < 0) return Refusal{to_text(*s.mass) + " of " + lot->code, "nothing or more", "type what was found", {}};
    if (s.mass && s.mass->dimension() != Dimension::mass) return wanted_dimension("count", s.mass, Dimension::mass).refusal();
    const auto stock = r.rows().stock(lot->id).value_or(book::Stock{});
    if (s.pieces && (*s.pieces < 0 || !stock.made_pieces)) {
        return Refusal{
            std::to_string(*s.pieces) + " pieces of " + lot->code, "a mass: this lot is not counted in pieces", "type it as 12kg", {}};
    }
    std::string note = "computed: " + (stock.made_pieces ? std::to_string(stock.on_hand_pieces) + " pieces, " : std::string()) +
                       mass_text(stock.on_hand_mg) + "; the gap stays visible in every mass balance";
    return Admitted{{}, s, {note}};
}

}  // namespace peelbook::site
