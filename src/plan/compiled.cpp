#include "plan/compiled.h"

#include <charconv>
#include <concepts>
#include <limits>
#include <type_traits>

namespace peelbook::plan {
namespace {

// --- the members of each struct. The bindings name them all, so that one added in plan.h does not compile until it stands here.

template <class S, class T> concept Is = std::same_as<std::remove_const_t<S>, T>;

template <class V, Is<Date> S> void members(V& v, S& s) {
    auto& [year, month, day] = s;
    v(year, month, day);
}
template <class V, Is<Duration> S> void members(V& v, S& s) { v(s.ms); }
template <class V, Is<Measure> S> void members(V& v, S& s) {
    auto& [value, typed_micro, unit] = s;
    v(value, typed_micro, unit);
}
template <class V, Is<Site> S> void members(V& v, S& s) {
    auto& [name, address, phone, gln, company_prefix, web, zone, day_start, late_after, allergen_list, paper, temperature, mass, retention, holidays,
           review_days, carry_over, clock] = s;
    v(name, address, phone, gln, company_prefix, web, zone, day_start, late_after, allergen_list, paper, temperature, mass, retention, holidays,
      review_days, carry_over, clock);
}
template <class V, Is<Material::Protein> S> void members(V& v, S& s) {
    auto& [allergen, percent] = s;
    v(allergen, percent);
}
template <class V, Is<Equipment> S> void members(V& v, S& s) {
    auto& [id, name, lines, products, step, residue] = s;
    v(id, name, lines, products, step, residue);
}
template <class V, Is<Cleaning> S> void members(V& v, S& s) {
    auto& [id, name, kind, equipment, clears, time, cost, verify] = s;
    v(id, name, kind, equipment, clears, time, cost, verify);
}
template <class V, Is<ReferenceDose> S> void members(V& v, S& s) {
    auto& [allergen, dose, source] = s;
    v(allergen, dose, source);
}
template <class V, Is<Material> S> void members(V& v, S& s) {
    auto& [id, name, code, allergens, may_contain, date_kind, supply, packaging, traceability_list, gtins, suppliers,
           protein] = s;
    v(id, name, code, allergens, may_contain, date_kind, supply, packaging, traceability_list, gtins, suppliers, protein);
}
template <class V, Is<FormulaItem> S> void members(V& v, S& s) {
    auto& [item, percent, absolute, flour, optional] = s;
    v(item, percent, absolute, flour, optional);
}
template <class V, Is<DoughAim> S> void members(V& v, S& s) {
    auto& [wanted, dough, flour, water, room, preferment] = s;
    v(wanted, dough, flour, water, room, preferment);
}
template <class V, Is<Product> S> void members(V& v, S& s) {
    auto& [id, name, code, sort, formula, unit_mass, pieces, usual_flour, tolerance, steps, finish_step, line, label, date_kind,
           shelf_life, gtin, traceability_list, dough, portion, sold] = s;
    v(id, name, code, sort, formula, unit_mass, pieces, usual_flour, tolerance, steps, finish_step, line, label, date_kind,
      shelf_life, gtin, traceability_list, dough, portion, sold);
}
template <class V, Is<Label> S> void members(V& v, S& s) {
    auto& [id, name, product, market, declares, may_contain, claim] = s;
    v(id, name, product, market, declares, may_contain, claim);
}
template <class V, Is<Vessel> S> void members(V& v, S& s) {
    auto& [id, name, kind, model, holds, heel, smear, validation] = s;
    v(id, name, kind, model, holds, heel, smear, validation);
}
template <class V, Is<Place> S> void members(V& v, S& s) {
    auto& [id, name] = s;
    v(id, name);
}
template <class V, Is<Instrument> S> void members(V& v, S& s) {
    auto& [id, name, kind, tolerance, uncertainty, calibrate_every, place] = s;
    v(id, name, kind, tolerance, uncertainty, calibrate_every, place);
}
template <class V, Is<LoggerColumn> S> void members(V& v, S& s) {
    auto& [column, unit, point, probed] = s;
    v(column, unit, point, probed);
}
template <class V, Is<Logger> S> void members(V& v, S& s) {
    auto& [id, name, separator, decimal, header_lines, date_column, time_column, time_format, zone, every, no_value, columns] = s;
    v(id, name, separator, decimal, header_lines, date_column, time_column, time_format, zone, every, no_value, columns);
}
template <class V, Is<Role> S> void members(V& v, S& s) {
    auto& [id, may] = s;
    v(id, may);
}
template <class V, Is<Bound> S> void members(V& v, S& s) {
    auto& [first, second] = s;
    v(first, second);
}
template <class V, Is<RangeLimit> S> void members(V& v, S& s) {
    auto& [least, most] = s;
    v(least, most);
}
template <class V, Is<TimeLimit> S> void members(V& v, S& s) {
    auto& [from, until, least, most] = s;
    v(from, until, least, most);
}
template <class V, Is<CoolingLimit::Stage> S> void members(V& v, S& s) {
    auto& [to, within] = s;
    v(to, within);
}
template <class V, Is<CoolingLimit> S> void members(V& v, S& s) {
    auto& [from, stages, each_from_previous, hot_at, starts_at] = s;
    v(from, stages, each_from_previous, hot_at, starts_at);
}
template <class V, Is<BeforePackingLimit> S> void members(V& v, S& s) { v(s.most); }
template <class V, Is<YesNoLimit> S> void members(V&, S&) {}
template <class V, Is<LethalityLimit> S> void members(V& v, S& s) {
    auto& [t_ref, z, d, studied_from, studied_to, wanted, cap, foods, source] = s;
    v(t_ref, z, d, studied_from, studied_to, wanted, cap, foods, source);
}
template <class V, Is<ClassLimit> S> void members(V& v, S& s) { v(s.heat_treated_and_packaged); }
template <class V, Is<LossLimit> S> void members(V& v, S& s) {
    auto& [before, after, least, most] = s;
    v(before, after, least, most);
}
template <class V, Is<SouringLimit> S> void members(V& v, S& s) {
    auto& [starts_at, stages] = s;
    v(starts_at, stages);
}
template <class V, Is<LabelLimit> S> void members(V& v, S& s) {
    auto& [at, most_lost] = s;
    v(at, most_lost);
}
template <class V, Is<MarketLimit::OfLabel> S> void members(V& v, S& s) {
    auto& [label, product, market, claim, most, below] = s;
    v(label, product, market, claim, most, below);
}
template <class V, Is<MarketLimit> S> void members(V& v, S& s) {
    auto& [of, labels] = s;
    v(of, labels);
}
template <class V, Is<Interval> S> void members(V& v, S& s) {
    auto& [every, from, until, device_check] = s;
    v(every, from, until, device_check);
}
template <class V, Is<Point> S> void members(V& v, S& s) {
    auto& [id, name, step, products, materials, place, grade, hazard, measures, dimension, limit, warn_least, warn_most, units,
           interval, chart, optional, guarded, room, room_point, instrument_needed, lines, how_often, who, basis, product_action,
           process_action, limit_text] = s;
    v(id, name, step, products, materials, place, grade, hazard, measures, dimension, limit, warn_least, warn_most, units,
      interval, chart, optional, guarded, room, room_point, instrument_needed, lines, how_often, who, basis, product_action,
      process_action, limit_text);
}
template <class V, Is<Hazard> S> void members(V& v, S& s) {
    auto& [id, step, kind, what, likelihood, severity, control, significant] = s;
    v(id, step, kind, what, likelihood, severity, control, significant);
}
template <class V, Is<Deadline> S> void members(V& v, S& s) {
    auto& [id, name, step, within, basis] = s;
    v(id, name, step, within, basis);
}
template <class V, Is<Plan> S> void members(V& v, S& s) {
    auto& [site, materials, products, labels, vessels, places, instruments, loggers, roles, hazards, points, equipment,
           cleanings, doses, deadlines] = s;
    v(site, materials, products, labels, vessels, places, instruments, loggers, roles, hazards, points, equipment, cleanings,
      doses, deadlines);
}

template <class T> concept Choice = std::is_enum_v<T>;
template <Choice E> inline constexpr E last_of{};
template <> inline constexpr DateKind last_of<DateKind> = DateKind::use_by;
template <> inline constexpr Grade last_of<Grade> = Grade::quality;
template <> inline constexpr Dimension last_of<Dimension> = Dimension::speed;
template <> inline constexpr Unit last_of<Unit> = Unit::mg_per_kg;

// --- writing

class Writer {
  public:
    explicit Writer(std::string& out) : out_(out) {}
    template <class... Values> void operator()(const Values&... values) { (put(values), ...); }

