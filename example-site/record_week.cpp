// Records the example's two weeks as if it were then: makes a site from the example's plan and runs week.txt
// line by line, each with the clock at the time in front of it. It links the program's own library; only the
// clock is another one. The shipped program has no such clock: there a replayed past shows as late.
//
//   example_recorder PLAN-FOLDER SITE-FOLDER WEEK-FILE      SITE-FOLDER must not be there yet
#include <filesystem>
#include <iostream>
#include <string>
#include <string_view>
#include <vector>

#include "base/zone.h"
#include "cli/frame/run.h"
#include "cli/keeping/replay.h"

namespace {

namespace fs = std::filesystem;
using peelbook::Instant;

constexpr int usage = static_cast<int>(peelbook::cli::Exit::refused);

// The time in front of the first line of the file; nothing when there is none.
std::optional<Instant> first_stamp(std::string_view week) {
    while (!week.empty()) {
        const std::string_view line = week.substr(0, week.find('\n'));
        const std::string_view word = line.substr(0, line.find(' '));
        if (!word.starts_with('#')) {
            const auto time = peelbook::parse_when(word, peelbook::Zone::utc(), Instant{});
            return time ? std::optional<Instant>(*time) : std::nullopt;
        }
        week.remove_prefix(line.size() + (line.size() < week.size() ? 1 : 0));
    }
    return std::nullopt;
}

// `new` writes a plan to start from; the example has one of its own.
void take_plan(const fs::path& plan, const fs::path& site) {
    for (const auto& file : fs::directory_iterator(site))
        if (file.path().extension() == ".toml") fs::remove(file.path());
    for (const auto& file : fs::directory_iterator(plan))
        if (file.path().extension() == ".toml") fs::copy_file(file.path(), site / file.path().filename());
}

int record(const fs::path& plan, const fs::path& site, const fs::path& week_file) {
    peelbook::DiskFiles files;
    const auto week = files.read(week_file);
    const auto begin = first_stamp(week.value_or(""));
    if (!begin) {
        std::cerr << "refused: " << week_file.string() << "\nwanted: a file of commands with the time in front of each\n";
        return usage;
    }
    peelbook::HandClock clock(*begin);
    peelbook::cli::Context context(
        clock, files, std::cout, std::cerr, std::cin, [](std::string_view) { return std::string(); },
        fs::absolute(week_file).parent_path());  // files that a line names stand beside the week
    const int made = peelbook::cli::run(context, {"new", fs::absolute(site).string(), "--by", "HB", "--person", "Hedda Brink", "--name",
                                                  "Ternhavn Bakehouse", "--zone", "Europe/Copenhagen"});
    if (made != 0) return made;
    take_plan(plan, site);
    context.site_folder = fs::absolute(site).string();
    const peelbook::cli::Replay how{
        .name = week_file.filename().string(), .keep_going = false, .verbose = false, .on_stamp = [&clock](Instant time) {
            clock.set(time);
        }};
    const auto replayed = peelbook::cli::replay(context, *week, how);
    return replayed.exit >= peelbook::cli::Exit::refused ? static_cast<int>(replayed.exit) : 0;
}

}  // namespace

int main(int count, char** words) {
    if (count != 4) {
        std::cerr << "example_recorder PLAN-FOLDER SITE-FOLDER WEEK-FILE\n";
        return usage;
    }
    try {
        return record(words[1], words[2], words[3]);
    } catch (const std::exception& failed) {
        std::cerr << "failed: " << failed.what() << '\n';
        return static_cast<int>(peelbook::cli::Exit::machine_failed);
    }
}
