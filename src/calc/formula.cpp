#include "calc/formula.h"

#include <algorithm>
#include <cmath>

#include "calc/apportion.h"
#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

constexpr std::int64_t all_flour_milli = 100'000;

std::string percent_text(std::int64_t milli) {
    return number_text(static_cast<double>(milli) / 1000) + " %";
}

Check check_lines(const std::vector<FormulaLine>& lines, const std::string& whose) {
    std::int64_t flour = 0;
    for (const FormulaLine& line : lines) {
        if (line.percent_milli < 0) {
            return Refusal{"'" + line.name + "' with " + percent_text(line.percent_milli),
                           "0 % or more",
                           "correct the percentage",
                           {}};
        }
        if (line.flour && !line.made_of.empty()) {
            return Refusal{"'" + line.name + "' as flour with a formula of its own",
                           "either flour or a preferment",
                           "list its flour inside its own formula",
                           {}};
        }
        if (line.flour) flour += line.percent_milli;
        if (!line.made_of.empty()) {
            if (auto refusal = check_lines(line.made_of, "preferment '" + line.name + "'")) return refusal;
        }
    }
    if (flour != all_flour_milli) {
        return Refusal{whose + " with flour lines of " + percent_text(flour),
                       "flour lines that together are 100 %",
                       "mark every flour, and give the others in percent of it",
                       {}};
    }
    return std::nullopt;
}

std::int64_t sum_of(const std::vector<FormulaLine>& lines) {
    std::int64_t sum = 0;
    for (const FormulaLine& line : lines) sum += line.percent_milli;
    return sum;
}

// Adds the lines of a dough that is `share` of the whole, preferments taken apart.
void take_apart(const std::vector<FormulaLine>& lines, double share, std::vector<TrueLine>& out) {
    const double whole = static_cast<double>(sum_of(lines));
    for (const FormulaLine& line : lines) {
        const double part = share * static_cast<double>(line.percent_milli) / whole;
        if (!line.made_of.empty()) {
            take_apart(line.made_of, part, out);
            continue;
        }
        auto known =
            std::find_if(out.begin(), out.end(), [&](const TrueLine& t) { return t.name == line.name; });
        if (known == out.end()) known = out.insert(out.end(), TrueLine{line.name, 0, 0, line.flour});
        known->percent_of_dough += part * 100;
    }
}

double flour_percent_of_dough(const std::vector<TrueLine>& lines) {
    double flour = 0;
    for (const TrueLine& line : lines) flour += line.flour ? line.percent_of_dough : 0;
    return flour;
}

// The dough that the wanted basis asks for.
std::int64_t dough_mass(const std::vector<FormulaLine>& formula, Basis basis, std::int64_t mg) {
    if (basis == Basis::dough) return mg;
    if (basis == Basis::added_flour) return rounded_share(mg, sum_of(formula), all_flour_milli);
    std::vector<TrueLine> parts;
    take_apart(formula, 1, parts);
    return std::llround(static_cast<double>(mg) * 100 / flour_percent_of_dough(parts));
}

}  // namespace

Result<WeighSheet> weigh_sheet(const std::vector<FormulaLine>& formula, Basis basis, std::int64_t mg) {
    if (auto refusal = check_lines(formula, "a formula")) return *refusal;
    if (mg <= 0) {
        return Refusal{
            std::to_string(mg) + " mg", "a mass above 0", "give the flour or dough to be made", {}};
    }
    WeighSheet sheet;
    sheet.total_mg = dough_mass(formula, basis, mg);
    // Flour and the rest are split apart, so that flour asked for by mass is exactly that mass.
    std::vector<std::int64_t> flours, others;
    for (const FormulaLine& line : formula) (line.flour ? flours : others).push_back(line.percent_milli);
    sheet.flour_mg =
        basis == Basis::added_flour ? mg : rounded_share(sheet.total_mg, all_flour_milli, sum_of(formula));
    const auto flour_parts = apportion(sheet.flour_mg, flours);
    std::vector<std::int64_t> other_parts(others.size());
    if (sum_of(formula) > all_flour_milli) other_parts = apportion(sheet.total_mg - sheet.flour_mg, others);
    auto flour = flour_parts.begin();
    auto other = other_parts.begin();
    for (const FormulaLine& line : formula)
        sheet.lines.push_back({line.name, line.flour ? *flour++ : *other++});
    return sheet;
}

Result<std::vector<TrueLine>> true_percentages(const std::vector<FormulaLine>& formula) {
    if (auto refusal = check_lines(formula, "a formula")) return *refusal;
    std::vector<TrueLine> lines;
    take_apart(formula, 1, lines);
    const double flour = flour_percent_of_dough(lines);
    for (TrueLine& line : lines) line.percent_of_flour = line.percent_of_dough / flour * 100;
    return lines;
}

Result<std::vector<FormulaLine>> percentages_of(const std::vector<WeighedLine>& weighed) {
    std::int64_t flour = 0;
    for (const WeighedLine& line : weighed) {
        if (line.mg < 0) {
            return Refusal{"'" + line.name + "' of " + std::to_string(line.mg) + " mg",
                           "0 mg or more",
                           "correct the weight",
                           {}};
        }
        if (line.flour) flour += line.mg;
    }
    if (flour == 0) return Refusal{"weights without flour", "at least one flour", "mark the flour", {}};
    std::vector<FormulaLine> out;
    for (const WeighedLine& line : weighed) {
        out.push_back({line.name, rounded_share(all_flour_milli, line.mg, flour), line.flour, {}});
    }
    return out;
}

WeighCheck check_weight(std::int64_t wanted_mg, std::int64_t weighed_mg, std::int64_t tolerance_milli) {
    __extension__ using Wide = __int128;
    WeighCheck check;
    check.over_mg = weighed_mg - wanted_mg;
    const Wide off = check.over_mg < 0 ? -check.over_mg : check.over_mg;
    check.within = off * all_flour_milli <= static_cast<Wide>(wanted_mg) * tolerance_milli;
    return check;
}

}  // namespace peelbook::calc
