#include "book/schema.h"

#include "base/embedded.h"
#include "base/text.h"
#include "book/book.h"

namespace peelbook {
const std::vector<EmbeddedFile>& schema_files();
}

namespace peelbook::book {
namespace {

constexpr std::string_view rules_file = "integrity.sql", enduring_file = "01_book.sql";

}  // namespace

void create_schema(Sql& sql) {
    std::string script = "BEGIN IMMEDIATE;\nPRAGMA application_id = " + std::to_string(application_id) +
                         ";\nPRAGMA user_version = " + std::to_string(layout_version) + ";\n";
    for (const EmbeddedFile& file : schema_files())  // sorted: 01_, 02_, ...
        if (file.path != rules_file) script += file.text;
    sql.run(script + "COMMIT;\n");
}

void create_derived_anew(Sql& sql) {
    std::string script;
    Statement standing = sql.prepared(
        "SELECT type, name FROM sqlite_master WHERE type IN ('table', 'view') AND name NOT IN ('entry', 'attachment') "
        "AND name NOT LIKE 'sqlite_%' ORDER BY type DESC");  // a view before the tables that it reads
    while (standing.step()) script.append("DROP ").append(standing.text(0)).append(" ").append(standing.text(1)).append(";\n");
    for (const EmbeddedFile& file : schema_files())
        if (file.path != rules_file && file.path != enduring_file) script += file.text;
    sql.run(script + "PRAGMA user_version = " + std::to_string(layout_version));
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
