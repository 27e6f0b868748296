// Making a book, opening one, copying one.
#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Database.h>
#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "book/book_impl.h"
#include "book/schema.h"

namespace peelbook::book {
namespace {

namespace fs = std::filesystem;

// Makes the empty file itself, so that two programs cannot both believe that they made it.
void claim(const fs::path& file) {
    const int made = ::open(file.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0644);
    if (made >= 0) {
        ::close(made);
        return;
    }
    if (errno == EEXIST) throw MachineFailed("There is already a file " + file.string() + ". Choose another place.");
    throw MachineFailed("The book " + file.string() + " cannot be made: " + std::strerror(errno) +
                        ". Check that its folder exists and that you may write there.");
}

void remove_all_of(const fs::path& file) {
    std::error_code ignored;
    for (const char* end : {"", "-wal", "-shm", "-journal"}) fs::remove(file.string() + end, ignored);
}

// synchronous=FULL: a commit is on the disk when it returns, also through a power cut.
void set_connection_up(Sql& sql) { sql.run("PRAGMA synchronous = FULL; PRAGMA temp_store = MEMORY"); }

void check_is_a_book(const Sql& sql, Book::Mode mode) {
    const Int id = sql.number("PRAGMA application_id");
    if (id != application_id)
        throw MachineFailed(sql.file() + " is not a book: it is a database of another program (application id " + std::to_string(id) +
                            "). Name the folder of a site.");
    const Int layout = sql.number("PRAGMA user_version");
    if (layout > layout_version)
        throw MachineFailed("The book " + sql.file() + " has layout " + std::to_string(layout) +
                            ", written by a later version of this program, which knows layouts up to " + std::to_string(layout_version) +
                            ". Install that version.");
    if (layout < 1)
        throw Damaged("The book " + sql.file() + " says it has layout " + std::to_string(layout) +
                      ", which never was. Restore it from a backup.");
    if (layout < layout_version && mode != Book::Mode::rebuild)
        throw MachineFailed("The tables of the book " + sql.file() + " were derived by an earlier version of this program (layout " +
                            std::to_string(layout) + "; this one derives layout " + std::to_string(layout_version) +
                            "). Have them made anew from what people recorded, which stays as it is: peelbook rebuild.");
}

void check_can_be_read(const fs::path& file) {
    std::error_code why;
    const fs::file_status status = fs::status(file, why);
    if (status.type() == fs::file_type::not_found)
        throw MachineFailed("There is no book at " + file.string() + ". Name the folder of a site, or make one with 'new'.");
    if (!fs::is_regular_file(status))
        throw MachineFailed(file.string() + " is not a book: it is " +
                            (fs::is_directory(status) ? "a folder." : "not a file that can be read."));
    if (::access(file.c_str(), R_OK) != 0)
        throw MachineFailed("The book " + file.string() + " cannot be read: " + std::strerror(errno) + ".");
    if (fs::file_size(file, why) == 0 && !fs::exists(file.string() + "-wal"))
        throw MachineFailed(file.string() + " is not a book: it is empty.");
}

void check_can_be_written(const fs::path& file) {
    const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
    if (::access(file.c_str(), W_OK) == 0 && ::access(folder.c_str(), W_OK) == 0) return;
    throw MachineFailed("The book " + file.string() + " cannot be written: " + std::strerror(errno) +
                        ". Nothing was written; ask for the right to write the file and its folder.");
}

// In a folder that may not be written SQLite cannot set up the journal's index. Without a journal the file
// stands still and may be read as it is; with one, its last entries stand in the journal and would be missed.
std::unique_ptr<Sql> open_for_reading(const fs::path& file) {
    const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
    if (::access(file.c_str(), W_OK) == 0 && ::access(folder.c_str(), W_OK) == 0) return std::make_unique<Sql>(file, Sql::How::read);
    std::error_code none;
    const std::uintmax_t journal = fs::file_size(file.string() + "-wal", none);
    if (!none && journal > 0)
        throw MachineFailed("The book " + file.string() + " cannot be read here: its last entries stand in " + file.string() +
                            "-wal, and the folder may not be written. Let someone who may write there run any command once, "
                            "or read a backup.");
    return std::make_unique<Sql>(file, Sql::How::immutable);
}

}  // namespace

Book Book::create(const fs::path& file) {
    claim(file);
    try {
        auto sql = std::make_unique<Sql>(file, Sql::How::write);
        sql->run("PRAGMA journal_mode = WAL");
        set_connection_up(*sql);
        create_schema(*sql);
        return Book(std::make_unique<Impl>(std::move(sql), Mode::write));
    } catch (...) {
        remove_all_of(file);
        throw;
    }
}

Book Book::open(const fs::path& file, Mode mode) {
    check_can_be_read(file);
    const bool writes = mode != Mode::read;
    if (writes) check_can_be_written(file);
    auto sql = writes ? std::make_unique<Sql>(file, Sql::How::write) : open_for_reading(file);
    check_is_a_book(*sql, mode);
    set_connection_up(*sql);
    return Book(std::make_unique<Impl>(std::move(sql), writes ? Mode::write : mode));
}

Book Book::in_memory() {
    auto sql = std::make_unique<Sql>(":memory:", Sql::How::memory);
    set_connection_up(*sql);
    create_schema(*sql);
    return Book(std::make_unique<Impl>(std::move(sql), Mode::write));
}

void back_up(const Book& book, const fs::path& to) {
    claim(to);
    try {
        Sql copy(to, Sql::How::write);
        SQLite::Backup backup(copy.database(), book.impl().sql->database());
        const int code = backup.executeStep();
        if (code != SQLITE_DONE) copy.fail(code);
        copy.run("PRAGMA journal_mode = DELETE");
    } catch (...) {
        remove_all_of(to);
        throw;
    }
}

}  // namespace peelbook::book