  private:
    void put(const std::string& text) {
        out_ += std::to_string(text.size());
        out_ += ':';
        out_ += text;
    }
    void put(std::integral auto number) {
        out_ += std::to_string(std::int64_t{number});
        out_ += ';';
    }
    void put(Choice auto choice) { put(static_cast<int>(choice)); }
    template <class T> void put(const std::vector<T>& list) {
        put(static_cast<std::int64_t>(list.size()));
        for (const T& item : list) put(item);
    }
    template <class T> void put(const std::optional<T>& value) {
        put(value.has_value());
        if (value) put(*value);
    }
    void put(const Limit& limit) {
        put(static_cast<int>(limit.index()));
        std::visit([this](const auto& alternative) { put(alternative); }, limit);
    }
    template <class T> requires std::is_class_v<T> void put(const T& object) { members(*this, object); }

    std::string& out_;
};

// --- reading

struct NotWhole {};

class Reader {
  public:
    explicit Reader(std::string_view rest) : rest_(rest) {}
    template <class... Values> void operator()(Values&... values) { (get(values), ...); }
    bool at_end() const { return rest_.empty(); }

  private:
    // A number from 0 (or the least of its type) to `most`, and the mark that ends it.
    template <std::integral T> T number(T least, T most, char mark) {
        T value{};
        const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
        const auto length = static_cast<std::size_t>(end - rest_.data());
        if (error != std::errc{} || length == rest_.size() || *end != mark || value < least || value > most) throw NotWhole{};
        rest_.remove_prefix(length + 1);
        return value;
    }
    // What is counted takes a byte each at least.
    std::size_t count(char mark) { return number<std::size_t>(0, rest_.size(), mark); }

