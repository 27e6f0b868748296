#pragma once
// One SQLite connection: prepared statements kept for its life, and every result code turned into one of
// ours. Only the .cpp files of this folder include it. The plain C interface is used because a command's
// start-up counts: the C++ wrapper library cost 1.5 ms of 8.7 in a one-shot insert and offered nothing that
// is missed here.
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "book/rows.h"

struct sqlite3;
struct sqlite3_stmt;

namespace peelbook::book {

class Sql;

// A prepared statement in use. Bound texts are not copied: they must live until the statement is gone.
class Statement {
  public:
    Statement(Statement&& other) noexcept;
    ~Statement();  // resets it for the next use

    void bind(int index, Int number);
    void bind(int index, const std::optional<Int>& number);
    void bind(int index, std::string_view text);
    void bind(int index, SubjectKind kind) { bind(index, static_cast<Int>(kind)); }
    void bind_bytes(int index, std::string_view bytes);
    template <class... Values>
    Statement& with(const Values&... values) {
        int index = 0;
        (bind(++index, values), ...);
        return *this;
    }

    bool step();            // true: a row stands ready
    void run() { step(); }  // for statements without rows

    Int number(int column) const;
    std::optional<Int> maybe(int column) const;  // NULL is absent
    std::string_view text(int column) const;     // until the next step; also the bytes of a blob
    int columns() const;
    sqlite3_stmt* handle() { return statement_; }

  private:
    friend class Sql;
    Statement(Sql& sql, sqlite3_stmt* statement, bool* in_use)
        : sql_(&sql), statement_(statement), in_use_(in_use) {}
    Sql* sql_;
    sqlite3_stmt* statement_;
    bool* in_use_;  // null: not kept, finalized at the end
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
    bool can_write() const;
    bool in_transaction() const;
    [[noreturn]] void fail(
        int code) const;  // throws Damaged, MachineFailed, or logic_error for our own mistake

    const std::string& file() const { return file_; }
    sqlite3* handle() const { return db_; }

  private:
    struct Kept {
        sqlite3_stmt* statement = nullptr;
        bool in_use = false;
    };
    struct Hashed {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
    };
    sqlite3_stmt* prepare(std::string_view sql, unsigned flags) const;

    std::string file_;
    sqlite3* db_ = nullptr;
    std::unique_ptr<int> waited_ms_;  // of the current wait for a busy book
    mutable std::unordered_map<std::string, Kept, Hashed, std::equal_to<>> kept_;
};

}  // namespace peelbook::book
