// The disk fails, the program is killed, many write at once.
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <csignal>
#include <thread>

#include "failing_disk.h"
#include "support.h"

using namespace peelbook;
using namespace peelbook::book;
namespace fs = std::filesystem;
using failing_disk::Fails;

namespace {

struct State {
    Seq next;
    record::Hash head;
    std::string derived;
    bool sound;
    auto operator<=>(const State&) const = default;
};

State state_of(const fs::path& file) {
    const Book book = Book::open(file, Book::Mode::read);
    return {book.next_seq(), book.head(), derived_digest(book), verify(book).empty()};
}

// What one command said: empty when it was acknowledged.
std::string one_command(const fs::path& file) {
    try {
        Book book = Book::open(file, Book::Mode::write);
        record_step(book, "the one that fails");
        return "";
    } catch (const MachineFailed& what) {
        return what.what();
    }
}

}  // namespace

TEST_CASE("Whichever write fails for want of room, the book stands as before") {
    failing_disk::install();
    Folder folder;
    const fs::path file = folder / "book";
    make_book(file, 3);
    const State before = state_of(file);
    REQUIRE(before.sound);
    for (const Fails how : {Fails::from_then_on, Fails::once}) {
        int failures = 0;
        for (int nth = 1;; ++nth) {
            fs::copy_file(file, folder / "copy", fs::copy_options::overwrite_existing);
            failing_disk::fail_write(nth, how);
            const std::string said = one_command(folder / "copy");
            const bool reached = failing_disk::calls() >= nth;
            failing_disk::mend();
            const State after = state_of(folder / "copy");
            CHECK(after.sound);
            INFO("write " << nth << ": " << said);
            if (said.empty()) {
                CHECK(after.next == before.next + 1);
            } else {
                ++failures;
                CHECK(after == before);
                CHECK(said == "The book " + (folder / "copy").string() +
                                  " cannot grow: the disk is full. Nothing was written; free some space and repeat.");
            }
            if (!reached) break;
        }
        CHECK(failures >= 4);  // at least: header and page of the journal, for entry and fact
    }
}

TEST_CASE("Whichever flush fails, what was acknowledged is there and the chain is sound") {
    failing_disk::install();
    Folder folder;
    const fs::path file = folder / "book";
    make_book(file, 3);
    const State before = state_of(file);
    int failures = 0;
    for (int nth = 1;; ++nth) {
        fs::copy_file(file, folder / "copy", fs::copy_options::overwrite_existing);
        failing_disk::fail_flush(nth, Fails::from_then_on);
        const std::string said = one_command(folder / "copy");
        const bool reached = failing_disk::calls() >= nth;
        failing_disk::mend();
        const State after = state_of(folder / "copy");
        CHECK(after.sound);
        if (said.empty()) {
            CHECK(after.next == before.next + 1);
        } else {
            ++failures;
            CHECK(said == "The book " + (folder / "copy").string() +
                              " could not be read or written: disk I/O error. Check the disk, and look at "
                              "the last entries "
                              "before you repeat the command.");
        }
        if (!reached) break;
    }
    CHECK(failures >= 1);
}

TEST_CASE("Killed at any moment, the book holds whole commands and all that were acknowledged") {
    Folder folder;
    const fs::path file = folder / "book";
    make_book(file, 1);
    for (int round = 0; round < 8; ++round) {
        int ends[2];
        REQUIRE(pipe(ends) == 0);
        const pid_t child = fork();
        if (child == 0) {
            Book book = Book::open(file, Book::Mode::write);
            while (true) {
                const Seq seq = record_step(book);
                if (write(ends[1], &seq, sizeof seq) != sizeof seq) _exit(1);
            }
        }
        close(ends[1]);
        Seq acknowledged = 0;
        REQUIRE(read(ends[0], &acknowledged, sizeof acknowledged) == sizeof acknowledged);  // it is at work
        std::this_thread::sleep_for(std::chrono::milliseconds(7 * round));
        kill(child, SIGKILL);
        waitpid(child, nullptr, 0);
        while (read(ends[0], &acknowledged, sizeof acknowledged) == sizeof acknowledged) {
        }
        close(ends[0]);
        const State after = state_of(file);
        CHECK(after.sound);
        CHECK(after.next > acknowledged);
        CHECK(after.next <= acknowledged + 2);
    }
}

TEST_CASE("Many processes write at once and nobody sees an error") {
    Folder folder;
    const fs::path file = folder / "book";
    make_book(file, 0);
    constexpr int processes = 6;
    constexpr int commands = 15;
    std::vector<pid_t> children;
    for (int i = 0; i < processes; ++i) {
        const pid_t child = fork();
        if (child == 0) {
            int done = 0;
            try {
                for (; done < commands; ++done) {
                    Book book = Book::open(file, Book::Mode::write);
                    record_step(book, std::to_string(i));
                }
            } catch (const std::exception& what) {
                std::fprintf(stderr, "child: %s\n", what.what());
            }
            _exit(done == commands ? 0 : 1);
        }
        children.push_back(child);
    }
    int failed = 0;
    for (const pid_t child : children) {
        int status = 0;
        waitpid(child, &status, 0);
        failed += WIFEXITED(status) && WEXITSTATUS(status) == 0 ? 0 : 1;
    }
    CHECK(failed == 0);
    const State after = state_of(file);
    CHECK(after.sound);
    CHECK(after.next == processes * commands + 1);
}
