// What must hold at a control point: a table of one kind.
#include "base/text.h"
#include "plan/read.h"

namespace peelbook::plan {
namespace {

constexpr std::string_view limit_forms =
    "one of: { least = \"93C\", most = \"99C\" }, { time = { from = \"mix\", until = \"bake\", most = \"4h\" "
    "} }, "
    "{ cooling = { from = \"57C\", stages = [ { to = \"21C\", within = \"2h\" } ], counted = \"start\" } }, "
    "{ before_packing = { most = \"35C\" } }, { yes_no = true }, "
    "{ lethality = { t_ref = \"61C\", z = \"10.4C\", d = \"16.5min\", studied = { from = \"55C\", to = "
    "\"61C\" }, log = 5, cap = 7, longest_gap = \"2min\", food = [\"...\"], source = \"...\" } }, "
    "{ ph_aw = { table = \"B\" } }, { loss = { before = \"inputs\", after = \"finish\", most = \"13%\" } }, "
    "{ souring = { starts_at = \"feed\", stages = [ { to = \"4.2pH\", within = \"12h\" } ] } }, "
    "{ label = { at = [\"start\", \"end\"] } }, { market = { of = \"gluten\" } }";

bool is_there(const Fields& table, std::string_view key) { return key.empty() ? table.has("least") || table.has("most") : table.has(key); }

std::vector<std::string> kinds_given(const Fields& table) {
    std::vector<std::string> given;
    each_kind([&](const auto& kind) {
        if (is_there(table, kind.key)) given.emplace_back(kind.key.empty() ? "least or most" : kind.key);
    });
    return given;
}

// Of several the last; each is read, so that its faults are told.
std::optional<Limit> read_kinds(Fields& table) {
    std::optional<Limit> found;
    const auto read = [&](Fields& fields_of_kind, auto kind) {
        FieldReader reader(fields_of_kind);
        fields(reader, kind);
        found = reader.whole() ? std::optional<Limit>(kind) : std::nullopt;
    };
    each_kind([&](const auto& kind) {
        using Kind = std::remove_cvref_t<decltype(kind)>;
        if constexpr (std::same_as<Kind, RangeLimit>)
            read(table, kind);
        else if constexpr (!std::same_as<Kind, YesNoLimit>)
            table.inside(kind.key, [&](Fields& inner) { read(inner, kind); });
    });
    const bool inspection = Flag{YesNoLimit::key}.get(table).value_or(false);
    if (inspection) found = YesNoLimit{};
    if (table.has(YesNoLimit::key) && !inspection)
        table.error(YesNoLimit::key, "yes_no is not true", "yes_no = true, or another limit", "write what must hold");
    return found;
}

}  // namespace

std::optional<Limit> LimitTable::get(Fields& point) const {
    std::optional<Limit> found;
    if (!point.has("limit")) point.lacks("limit", std::string(limit_forms), "write what must hold");
    point.inside("limit", [&](Fields& table) {
        const std::vector<std::string> given = kinds_given(table);
        if (given.size() > 1)
            table.error("", "more than one limit: " + all_of(given), "one limit a point", "make a point of its own for each");
        found = read_kinds(table);
        if (given.empty()) table.error("", "no limit is given", std::string(limit_forms), "write what must hold");
    });
    return found;
}

bool has_bound(Fields& f, const std::string& example) {
    const bool one = f.has("least") || f.has("most");
    if (!one) f.lacks("bound", example, "write one");
    return one;
}

void complete(Fields& f, const CoolingLimit& cooling) {
    if (!cooling.hot_at.empty() && !cooling.starts_at.empty())
        f.error("starts_at", "both hot_at and starts_at are given", "one start of the clock",
                "leave hot_at for food that is cooked, starts_at for food made of ambient ingredients");
}

void needs_study(Fields& f) {
    if (!f.has("studied"))
        f.lacks("studied", "studied = { from = \"55C\", to = \"61C\" }, the temperatures of the study of D and z",
                "write them: outside them a rate is not known");
}

void needs_foods(Fields& f, const LethalityLimit& heat) {
    if (heat.foods.empty())
        f.lacks("food", "food = [\"...\"], the sorts of product that the study of D and z stands for",
                "write them as the products' sort says");
}

void complete(Fields& f, const LabelLimit& label) {
    const std::vector<std::string> known(std::begin(label_moments), std::end(label_moments));
    for (std::size_t i = 0; i < label.at.size(); ++i)
        if (!among(known, label.at[i]))
            f.error("at/" + std::to_string(i), "moment " + quoted(label.at[i]), "one of: " + joined(known, ", "),
                    remedy_with(nearest(label.at[i], known), "take it out"));
    if (!among(label.at, "start"))
        f.error("at", "labels are not read at the start of a run", "\"start\" among the moments", "write at = [\"start\", \"end\"]");
}

}  // namespace peelbook::plan
