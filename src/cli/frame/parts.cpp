#include "cli/frame/parts.h"

#include "base/text.h"
#include "cli/frame/options.h"

namespace peelbook::cli {

Result<record::Part> parse_part(const std::string& typed) {
    const std::size_t sign = typed.find('=');
    record::Part part{.lot = typed.substr(0, sign), .pieces = 0, .mass = {}};
    if (part.lot.empty())
        return Refusal{"part '" + shown(typed) + "'",
                       "a code, and after a '=' how much of it",
                       "type it as CODE=40, CODE=12.5kg, or CODE alone for all that is left",
                       {}};
    if (sign == std::string::npos) return part;
    const auto amount = parse_part_amount(typed.substr(sign + 1));
    if (!amount) {
        Refusal refusal = amount.refusal();
        refusal.given = "part '" + shown(typed) + "': " + refusal.given;
        return refusal;
    }
    part.pieces = amount->pieces;
    part.mass = amount->mass;
    return part;
}

Result<std::vector<record::Part>> parse_parts(const std::vector<std::string>& typed) {
    std::vector<record::Part> parts;
    for (const std::string& text : typed) {
        auto part = parse_part(text);
        if (!part) return part.refusal();
        parts.push_back(std::move(*part));
    }
    return parts;
}

}  // namespace peelbook::cli
