#pragma once
#include "book/book.h"
#include "book/derived_impl.h"
#include "book/sql.h"

namespace peelbook::book {

struct Book::Impl {
    explicit Impl(std::unique_ptr<Sql> connection, Mode opened_for)
        : sql(std::move(connection)), mode(opened_for), derived(std::make_unique<Derived::Impl>(Derived::Impl{*sql})) {}

    std::unique_ptr<Sql> sql;
    Mode mode;
    Derived derived;
    std::function<std::string(std::int64_t)> local_time;  // empty: not set
    std::chrono::milliseconds longest_question{60'000};
};

}  // namespace peelbook::book
