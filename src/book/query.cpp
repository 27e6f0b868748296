// Questions in SQL: read-only by three locks (SQLite says the statement only reads, an authorizer lets
// nothing but reading pass, and a clock ends what takes too long).
#include <sqlite3.h>

#include <algorithm>
#include <chrono>

#include "base/calendar.h"
#include "base/text.h"
#include "book/book_impl.h"

namespace peelbook::book {
namespace {

using SteadyClock = std::chrono::steady_clock;
constexpr int instructions_between_looks = 100'000;

int only_reading(void*, int action, const char*, const char* name, const char*, const char*) {
    switch (action) {
        case SQLITE_SELECT:
        case SQLITE_READ:
        case SQLITE_RECURSIVE:
            return SQLITE_OK;
        case SQLITE_FUNCTION:
            return std::string_view(name) == "load_extension" ? SQLITE_DENY : SQLITE_OK;
        default:
            return SQLITE_DENY;
    }
}

int out_of_time(void* end) { return SteadyClock::now() > *static_cast<SteadyClock::time_point*>(end) ? 1 : 0; }

// For as long as it lives the connection runs nothing but reading.
class ReadingOnly {
  public:
    ReadingOnly(sqlite3* db, std::chrono::milliseconds longest) : db_(db), end_(SteadyClock::now() + longest) {
        sqlite3_set_authorizer(db_, only_reading, nullptr);
        sqlite3_progress_handler(db_, instructions_between_looks, out_of_time, &end_);
    }
    ~ReadingOnly() {
        sqlite3_set_authorizer(db_, nullptr, nullptr);
        sqlite3_progress_handler(db_, 0, nullptr, nullptr);
    }
    ReadingOnly(const ReadingOnly&) = delete;

