#include "site/record/scan.h"

#include <algorithm>

#include "base/gs1.h"
#include "base/text.h"
#include "site/impl.h"

namespace peelbook::site {
namespace {

// `field` becomes what the label says; refused when a person typed something else.
Check agree(std::string& field, const std::string& scanned, const std::string& option, const std::string& ai) {
    if (scanned.empty() || field == scanned) return {};
    if (field.empty()) {
        field = scanned;
        return {};
    }
    return Refusal{option + " " + shown(field) + ", and the label says " + ai + " '" + shown(scanned) + "'",
                   "the same of both",
                   "leave " + option + " out to take what the label says, or --scan to take what was typed",
                   {}};
}

std::string article_of(const Gs1Scan& scan) { return scan.gtin.empty() ? scan.content_gtin : scan.gtin; }
std::string article_ai(const Gs1Scan& scan) { return scan.gtin.empty() ? "(02)" : "(01)"; }

// As it is printed on most goods: 13 digits where the first of 14 is a zero.
std::string shorter(const std::string& gtin) { return gtin.size() == 14 && gtin.front() == '0' ? gtin.substr(1) : gtin; }

bool same_article(const std::string& known, const std::string& gtin) { return !known.empty() && gtin14(known) == gtin14(gtin); }

const plan::Material* material_with(const plan::Plan& plan, const std::string& gtin) {
    for (const auto& material : plan.materials) {
        const auto& known = material.gtins;
        if (std::any_of(known.begin(), known.end(), [&](const auto& one) { return same_article(one, gtin); })) return &material;
    }
    return nullptr;
}

const plan::Product* product_with(const plan::Plan& plan, const std::string& gtin) {
    for (const auto& product : plan.products)
        if (same_article(product.gtin, gtin)) return &product;
    return nullptr;
}

std::string place(const Gs1Scan& scan, int first, int second) {
    for (const int ai : {first, second})
        if (const auto found = scan.places.find(ai); found != scan.places.end()) return found->second;
    return {};
}

std::string partner_with(const std::vector<book::Partner>& partners, const std::string& gln) {
    for (const auto& partner : partners)
        if (!gln.empty() && partner.gln == gln) return partner.code;
    return {};
}

Check fill_material(record::Received& s, const Gs1Scan& scan, const plan::Plan& plan) {
    const std::string gtin = article_of(scan);
    if (gtin.empty()) return {};
    if (!s.gtin.empty() && !same_article(s.gtin, gtin)) return agree(s.gtin, gtin, "--gtin", article_ai(scan));
    s.gtin = shorter(gtin);
    const auto* material = material_with(plan, gtin);
    if (material && s.material.empty()) s.material = material->id;
    if (material && s.material != material->id)
        return Refusal{shown(s.material) + ", and the label says " + article_ai(scan) + " " + s.gtin + ": " + material->id,
                       "the same of both",
                       "leave the material out to take what the label says, or check which goods these are",
                       {}};
    if (!s.material.empty()) return {};
    std::vector<std::string> known;
    for (const auto& one : plan.materials) known.insert(known.end(), one.gtins.begin(), one.gtins.end());
    return Refusal{"scan: article " + s.gtin, "an article that a material of the plan names as its gtin",
                   "type the material before --scan; to be known by the scan from then on, add gtin = \"" + s.gtin + "\" to it in the plan",
                   nearest(s.gtin, known)};
}

// Of two dates the one of the plan's kind.
std::optional<Date> date_of(const Gs1Scan& scan, const plan::Material* material) {
    const bool use_by = material && material->date_kind == plan::DateKind::use_by;
    const auto& wanted = use_by ? scan.use_by : scan.best_before;
    return wanted ? wanted : use_by ? scan.best_before : scan.use_by;
}

Check fill_date(std::optional<Date>& field, const std::optional<Date>& scanned) {
    if (field && scanned && *field != *scanned) {
        std::string typed = to_text(*field);
        return agree(typed, to_text(*scanned), "--best-before", "date");
    }
    if (scanned) field = scanned;
    return {};
}

Check fill_mass(std::optional<Measure>& field, const std::optional<Measure>& scanned) {
    if (field && scanned && field->value != scanned->value) {
        std::string typed = to_text(*field);
        return agree(typed, to_text(*scanned), "--mass", "net mass");
    }
    if (scanned) field = scanned;
    return {};
}

Check fill_pieces(std::int64_t& field, const Gs1Scan& scan) {
    const auto scanned = scan.count ? scan.count : scan.contained;
    if (!scanned) return {};
    std::string typed = field == 0 ? "" : std::to_string(field);
    if (auto checked = agree(typed, std::to_string(*scanned), "--pieces", scan.count ? "(30)" : "(37)"); !checked) return checked;
    field = *scanned;
    return {};
}

// Lots of the article that bear this code: our own code, or the one printed on the pack.
std::vector<std::string> lots_with(const Gs1Scan& scan, const std::string& item, book::Derived& rows) {
    std::vector<std::string> codes;
    const auto own = rows.lot(scan.lot);
    if (own && own->item == item) codes.push_back(own->code);
    for (const auto& lot : rows.lots_with_printed_code(scan.lot)) {
        if (lot.item == item && std::find(codes.begin(), codes.end(), lot.code) == codes.end()) codes.push_back(lot.code);
    }
    for (const auto& lot : rows.lots_by_supplier(scan.lot)) {
        if (lot.item == item && std::find(codes.begin(), codes.end(), lot.code) == codes.end()) codes.push_back(lot.code);
    }
    return codes;
}

Check fill_lot(record::MovedOut& s, const Gs1Scan& scan, const plan::Plan& plan, book::Derived& rows) {
    const std::string gtin = article_of(scan);
    if (gtin.empty()) return {};
    const auto* product = product_with(plan, gtin);
    const auto* material = material_with(plan, gtin);
    const std::string item = product ? product->id : material ? material->id : std::string();
    const std::string article = "scan: article " + shorter(gtin);
    if (item.empty()) {
        std::vector<std::string> known;
        for (const auto& one : plan.products)
            if (!one.gtin.empty()) known.push_back(one.gtin);
        return Refusal{article, "an article that a product of the plan names as its gtin",
                       "type the lot; to be known by the scan, add gtin = \"" + shorter(gtin) + "\" to the product in the plan",
                       nearest(shorter(gtin), known)};
    }
    if (scan.lot.empty()) {
        if (!s.lot.empty() || !s.product.empty()) return {};
        return Refusal{article + ", " + item + ", without a lot (10)",
                       "the lot that leaves",
                       "type the lot, or --product " + item + " when nobody knows which",
                       {}};
    }
    const auto codes = lots_with(scan, item, rows);
    if (codes.empty())
        return Refusal{article + ", " + item + ", lot (10) '" + shown(scan.lot) + "'", "a lot of it with this code or printed code",
                       "check the label; `peelbook lot` shows what is known of a code", nearest(scan.lot, rows.all_codes(5000))};
    if (codes.size() > 1 && std::find(codes.begin(), codes.end(), s.lot) == codes.end())
        return Refusal{article + ", " + item + ", code '" + shown(scan.lot) + "' that several lots bear",
                       "which of them: " + joined(codes, ", "),
                       "type the lot before --scan, or --product " + item + " when nobody knows which",
                       {}};
    return codes.size() > 1 ? Check{} : agree(s.lot, codes.front(), "lot", "(10)");
}

}  // namespace

Result<record::Received> filled_in(const record::Received& typed, const Gs1Scan& scan, const plan::Plan& plan,
                                   const std::vector<book::Partner>& partners) {
    auto s = typed;
    if (auto checked = fill_material(s, scan, plan); !checked) return checked.refusal();
    if (auto checked = agree(s.supplier_lot, scan.lot, "--lot", "(10)"); !checked) return checked.refusal();
    if (auto checked = agree(s.sscc, scan.sscc, "--sscc", "(00)"); !checked) return checked.refusal();
    if (s.supplier.empty()) s.supplier = partner_with(partners, place(scan, 412, 417));
    if (auto checked = fill_date(s.date, date_of(scan, plan.material(s.material))); !checked) return checked.refusal();
    if (auto checked = fill_mass(s.mass, scan.net_mass); !checked) return checked.refusal();
    if (!s.mass) {
        if (auto checked = fill_pieces(s.pieces, scan); !checked) return checked.refusal();
    }
    return s;
}

Result<record::MovedOut> filled_in(const record::MovedOut& typed, const Gs1Scan& scan, const plan::Plan& plan, book::Derived& rows) {
    auto s = typed;
    if (auto checked = fill_lot(s, scan, plan, rows); !checked) return checked.refusal();
    if (auto checked = agree(s.sscc, scan.sscc, "--sscc", "(00)"); !checked) return checked.refusal();
    if (s.partner.empty()) s.partner = partner_with(rows.partners(), place(scan, 410, 413));
    const auto lot = rows.lot(s.lot);
    if (lot && !lot->made_pieces) {
        if (auto checked = fill_mass(s.mass, scan.net_mass); !checked) return checked.refusal();
    } else if (!s.mass) {
        if (auto checked = fill_pieces(s.pieces, scan); !checked) return checked.refusal();
    }
    return s;
}

Result<record::Received> Site::with_scan(const record::Received& typed, const std::vector<std::string>& symbols) const {
    auto& ledger = impl_->ledger;
    const Instant now = impl_->clock.now();
    const auto scan = read_gs1_scan(symbols, ledger.zone().to_local(now).date);
    if (!scan) return scan.refusal();
    return filled_in(typed, *scan, *ledger.plan_at(now).plan, ledger.rows().partners());
}

Result<record::MovedOut> Site::with_scan(const record::MovedOut& typed, const std::vector<std::string>& symbols) const {
    auto& ledger = impl_->ledger;
    const Instant now = impl_->clock.now();
    const auto scan = read_gs1_scan(symbols, ledger.zone().to_local(now).date);
    if (!scan) return scan.refusal();
    return filled_in(typed, *scan, *ledger.plan_at(now).plan, ledger.rows());
}

}  // namespace peelbook::site
