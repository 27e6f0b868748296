#include "cli/keeping/amend_fields.h"

#include <charconv>
#include <utility>

#include "base/text.h"
#include "cli/frame/finding_text.h"
#include "cli/frame/parts.h"

namespace peelbook::cli {
namespace {

// Visits the fields of a payload, remembers their names, and sets the one that is wanted.
class Setter {
  public:
    Setter(std::string wanted, std::string value, const std::function<Result<Instant>(const std::string&)>& time_of)
        : wanted_(std::move(wanted)), value_(std::move(value)), time_of_(time_of) {}

    template <class T> void operator()(std::string_view name, T& field) {
        const std::string full = prefix_ + std::string(name);
        known_.push_back(full);
        if (full == wanted_) {
            found_ = true;
            set(field);
        }
    }

    void operator()(std::string_view name, record::Declaration& field) {
        prefix_ = std::string(name) + ".";
        record::Declaration::fields(*this, field);
        prefix_.clear();
    }

    Check outcome(std::string_view kind) const {
        if (!checked_.ok()) return checked_;
        if (found_) return {};
        return Refusal{"field '" + shown(wanted_) + "'", "a field of a " + std::string(kind) + ": " + joined(known_, ", "),
                       "see `peelbook entry` for the entry as it stands", peelbook::nearest(wanted_, known_)};
    }

  private:
    void refuse(Refusal refusal) {
        refusal.given = wanted_ + ": " + refusal.given;
        checked_ = std::move(refusal);
    }
    template <class T, class Read> void take(T& field, const Read& read) {
        auto value = read(value_);
        if (value) field = std::move(*value);
        if (!value) refuse(value.refusal());
    }
    template <class T, class Read> void take_or_clear(std::optional<T>& field, const Read& read) {
        field.reset();
        if (value_.empty()) return;
        T value{};
        take(value, read);
        field = value;
    }

    void set(std::string& field) { field = value_; }
    void set(std::vector<std::string>& field) {
        field.clear();
        for (const std::string& part : split(value_, ','))
            if (!trimmed(part).empty()) field.emplace_back(trimmed(part));
    }
    void set(bool& field) {
        if (value_ != "yes" && value_ != "no") return refuse({"'" + shown(value_) + "'", "yes or no", "type one of the two", {}});
        field = value_ == "yes";
    }
    void set(std::int64_t& field) {
        const char* last = value_.data() + value_.size();
        const auto [end, error] = std::from_chars(value_.data(), last, field);
        if (error != std::errc() || end != last || field < 0) refuse({"'" + shown(value_) + "'", "a whole number", "type digits only", {}});
    }
    void set(std::optional<std::int64_t>& field) {
        field.reset();
        if (!value_.empty()) set(field.emplace());
    }
    void set(Measure& field) {
        take(field, [](const std::string& text) { return parse_measure(text); });
    }
    void set(std::optional<Measure>& field) {
        take_or_clear(field, [](const std::string& text) { return parse_measure(text); });
    }
    void set(std::optional<Date>& field) {
        take_or_clear(field, [](const std::string& text) { return parse_date(text); });
    }
    void set(Instant& field) { take(field, time_of_); }
    void set(std::optional<Instant>& field) { take_or_clear(field, time_of_); }
    void set(std::vector<record::Part>& field) {
        take(field, [](const std::string& text) { return parse_parts(split(text, ',')); });
    }
    void set(record::FindingKey& field) {
        take(field, [](const std::string& text) { return parse_key(text); });
    }
    void set(std::optional<record::FindingKey>& field) {
        take_or_clear(field, [](const std::string& text) { return parse_key(text); });
    }
    void set(std::vector<record::PlanFile>&) { refuse({"the plan's files", "a field that can be amended", "adopt the plan anew", {}}); }

    void set(std::vector<Seq>&) { refuse({"the entries of a countersign", "a field that can be amended", "countersign anew", {}}); }
    void set(std::vector<record::RecallLot>&) { refuse_snapshot(); }
    void set(std::vector<record::RecallDelivery>&) { refuse_snapshot(); }
    void refuse_snapshot() { refuse({"the snapshot of a recall", "a field that can be amended", "open another recall", {}}); }

    std::string wanted_, value_, prefix_;
    const std::function<Result<Instant>(const std::string&)>& time_of_;
    std::vector<std::string> known_;
    bool found_ = false;
    Check checked_;
};

}  // namespace

Check set_fields(record::Statement& statement, const std::vector<std::string>& changes,
                 const std::function<Result<Instant>(const std::string&)>& time_of) {
    for (const std::string& change : changes) {
        const std::size_t sign = change.find('=');
        if (sign == std::string::npos || sign == 0)
            return Refusal{"'" + shown(change) + "'", "a field and its new value", "type it as FIELD=VALUE", {}};
        Setter setter(change.substr(0, sign), change.substr(sign + 1), time_of);
        std::visit([&setter](auto& says) { std::decay_t<decltype(says)>::fields(setter, says); }, statement);
        if (auto checked = setter.outcome(record::kind_of(statement).name); !checked) return checked;
    }
    return {};
}

}  // namespace peelbook::cli
