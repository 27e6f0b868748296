// The clock and the file system as the program sees them.
#include "base/clock.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <ctime>
#include <functional>

#include "base/result.h"

using namespace peelbook;
namespace fs = std::filesystem;

namespace {

// A folder of this test's own, gone when the test ends.
struct Scratch {
    fs::path folder = fs::temp_directory_path() / ("peelbook-base-" + std::to_string(::getpid()));
    Scratch() { fs::create_directories(folder); }
    ~Scratch() { fs::remove_all(folder); }
};

std::string trouble_of(const std::function<void()>& deed) {
    try {
        deed();
    } catch (const MachineFailed& failure) {
        return failure.what();
    }
    return "(nothing)";
}

}  // namespace

TEST_CASE("Clocks") {
    HandClock by_hand(Instant{5});
    CHECK(by_hand.now() == Instant{5});
    by_hand.set(Instant{7});
    CHECK(by_hand.now() == Instant{7});
    const std::int64_t before = static_cast<std::int64_t>(std::time(nullptr)) * 1000 - 1000;
    const Instant now = SystemClock().now();
    CHECK(now.ms >= before);
    CHECK(now.ms <= before + 10'000);
}

TEST_CASE("Files are created once and read back byte for byte") {
    const Scratch scratch;
    DiskFiles files;
    const fs::path file = scratch.folder / "site.toml";
    const std::string text("name = \"\xC3\x9C\"\r\n\0x", 15);
    CHECK_FALSE(files.read(file));
    files.create(file, text);
    CHECK(files.read(file) == text);
    CHECK(trouble_of([&] { files.create(file, "other"); }) ==
          "cannot create '" + file.string() + "': it exists already; choose another name or move it away");
    CHECK(files.read(file) == text);
    CHECK(trouble_of([&] { files.create(scratch.folder / "none" / "a", ""); }) ==
          "cannot create '" + (scratch.folder / "none" / "a").string() +
              "': No such file or directory; check the folder and its permissions");
}

TEST_CASE("Folders are made with their parents and listed in order") {
    const Scratch scratch;
    DiskFiles files;
    const fs::path folder = scratch.folder / "reports" / "weekly";
    files.make_folder(folder);
    files.make_folder(folder);
    CHECK(files.exists(folder));
    CHECK_FALSE(files.exists(folder / "b.sql"));
    files.create(folder / "b.sql", "2");
    files.create(folder / "a.sql", "1");
    CHECK(files.list(folder) == std::vector<fs::path>{folder / "a.sql", folder / "b.sql"});
    CHECK(files.list(folder / "none").empty());
    CHECK_FALSE(files.read(folder));
    CHECK(trouble_of([&] { files.make_folder(folder / "a.sql" / "x"); }) ==
          "cannot make the folder '" + (folder / "a.sql" / "x").string() + "': Not a directory; check the path and its permissions");
}
