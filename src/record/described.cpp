// Payloads in words.
#include "base/text.h"
#include "record/codec.h"
#include "record/entry.h"

namespace peelbook::record {
namespace {

std::string words(const std::string& text) { return text; }
std::string words(const std::int64_t& number) { return std::to_string(number); }
std::string words(const bool&) { return "yes"; }
std::string words(const Measure& measure) { return to_text(measure); }
std::string words(const Date& date) { return to_text(date); }
std::string words(const Instant& instant) { return to_iso(instant); }
std::string words(const PlanFile& file) { return file.name + " (" + std::to_string(file.text.size()) + " bytes)"; }
std::string words(const FindingKey& key) {
    return "entry " + std::to_string(key.anchor) + ", " + key.point + ", " + std::to_string(key.ord);
}
std::string words(const Part& part) {
    std::string text = part.lot;
    if (part.pieces != 0) text += " " + std::to_string(part.pieces) + " pieces";
    if (part.mass) text += " " + to_text(*part.mass);
    return text;
}
std::string words(const RecallLot& lot) { return lot.lot + (lot.possible ? " (possible)" : ""); }
std::string words(const RecallDelivery& d) {
    const std::string who = d.partner.empty() ? d.way : d.partner;
    const std::string what = d.printed_code.empty() ? d.lot : d.printed_code;
    const std::string amount = d.pieces != 0 ? std::to_string(d.pieces) + " pieces" : mass_text(d.mass_mg);
    return who + " " + amount + " of " + what + (d.possible ? " (possible)" : "");
}
std::string words(const Declaration& declaration) {
    std::vector<std::string> parts;
    if (declaration.stated && declaration.contains.empty()) parts.push_back("contains none");
    if (!declaration.contains.empty()) parts.push_back("contains " + joined(declaration.contains, ", "));
    if (!declaration.may_contain.empty()) parts.push_back("may contain " + joined(declaration.may_contain, ", "));
    if (!declaration.stated) parts.push_back("not stated");
    return joined(parts, "; ");
}
template <class T> std::string words(const std::optional<T>& value) { return words(*value); }
template <class T> std::string words(const std::vector<T>& list) {
    std::vector<std::string> parts;
    for (const T& one : list) parts.push_back(words(one));
    return joined(parts, ", ");
}

class Teller {
  public:
    template <class T> void operator()(std::string_view name, const T& value) {
        if (codec::holds_nothing(value)) return;
        std::string plain(name);
        std::replace(plain.begin(), plain.end(), '-', ' ');
        said.emplace_back(std::move(plain), words(value));
    }
    std::vector<std::pair<std::string, std::string>> said;
};

}  // namespace

std::vector<std::pair<std::string, std::string>> described(const Statement& s) {
    Teller teller;
    std::visit([&](const auto& one) { one.fields(teller, one); }, s);
    return std::move(teller.said);
}

std::string in_one_line(const Statement& s) {
    std::string out;
    for (const auto& [field, value] : described(s)) out += (out.empty() ? "" : "; ") + field + ": " + value;
    return out;
}

}  // namespace peelbook::record
