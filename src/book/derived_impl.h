#pragma once
#include "book/derived.h"
#include "book/row_sql.h"

namespace peelbook::book {

struct Derived::Impl {
    Sql& sql;
};

}  // namespace peelbook::book
