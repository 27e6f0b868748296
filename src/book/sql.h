#pragma once
// One SQLite connection through SQLiteCpp: prepared statements kept for its life, and every result code turned into one of ours.
// Only the .cpp files of this folder include it. SQLiteCpp's own headers are included by sql.cpp and opening.cpp alone; what it
// does not offer (busy handler, authorizer, functions, db_config) goes through the plain C handle.
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "book/rows.h"

struct sqlite3;
namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace peelbook::book {

class Sql;

// A prepared statement in use. Bound bytes are not copied: they must live until the statement is gone or reset.
class Statement {
  public:
    Statement(Statement&& other) noexcept;
    ~Statement();  // resets it for the next use

    void bind(int index, Int number);
    void bind(int index, const std::optional<Int>& number);
    void bind(int index, std::string_view text);
    void bind(int index, double number);
    void bind_null(int index);
    void bind(int index, SubjectKind kind) { bind(index, static_cast<Int>(kind)); }
    void bind_bytes(int index, std::string_view bytes);
    template <class... Values> Statement& with(const Values&... values) {
        int index = 0;
        (bind(++index, values), ...);
        return *this;
    }

    bool step();            // true: a row stands ready
    void run() { step(); }  // for statements without rows
    void reset();           // to run it again with other values

    Int number(int column) const;
    std::optional<Int> maybe(int column) const;  // NULL is absent
    std::string_view text(int column) const;     // until the next step; also the bytes of a blob
    int columns() const;
    std::string name(int column) const;
    int type(int column) const;  // SQLITE_INTEGER, SQLITE_FLOAT, SQLITE_TEXT, SQLITE_BLOB or SQLITE_NULL
    double real(int column) const;

  private:
    friend class Sql;
    Statement(Sql& sql, SQLite::Statement* kept, bool* in_use);
    Statement(Sql& sql, std::unique_ptr<SQLite::Statement> own);
    template <class Bind> void try_to(const Bind& bind);
    Sql* sql_;
    std::unique_ptr<SQLite::Statement> own_;  // of one that is not kept
    SQLite::Statement* statement_;
    bool* in_use_ = nullptr;
};

class Sql {
  public:
    enum class How { create, write, read, immutable, memory };
    // `file` is named in every message. Throws MachineFailed.
    Sql(const std::filesystem::path& file, How how);
    ~Sql();
    Sql(const Sql&) = delete;

    void run(const std::string& script);             // any number of statements, rows ignored
    Statement prepared(std::string_view sql) const;  // kept; one already in use is prepared a second time
    Int number(std::string_view sql) const;          // first column of the first row
    bool in_transaction() const;
    [[noreturn]] void fail(int code) const;  // throws Damaged, MachineFailed, or logic_error for our own mistake

    const std::string& file() const { return file_; }
    sqlite3* handle() const;
    SQLite::Database& database() const { return *db_; }

  private:
    struct Kept {
        std::unique_ptr<SQLite::Statement> statement;
        bool in_use = false;
    };
    struct Hashed {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
    };
    std::unique_ptr<SQLite::Statement> prepare(std::string_view sql) const;

    std::string file_;
    std::unique_ptr<int> waited_ms_;  // of the current wait for a busy book
    std::unique_ptr<SQLite::Database> db_;
    mutable std::unordered_map<std::string, Kept, Hashed, std::equal_to<>> kept_;
};

}  // namespace peelbook::book
