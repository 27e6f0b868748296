#include "book/schema.h"

#include "base/embedded.h"
#include "base/text.h"
#include "book/book.h"

namespace peelbook {
const std::vector<EmbeddedFile>& schema_files();
}

namespace peelbook::book {
namespace {

constexpr std::string_view rules_file = "integrity.sql";

}  // namespace

void create_schema(Sql& sql) {
    std::string script = "BEGIN IMMEDIATE;\nPRAGMA application_id = " + std::to_string(application_id) +
                         ";\nPRAGMA user_version = " + std::to_string(layout_version) + ";\n";
    for (const EmbeddedFile& file : schema_files())  // sorted: 01_, 02_, ...
        if (file.path != rules_file) script += file.text;
    sql.run(script + "COMMIT;\n");
}

std::vector<Rule> integrity_rules() {
    constexpr std::string_view opening = "-- rule: ";
    std::vector<Rule> rules;
    for (const EmbeddedFile& file : schema_files()) {
        if (file.path != rules_file) continue;
        for (const std::string& line : split(file.text, '\n')) {
            if (line.starts_with(opening))
                rules.push_back({line.substr(opening.size()), {}});
            else if (!rules.empty())
                rules.back().query += line + "\n";
        }
    }
    return rules;
}

}  // namespace peelbook::book
