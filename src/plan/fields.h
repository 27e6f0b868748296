#pragma once
// One table of the plan being read: hands out typed values, reports those that are wrong, and at the end
// names the keys that nothing asked for. A value that is absent or wrong comes back as nothing, so that
// reading goes on and every fault is told.
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/faults.h"

namespace peelbook::plan {

enum class Need { no, yes };

class Fields {
  public:
    // `what` names the table for a person: "product", then "product 'pan-loaf'" once id() is read.
    Fields(Faults& faults, int file, const TomlValue& table, std::string path, std::string what);

    std::string id();                                   // key "id": a code
    std::string code(std::string_view key, Need need);  // one code
    std::string name(std::string_view key, Need need);  // one line, at most longest_name bytes
    std::string prose(std::string_view key,
                      Need need);  // any white space becomes one blank, at most longest_note bytes
    bool flag(std::string_view key, bool otherwise);
    std::optional<std::int64_t> whole(std::string_view key, std::int64_t least);
    std::optional<std::int64_t> thousandths(std::string_view key, Need need);  // 5 or 6.5: above 0, at most 1000
    // One of `words`; the first when absent and not needed.
    std::string choice(std::string_view key, const std::vector<std::string>& words, Need need);
    std::vector<std::string> codes(std::string_view key);       // a list of codes, no code twice
    std::vector<std::string> names(std::string_view key);       // a list of names
    std::vector<std::string> one_or_more(std::string_view key, std::string_view example);  // a name, or a list of names
    std::vector<std::string> date_texts(std::string_view key);  // dates, or texts
    std::optional<Measure> measure(std::string_view key, Dimension wanted, Need need = Need::no);
    std::optional<Measure> any_measure(std::string_view key);
    std::optional<Duration> period(std::string_view key, Need need = Need::no);  // more than nothing
    std::optional<Bound> bound(std::string_view key, Need need = Need::no);      // "21C" or "21C | 70F"
    std::optional<int> clock(std::string_view key);  // "04:30": minutes after midnight

    bool has(std::string_view key) const { return table_.find(key) != nullptr; }
    // Reads the table under `key`; false when it is absent or no table.
    bool inside(std::string_view key, const std::function<void(Fields&)>& read);
    // Reads each table of the list under `key`; false when it is absent or no list.
    bool each(std::string_view key, const std::string& item_word, const std::function<void(Fields&)>& read);

    void done();  // reports keys that were not asked for

    void error(std::string_view key, std::string found, std::string wanted, std::string remedy);
    void refuse(std::string_view key, const Refusal& refusal);
    const std::string& what() const { return what_; }
    const std::string& path() const { return path_; }
    // "lacks its KEY" at the table itself.
    void lacks(std::string_view key, std::string wanted, std::string remedy);

  private:
    const TomlValue* asked(std::string_view key);  // and remembers the key
    const TomlValue* asked(std::string_view key, TomlValue::Kind kind, Need need, std::string_view example);
    std::vector<std::string> list(std::string_view key, std::string_view example, bool dates);
    std::string path_of(std::string_view key) const { return path_ + "/" + std::string(key); }
    std::optional<Bound> bound_of(std::string_view key, const std::string& text);

    Faults& faults_;
    int file_;
    const TomlValue& table_;
    std::string path_, what_;
    std::vector<std::string> asked_;
};

}  // namespace peelbook::plan
