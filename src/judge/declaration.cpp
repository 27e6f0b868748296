#include "judge/declaration.h"

#include <algorithm>

#include "base/text.h"

namespace peelbook::judge {
namespace {

bool among(const std::vector<std::string>& list, const std::string& id) { return std::find(list.begin(), list.end(), id) != list.end(); }

std::string words(const std::vector<std::string>& contains, const std::vector<std::string>& may_contain) {
    std::string text = contains.empty() ? "no allergen" : joined(contains, ", ");
    if (!may_contain.empty()) text += "; may contain " + joined(may_contain, ", ");
    return text;
}

}  // namespace

JudgedDeclaration judge_declaration(const plan::Material& material, const Declared& declared, Instant received) {
    JudgedDeclaration out;
    Finding& finding = out.finding;
    finding.point = declaration_point;
    finding.happened = received;
    const std::string specified = words(material.allergens, material.may_contain);
    if (!declared.stated) {
        finding.verdict = Verdict::unproven;
        finding.measured = "not stated";
        finding.detail = "The lot came without a declaration; its material is specified with " + specified + ".";
        return out;
    }
    std::vector<std::string> added, gone;
    for (const std::string& id : declared.contains)
        if (!among(material.allergens, id)) added.push_back(id);
    for (const std::string& id : declared.may_contain)
        if (!among(material.allergens, id) && !among(material.may_contain, id)) added.push_back(id + " (may contain)");
    for (const std::string& id : material.allergens)
        if (!among(declared.contains, id)) gone.push_back(id);
    finding.verdict = added.empty() && gone.empty() ? Verdict::within : Verdict::deviation;
    if (added.empty() && !gone.empty()) out.grade = plan::Grade::operating;
    finding.measured = !added.empty()  ? "new: " + joined(added, ", ")
                       : !gone.empty() ? "not declared any more: " + joined(gone, ", ")
                                       : "as specified";
    finding.detail =
        "The lot declares " + words(declared.contains, declared.may_contain) + "; its material is specified with " + specified + ".";
    return out;
}

}  // namespace peelbook::judge
