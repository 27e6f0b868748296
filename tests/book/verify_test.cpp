// Each way of changing a book from outside, done by someone who knows the guards, and what `verify` says of
// it.
#include <catch2/catch.hpp>
#include <fstream>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;
namespace fs = std::filesystem;

namespace {

struct Tampered {
    Folder folder;
    fs::path file = folder / "book";

    Tampered() { make_book(file, 6); }
    std::vector<Fault> after(const std::string& sql) {
        tamper(file, sql);
        return verify(Book::open(file, Book::Mode::read));
    }
};

void check_first(const std::vector<Fault>& faults, Seq entry, const std::string& text) {
    REQUIRE_FALSE(faults.empty());
    CHECK(faults.front().entry == entry);
    CHECK(faults.front().text == text);
}

std::string hash_unfit(Seq seq) {
    return "Entry " + std::to_string(seq) + " is not what was written, or what stands before it is not: its hash does not fit.";
}

std::string in_hex_of(const std::string& text) {
    std::string hex;
    for (const char c : text) {
        char two[3];
        std::snprintf(two, sizeof two, "%02x", static_cast<unsigned>(static_cast<unsigned char>(c)));
        hex += two;
    }
    return hex;
}

}  // namespace

TEST_CASE_METHOD(Tampered, "An untouched book has no fault") { CHECK(after("SELECT 1").empty()); }

TEST_CASE_METHOD(Tampered, "A changed byte") {
    check_first(after("UPDATE entry SET body = CAST(replace(CAST(body AS TEXT), 'mixed', 'nixed') AS BLOB) "
                      "WHERE seq = 3"),
                3, hash_unfit(3));
}

TEST_CASE_METHOD(Tampered, "A changed hash") { check_first(after("UPDATE entry SET hash = zeroblob(32) WHERE seq = 6"), 6, hash_unfit(6)); }

TEST_CASE_METHOD(Tampered, "Two entries swapped") {
    check_first(after("UPDATE entry SET seq = -seq WHERE seq IN (2, 5); UPDATE entry SET seq = 5 WHERE seq = -2; "
                      "UPDATE entry SET seq = 2 WHERE seq = -5"),
                2, hash_unfit(2));
}

TEST_CASE_METHOD(Tampered, "An entry put in between") {
    check_first(after("UPDATE entry SET seq = -seq WHERE seq >= 4; UPDATE entry SET seq = 1 - seq WHERE seq < 0; "
                      "INSERT INTO entry SELECT 4, body, hash FROM entry WHERE seq = 3"),
                4, hash_unfit(4));
}

TEST_CASE_METHOD(Tampered, "An entry taken out, the gap left") {
    check_first(after("DELETE FROM entry WHERE seq = 4"), 4, "Entry 4 is not there: entry 5 stands next.");
}

TEST_CASE_METHOD(Tampered, "An entry taken out, the gap closed") {
    check_first(after("DELETE FROM entry WHERE seq = 4; UPDATE entry SET seq = seq - 1 WHERE seq > 4"), 4, hash_unfit(4));
}

TEST_CASE_METHOD(Tampered, "The first entry taken out") {
    check_first(after("DELETE FROM entry WHERE seq = 1"), 1, "Entry 1 is not there: entry 2 stands next.");
}

TEST_CASE_METHOD(Tampered, "An entry changed and its hash made to fit") {
    std::string body;
    record::Hash before{};
    {
        const Book book = Book::open(file, Book::Mode::read);
        body = book.body(3);
        for (Seq seq = 1; seq < 3; ++seq) before = record::chained(before, book.body(seq));
    }
    body.replace(body.find("mixed"), 5, "nixed");
    check_first(after("UPDATE entry SET body = x'" + in_hex_of(body) + "', hash = x'" + record::to_hex(record::chained(before, body)) +
                      "' WHERE seq = 3"),
                4, hash_unfit(4));
}

TEST_CASE_METHOD(Tampered, "An entry that fits the chain and is none of ours") {
    const record::Hash head = Book::open(file, Book::Mode::read).head();
    const std::string body = "{\"kind\":\"x\"}";
    check_first(after("INSERT INTO entry VALUES (7, x'" + in_hex_of(body) + "', x'" + record::to_hex(record::chained(head, body)) + "')"),
                7, "Entry 7 cannot be read; wanted: the key 'format'.");
}

