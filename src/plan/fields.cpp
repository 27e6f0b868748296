#include "plan/fields.h"

#include "base/text.h"
#include "plan/words.h"

namespace peelbook::plan {

Fields::Fields(Faults& faults, int file, const TomlValue& table, std::string path, std::string what)
    : faults_(faults), file_(file), table_(table), path_(std::move(path)), what_(std::move(what)) {
    faults_.mark(path_, {file_, table_.at});
}

const TomlValue* Fields::asked(std::string_view key) {
    asked_.emplace_back(key);
    const TomlValue* value = table_.find(key);
    if (value) faults_.mark(path_of(key), {file_, value->at});
    return value;
}

const TomlValue* Fields::ask(std::string_view key, TomlValue::Kind kind, Need need, std::string_view example) {
    const TomlValue* value = asked(key);
    const std::string shape = std::string(key) + " = " + std::string(example);
    if (!value) {
        if (need != Need::no) lacks(key, shape, "write it into this table");
        return nullptr;
    }
    if (value->is(kind)) return value;
    error(key, std::string(key) + " is " + std::string(name_of(value->kind)), std::string(name_of(kind)), "write it like " + shape);
    return nullptr;
}

void Fields::error(std::string_view key, std::string found, std::string wanted, std::string remedy) {
    faults_.error(path_of(key), what_ + ": " + std::move(found), std::move(wanted), std::move(remedy));
}

void Fields::refuse(std::string_view key, const Refusal& refusal) {
    faults_.refuse(faults_.spot(path_of(key)), what_ + " " + std::string(key.substr(0, key.find('/'))), refusal);
}

void Fields::lacks(std::string_view key, std::string wanted, std::string remedy) {
    faults_.error(path_, what_ + " has no " + std::string(key), std::move(wanted), std::move(remedy));
}

std::vector<std::string> Fields::list(std::string_view key, std::string_view example, bool dates) {
    std::vector<std::string> found;
    const TomlValue* value = ask(key, TomlValue::Kind::array, Need::no, example);
    if (!value) return found;
    for (const TomlValue& item : value->items) {
        const std::string place = path_of(key) + "/" + std::to_string(found.size());
        if (!item.is(TomlValue::Kind::text) && !(dates && item.is(TomlValue::Kind::date))) {
            faults_.error({file_, item.at}, what_ + ": " + std::string(key) + " holds " + std::string(name_of(item.kind)), "texts only",
                          "write it like " + std::string(key) + " = " + std::string(example));
            continue;
        }
        faults_.mark(place, {file_, item.at});
        if (among(found, item.text))
            faults_.error({file_, item.at}, what_ + ": " + std::string(key) + " names " + quoted(item.text) + " twice", "each name once",
                          "take one of the two out");
        else
            found.push_back(item.text);
    }
    return found;
}

void Fields::is_called(const std::string& id) { what_ += " " + quoted(id); }

bool Fields::inside(std::string_view key, const std::function<void(Fields&)>& read) {
    const TomlValue* value = ask(key, TomlValue::Kind::table, Need::no, "{ ... }");
    if (!value) return false;
    Fields inner(faults_, file_, *value, path_of(key), what_ + " " + std::string(key));
    read(inner);
    inner.done();
    return true;
}

void Fields::each(std::string_view key, std::string_view item_word, const std::function<void(Fields&)>& read) {
    const TomlValue* value = ask(key, TomlValue::Kind::array, Need::no, "[ { ... }, { ... } ]");
    if (!value) return;
    for (std::size_t i = 0; i < value->items.size(); ++i) {
        const TomlValue& item = value->items[i];
        const std::string place = path_of(key) + "/" + std::to_string(i);
        const std::string what = what_ + " " + std::string(item_word) + " " + std::to_string(i + 1);
        if (!item.is(TomlValue::Kind::table)) {
            faults_.error({file_, item.at}, what + " is " + std::string(name_of(item.kind)), "a table",
                          "write it like " + std::string(key) + " = [ { ... }, { ... } ]");
            continue;
        }
        Fields inner(faults_, file_, item, place, what);
        read(inner);
        inner.done();
    }
}

void Fields::done() {
    for (const TomlEntry& entry : table_.entries) {
        if (among(asked_, entry.key)) continue;
        faults_.error({file_, entry.at}, what_ + ": unknown key " + quoted(entry.key), "a key of this table",
                      remedy_with(nearest(entry.key, asked_), "it may be one of: " + joined(asked_, ", ")));
    }
}

}  // namespace peelbook::plan