  private:
    sqlite3* db_;
    SteadyClock::time_point end_;
};

struct Finalizer {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};
using Prepared = std::unique_ptr<sqlite3_stmt, Finalizer>;

Refusal refused(const std::string& sql, std::string wanted, std::string next) {
    std::string shown(trimmed(sql));
    if (shown.size() > 60) shown = shown.substr(0, 60) + "...";
    return {"the question '" + shown + "'", std::move(wanted), std::move(next), {}};
}

Refusal sql_refused(sqlite3* db, int code, const std::string& sql) {
    if (code == SQLITE_AUTH)
        return refused(sql, "a question that only reads", "ask with one SELECT over the tables that 'export csv' writes");
    if (code == SQLITE_INTERRUPT)
        return refused(sql, "an answer in the time that a question may take", "narrow it with WHERE, or join on the key columns");
    return refused(sql, std::string("SQL that can be run: ") + sqlite3_errmsg(db), "mend it and ask again");
}

bool only_blank_or_comment(std::string_view rest) {
    while (!(rest = trimmed(rest)).empty()) {
        if (rest.front() == ';') {
            rest.remove_prefix(1);
        } else if (rest.starts_with("--")) {
            rest.remove_prefix(std::min(rest.find('\n'), rest.size()));
        } else {
            return false;
        }
    }
    return true;
}

int bind_cell(sqlite3_stmt* statement, int index, const Cell& cell) {
    if (const auto* number = std::get_if<std::int64_t>(&cell)) return sqlite3_bind_int64(statement, index, *number);
    if (const auto* real = std::get_if<double>(&cell)) return sqlite3_bind_double(statement, index, *real);
    if (const auto* text = std::get_if<std::string>(&cell))
        return sqlite3_bind_text64(statement, index, text->data(), text->size(), SQLITE_STATIC, SQLITE_UTF8);
    return sqlite3_bind_null(statement, index);
}

void bind_cell(Statement& statement, int index, const Cell& cell) {
    if (const auto* number = std::get_if<std::int64_t>(&cell)) return statement.bind(index, *number);
    if (const auto* real = std::get_if<double>(&cell)) return statement.bind(index, *real);
    if (const auto* text = std::get_if<std::string>(&cell)) return statement.bind(index, std::string_view(*text));
    statement.bind_null(index);
}

// Parameters that the statement does not ask for are passed over, so that one set serves every sheet of a
// report.
Check bind_parameters(const std::string& sql, sqlite3_stmt* statement, const std::vector<Book::Parameter>& parameters) {
    for (int i = 1; i <= sqlite3_bind_parameter_count(statement); ++i) {
        const char* name = sqlite3_bind_parameter_name(statement, i);
        const std::string wanted = name == nullptr ? "" : name + 1;
        const auto given =
            std::find_if(parameters.begin(), parameters.end(), [&](const Book::Parameter& one) { return one.name == wanted; });
        if (given == parameters.end()) {
            std::vector<std::string> names;
            for (const Book::Parameter& one : parameters) names.push_back(one.name);
            Refusal refusal = refused(sql, "a value for its parameter ':" + wanted + "'",
                                      names.empty() ? "none was given" : "given were: " + joined(names, ", "));
            refusal.nearest = nearest(wanted, names);
            return refusal;
        }
        bind_cell(statement, i, given->value);
    }
    return {};
}

std::string in_hex(std::string_view bytes) {
    constexpr char digits[] = "0123456789abcdef";
    std::string hex;
    for (const char c : bytes) {
        hex += digits[static_cast<unsigned char>(c) >> 4];
        hex += digits[static_cast<unsigned char>(c) & 15];
    }
    return hex;
}

Cell cell_of(const Statement& statement, int column) {
    switch (statement.type(column)) {
        case SQLITE_INTEGER:
            return statement.number(column);
        case SQLITE_FLOAT:
            return statement.real(column);
        case SQLITE_NULL:
            return std::monostate{};
        default:
            return std::string(statement.text(column));
    }
}

Cell cell_of(sqlite3_stmt* statement, int column) {
    const auto bytes = [&] {
        const auto* data = static_cast<const char*>(sqlite3_column_blob(statement, column));
        return std::string(data == nullptr ? "" : data, static_cast<std::size_t>(sqlite3_column_bytes(statement, column)));
    };
    switch (sqlite3_column_type(statement, column)) {
        case SQLITE_INTEGER:
            return sqlite3_column_int64(statement, column);
        case SQLITE_FLOAT:
            return sqlite3_column_double(statement, column);
        case SQLITE_TEXT:
            return bytes();
        case SQLITE_BLOB:
            return in_hex(bytes());
        default:
            return std::monostate{};
    }
}

// --- functions that the SQL may call

enum class Shown { time, day, week };

template <Shown shown> void local_function(sqlite3_context* context, int, sqlite3_value** values) {
    if (sqlite3_value_type(values[0]) == SQLITE_NULL) return sqlite3_result_null(context);
    const auto& local_time = *static_cast<std::function<std::string(std::int64_t)>*>(sqlite3_user_data(context));
    try {
        std::string text = local_time(sqlite3_value_int64(values[0]));
        if (shown != Shown::time) text = text.substr(0, std::string_view("2026-11-24").size());
        if (shown == Shown::week) {
            const Result<Date> date = parse_date(text);
            if (!date) return sqlite3_result_error(context, "the local time does not begin with a date", -1);
            text = to_text(iso_week(*date));
        }
        sqlite3_result_text64(context, text.data(), text.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    } catch (const std::exception& what) {
        sqlite3_result_error(context, what.what(), -1);
    }
}

bool is_plain_name(const std::string& name) {
    return !name.empty() && name.size() <= 60 && name.front() >= 'a' && name.front() <= 'z' &&
           std::all_of(name.begin(), name.end(), [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; });
}

}  // namespace

Result<Table> Book::query(const std::string& sql, const std::vector<Parameter>& parameters) const {
    sqlite3* db = impl_->sql->handle();
    const ReadingOnly guard(db, impl_->longest_question);
    sqlite3_stmt* made = nullptr;
    const char* rest = nullptr;
    const int prepared = sqlite3_prepare_v2(db, sql.c_str(), static_cast<int>(sql.size()), &made, &rest);
    const Prepared statement(made);
    if (prepared != SQLITE_OK) return sql_refused(db, prepared, sql);
    if (!statement) return refused(sql, "a SELECT", "the question is empty");
    if (!only_blank_or_comment(rest)) return refused(sql, "one SELECT at a time", "ask the second question by itself");
    if (sqlite3_stmt_readonly(made) == 0) return sql_refused(db, SQLITE_AUTH, sql);
    if (auto checked = bind_parameters(sql, made, parameters); !checked) return checked.refusal();

    Table table;
    const int columns = sqlite3_column_count(made);
    for (int i = 0; i < columns; ++i) table.columns.emplace_back(sqlite3_column_name(made, i));
    int code = SQLITE_ROW;
    while ((code = sqlite3_step(made)) == SQLITE_ROW) {
        std::vector<Cell>& row = table.rows.emplace_back();
        row.reserve(table.columns.size());
        for (int i = 0; i < columns; ++i) row.push_back(cell_of(made, i));
    }
    if (code == SQLITE_DONE) return table;
    if (code == SQLITE_INTERRUPT || code == SQLITE_ERROR) return sql_refused(db, code, sql);
    impl_->sql->fail(code);
}

void Book::set_longest_question(std::chrono::milliseconds longest) { impl_->longest_question = longest; }

void Book::set_local(std::function<std::string(std::int64_t)> local_time) {
    impl_->local_time = std::move(local_time);
    sqlite3* db = impl_->sql->handle();
    const auto add = [&](const char* name, void (*function)(sqlite3_context*, int, sqlite3_value**)) {
        const int flags = SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_DIRECTONLY;
        const int code = sqlite3_create_function_v2(db, name, 1, flags, &impl_->local_time, function, nullptr, nullptr, nullptr);
        if (code != SQLITE_OK) impl_->sql->fail(code);
    };
    add("local_time", local_function<Shown::time>);
    add("local_day", local_function<Shown::day>);
    add("iso_week", local_function<Shown::week>);
}

void Book::set_temporary(const std::string& name, const Table& table) const {
    const auto& kept = derived_tables();
    if (!is_plain_name(name) || name == "entry" || name == "attachment" || std::find(kept.begin(), kept.end(), name) != kept.end())
        throw std::logic_error("a temporary table may not be called '" + name + "'");
    std::string columns, marks;
    for (const std::string& column : table.columns) {
        if (!is_plain_name(column)) throw std::logic_error("a column may not be called '" + column + "'");
        columns += (columns.empty() ? "" : ", ") + column;
        marks += marks.empty() ? "?" : ", ?";
    }
    Sql& sql = *impl_->sql;
    sql.run("DROP TABLE IF EXISTS temp." + name + "; CREATE TEMP TABLE " + name + " (" + columns + ")");
    Statement insert = sql.prepared("INSERT INTO temp." + name + " VALUES (" + marks + ")");
    for (const auto& row : table.rows) {
        for (std::size_t i = 0; i < row.size(); ++i) bind_cell(insert, static_cast<int>(i) + 1, row[i]);
        insert.run();
        insert.reset();
    }
}

Table Book::whole_table(const std::string& table) const {
    for (const Layout* layout : all_layouts()) {
        if (layout->table != table) continue;
        Statement all = impl_->sql->prepared("SELECT " + layout->column_list + " FROM " + table + " ORDER BY " + layout->key_list);
        Table whole{layout->columns, {}};
        while (all.step()) {
            std::vector<Cell>& row = whole.rows.emplace_back();
            for (int i = 0; i < all.columns(); ++i) row.push_back(cell_of(all, i));
        }
        return whole;
    }
    throw std::logic_error("there is no derived table '" + table + "'");
}

}  // namespace peelbook::book
