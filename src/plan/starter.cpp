#include "plan/starter.h"

#include "base/embedded.h"

namespace peelbook {

const std::vector<EmbeddedFile>& starter_files();  // src/plan/starter/ as compiled in, sorted by name

namespace plan {
namespace {

// What stands between the quotation marks of a TOML basic string.
std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text) {
        constexpr const char* hex = "0123456789ABCDEF";
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') out += '\\';
        if (byte < 0x20 || byte == 0x7F)
            out += std::string("\\u00") + hex[byte >> 4] + hex[byte & 15];
        else
            out += c;
    }
    return out;
}

void fill_in(std::string& text, std::string_view mark, const std::string& value) {
    if (const std::size_t at = text.find(mark); at != std::string::npos) text.replace(at, mark.size(), escaped(value));
}

}  // namespace

std::vector<Text> starter_plan(const std::string& site_name, const std::string& zone, std::string_view starter) {
    const std::string folder = starter == starters[0] ? "" : std::string(starter) + "/";
    std::vector<Text> texts;
    for (const EmbeddedFile& file : starter_files()) {
        const std::size_t name = file.path.rfind('/') + 1;  // 0 where there is no folder
        if (file.path.substr(0, name) != folder) continue;
        Text& one = texts.emplace_back(Text{std::string(file.path.substr(name)), std::string(file.text)});
        fill_in(one.text, "@ZONE@", zone);  // before the name, which may be any text
        fill_in(one.text, "@NAME@", site_name);
    }
    return texts;
}

}  // namespace plan
}  // namespace peelbook
