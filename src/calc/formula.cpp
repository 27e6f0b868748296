#include "calc/formula.h"

#include "calc/apportion.h"
#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

constexpr std::int64_t all_flour_milli = 100'000;

std::string percent_text(std::int64_t milli) { return number_text(static_cast<double>(milli) / 1000) + " %"; }

Check check_lines(const std::vector<FormulaLine>& lines) {
    std::int64_t flour = 0;
    for (const FormulaLine& line : lines) {
        if (line.percent_milli < 0) {
            return Refusal{"'" + line.name + "' with " + percent_text(line.percent_milli), "0 % or more", "correct the percentage", {}};
        }
        if (line.flour) flour += line.percent_milli;
    }
    if (flour != all_flour_milli) {
        return Refusal{"a formula with flour lines of " + percent_text(flour),
                       "flour lines that together are 100 %",
                       "mark every flour, and give the others in percent of it",
                       {}};
    }
    return {};
}

std::int64_t sum_of(const std::vector<FormulaLine>& lines) {
    std::int64_t sum = 0;
    for (const FormulaLine& line : lines) sum += line.percent_milli;
    return sum;
}

}  // namespace

Result<WeighSheet> weigh_sheet(const std::vector<FormulaLine>& formula, Basis basis, std::int64_t mg) {
    if (auto checked = check_lines(formula); !checked) return checked.refusal();
    if (mg <= 0) {
        return Refusal{std::to_string(mg) + " mg", "a mass above 0", "give the flour or dough to be made", {}};
    }
    WeighSheet sheet;
    const std::int64_t in_all = sum_of(formula);
    sheet.total_mg = basis == Basis::dough ? mg : rounded_share(mg, in_all, all_flour_milli);
    // Flour and the rest are split apart, so that flour asked for by mass is exactly that mass.
    std::vector<std::int64_t> flours, others;
    for (const FormulaLine& line : formula) (line.flour ? flours : others).push_back(line.percent_milli);
    sheet.flour_mg = basis == Basis::added_flour ? mg : rounded_share(sheet.total_mg, all_flour_milli, in_all);
    const auto flour_parts = apportion(sheet.flour_mg, flours);
    std::vector<std::int64_t> other_parts(others.size());
    if (in_all > all_flour_milli) other_parts = apportion(sheet.total_mg - sheet.flour_mg, others);
    auto flour = flour_parts.begin();
    auto other = other_parts.begin();
    for (const FormulaLine& line : formula) sheet.lines.push_back({line.name, line.flour ? *flour++ : *other++});
    return sheet;
}

}  // namespace peelbook::calc
