#include "plan/described.h"

#include <algorithm>

#include "base/text.h"
#include "plan/boundaries.h"
#include "plan/lists.h"

namespace peelbook::plan {
namespace {

// --- a value in words

std::string phrase(const std::string& text) { return text; }
std::string phrase(bool yes) { return yes ? "yes" : "no"; }
std::string phrase(DateKind kind) { return in_words(kind); }
std::string phrase(const Date& day) { return to_text(day); }
std::string phrase(Duration period) { return period_text(period); }
std::string phrase(const Measure& measure) { return to_text(measure); }
std::string phrase(const Limit& limit) { return limit_words(limit); }
std::string phrase(const Material::Protein& protein) { return protein.allergen + " " + percent_text(protein.milli_percent * 1000); }
std::string phrase(const DoughAim& aim) {
    std::string text =
        to_text(aim.wanted) + ", read at " + aim.dough + "; water reckoned from " + aim.flour + ", " + aim.room + ", " + aim.water;
    return aim.preferment.empty() ? text : text + ", " + aim.preferment;
}

template <class T> std::string phrase(const std::optional<T>& value) { return value ? phrase(*value) : ""; }
template <class T> std::string phrase(const std::vector<T>& list) {
    std::vector<std::string> phrases;
    for (const T& item : list) phrases.push_back(phrase(item));
    return joined(phrases, ", ");
}

// --- a value whose form says what it is

template <class T, class Form> std::string phrase(const T& value, const Form&) { return phrase(value); }
std::string phrase(const std::vector<std::string>& ids, const Allergens&) { return ids.empty() ? "none" : phrase(ids); }
std::string phrase(int minutes, const TimeOfDay&) { return minute_of_day_text(minutes); }
std::string phrase(std::int64_t ppm, const ShareOfMillion&) {
    constexpr std::int64_t micro_percent = 100;
    return percent_text(ppm * micro_percent);
}
std::string phrase(std::int64_t number, const Whole&) { return number > 0 ? std::to_string(number) : ""; }
std::string phrase(const std::optional<std::int64_t>& number, const Whole&) { return number ? std::to_string(*number) : ""; }
std::string phrase(std::int64_t value, const Amount& form) {
    if (form.dimension == Dimension::percent) return percent_text(value * 1000);
    return value > 0 ? mass_text(value) : "";
}

class Describer {
  public:
    explicit Describer(Described& d) : d_(d) {}
    template <class T, class... Form> void operator()(const T&, const Form&...) {}
    template <class T, class Form> void operator()(const T& value, const Form& form, const char* label) {
        d_.says.emplace_back(label, phrase(value, form));
    }
    void says(const char* label, const auto& words) { d_.says.emplace_back(label, words()); }
    void says_each(const auto& list, const auto& words) {
        for (const auto& item : list) d_.says.push_back(words(item));
    }
    void inside(std::string_view, Need, const auto& list) { list(*this); }
    void then(const auto&) {}

  private:
    Described& d_;
};

// --- what a part is called

template <class T> std::string id_of(const T& part) { return part.id; }
std::string id_of(const Site&) { return ""; }
std::string id_of(const Calendar&) { return ""; }
std::string id_of(const ReferenceDose& dose) { return dose.allergen; }

template <class T> std::string title_of(const T& part) { return part.name; }
std::string title_of(const Calendar&) { return ""; }
std::string title_of(const Possible& kind) { return kind.id; }
std::string title_of(const Role& role) { return role.id; }
std::string title_of(const Hazard& hazard) { return hazard.what; }
std::string title_of(const ReferenceDose& dose) { return allergen_name(dose.allergen); }

class PartsDescriber {
  public:
    std::vector<Described> parts;

    template <class T> void operator()(const T& part, const Section& section) {
        Described& d = parts.emplace_back(Described{std::string(section.key), id_of(part), title_of(part), {}});
        std::replace(d.section.begin(), d.section.end(), '_', ' ');
        Describer describer(d);
        fields(describer, part);
    }
    template <class T> void operator()(const std::vector<T>& list, const Section& section) {
        for (const T& part : list) (*this)(part, section);
    }
};

// What residue lies on is read after the points, and told next to the places.
bool is_told_early(const Described& d) {
    constexpr std::string_view early[] = {"site",   "calendar", "shift",     "material", "product",       "label",
                                          "vessel", "place",    "equipment", "cleaning", "reference dose"};
    return std::find(std::begin(early), std::end(early), d.section) != std::end(early);
}

// --- for a person to read

constexpr std::string_view vocabulary = "allergens";

std::string ended(std::string text) { return text + "\n" + std::string(caution) + "\n"; }

// "no" and what is not stated says nothing to a reader.
bool worth_a_line(const Described& d, const std::pair<std::string, std::string>& says) {
    return !says.second.empty() && says.second != "no" && !(says.first == "name" && !d.id.empty());
}

// Empty of what has no name and says nothing: the calendar of a house that is always open.
std::string block(const Described& d) {
    std::string lines;
    for (const auto& says : d.says)
        if (worth_a_line(d, says)) lines += "  " + says.first + ": " + says.second + "\n";
    if (lines.empty() && d.id.empty()) return "";
    return d.title() + (!d.id.empty() && d.name != d.id ? ": " + d.name : "") + "\n" + lines;
}

std::string lists_of(const Allergen& a) {
    std::vector<std::string> lists;
    if (a.eu) lists.emplace_back("EU");
    if (a.us) lists.emplace_back("US");
    if (a.codex) lists.emplace_back("Codex");
    if (a.codex_regional) lists.emplace_back("Codex, where a region adds it");
    return joined(lists, ", ");
}

std::string allergen_lists() {
    std::string text;
    for (const Allergen& a : allergens()) text += std::string(a.id) + ": " + std::string(a.name) + "; listed by " + lists_of(a) + "\n";
    text += "\nExcepted by Regulation (EU) No 1169/2011 Annex II:\n";
    for (const AnnexException& e : annex_exceptions()) text += "  " + std::string(e.group) + ": " + std::string(e.text) + "\n";
    return text + "\n" + boundaries_text();
}

}  // namespace

std::vector<Described> described(const Plan& plan) {
    PartsDescriber describer;
    fields(describer, plan);
    std::vector<Described>& parts = describer.parts;
    std::erase_if(parts, [&](const Described& d) { return d.section == "place" && plan.piece(d.id); });
    std::stable_partition(parts.begin(), parts.end(), is_told_early);
    return parts;
}

std::string shown(const Plan& plan, std::string_view only) {
    if (only == vocabulary) return ended(allergen_lists());
    std::vector<std::string> blocks;
    for (const Described& d : described(plan))
        if (only.empty() || only == d.section || only == d.section + "s" || (!d.id.empty() && only == d.id)) blocks.push_back(block(d));
    std::erase(blocks, "");
    return blocks.empty() ? "" : ended(joined(blocks, "\n"));
}

}  // namespace peelbook::plan
