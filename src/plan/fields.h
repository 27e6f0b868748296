#pragma once
// One table of the plan being read: hands out what stands under a key, reports what is wrong, and at the end names the keys that
// nothing asked for. The forms of values are forms.h.
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/faults.h"

namespace peelbook::plan {

// vital: without it, what it is a part of cannot be told either.
enum class Need { no, yes, vital };

class Fields {
  public:
    // `what` names the table for a person: "product", then "product 'pan-loaf'" once its id is known.
    Fields(Faults& faults, int file, const TomlValue& table, std::string path, std::string what);

    bool has(std::string_view key) const { return table_.find(key) != nullptr; }
    const TomlValue* find(std::string_view key) const { return table_.find(key); }
    // The value under `key` when it is of this kind, else nothing, and a fault when it is of another or absent and needed. The key
    // counts as asked for.
    const TomlValue* ask(std::string_view key, TomlValue::Kind kind, Need need, std::string_view example);
    // Texts, or dates where they may stand too, none twice. A mark for each: "key/0".
    std::vector<std::string> list(std::string_view key, std::string_view example, bool dates = false);
    // Reads the table under `key`; false when it is absent or no table.
    bool inside(std::string_view key, const std::function<void(Fields&)>& read);
    // Reads each table of the list under `key`; `item_word` is what one is called.
    void each(std::string_view key, std::string_view item_word, const std::function<void(Fields&)>& read);

    void is_called(const std::string& id);
    void done();  // reports keys that were not asked for

    void error(std::string_view key, std::string found, std::string wanted, std::string remedy);
    void refuse(std::string_view key, const Refusal& refusal);
    // "lacks its KEY" at the table itself.
    void lacks(std::string_view key, std::string wanted, std::string remedy);

  private:
    const TomlValue* asked(std::string_view key);  // and remembers the key
    std::string path_of(std::string_view key) const { return path_ + "/" + std::string(key); }

    Faults& faults_;
    int file_;
    const TomlValue& table_;
    std::string path_, what_;
    std::vector<std::string> asked_;
};

}  // namespace peelbook::plan
