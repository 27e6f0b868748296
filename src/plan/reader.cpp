#include "plan/reader.h"

#include <algorithm>

#include "base/text.h"
#include "plan/boundaries.h"
#include "plan/read.h"
#include "plan/rules.h"
#include "plan/words.h"

namespace peelbook::plan {
namespace {

// Reads the tables of one file into the plan. A section may be spread over several files; [site] and [calendar] stand once.
class FileReader {
  public:
    FileReader(Plan& plan, Faults& faults, int file) : plan_(plan), faults_(faults), file_(file) {}

    void read(const TomlDocument& document) {
        for (const TomlEntry& entry : document.root.entries) {
            entry_ = &entry;
            passed_.clear();
            fields(*this, plan_);
            if (!among(passed_, entry.key)) unknown(entry);
        }
    }

    // A section of the plan, which the entry may be.
    template <class T> void operator()(T& part, const Section& section) {
        passed_.emplace_back(section.key);
        if (entry_->key == section.key) add(*entry_, part);
    }

  private:
    template <class T> void add(const TomlEntry& entry, T& into) {
        const std::string shape = "[" + entry.key + "]";
        if (!entry.value.is(TomlValue::Kind::table)) return wrong_shape(entry, shape);
        if (faults_.written(entry.key))
            return faults_.error({file_, entry.at}, shape + " is there twice", "one " + shape + " in all files together",
                                 "bring the two together");
        read_one(entry.value, entry.key, entry.key, into);
    }

    template <class T> void add(const TomlEntry& entry, std::vector<T>& into) {
        if (!entry.value.is(TomlValue::Kind::array)) return wrong_shape(entry, "[[" + entry.key + "]]");
        for (const TomlValue& item : entry.value.items) {
            if (!item.is(TomlValue::Kind::table)) return wrong_shape(entry, "[[" + entry.key + "]]");
            const std::string path = path_at(entry.key, into.size());
            read_one(item, path, entry.key, into.emplace_back());
        }
    }

    template <class T> void read_one(const TomlValue& value, const std::string& path, const std::string& what, T& into) {
        Fields table(faults_, file_, value, path, what);
        FieldReader reader(table);
        fields(reader, into);
        table.done();
    }

    void wrong_shape(const TomlEntry& entry, const std::string& shape) {
        faults_.error({file_, entry.at}, entry.key + " is " + std::string(name_of(entry.value.kind)), shape,
                      "begin it with a line " + shape);
    }

    void unknown(const TomlEntry& entry) {
        faults_.error({file_, entry.at}, "unknown section " + quoted(entry.key), "a section of a plan",
                      remedy_with(nearest(entry.key, passed_), "it may be one of: " + joined(passed_, ", ")));
    }

    Plan& plan_;
    Faults& faults_;
    int file_;
    const TomlEntry* entry_ = nullptr;
    std::vector<std::string> passed_;  // keys of the sections
};

std::vector<TomlDocument> parsed(const std::vector<Text>& texts) {
    std::vector<TomlDocument> documents;
    for (const Text& text : texts) documents.push_back(parse_toml(text.name, text.text));
    return documents;
}

// True when every file could be read as TOML.
bool read_documents(const std::vector<TomlDocument>& documents, Plan& plan, Faults& faults) {
    bool whole = true;
    for (std::size_t i = 0; i < documents.size(); ++i) {
        const int file = static_cast<int>(i);
        if (documents[i].broken) {
            whole = false;
            faults.error({file, documents[i].broken->at}, "this is no TOML: " + documents[i].broken->what, "valid TOML",
                         "correct it and check again: until then this file counts as empty, and names are "
                         "not checked across files");
        }
        FileReader(plan, faults, file).read(documents[i]);
    }
    for (const Equipment& piece : plan.equipment)  // it is read and cleaned as a place is
        if (!piece.id.empty() && !plan.place(piece.id)) plan.places.push_back({piece.id, piece.name});
    plan.calendar.closed.insert(plan.calendar.closed.end(), plan.site.holidays.begin(), plan.site.holidays.end());
    plan.site.holidays.clear();
    for (Point& point : plan.points) {
        if (const Possible* kind = plan.possible_of(point.possible_kind)) {
            if (!point.possible_least) point.possible_least = kind->least;
            if (!point.possible_most) point.possible_most = kind->most;
        }
        auto* limit = std::get_if<MarketLimit>(&point.limit);
        if (!limit) continue;
        limit->labels = labels_of(plan, point, limit->of);
        point.limit_text = limit_words(point.limit);
    }
    return whole;
}

void check_rules(const Plan& plan, Faults& faults) {
    if (!faults.written("site"))
        faults.error("site", "the plan has no [site]", "one [site] with name, zone and allergen_list", "write it into site.toml");
    if (faults.written("site/holidays"))
        faults.error("site/holidays", "site has holidays", "closed = [\"2026-12-25\"] under [calendar], the one list of days without work",
                     "move the dates there");
    check_house(plan, faults);
    check_goods(plan, faults);
    check_formulas(plan, faults);
    check_labels(plan, faults);
    check_equipment(plan, faults);
    check_points(plan, faults);
    check_limits(plan, faults);
    check_readings(plan, faults);
    check_market_limits(plan, faults);
}

}  // namespace

bool Outcome::usable() const {
    return std::all_of(faults.begin(), faults.end(), [](const Fault& f) { return f.warning; });
}

Outcome read_plan(const std::vector<Text>& texts) {
    const std::vector<TomlDocument> documents = parsed(texts);
    Outcome outcome;
    Faults faults(documents);
    if (read_documents(documents, outcome.plan, faults)) check_rules(outcome.plan, faults);
    outcome.faults = faults.in_order();
    return outcome;
}

Plan read_adopted_plan(const std::vector<Text>& texts) {
    const std::vector<TomlDocument> documents = parsed(texts);
    Plan plan;
    Faults faults(documents);
    read_documents(documents, plan, faults);
    const std::vector<Fault> found = faults.in_order();
    if (!found.empty()) throw Damaged("the adopted plan cannot be read any more: " + to_text(found.front()));
    return plan;
}

std::vector<Fault> check_against(const Plan& plan, const std::vector<std::string>& partner_codes) {
    std::vector<Fault> faults;
    for (const Material& material : plan.materials)
        for (const std::string& supplier : material.suppliers) {
            if (among(partner_codes, supplier)) continue;
            Fault fault;
            fault.found = "material " + quoted(material.id) + " suppliers: no partner " + quoted(supplier) + " in the book";
            fault.wanted = "a partner with this code before the first delivery";
            fault.remedy = remedy_with(nearest(supplier, partner_codes), "add it with: partner " + supplier);
            fault.warning = true;
            faults.push_back(fault);
        }
    return faults;
}

}  // namespace peelbook::plan
