// A book of each layout, as a program of its time recorded it: tests/samples/layout-N. Its bytes never change, and what is derived from
// them today is held against what was derived then.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <set>

#include "book/book.h"
#include "site/site.h"

using namespace peelbook;

namespace {

namespace fs = std::filesystem;

// A copy of a sample, to be written in.
class Sample {
  public:
    explicit Sample(const std::string& layout)
        : folder(fs::temp_directory_path() / ("peelbook-" + layout + "-" + std::to_string(::getpid()))) {
        fs::remove_all(folder);
        fs::copy(fs::path(PEELBOOK_SOURCE_DIR) / "tests/samples" / layout, folder);
        fs::permissions(folder / "book.db", fs::perms::owner_write, fs::perm_options::add);
    }
    ~Sample() { fs::remove_all(folder); }
    Sample(const Sample&) = delete;
    Sample& operator=(const Sample&) = delete;

    // SHA-256 over every derived row.
    std::string derived() const { return book::derived_digest(book::Book::open(folder / "book.db", book::Book::Mode::read)); }

    fs::path folder;
};

}  // namespace

namespace {

// One of an older layout opens for a rebuild alone, and its entries read for ever.
void check_older(const std::string& layout, Seq entries, const std::string& head) {
    const Sample sample(layout);
    HandClock clock(Instant{1'795'000'000'000});
    DiskFiles files;
    CHECK_THROWS_WITH(site::Site::open(sample.folder, clock, files), Catch::Contains("peelbook rebuild"));
    auto older = site::Site::open(sample.folder, clock, files, book::Book::Mode::rebuild);
    REQUIRE(older.ok());
    CHECK((*older)->rebuild() == entries);
    older->reset();
    auto site = site::Site::open(sample.folder, clock, files);
    REQUIRE(site.ok());
    const auto status = (*site)->status();
    CHECK(status.entries == entries);
    CHECK(status.head == head);
    CHECK((*site)->verify(true).empty());
}

}  // namespace

TEST_CASE("The sample books of older layouts ask for a rebuild, and read for ever") {
    check_older("layout-1", 170, "94c9001ac2f178cfece414e6fcf764bdf8479ad13a29304a411da8a0c26bd093");
    check_older("layout-2", 176, "1cda9426a92124941fb637a5efeb90c93ff9b5dce93a0c187f20d41fdd73706c");
    check_older("layout-3", 180, "a342c2db6cda9233b3e121edcbdb6961898d770fdc4a06fe38f92f3292ed8aea");
}

TEST_CASE("The sample book of layout 4 is whole, and its derived tables are those that are derived today") {
    const Sample sample("layout-4");
    HandClock clock(Instant{1'795'000'000'000});
    DiskFiles files;
    const std::string as_recorded = sample.derived();
    auto site = site::Site::open(sample.folder, clock, files);
    REQUIRE(site.ok());
    const auto status = (*site)->status();
    CHECK(status.entries == 194);
    CHECK(status.head == "b132bb577e4535c0b941cceb48ab7b18672a4f5db6cfa308622ba75952243640");
    CHECK((*site)->verify(false).empty());
    CHECK((*site)->verify(true).empty());
    (*site)->rebuild();
    site->reset();
    CHECK(sample.derived() == as_recorded);
}

TEST_CASE("The sample book of layout 4 has an entry of every kind, and a row in every derived table") {
    const Sample sample("layout-4");
    const auto book = book::Book::open(sample.folder / "book.db", book::Book::Mode::read);
    std::set<std::string_view> met;
    for (Seq seq = 1; seq < book.next_seq(); ++seq) met.insert(kind_of(book.entry(seq)->payload).name);
    CHECK(met.size() == 45);
    for (const auto& table : book::Book::derived_tables()) {
        INFO(table);
        CHECK_FALSE(book.whole_table(table).rows.empty());
    }
}
