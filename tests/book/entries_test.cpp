#include <catch2/catch.hpp>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;

TEST_CASE("An entry is kept with its bytes and its place in the chain") {
    Book book = Book::in_memory();
    CHECK(book.next_seq() == 1);
    CHECK(book.head() == record::no_hash);
    CHECK(book.body(1).empty());
    CHECK_FALSE(book.entry(1));
    const record::Entry entry{1, {5}, {6}, "AB", "", record::Statement{record::Opened{"Example Bakery"}}};
    {
        Book::Work work = book.begin();
        CHECK(book.append(entry) == 1);
        work.commit();
    }
    CHECK(book.body(1) == record::to_body(entry));
    CHECK(book.head() == record::chained(record::no_hash, record::to_body(entry)));
    const record::Hash first = book.head();
    record_step(book, "second");
    CHECK(book.head() == record::chained(first, book.body(2)));
    std::vector<Seq> seqs;
    book.each_entry([&](const record::Entry& e) { seqs.push_back(e.seq); });
    CHECK(seqs == std::vector<Seq>{1, 2});
    CHECK(std::get<record::Opened>(std::get<record::Statement>(book.entry(1)->payload)).name == "Example Bakery");
}

TEST_CASE("What is not committed was never there") {
    Folder folder;
    make_book(folder / "book", 1);
    Book book = Book::open(folder / "book", Book::Mode::write);
    const record::Hash head = book.head();
    {
        Book::Work work = book.begin();
        book.append({2, {1}, {1}, "AB", "", record::Statement{record::Opened{"X"}}});
        book.derived().put(Fact{2, "opened", 1, 1, "AB", "", 0, {}, {}});
        CHECK(book.next_seq() == 3);
    }
    CHECK(book.next_seq() == 2);
    CHECK(book.head() == head);
    CHECK_FALSE(book.derived().fact(2));
    CHECK(record_step(book) == 2);
}

TEST_CASE("An entry under another number than the next is our own mistake") {
    Book book = Book::in_memory();
    const Book::Work work = book.begin();
    CHECK_THROWS_AS(book.append({2, {1}, {1}, "AB", "", record::Statement{record::Opened{"X"}}}), std::logic_error);
}

TEST_CASE("A book opened for reading is not written") {
    Folder folder;
    make_book(folder / "book", 1);
    Book book = Book::open(folder / "book", Book::Mode::read);
    CHECK_THROWS_AS(book.begin(), std::logic_error);
}

TEST_CASE("A snapshot sees one state of the book, whoever writes meanwhile") {
    Folder folder;
    make_book(folder / "book", 1);
    Book reader = Book::open(folder / "book", Book::Mode::read);
    Book writer = Book::open(folder / "book", Book::Mode::write);
    {
        const Book::Work snapshot = reader.snapshot();
        record_step(writer);
        CHECK(reader.next_seq() == 2);
    }
    CHECK(reader.next_seq() == 3);
}

TEST_CASE("A file is attached once under its SHA-256") {
    Book book = Book::in_memory();
    Book::Work work = book.begin();
    // FIPS 180-4 example "abc".
    const std::string name = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    CHECK(attach(book, "abc") == name);
    CHECK(attach(book, "abc") == name);
    CHECK(attachment(book, name) == "abc");
    const std::string with_zero("a\0b", 3);
    CHECK(attachment(book, attach(book, with_zero)) == with_zero);
    CHECK(attachment(book, attach(book, "")) == "");
    CHECK_FALSE(attachment(book, std::string(64, '0')));
    work.commit();
}
