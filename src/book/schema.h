#pragma once
// The SQL of schema/, compiled in.
#include <string>
#include <vector>

#include "book/sql.h"

namespace peelbook::book {

// Creates the book and the derived tables, sets application_id and user_version. Runs inside a transaction of
// its own.
void create_schema(Sql& sql);

// In place of the derived tables and views that stand there, of whatever layout, those of today, empty. Inside the caller's transaction.
void create_derived_anew(Sql& sql);

// A query of schema/integrity.sql that must return no row.
struct Rule {
    std::string says;  // what must be true
    std::string query;
};
std::vector<Rule> integrity_rules();

}  // namespace peelbook::book
