#include <algorithm>

#include "base/text.h"
#include "cli/calculation/file.h"
#include "cli/calculation/text.h"
#include "fold/weigh_sheet.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

constexpr std::int64_t micro_percent_whole = 100'000'000;
constexpr std::string_view row_wanted = "an item, its percent of the flour and, for flour, the word flour: rye-flour;30;flour";

struct CalcScaleGiven {
    std::string formula, site;
    std::optional<Measure> flour, dough, piece_mass;
    std::int64_t pieces = 0;
    bool json = false;
};

void set_up(Options& options, CalcScaleGiven& given) {
    options.word(given.formula, "FORMULA", "a product of the site's plan, or a file: item, percent, flour")
        .mass(given.flour, "--flour", "the flour to scale to")
        .mass(given.dough, "--dough", "the dough to scale to")
        .pieces(given.pieces, "--pieces", "the pieces to scale to, each of --piece-mass or the plan's mass")
        .mass(given.piece_mass, "--piece-mass", "dough of one piece");
    options.common_from_here()
        .text(given.site, "--site", "DIR", "the site's folder, for a product of its plan")
        .flag(given.json, "--json", "answer in JSON");
}

bool is_formula_row(const std::vector<std::string>& cells, char separator) {
    if (cells.size() < 2 || cells.size() > 3 || cells[0].empty()) return false;
    if (cells.size() == 3 && lowered(cells[2]) != "flour") return false;
    return measure_of_cell(cells[1], separator, Unit::percent).has_value();
}

// Without a mark, the one item of 100 % is the flour.
Check mark_flour(plan::Product& product, const std::string& file) {
    auto& items = product.formula;
    const auto marked = [](const plan::FormulaItem& item) { return item.flour; };
    if (std::any_of(items.begin(), items.end(), marked)) return {};
    const auto whole = [](const plan::FormulaItem& item) { return item.micro_percent == micro_percent_whole; };
    if (std::count_if(items.begin(), items.end(), whole) != 1)
        return Refusal{"file '" + shown(file) + "' without a line of flour",
                       "the word flour behind each flour's percent; together they are 100%",
                       "mark the flour: rye-flour;30;flour",
                       {}};
    std::find_if(items.begin(), items.end(), whole)->flour = true;
    return {};
}

Result<plan::Product> formula_of_file(const Context& context, const std::string& file) {
    const auto table = read_table(context, file, is_formula_row, std::string(row_wanted));
    if (!table) return table.refusal();
    plan::Product product;
    product.id = file;
    for (const FileRow& row : table->rows) {
        plan::FormulaItem item;
        item.item = row.cells[0];
        const auto percent = measure_of_cell(row.cells[1], table->separator, Unit::percent);
        if (!percent) return bad_line(file, row.line, row.cells[1], std::string(row_wanted));
        item.micro_percent = percent->typed_micro;
        item.flour = row.cells.size() == 3;
        product.formula.push_back(std::move(item));
    }
    if (auto checked = mark_flour(product, file); !checked) return checked.refusal();
    return product;
}

Result<plan::Product> formula_of_plan(Context& context, const CalcScaleGiven& given) {
    const auto site = context.site(given.site, Context::Mode::read);
    if (!site) {
        Refusal refusal = site.refusal();
        refusal.given = "'" + shown(given.formula) + "', no file here; for a product: " + refusal.given;
        return refusal;
    }
    const auto plan = (*site)->plan_in_force();
    if (!plan) return plan.refusal();
    std::vector<std::string> known;
    for (const plan::Product& product : plan->products) {
        if (product.id == given.formula) return product;
        known.push_back(product.id);
    }
    return Refusal{"formula '" + shown(given.formula) + "'", "a product of the plan in force, or a file in this folder",
                   "`peelbook plan show` lists the products", nearest(given.formula, known)};
}

Result<record::Started> size_of(const CalcScaleGiven& given) {
    const int said = (given.flour ? 1 : 0) + (given.dough ? 1 : 0) + (given.pieces > 0 ? 1 : 0);
    if (said != 1)
        return Refusal{std::to_string(said) + " of --flour, --dough and --pieces",
                       "one of them: the size of the batch",
                       said == 0 ? "add --flour 200lb" : "leave the others out",
                       {}};
    if (given.piece_mass && given.pieces == 0)
        return Refusal{"--piece-mass without --pieces", "the number of pieces", "add --pieces N", {}};
    record::Started size;
    size.flour = given.flour;
    size.dough = given.dough;
    size.pieces = given.pieces;
    return size;
}

Unit shown_unit(const CalcScaleGiven& given, const plan::Product& product) {
    for (const auto& mass : {given.flour, given.dough, product.unit_mass})
        if (mass) return mass->unit;
    return Unit::kg;
}

struct Scaled {
    plan::Product product;
    fold::WeighSheet sheet;
    std::int64_t flour_mg = 0;
    std::int64_t total_micro_percent = 0;
};

std::int64_t flour_of(const Scaled& scaled) {
    std::int64_t mg = 0;
    for (std::size_t i = 0; i < scaled.sheet.items.size(); ++i)
        if (scaled.product.formula[i].flour) mg += scaled.sheet.items[i].mass_mg;
    return mg;
}

