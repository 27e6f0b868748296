#include "site/record/admit.h"

#include <algorithm>

#include "base/text.h"
#include "base/words.h"

namespace peelbook::site {
namespace {

// Far above any bakery, and low enough that sums over a whole book stay below 2^63: pieces, and a million tonnes in mg.
constexpr std::int64_t most_pieces = 1'000'000'000, most_canonical = 1'000'000'000'000'000;

// Checks every text and number of a payload through the same list of fields that the codec walks.
struct TextCheck {
    Check checked;

    void operator()(std::string_view field, const std::string& text) {
        if (!checked.ok()) return;
        const bool note = field == "why" || field == "note" || field == "product" || field == "process" || field == "cause" ||
                          field == "prevention" || field == "address";
        checked = check_text(field, text, note ? longest_note : longest_name, false);
    }
    void operator()(std::string_view field, const std::vector<std::string>& texts) {
        for (const auto& text : texts) (*this)(field, text);
    }
    template <class T> void operator()(std::string_view, const std::vector<T>& parts) {
        for (const auto& part : parts) T::fields(*this, part);
    }
    void operator()(std::string_view field, const std::optional<Measure>& m) {
        if (m) (*this)(field, *m);
    }
    void operator()(std::string_view field, const std::optional<std::int64_t>& number) {
        if (number) (*this)(field, *number);
    }
    template <OneOf<Date, Instant, record::FindingKey> T> void operator()(std::string_view, const std::optional<T>&) {}
    template <class T>
    requires requires(TextCheck& check, const T& part) { T::fields(check, part); }
    void operator()(std::string_view, const T& part) { T::fields(*this, part); }
    void operator()(std::string_view field, std::int64_t number) {
        if (!checked.ok() || (number <= most_pieces && number >= -most_pieces)) return;
        checked = Refusal{std::string(field) + " " + std::to_string(number),
                          "a number up to " + std::to_string(most_pieces),
                          "type what was really there",
                          {}};
    }
    void operator()(std::string_view, const std::vector<std::int64_t>&) {}  // numbers of entries
    void operator()(std::string_view, bool) {}
    void operator()(std::string_view, const Instant&) {}
    void operator()(std::string_view field, const Measure& m) {
        if (!checked.ok() || (m.value <= most_canonical && m.value >= -most_canonical)) return;
        checked = Refusal{std::string(field) + " " + to_text(m), "an amount that a bakery can hold", "check the number and its unit", {}};
    }
};

Check check_texts(const record::Statement& says) {
    return std::visit(
        [](const auto& s) -> Check {
            using Kind = std::decay_t<decltype(s)>;
            if constexpr (std::is_same_v<Kind, record::PlanAdopted>) {
                return {};
            } else {
                TextCheck texts;
                Kind::fields(texts, s);
                return texts.checked;
            }
        },
        says);
}

Check check_person(const Request& r) {
    const auto& by = r.draft.by;
    if (by.empty()) {
        return Refusal{"no initials", "who did it", "add --by INITIALS, or set PEELBOOK_BY", {}};
    }
    const auto signs = r.rows().person(by);
    if (signs && signs->left) {
        return Refusal{"initials " + by + ": " + signs->name + " left on " + to_text(r.ledger.zone(), {*signs->left}),
                       "a person who is here",
                       "sign with your own; when they are here again: peelbook person " + by + " --back",
                       {}};
    }
    if (signs) return {};
    std::vector<std::string> known;
    for (const auto& person : r.rows().people()) known.push_back(person.initials);
    return Refusal{"initials '" + shown(by) + "'", "a person in the book", "add them with: peelbook person", nearest(by, known)};
}

Check check_time(const Request& r) {
    if (r.happened <= r.now) return {};
    return Refusal{"a time in the future: " + to_text(r.ledger.zone(), r.happened, true),
                   "a time up to now, " + to_text(r.ledger.zone(), r.now, true),
                   "check --at; what will happen is not recorded",
                   {}};
}

bool wants_plan(const record::Statement& says) {
    return !std::holds_alternative<record::PersonAdded>(says) && !std::holds_alternative<record::PartnerAdded>(says) &&
           !std::holds_alternative<record::PlanAdopted>(says) && !std::holds_alternative<record::Sealed>(says);
}

}  // namespace

Result<Admitted> admit(const Request& r) {
    if (auto checked = check_person(r); !checked) return checked.refusal();
    if (auto checked = check_time(r); !checked) return checked.refusal();
    if (auto checked = check_texts(r.draft.says); !checked) return checked.refusal();
    if (auto checked = check_text("why", r.draft.why, longest_note, r.draft.already_done); !checked) return checked.refusal();
    if (auto checked = check_text("token", r.draft.token, longest_name, false); !checked) return checked.refusal();
    if (auto checked = may_do(r, r.amending != 0 ? "amend" : command_of(r.draft.says)); !checked) return checked.refusal();
    if (r.governing.seq == 0 && wants_plan(r.draft.says)) {
        return Refusal{
            "no plan in force", "an adopted plan to judge by", "check it with: peelbook plan check; then: peelbook plan adopt", {}};
    }
    return std::visit(
        [&](const auto& s) -> Result<Admitted> {
            using Kind = std::decay_t<decltype(s)>;
            if constexpr (std::is_same_v<Kind, record::Opened> || std::is_same_v<Kind, record::PlanAdopted>) {
                return Admitted{{}, s, {}};
            } else {
                return admit_kind(r, s);
            }
        },
        r.draft.says);
}

namespace {

// What the kind says, but where several commands record one kind. A drill's code begins with DRILL.
struct CommandOf {
    std::string_view operator()(const record::MovedOut& s) const {
        const auto way = from_word<Way>(s.way);
        return way == Way::waste ? "discard" : way == Way::sample ? "sample" : s.kind.command;
    }
    std::string_view operator()(const record::Voided& s) const { return s.undo ? std::string_view{} : s.kind.command; }  // anybody's own
    std::string_view operator()(const record::ClockStarted&) const { return {}; }                                        // it only shortens
    std::string_view operator()(const record::LineFed& s) const { return s.off ? "line off" : s.kind.command; }
    // Stopping never needs a right.
    std::string_view operator()(const record::Held&) const { return {}; }
    std::string_view operator()(const record::RecallOpened& s) const { return s.drill ? "drill" : std::string_view{}; }
    template <class S> std::string_view operator()(const S& s) const {
        if constexpr (S::kind.command == record::RecallOpened::kind.command) {
            if (s.recall.starts_with("DRILL")) return "drill";
        }
        return s.kind.command;
    }
};

bool allows(const plan::Role& role, const std::string& command) {
    return std::any_of(role.may.begin(), role.may.end(),
                       [&](const auto& word) { return word == "*" || word == command || command.starts_with(word + " "); });
}

}  // namespace

std::string command_of(const record::Statement& says) { return std::string(std::visit(CommandOf{}, says)); }

bool role_may(const plan::Plan& plan, const std::string& role, const std::string& command) {
    const auto* known = plan.role(role);
    return plan.roles.empty() || (known && allows(*known, command));
}

Check may_do(const Request& r, const std::string& command) {
    if (r.governing.seq == 0 || command.empty()) return {};
    const auto latest = r.ledger.plan_at(r.now);  // rights are those of today
    const auto person = r.rows().person(r.draft.by);
    if (role_may(*latest.plan, person->role, command)) return {};
    std::vector<std::string> able;
    for (const auto& one : latest.plan->roles) {
        if (allows(one, command)) able.push_back(one.id);
    }
    return Refusal{"'" + command + "' by " + r.draft.by + ", role " + (person->role.empty() ? "none" : person->role),
                   "a role that may: " + (able.empty() ? "none in the plan" : joined(able, ", ")),
                   "let one of them record it, or change [[role]] in the plan and adopt it",
                   {}};
}

Result<book::Lot> known_lot(const Request& r, const std::string& code) {
    if (auto lot = r.rows().lot(code)) return *lot;
    const auto candidates = r.rows().lots_by_supplier(code);
    if (candidates.size() == 1) return candidates.front();
    if (candidates.size() > 1) {
        std::vector<std::string> ours;
        for (const auto& lot : candidates) ours.push_back(lot.code + " (" + lot.item + " from " + lot.partner + ")");
        return Refusal{"supplier's lot '" + shown(code) + "', which came more than once", "one of our lot codes",
                       "type the code of the one that is meant", ours};
    }
    return Refusal{"lot '" + shown(code) + "'", "a lot in the book", "check the code on the label, or record how the lot came",
                   nearest(code, r.rows().all_codes(2000))};
}

Check known_id(const std::string& what, const std::string& id, const std::vector<std::string>& known, const std::string& next) {
    if (std::find(known.begin(), known.end(), id) != known.end()) return {};
    return Refusal{what + " '" + shown(id) + "'", "a " + what + " of the plan in force", next, nearest(id, known)};
}

Check not_before_lot(const Request& r, const book::Lot& lot) {
    if (r.happened.ms >= lot.happened) return {};
    return Refusal{to_text(r.ledger.zone(), r.happened, true) + " for lot " + lot.code,
                   "a time from " + to_text(r.ledger.zone(), {lot.happened}, true) + " on, when the lot came to be",
                   "check --at and the code; if the lot was recorded too late, amend that entry first",
                   {}};
}

Check wanted_dimension(const std::string& what, const std::optional<Measure>& m, Dimension d) {
    if (!m) return {};
    if (m->dimension() != d) {
        std::vector<std::string> fits;
        for (const auto unit : symbols_of(d)) fits.emplace_back(unit);
        return Refusal{what + " " + to_text(*m), "a " + std::string(name_of(d)), "use a unit of: " + joined(fits, ", "), {}};
    }
    if (d != Dimension::temperature && m->value <= 0) {
        return Refusal{what + " " + to_text(*m), "more than nothing", "type the amount that was really there", {}};
    }
    return {};
}

Check reason_given(const Request& r, const std::string& why, const std::string& what) {
    if (!trimmed(why).empty() || !trimmed(r.draft.why).empty()) return {};
    return Refusal{what + " without a reason", "why it was done", "add --why \"...\"", {}};
}

std::vector<std::string> ids_of_materials(const plan::Plan& plan) {
    std::vector<std::string> ids;
    for (const auto& m : plan.materials) ids.push_back(m.id);
    return ids;
}

std::vector<std::string> ids_of_products(const plan::Plan& plan) {
    std::vector<std::string> ids;
    for (const auto& p : plan.products) ids.push_back(p.id);
    return ids;
}

}  // namespace peelbook::site
