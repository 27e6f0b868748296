// What any SQL tool is told that tries to change the past.
#include <catch2/catch.hpp>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;

TEST_CASE("Entries are only added, at the end") {
    Folder folder;
    const auto file = folder / "book";
    make_book(file, 3);
    const std::string changed = "An entry of the book is never changed. Record an amendment: it names the entry and says why.";
    const std::string deleted = "An entry of the book is never deleted. Record a void: it names the entry and says why.";
    const std::string at_end = "An entry is added only at the end of the book, under the next number.";
    CHECK(raw(file, "UPDATE entry SET body = x'00' WHERE seq = 2") == changed);
    CHECK(raw(file, "UPDATE entry SET seq = 9 WHERE seq = 3") == changed);
    CHECK(raw(file, "UPDATE OR IGNORE entry SET body = x'00'") == changed);
    CHECK(raw(file, "DELETE FROM entry WHERE seq = 3") == deleted);
    CHECK(raw(file, "DELETE FROM entry") == deleted);
    for (const std::string how : {"INSERT", "INSERT OR REPLACE", "REPLACE", "INSERT OR IGNORE"})
        for (const std::string seq : {"1", "3", "5", "0", "-1", "NULL"})
            CHECK(raw(file, how + " INTO entry VALUES (" + seq + ", x'00', zeroblob(32))") == at_end);
    CHECK(raw(file, "INSERT INTO entry VALUES (2, x'00', zeroblob(32)) ON CONFLICT DO UPDATE SET body = x'01'") == at_end);
    CHECK(raw(file, "INSERT INTO entry VALUES (4, x'00', x'00')") == "CHECK constraint failed: hash_is_a_sha256");
    CHECK(verify(Book::open(file, Book::Mode::read)).empty());
}

TEST_CASE("Attached files are only added") {
    Folder folder;
    const auto file = folder / "book";
    make_book(file, 1);
    {
        Book book = Book::open(file, Book::Mode::write);
        record_series(book, "abc");
    }
    const std::string name = "'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'";
    CHECK(raw(file, "UPDATE attachment SET bytes = x'00'") ==
          "A file kept in the book is never changed. Record the right file as a new series.");
    CHECK(raw(file, "DELETE FROM attachment") == "A file kept in the book is never deleted.");
    CHECK(raw(file, "INSERT OR REPLACE INTO attachment VALUES (" + name + ", x'00')") == "This file is in the book already.");
    CHECK(raw(file, "INSERT INTO attachment VALUES ('abc', x'00')") == "CHECK constraint failed: sha256_in_hex");
    CHECK(verify(Book::open(file, Book::Mode::read)).empty());
}