    void get(std::string& text) {
        const std::size_t size = count(':');
        if (size > rest_.size()) throw NotWhole{};
        text = rest_.substr(0, size);
        rest_.remove_prefix(size);
    }
    template <std::integral T> void get(T& value) {
        value = number(std::numeric_limits<T>::min(), std::numeric_limits<T>::max(), ';');
    }
    void get(bool& truth) { truth = number(0, 1, ';') == 1; }
    template <Choice E> void get(E& choice) { choice = static_cast<E>(number(0, static_cast<int>(last_of<E>), ';')); }
    template <class T> void get(std::vector<T>& list) {
        list.resize(count(';'));
        for (T& item : list) get(item);
    }
    template <class T> void get(std::optional<T>& value) {
        bool there = false;
        get(there);
        if (there) get(value.emplace());
    }
    void get(Limit& limit) {
        switch (number(0, static_cast<int>(std::variant_size_v<Limit>) - 1, ';')) {
            case 0: return get(limit.emplace<0>());
            case 1: return get(limit.emplace<1>());
            case 2: return get(limit.emplace<2>());
            case 3: return get(limit.emplace<3>());
            case 4: return get(limit.emplace<4>());
            case 5: return get(limit.emplace<5>());
            case 6: return get(limit.emplace<6>());
            case 7: return get(limit.emplace<7>());
            case 8: return get(limit.emplace<8>());
            case 9: return get(limit.emplace<9>());
            case 10: return get(limit.emplace<10>());
        }
    }
    template <class T> requires std::is_class_v<T> void get(T& object) { members(*this, object); }

    std::string_view rest_;
};
static_assert(std::variant_size_v<Limit> == 11, "Reader::get(Limit&) names them all");

std::string head() { return "peelbook plan " + std::to_string(compiled_format) + ";"; }

}  // namespace

std::string compiled(const Plan& plan) {
    std::string out = head();
    Writer write(out);
    write(plan);
    return out;
}

std::optional<Plan> from_compiled(std::string_view text) {
    const std::string wanted = head();
    if (!text.starts_with(wanted)) return {};
    text.remove_prefix(wanted.size());
    Plan plan;
    Reader read(text);
    try {
        read(plan);
    } catch (const NotWhole&) {
        return {};
    }
    if (!read.at_end()) return {};
    return plan;
}

}  // namespace peelbook::plan
