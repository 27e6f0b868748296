#include "plan/starter.h"

namespace peelbook::plan {
namespace {

// A TOML basic string: quotation mark, backslash and control characters escaped.
std::string toml_string(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) {
        constexpr const char* hex = "0123456789ABCDEF";
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') out += '\\';
        if (byte < 0x20 || byte == 0x7F)
            out += std::string("\\u00") + hex[byte >> 4] + hex[byte & 15];
        else
            out += c;
    }
    return out + "\"";
}

std::string filled_in(std::string text, const std::string& mark, const std::string& value) {
    const std::size_t at = text.find(mark);
    return at == std::string::npos ? text : text.replace(at, mark.size(), value);
}

}  // namespace

std::vector<Text> starter_plan(const std::string& site_name, const std::string& zone) {
    const std::string site =
        filled_in(filled_in(starter_site, "@ZONE@", toml_string(zone)), "@NAME@", toml_string(site_name));
    return {{"equipment.toml", starter_equipment}, {"materials.toml", starter_materials},
            {"people.toml", starter_people},       {"points.toml", starter_points},
            {"products.toml", starter_products},   {"site.toml", site}};
}

}  // namespace peelbook::plan
