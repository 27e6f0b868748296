#include "book/sql.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <sqlite3.h>

#include <random>
#include <thread>

#include "base/result.h"

namespace peelbook::book {
namespace {

constexpr int longest_wait_ms = 60'000;

// Jittered back-off: without the jitter some writers wait 2 s while others pass, with it 0.4 s at the same
// throughput.
int wait_while_busy(void* waited, int tries) {
    int& waited_ms = *static_cast<int*>(waited);
    if (tries == 0) waited_ms = 0;
    if (waited_ms >= longest_wait_ms) return 0;
    thread_local std::minstd_rand random{std::random_device{}()};
    const int most = std::min(2 + 2 * tries, 40);
    const int wait = std::uniform_int_distribution<int>{1, most}(random);
    std::this_thread::sleep_for(std::chrono::milliseconds(wait));
    waited_ms += wait;
    return 1;
}

int open_flags(Sql::How how) {
    constexpr int always = SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE;
    switch (how) {
        case Sql::How::create:
            return always | SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
        case Sql::How::write:
        case Sql::How::read:
            return always | SQLITE_OPEN_READWRITE;  // a reader, too, tidies the journal up
        case Sql::How::immutable:
            return always | SQLITE_OPEN_READONLY | SQLITE_OPEN_URI;
        case Sql::How::memory:
            return always | SQLITE_OPEN_READWRITE | SQLITE_OPEN_MEMORY;
    }
    return always;
}

// file:...?immutable=1 with everything outside of plain path characters escaped (RFC 3986).
std::string immutable_uri(const std::filesystem::path& file) {
    constexpr std::string_view plain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-._~/";
    constexpr char digits[] = "0123456789ABCDEF";
    std::string uri = "file:";
    for (const char c : std::filesystem::absolute(file).string()) {
        if (plain.find(c) != std::string_view::npos) {
            uri += c;
        } else {
            const auto byte = static_cast<unsigned char>(c);
            uri += {'%', digits[byte >> 4], digits[byte & 15]};
        }
    }
    return uri + "?immutable=1";
}

// Nobody reads them, and keeping them takes a lock at each piece of memory. Without effect in a program that used SQLite before.
void keep_no_memory_statistics() {
    static const int once = sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
    static_cast<void>(once);
}

}  // namespace

// --- statements

Statement::Statement(Sql& sql, SQLite::Statement* kept, bool* in_use) : sql_(&sql), statement_(kept), in_use_(in_use) {}
Statement::Statement(Sql& sql, std::unique_ptr<SQLite::Statement> own) : sql_(&sql), own_(std::move(own)), statement_(own_.get()) {}
Statement::Statement(Statement&& other) noexcept
    : sql_(other.sql_),
      own_(std::move(other.own_)),
      statement_(std::exchange(other.statement_, nullptr)),
      in_use_(std::exchange(other.in_use_, nullptr)) {}

Statement::~Statement() {
    if (statement_ == nullptr || in_use_ == nullptr) return;
    statement_->tryReset();
    statement_->clearBindings();
    *in_use_ = false;
}

template <class Bind> void Statement::try_to(const Bind& bind) {
    try {
        bind();
    } catch (const SQLite::Exception& error) {
        sql_->fail(error.getExtendedErrorCode());
    }
}

void Statement::bind(int index, Int number) {
    try_to([&] { statement_->bind(index, static_cast<std::int64_t>(number)); });
}
void Statement::bind(int index, double number) {
    try_to([&] { statement_->bind(index, number); });
}
void Statement::bind_null(int index) {
    try_to([&] { statement_->bind(index); });
}
void Statement::bind(int index, const std::optional<Int>& number) {
    if (number) return bind(index, *number);
    bind_null(index);
}
void Statement::bind(int index, std::string_view text) {
    try_to([&] { statement_->bind(index, std::string(text)); });
}
void Statement::bind_bytes(int index, std::string_view bytes) {
    const char* data = bytes.data() == nullptr ? "" : bytes.data();
    try_to([&] { statement_->bindNoCopy(index, data, static_cast<int>(bytes.size())); });
}

bool Statement::step() {
    const int code = statement_->tryExecuteStep();
    if (code == SQLITE_ROW) return true;
    if (code != SQLITE_DONE) sql_->fail(code);
    return false;
}

void Statement::reset() { statement_->tryReset(); }

Int Statement::number(int column) const { return statement_->getColumn(column).getInt64(); }
double Statement::real(int column) const { return statement_->getColumn(column).getDouble(); }
int Statement::type(int column) const { return statement_->getColumn(column).getType(); }
std::string Statement::name(int column) const { return statement_->getColumnName(column); }
int Statement::columns() const { return statement_->getColumnCount(); }

std::optional<Int> Statement::maybe(int column) const {
    const auto value = statement_->getColumn(column);
    return value.isNull() ? std::nullopt : std::optional<Int>(value.getInt64());
}

std::string_view Statement::text(int column) const {
    const auto value = statement_->getColumn(column);
    const auto* data = static_cast<const char*>(value.getBlob());
    return data == nullptr ? std::string_view{} : std::string_view{data, static_cast<std::size_t>(value.getBytes())};
}

// --- the connection

Sql::Sql(const std::filesystem::path& file, How how) : file_(file.string()), waited_ms_(std::make_unique<int>(0)) {
    keep_no_memory_statistics();
    const std::string name = how == How::immutable ? immutable_uri(file) : file_;
    try {
        db_ = std::make_unique<SQLite::Database>(name, open_flags(how));
    } catch (const SQLite::Exception& error) {
        throw MachineFailed("The book " + file_ + " cannot be opened: " + error.what() +
                            ". Check that the file and its folder may be read by you.");
    }
    sqlite3_busy_handler(handle(), wait_while_busy, waited_ms_.get());
    // No SQL of ours or of a report may reach into the file's pages or its list of tables.
    sqlite3_db_config(handle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    sqlite3_db_config(handle(), SQLITE_DBCONFIG_DQS_DDL, 0, nullptr);
    sqlite3_db_config(handle(), SQLITE_DBCONFIG_DQS_DML, 0, nullptr);
}

Sql::~Sql() = default;

sqlite3* Sql::handle() const { return db_->getHandle(); }

void Sql::run(const std::string& script) {
    if (const int code = db_->tryExec(script)) fail(code);
}

std::unique_ptr<SQLite::Statement> Sql::prepare(std::string_view sql) const {
    try {
        return std::make_unique<SQLite::Statement>(*db_, std::string(sql));
    } catch (const SQLite::Exception& error) {
        fail(error.getExtendedErrorCode());
    }
}

Statement Sql::prepared(std::string_view sql) const {
    auto& self = const_cast<Sql&>(*this);  // a statement may write; whether this one may is the caller's const
    auto found = kept_.find(sql);
    if (found == kept_.end()) found = kept_.emplace(std::string(sql), Kept{prepare(sql), false}).first;
    Kept& kept = found->second;
    if (kept.in_use) return {self, prepare(sql)};
    kept.in_use = true;
    return {self, kept.statement.get(), &kept.in_use};
}

Int Sql::number(std::string_view sql) const {
    Statement statement = prepared(sql);
    return statement.step() ? statement.number(0) : 0;
}

bool Sql::in_transaction() const { return sqlite3_get_autocommit(handle()) == 0; }

void Sql::fail(int code) const {
    const std::string what = sqlite3_errmsg(handle());
    const std::string book = "The book " + file_;
    switch (code & 0xff) {
        case SQLITE_CORRUPT:
            throw Damaged(book + " is damaged: " + what + ". Restore it from a backup.");
        case SQLITE_NOTADB:
            throw MachineFailed(book + " is not a book: the file is not an SQLite database.");
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            throw MachineFailed(book + " has been kept busy by another program for " + std::to_string(longest_wait_ms / 1000) +
                                " s. Nothing was written; try again.");
        case SQLITE_FULL:
            throw MachineFailed(book + " cannot grow: the disk is full. Nothing was written; free some space and repeat.");
        case SQLITE_READONLY:
        case SQLITE_PERM:
        case SQLITE_CANTOPEN:
            throw MachineFailed(book + " cannot be opened for this: " + what + ". Check that you may write the file and its folder.");
        case SQLITE_IOERR:
            throw MachineFailed(book + " could not be read or written: " + what +
                                ". Check the disk, and look at the last entries before you repeat the command.");
        case SQLITE_NOMEM:
            throw MachineFailed(book + ": the machine has no memory left.");
        default:
            throw std::logic_error("SQL on " + file_ + ": " + what + " (" + std::to_string(code) + ")");
    }
}

}  // namespace peelbook::book