std::string mass_in(std::int64_t mg, Unit unit) {
    const int decimals = unit == Unit::g ? 1 : 3;
    return number(in_unit(mg, unit), decimals) + std::string(symbol(unit));
}

std::string percent_text(std::int64_t micro_percent) { return number(static_cast<double>(micro_percent) / micro, 3) + "%"; }

std::string answer_text(const Scaled& scaled, Unit unit) {
    std::string text = "dough " + mass_in(scaled.sheet.dough_mg, unit);
    if (scaled.flour_mg > 0) text += " from flour " + mass_in(scaled.flour_mg, unit);
    if (scaled.total_micro_percent > 0) text += ", " + percent_text(scaled.total_micro_percent) + " in all";
    if (scaled.sheet.pieces > 0) text += ", " + std::to_string(scaled.sheet.pieces) + " pieces";
    Table table{{"item", "percent", "mass"}, {}};
    if (unit != Unit::kg && unit != Unit::g) table.columns.emplace_back("in kg");
    for (const fold::Weighing& item : scaled.sheet.items) {
        table.rows.push_back({item.item + (item.optional ? " (optional)" : ""),
                              item.micro_percent > 0 ? percent_text(item.micro_percent) : "", mass_in(item.mass_mg, unit)});
        if (table.columns.size() == 4) table.rows.back().emplace_back(mass_in(item.mass_mg, Unit::kg));
    }
    return text + "\n\n" + std::string(trimmed(working_table(table)));
}

std::string working_text(const Scaled& scaled, const CalcScaleGiven& given, Unit unit) {
    std::string text;
    if (scaled.flour_mg == 0) return "the masses of the plan's usual batch, each by the same factor\n";
    if (!given.flour)
        text = "flour = dough x 100 / " + percent_text(scaled.total_micro_percent) + " = " + mass_in(scaled.sheet.dough_mg, unit) +
               " x 100 / " + percent_text(scaled.total_micro_percent) + " = " + mass_in(scaled.flour_mg, unit) + "\n";
    text += "each item = flour x percent / 100, flour " + mass_in(scaled.flour_mg, unit) + "\n";
    return text + "the items add up to the dough exactly: what rounding leaves goes to the largest remainders\n";
}

output::Json json_of(const Scaled& scaled) {
    auto items = output::Json::array();
    for (const fold::Weighing& item : scaled.sheet.items)
        items.add(output::Json::object()
                      .set("item", item.item)
                      .set("percent", static_cast<double>(item.micro_percent) / micro)
                      .set("mass_kg", in_unit(item.mass_mg, Unit::kg))
                      .set("mass_lb", in_unit(item.mass_mg, Unit::lb))
                      .set("mass_mg", item.mass_mg));
    auto json = output::Json::object();
    json.set("items", std::move(items))
        .set("flour_kg", in_unit(scaled.flour_mg, Unit::kg))
        .set("dough_kg", in_unit(scaled.sheet.dough_mg, Unit::kg))
        .set("dough_lb", in_unit(scaled.sheet.dough_mg, Unit::lb))
        .set("total_percent", static_cast<double>(scaled.total_micro_percent) / micro)
        .set("pieces", scaled.sheet.pieces);
    return json;
}

Result<Exit> act(Context& context, const CalcScaleGiven& given) {
    const auto size = size_of(given);
    if (!size) return size.refusal();
    auto product =
        context.files.exists(context.here / given.formula) ? formula_of_file(context, given.formula) : formula_of_plan(context, given);
    if (!product) return product.refusal();
    if (given.piece_mass) product->unit_mass = given.piece_mass;
    if (given.pieces > 0 && !product->unit_mass)
        return Refusal{"--pieces without the mass of one", "--piece-mass", "add --piece-mass 750g", {}};
    const auto sheet = fold::weigh_sheet(*product, *size);
    if (!sheet) return sheet.refusal();
    Scaled scaled{*product, *sheet, 0, 0};
    scaled.flour_mg = flour_of(scaled);
    for (const fold::Weighing& item : scaled.sheet.items)
        if (!item.optional) scaled.total_micro_percent += item.micro_percent;
    const Unit unit = shown_unit(given, *product);
    CalcAnswer answer;
    answer.answer = answer_text(scaled, unit);
    answer.working = working_text(scaled, given, unit);
    answer.source = {"Baker's percentage (common practice): every item in percent of the flour, which is 100 %."};
    answer.json = json_of(scaled);
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_scale_command;
const Command calc_scale_command{.name = "calc scale",
                                 .group = Group::calculation,
                                 .about = "Scale a formula in baker's percent to a weigh sheet.",
                                 .more =
                                     "A line of a file is an item, its percent and, for a flour, the word flour: rye-flour;30;flour.\n"
                                     "Without that word, the one item of 100% is the flour. A file of that name comes before a product.",
                                 .examples =
                                     "peelbook calc scale pan-loaf --flour 200lb\n"
                                     "peelbook calc scale formula.csv --pieces 6 --piece-mass 750g",
                                 .takes_at = false,
                                 .body = body<CalcScaleGiven, set_up, act>()};

}  // namespace peelbook::cli