TEST_CASE_METHOD(Tampered, "A guard that is gone, altered or added") {
    CHECK(raw(file, "DROP TRIGGER entry_never_deleted") == "");
    auto faults = verify(Book::open(file, Book::Mode::read));
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].table == "trigger entry_never_deleted");
    CHECK(faults[0].text == "The trigger entry_never_deleted is missing: the book is not guarded as it was made.");

    CHECK(raw(file, "CREATE TRIGGER entry_never_deleted BEFORE DELETE ON entry BEGIN SELECT 1; END") == "");
    faults = verify(Book::open(file, Book::Mode::read));
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].text == "The trigger entry_never_deleted has been altered: the book is not guarded as it was made.");

    CHECK(raw(file, "CREATE TRIGGER helper AFTER INSERT ON fact BEGIN SELECT 1; END; DROP INDEX lot_code") == "");
    faults = verify(Book::open(file, Book::Mode::read));
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].text == "The index lot_code is missing: the book is not guarded as it was made.");
    CHECK(faults[2].text == "The trigger helper does not belong to the book.");
}

TEST_CASE_METHOD(Tampered, "Attached files: changed, gone, named by nobody") {
    {
        Book book = Book::open(file, Book::Mode::write);
        record_series(book, "abc");
    }
    const std::string name = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    CHECK(after("SELECT 1").empty());
    check_first(after("UPDATE attachment SET bytes = x'616264'"), 7, "The file kept under " + name + " is not the one that was put there.");
    check_first(after("DELETE FROM attachment"), 7, "Entry 7 names the file " + name + ", which is not kept.");
    const auto faults =
        after("INSERT INTO attachment VALUES ('" + name + "', x'616263'), ('" + record::to_hex(record::sha256("x")) + "', x'78')");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].text == "The file kept under " + record::to_hex(record::sha256("x")) + " is named by no entry.");
}

TEST_CASE_METHOD(Tampered, "A seal of another head") {
    {
        Book book = Book::open(file, Book::Mode::write);
        Book::Work work = book.begin();
        book.append({7, {1}, {2}, "AB", "", record::Statement{record::Sealed{std::string(64, '0'), "the auditor"}}});
        book.derived().put(Fact{7, "sealed", 1, 2, "AB", "", 0, {}, {}});
        work.commit();
    }
    const auto faults = after("SELECT 1");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].entry == 7);
    CHECK(faults[0].text.starts_with("Entry 7 seals the head " + std::string(64, '0') + ", and the head before it is "));
}

TEST_CASE_METHOD(Tampered, "Rules over the derived tables") {
    auto faults = after("DELETE FROM fact WHERE seq = 5");
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].text ==
          "A rule is broken: every entry has its fact, of the same kind and time of writing. First at entry "
          "5.");
    faults = after("INSERT INTO hold VALUES (3, 77, 1, 'x', NULL, '', NULL, NULL)");
    REQUIRE(faults.size() == 2);
    CHECK(faults[1].text == "A rule is broken: a hold is of a lot that is in the book. First at seq 3, lot 77.");
}

TEST_CASE_METHOD(Tampered, "Bytes of the file changed on the disk") {
    const auto size = static_cast<std::streamoff>(fs::file_size(file));
    {
        std::fstream disk(file, std::ios::in | std::ios::out | std::ios::binary);
        for (std::streamoff page = 4096; page < size; page += 4096) {
            disk.seekp(page);
            disk.write("\xff\xff\xff\xff\xff\xff\xff\xff", 8);
        }
    }
    bool damaged = false;
    try {
        damaged = !verify(Book::open(file, Book::Mode::read)).empty();
    } catch (const Damaged&) {
        damaged = true;
    }
    CHECK(damaged);
}

TEST_CASE("A derived row that the entries do not make is named with its key and column") {
    Book kept = Book::in_memory();
    Book remade = Book::in_memory();
    for (Book* book : {&kept, &remade}) {
        record_step(*book);
        Book::Work work = book->begin();
        book->derived().put(lot_of(1, "A"));
        book->derived().set_uses_into(1, {Use{1, 2, 7, 100, {}, {}, 1, 1, {}, 5, ""}});
        book->derived().put(Person{"AB", "A Baker", "baker", 1});
        work.commit();
    }
    CHECK(compare_derived(kept, remade).empty());
    CHECK(derived_digest(kept) == derived_digest(remade));
    Book::Work work = kept.begin();
    kept.derived().set_uses_into(1, {Use{1, 2, 7, {}, {}, {}, 1, 1, {}, 5, ""}});
    kept.derived().put(lot_of(2, "B"));
    remade.derived().put(Person{"CD", "C Dough", "baker", 1});
    const auto faults = compare_derived(kept, remade);
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].table == "person");
    CHECK(faults[0].text == "Table person, row initials CD: it is missing, and the entries make it.");
    CHECK(faults[1].text == "Table lot, row id 2: the entries make no such row.");
    CHECK(faults[2].text == "Table use, row into_lot 1, from_lot 2, seq 7: mass_mg is none, and the entries make it '100'.");
    CHECK(derived_digest(kept) != derived_digest(remade));
}
