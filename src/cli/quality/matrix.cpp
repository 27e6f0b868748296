#include <ostream>

#include "base/calendar.h"
#include "base/text.h"
#include "base/words.h"
#include "cli/frame/command.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/report/allergen_tables.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct MatrixGiven {
    std::string week, never;
    std::optional<Date> from, until;
    Asking asking;
};

void set_up(Options& options, MatrixGiven& given) {
    options.text(given.week, "--week", "WEEK", "the production week: 2026-W47")
        .date(given.from, "--from", "or: from this day on")
        .date(given.until, "--until", "to this day, included; else today")
        .text(given.never, "--never", "ALLERGEN", "only: which products must never contain it, and how is that known");
    add_asking(options, given.asking);
}

Result<std::pair<Instant, Instant>> period(const Context& context, const site::Site& site, const MatrixGiven& given) {
    if (!given.week.empty()) {
        const auto week = parse_iso_week(given.week);
        if (!week) return week.refusal();
        return site.span_of_week(*week);
    }
    if (!given.from) return Refusal{"no period", "a week, or a first day", "add --week 2026-W47 or --from 2026-11-16", {}};
    const auto until = given.until ? site.zone().day_start(add_days(*given.until, 1), 0, 0) : Instant{context.clock.now().ms + 1};
    const auto from = site.zone().day_start(*given.from, 0, 0);
    if (until <= from)
        return Refusal{"a period that ends before it begins", "a last day from the first on", "check --from and --until", {}};
    return std::pair{from, until};
}

std::string mark(const site::AllergenReason& a) {
    switch (a.level) {
        case book::AllergenLevel::formula:
        case book::AllergenLevel::contains:
            return "yes";
        case book::AllergenLevel::may_contain:
            return "may";
        case book::AllergenLevel::carry_over:
            return "residue";
        case book::AllergenLevel::not_stated:
            break;
    }
    return "?";
}

Json reason_json(const site::ProductAllergens& product, const site::AllergenReason& a) {
    return Json::object()
        .set("allergen", a.allergen)
        .set("level", word(a.level))
        .set("on_label", site::declared_word(product, a.allergen))
        .set("lot", a.lot)
        .set("source", a.source)
        .set("reason", a.reason)
        .set("protein_mg_per_kg", a.protein_mg_per_kg);
}

void print_json(std::ostream& out, const site::AllergenMatrix& matrix) {
    auto products = Json::array();
    for (const auto& p : matrix.products) {
        auto cells = Json::array();
        for (const auto& a : p.allergens) cells.add(reason_json(p, a));
        products.add(Json::object()
                         .set("product", p.product)
                         .set("name", p.name)
                         .set("sold", p.sold)
                         .set("label", p.label)
                         .set("market", p.market)
                         .set("lots", p.lots)
                         .set("allergens", std::move(cells))
                         .set("declared_only", p.surplus));
    }
    auto json = Json::object();
    json.set("allergens", matrix.allergens).set("products", std::move(products)).set("caution", caution);
    out << json.text() << '\n';
}

void print_text(std::ostream& out, const site::AllergenMatrix& matrix) {
    Table grid{{"product", "lots"}, {}};
    for (const auto& id : matrix.allergens) grid.columns.push_back(id);
    for (const auto& p : matrix.products) {
        auto& row = grid.rows.emplace_back();
        row = {p.product, p.lots};
        for (const auto& id : matrix.allergens) {
            std::string text;
            for (const auto& a : p.allergens) {
                if (a.allergen == id) text = mark(a);
            }
            for (const auto& surplus : p.surplus) {
                if (surplus == id) text = "label only";
            }
            row.emplace_back(text);
        }
    }
    out << output::text_table(grid);
    for (const auto& p : matrix.products) {
        out << '\n' << p.product << (p.label.empty() ? "" : ", label " + p.label + " (" + p.market + ")") << '\n';
        Table table{{"allergen", "how", "label", "reason"}, {}};
        for (const auto& a : p.allergens)
            table.rows.push_back({a.allergen, in_words(a.level), site::declared_word(p, a.allergen), a.reason});
        for (const auto& id : p.surplus)
            table.rows.push_back({id, std::string("declared only"), std::string("declared"),
                                  std::string("warning: nothing that was used and nothing in the formula brings it")});
        if (table.rows.empty()) out << "  no allergen\n";
        if (!table.rows.empty()) out << output::text_table(table, output::TextTableStyle{.indent = 2, .headings = false});
    }
    out << caution << '\n';
}

void print_never(std::ostream& out, const std::string& allergen, const std::vector<site::NeverProduct>& products) {
    out << "products that must never contain " << allergen << ": neither label nor formula has it\n";
    Table table{{"product", "label", "lots made", "with it", "input not stated", "after it was cleared", "while it lay there"}, {}};
    for (const auto& p : products) table.rows.push_back({p.product, p.label, p.lots, p.with, p.not_stated, p.cleared, p.lying});
    out << output::text_table(table, output::TextTableStyle{.indent = 2});
    for (const auto& p : products)
        for (const auto& found : p.found) out << "FOUND: " << p.product << ", " << found << '\n';
    out << "how it is known: the declarations of every lot used, through every depth, and residue on "
           "equipment until a verified cleaning\n"
        << caution << '\n';
}

Json never_json(const std::string& allergen, const std::vector<site::NeverProduct>& products) {
    auto list = Json::array();
    for (const auto& p : products)
        list.add(Json::object()
                     .set("product", p.product)
                     .set("label", p.label)
                     .set("lots", p.lots)
                     .set("with", p.with)
                     .set("not_stated", p.not_stated)
                     .set("after_cleared", p.cleared)
                     .set("while_lying", p.lying)
                     .set("found", p.found));
    return Json::object().set("allergen", allergen).set("products", std::move(list)).set("caution", caution);
}

Result<Exit> act(Context& context, const MatrixGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto span = period(context, **site, given);
    if (!span) return span.refusal();
    if (given.never.empty()) {
        const auto matrix = (*site)->allergen_matrix(span->first, span->second);
        if (given.asking.json) print_json(context.out, matrix);
        if (!given.asking.json) print_text(context.out, matrix);
        return Exit::done;
    }
    const auto products = (*site)->never_contains(given.never, span->first, span->second);
    if (!products) return products.refusal();
    if (given.asking.json) context.out << never_json(given.never, *products).text() << '\n';
    if (!given.asking.json) print_never(context.out, given.never, *products);
    return Exit::done;
}

}  // namespace

extern const Command matrix_command;
const Command matrix_command{.name = "matrix",
                             .group = Group::quality,
                             .about = "Show which product contains which allergen, and why.",
                             .more =
                                 "From the lots really used in the period; the reason names the lot that brought it and its way.\n"
                                 "As a workbook, with the sheet for loose goods: peelbook report allergens --week WEEK --out "
                                 "FILE.xlsx",
                             .examples = "peelbook matrix --week 2026-W47\npeelbook matrix --from 2026-11-01 --never milk --json",
                             .takes_at = false,
                             .body = body<MatrixGiven, set_up, act>()};

}  // namespace peelbook::cli
