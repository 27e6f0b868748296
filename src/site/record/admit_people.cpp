// People and partners. What is not stated stays as it was: the program fills the entry in, so that each says the whole.
#include <algorithm>

#include "base/gs1.h"
#include "base/text.h"
#include "site/record/admit.h"

namespace peelbook::site {
namespace {

const std::vector<std::string> partner_roles{"supplier", "customer", "carrier", "authority"};
const std::string partner_roles_text = "supplier, customer, carrier or authority";

bool is_one_of(const std::vector<std::string>& words, const std::string& word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// A book in which nobody may record people any more would stay as it is for ever.
Check leaves_a_keeper(const Request& r, const record::PersonAdded& s) {
    const auto latest = r.ledger.plan_at(r.now);
    for (auto person : r.rows().people()) {
        if (person.initials == s.initials) {
            person.role = s.role;
            if (s.state == "left") continue;
        } else if (person.left) {
            continue;
        }
        if (role_may(*latest.plan, person.role, "person")) return {};
    }
    return Refusal{s.name + (s.state == "left" ? " leaving" : " as " + s.role) + ", after which nobody may record people",
                   "one person at least who may",
                   "give another person such a role first: peelbook person INITIALS --role ...",
                   {}};
}

Check known_role(const Request& r, const std::string& role) {
    std::vector<std::string> roles;
    for (const auto& one : r.plan().roles) roles.push_back(one.id);
    if (roles.empty()) return {};
    const std::string choice = "choose one of the plan's roles: " + joined(roles, ", ");
    return known_id("role", role, roles, choice);
}

// Empty stays as it was, "-" takes it away. Told, so that a slip of the code shows.
void keep(const std::string& field, const std::string& was, std::string& stated, std::vector<std::string>& notes) {
    if (stated.empty()) stated = was;
    if (stated == "-") stated.clear();
    if (stated != was && !was.empty()) notes.push_back(field + " was " + was);
}

}  // namespace

Result<Admitted> admit_kind(const Request& r, const record::PersonAdded& given) {
    Admitted out{{}, given, {}};
    auto& s = std::get<record::PersonAdded>(out.says);
    if (auto checked = check_code("initials", s.initials); !checked) return checked.refusal();
    if (!s.state.empty() && s.state != "left" && s.state != "back")
        return Refusal{"state '" + shown(s.state) + "'", "left, back, or nothing", "leave it out, or type one of these", {}};
    const auto known = r.rows().person(s.initials);
    if (!known && (!s.state.empty() || trimmed(s.name).empty())) {
        std::vector<std::string> initials;
        for (const auto& person : r.rows().people()) initials.push_back(person.initials);
        return Refusal{"initials '" + s.initials + "', which nobody has", "a person in the book, or the name and role of a new one",
                       "check the initials; for a new person add --name \"...\" and --role", nearest(s.initials, initials)};
    }
    if (known && !s.name.empty() && s.name != known->name) {
        return Refusal{"initials '" + s.initials + "', which are " + known->name + "'s", "initials that nobody has", "choose others", {}};
    }
    if (!known || !s.role.empty()) {
        if (auto checked = known_role(r, s.role); !checked) return checked.refusal();
    }
    if (!known) return out;
    s.name = known->name;
    keep("role", known->role, s.role, out.notes);
    if (s.state.empty() && known->left) {
        s.state = "left";
        out.notes.push_back("still left; when they are here again: peelbook person " + s.initials + " --back");
    }
    if (auto checked = leaves_a_keeper(r, s); !checked) return checked.refusal();
    return out;
}

Result<Admitted> admit_kind(const Request& r, const record::PartnerAdded& given) {
    Admitted out{{}, given, {}};
    auto& s = std::get<record::PartnerAdded>(out.says);
    if (auto checked = check_code("partner code", s.code); !checked) return checked.refusal();
    const auto known = r.rows().partner(s.code);
    if (!known && trimmed(s.name).empty()) {
        std::vector<std::string> codes;
        for (const auto& partner : r.rows().partners()) codes.push_back(partner.code);
        return Refusal{"partner '" + s.code + "' without a name", "a partner in the book, or the name and roles of a new one",
                       "check the code; for a new partner add --name \"...\" and --role", nearest(s.code, codes)};
    }
    const auto was = known.value_or(book::Partner{});
    const std::string roles_were = joined(split(was.roles, ' '), ", ");
    std::string roles = joined(s.roles, ", ");
    keep("role", roles_were, roles, out.notes);
    if (s.roles.empty() && known) s.roles = split(was.roles, ' ');
    keep("name", was.name, s.name, out.notes);
    keep("address", was.address, s.address, out.notes);
    keep("phone", was.phone, s.phone, out.notes);
    keep("email", was.email, s.email, out.notes);
    keep("gln", was.gln, s.gln, out.notes);
    if (trimmed(s.name).empty()) return Refusal{"no name for " + s.code, "the partner's name", "add --name \"...\"", {}};
    if (s.roles.empty()) return Refusal{"no role for " + s.code, partner_roles_text, "add --role", {}};
    for (const auto& role : s.roles) {
        if (!is_one_of(partner_roles, role))
            return Refusal{"role '" + shown(role) + "'", partner_roles_text, "choose one", nearest(role, partner_roles)};
    }
    if (!s.gln.empty()) {
        if (auto checked = check_gln(s.gln); !checked) return checked.refusal();
    }
    return out;
}

}  // namespace peelbook::site
