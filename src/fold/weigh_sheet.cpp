#include "fold/weigh_sheet.h"

#include "calc/formula.h"

namespace peelbook::fold {
namespace {

__extension__ typedef __int128 Wide;

constexpr std::int64_t micro_in_milli = 1000;
constexpr std::int64_t whole = 100'000'000;  // 100 % in micro-percent

std::int64_t scaled(std::int64_t mass_mg, std::int64_t part, std::int64_t of) {
    const Wide product = static_cast<Wide>(mass_mg) * part;
    return static_cast<std::int64_t>((product + of / 2) / of);
}

// The items stated in percent, from the wanted flour or dough.
Result<WeighSheet> by_percent(const plan::Product& product, calc::Basis basis, std::int64_t mg) {
    std::vector<calc::FormulaLine> lines;
    for (const auto& item : product.formula) {
        if (!item.optional) lines.push_back({item.item, item.micro_percent / micro_in_milli, item.flour});
    }
    auto weighed = calc::weigh_sheet(lines, basis, mg);
    if (!weighed) return weighed.refusal();
    WeighSheet sheet;
    auto line = weighed->lines.begin();
    for (const auto& item : product.formula) {
        const std::int64_t mass = item.optional ? scaled(weighed->flour_mg, item.micro_percent, whole) : (line++)->mg;
        sheet.items.push_back({item.item, item.micro_percent, mass, item.optional});
    }
    sheet.dough_mg = weighed->total_mg;
    return sheet;
}

// The items stated as masses for the usual batch, scaled from `of` to `part`.
WeighSheet by_mass(const plan::Product& product, std::int64_t part, std::int64_t of) {
    WeighSheet sheet;
    for (const auto& item : product.formula) {
        const std::int64_t mass = scaled(item.absolute ? item.absolute->value : 0, part, of);
        sheet.items.push_back({item.item, 0, mass, item.optional});
        if (!item.optional) sheet.dough_mg += mass;
    }
    return sheet;
}

Refusal no_size(const plan::Product& product) {
    return {"no size for " + product.id,
            "a size, since the plan states no usual batch",
            "type --flour, --dough or --pieces, or give the product usual_flour in the plan",
            {}};
}

Result<WeighSheet> sheet_of(const plan::Product& product, const record::Started& wanted) {
    std::int64_t dough = wanted.dough ? wanted.dough->value : 0;
    if (wanted.pieces > 0) {
        if (!product.unit_mass) {
            return Refusal{std::to_string(wanted.pieces) + " pieces of " + product.id,
                           "a size by flour or dough: the plan gives this product no unit_mass",
                           "type --flour or --dough with a mass",
                           {}};
        }
        dough = wanted.pieces * product.unit_mass->value;
    }
    bool percents = false;
    for (const auto& item : product.formula) percents = percents || !item.absolute;
    if (percents) {
        if (wanted.flour) return by_percent(product, calc::Basis::added_flour, wanted.flour->value);
        if (dough > 0) return by_percent(product, calc::Basis::dough, dough);
        if (product.usual_flour) return by_percent(product, calc::Basis::added_flour, product.usual_flour->value);
        return no_size(product);
    }
    const WeighSheet usual = by_mass(product, 1, 1);
    if (wanted.flour) {
        return Refusal{
            "a size by flour for " + product.id, "a size by dough or pieces: its formula states masses", "type --dough or --pieces", {}};
    }
    return dough > 0 && usual.dough_mg > 0 ? by_mass(product, dough, usual.dough_mg) : usual;
}

}  // namespace

Result<WeighSheet> weigh_sheet(const plan::Product& product, const record::Started& wanted) {
    auto sheet = sheet_of(product, wanted);
    if (sheet && product.unit_mass && product.unit_mass->value > 0) {
        sheet->pieces = sheet->dough_mg / product.unit_mass->value;
    } else if (sheet && !wanted.flour && !wanted.dough) {
        sheet->pieces = product.pieces;
    }
    return sheet;
}

}  // namespace peelbook::fold
