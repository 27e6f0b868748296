// Flushing behind: nobody may be told of an entry before the disk has it, and what the disk refuses is said.
#include <atomic>
#include <catch2/catch.hpp>
#include <future>

#include "base/result.h"
#include "book/flusher.h"
#include "support.h"

using namespace peelbook;
using namespace peelbook::book;

TEST_CASE("waiting returns when what was written before the start has been flushed") {
    std::promise<void> disk;
    std::atomic<int> flushes = 0;
    Flusher flusher([&, ready = disk.get_future().share()] {
        ready.wait();
        ++flushes;
        return std::string();
    });
    flusher.wait(0);
    flusher.start();
    CHECK(flusher.started() == 1);
    auto told = std::async(std::launch::async, [&] { flusher.wait(1); });
    CHECK(told.wait_for(std::chrono::milliseconds(20)) == std::future_status::timeout);
    CHECK(flushes == 0);
    disk.set_value();
    told.get();
    CHECK(flushes == 1);
}

TEST_CASE("what the disk refused is told at every later wait") {
    Flusher flusher([] { return std::string("The disk did not take it."); });
    flusher.start();
    CHECK_THROWS_AS(flusher.wait(1), MachineFailed);
    CHECK_THROWS_WITH(flusher.wait(1), "The disk did not take it.");
}

TEST_CASE("a flush that cannot be done names the file") {
    const Folder folder;
    auto flush = log_flush(folder / "book.db");  // there is no book yet, so no log
    CHECK(flush().find("book.db-wal: No such file or directory. Check the disk") != std::string::npos);
}

TEST_CASE("a book that flushes behind commits one transaction after the other, and is whole when it is turned off") {
    const Folder folder;
    const auto file = folder / "book.db";
    {
        Book book = Book::create(file);
        CHECK(book.commits() == 0);
        book.flush_behind(true);
        for (Seq seq = 1; seq <= 20; ++seq) {
            record_step(book);
            CHECK(book.commits() == static_cast<std::uint64_t>(seq));
        }
        book.wait_for_disk(book.commits());
        book.flush_behind(false);
        CHECK(book.commits() == 0);
    }
    Book again = Book::open(file, Book::Mode::read);
    CHECK(again.next_seq() == 21);
    CHECK(verify(again).empty());
    Book memory = Book::in_memory();
    memory.flush_behind(true);  // nothing to flush
    record_step(memory);
    CHECK(memory.commits() == 0);
}
