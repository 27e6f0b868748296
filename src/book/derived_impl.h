#pragma once
#include "book/derived.h"
#include "book/kept.h"
#include "book/row_sql.h"

namespace peelbook::book {

struct Derived::Impl {
    Sql& sql;
    Keeping& kept;
};

}  // namespace peelbook::book
