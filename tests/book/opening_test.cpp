#include <catch2/catch.hpp>
#include <fstream>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;
namespace fs = std::filesystem;

namespace {

std::string failure(const std::function<void()>& work) {
    try {
        work();
    } catch (const MachineFailed& what) {
        return what.what();
    }
    return "no failure";
}

std::string open_failure(const fs::path& file, Book::Mode mode = Book::Mode::write) {
    return failure([&] { Book::open(file, mode); });
}

std::string content(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

TEST_CASE("A book is made once and opened again") {
    Folder folder;
    make_book(folder / "book", 2);
    CHECK(Book::open(folder / "book", Book::Mode::write).next_seq() == 3);
    CHECK(Book::open(folder / "book", Book::Mode::read).next_seq() == 3);
    CHECK_FALSE(fs::exists(folder / "book-wal"));  // one file when nobody uses it
    CHECK(failure([&] { Book::create(folder / "book"); }) ==
          "There is already a file " + (folder / "book").string() + ". Choose another place.");
    CHECK(Book::open(folder / "book", Book::Mode::read).next_seq() == 3);
}

TEST_CASE("What is no book is named and left alone") {
    Folder folder;
    const fs::path file = folder / "x";
    const std::string name = file.string();
    for (const Book::Mode mode : {Book::Mode::write, Book::Mode::read}) {
        fs::remove_all(file);
        CHECK(open_failure(file, mode) == "There is no book at " + name + ". Name the folder of a site, or make one with 'new'.");

        fs::create_directory(file);
        CHECK(open_failure(file, mode) == name + " is not a book: it is a folder.");
        fs::remove(file);

        std::ofstream(file).close();
        CHECK(open_failure(file, mode) == name + " is not a book: it is empty.");

        const std::string text(5000, 'x');
        std::ofstream(file) << text;
        CHECK(open_failure(file, mode) == "The book " + name + " is not a book: the file is not an SQLite database.");
        CHECK(content(file) == text);

        fs::remove(file);
        REQUIRE(raw(file, "PRAGMA application_id = 77; CREATE TABLE t (a); INSERT INTO t VALUES (1)") == "");
        const std::string before = content(file);
        CHECK(open_failure(file, mode) == name +
                                              " is not a book: it is a database of another program "
                                              "(application id 77). Name the folder of a site.");
        CHECK(content(file) == before);
    }
    CHECK(failure([&] { Book::create(folder / "none" / "book"); }) ==
          "The book " + (folder / "none" / "book").string() +
              " cannot be made: No such file or directory. Check that its folder exists and that you may "
              "write there.");
}

TEST_CASE("A book of a later version is not touched") {
    Folder folder;
    const fs::path file = folder / "book";
    make_book(file, 1);
    REQUIRE(raw(file, "PRAGMA user_version = 9") == "");
    CHECK(open_failure(file) == "The book " + file.string() +
                                    " has layout 9, written by a later version of this program, which knows layouts up to 4. "
                                    "Install that version.");
    REQUIRE(raw(file, "PRAGMA user_version = 0") == "");
    CHECK_THROWS_AS(Book::open(file, Book::Mode::write), Damaged);
}

TEST_CASE("In a folder that may not be written a book is read, not written") {
    Folder folder;
    const fs::path file = folder / "book";
    make_book(file, 3);
    fs::permissions(file, static_cast<fs::perms>(0444));
    fs::permissions(folder.path(), static_cast<fs::perms>(0555));
    CHECK(in_child(
        [&] {
            const Book book = Book::open(file, Book::Mode::read);
            return book.next_seq() == 4 && verify(book).empty() && book.query("SELECT 1", {}).ok();
        },
        true));
    CHECK(in_child(
        [&] {
            return open_failure(file) == "The book " + file.string() +
                                             " cannot be written: Permission denied. Nothing was written; ask for the right "
                                             "to write the file and its folder.";
        },
        true));
    // Entries that stand in the journal only would be missed: said, not passed over.
    fs::permissions(folder.path(), static_cast<fs::perms>(0755));
    std::ofstream(file.string() + "-wal") << "not empty";
    fs::permissions(folder.path(), static_cast<fs::perms>(0555));
    CHECK(in_child(
        [&] {
            return open_failure(file, Book::Mode::read) ==
                   "The book " + file.string() + " cannot be read here: its last entries stand in " + file.string() +
                       "-wal, and the folder may not be written. Let someone who may write there run any "
                       "command once, or "
                       "read a backup.";
        },
        true));
}

TEST_CASE("A backup opens in a folder that may not be written") {
    Folder folder;
    const fs::path file = folder / "book";
    make_book(file, 3);
    fs::create_directory(folder / "safe");
    const fs::path copy = folder / "safe" / "copy";
    record::Hash head;
    {
        const Book book = Book::open(file, Book::Mode::read);
        head = book.head();
        back_up(book, copy);
        CHECK(failure([&] { back_up(book, copy); }) == "There is already a file " + copy.string() + ". Choose another place.");
    }
    // File header, bytes 18 and 19 (SQLite file format, 1.3): 1 for a rollback journal, 2 for WAL.
    CHECK(content(copy).substr(18, 2) == "\x01\x01");
    CHECK(std::distance(fs::directory_iterator(folder / "safe"), {}) == 1);
    fs::permissions(folder.path(), static_cast<fs::perms>(0755));
    fs::permissions(folder / "safe", static_cast<fs::perms>(0555));
    CHECK(in_child(
        [&] {
            const Book kept = Book::open(copy, Book::Mode::read);
            return kept.head() == head && verify(kept).empty();
        },
        true));
    fs::permissions(folder / "safe", static_cast<fs::perms>(0755));
    Book again = Book::open(copy, Book::Mode::write);
    CHECK(record_step(again) == 4);
}

TEST_CASE("A name with odd characters is still the same file") {
    Folder folder;
    const fs::path file = folder / "a b?c#d%41.book";
    make_book(file, 2);
    fs::permissions(folder.path(), static_cast<fs::perms>(0555));
    CHECK(in_child([&] { return Book::open(file, Book::Mode::read).next_seq() == 3; }, true));
}
