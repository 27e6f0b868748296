// The simulator: a random bakery on the real library, by one seed, the same to the byte each time.
//
//   simulate --seed N --days N [--seeds N] [--cells] [--out FOLDER]     ends with "simulate: seed N days N entries N violations N"
//   simulate --seed N --days N [--seeds N] --first                      stops at the first violation, and keeps no history of it
//   simulate --recalls ... [--books FOLDER]                             goods are recalled meanwhile and nothing is told otherwise; of each
//                                                                       seed the book is left in FOLDER/N
//   simulate --replay FILE                                              runs a kept history again, and says what fails in it
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <map>

#include "record/entry.h"
#include "simulate/people.h"
#include "simulate/properties.h"
#include "simulate/shrink.h"
#include "simulate/variants.h"

namespace peelbook::simulate {
namespace {

namespace fs = std::filesystem;

constexpr int records_retold = 3;  // of each history and in each way: it is typed anew twice or three times for each

struct Given {
    std::uint64_t seed = 1;
    int days = 7, seeds = 1;
    bool cells = false, first = false, recalls = false;
    std::string replay;
    fs::path out, books;
};

struct Told {  // over all seeds
    Cells cells;
    std::map<std::string, int> kinds;
    std::set<std::string> shrunk;  // states and properties of which a history was kept
    std::int64_t entries = 0, violations = 0, acts = 0, refused = 0;
    double seconds = 0;  // without shrinking
};

constexpr std::int64_t often_enough = 50;

std::string times(const Cells& cells, const std::string& act, const std::string& state) {
    const auto found = cells.find({act, state});
    const std::int64_t met = found == cells.end() ? 0 : found->second;
    return met == 0 && gate_table().answer(act, state) == "-" ? "-" : std::to_string(met);
}

// As the gate's table is written, and those that were met too seldom.
void print_cells(const Cells& cells) {
    const Table& table = gate_table();
    std::cout << std::left << std::setw(17) << "state";
    for (const auto& act : table.acts) std::cout << std::setw(12) << act;
    for (const auto& state : table.states) {
        std::cout << '\n' << std::setw(17) << state;
        for (const auto& act : table.acts) std::cout << std::setw(12) << times(cells, act, state);
    }
    std::cout << '\n';
    for (const auto& state : table.states)
        for (const auto& act : table.acts)
            if (table.answer(act, state) != "-" && std::stoll(times(cells, act, state)) < often_enough)
                std::cout << "below " << often_enough << ": " << state << " " << act << " " << times(cells, act, state) << '\n';
}

std::string file_name(const std::string& key, std::uint64_t seed) {
    std::string name;
    for (const char c : key) name += std::isalnum(static_cast<unsigned char>(c)) ? c : '-';
    return name + "-" + std::to_string(seed) + ".txt";
}

// As the shrunk history tells it.
const Violation& told_by(const Run& run, const Violation& violation) {
    const auto found = std::find_if(run.violations.begin(), run.violations.end(), [&](const auto& v) { return v.key == violation.key; });
    return found == run.violations.end() ? violation : *found;
}

void keep(const Folders& folders, const Given& given, std::uint64_t seed, const History& history, const Violation& violation) {
    const auto less = shrunk(folders, history, violation);
    Run again(folders);
    for (const auto& line : less) again.type(line);
    const fs::path file = given.out / file_name(violation.key, seed);
    std::ofstream(file) << as_file(again, told_by(again, violation));
    std::cout << "  " << less.size() << " lines: " << file.string() << '\n';
}

// Some of its records are told otherwise, in each way.
void retell(const Folders& folders, Run& run, Chance chance) {
    for (const auto& variant : variants()) {
        std::vector<std::size_t> fit;
        for (std::size_t i = 0; i < run.history().size(); ++i)
            if (run.accepted()[i] && variant.fits(run.history(), i)) fit.push_back(i);
        for (int n = 0; n < records_retold && !fit.empty(); ++n) {
            const auto line = chance.of(fit);
            std::erase(fit, line);
            for (auto& v : variant.tried(folders, run.history(), run.accepted(), line)) run.violations.push_back(v);
        }
    }
}

// One history is kept of each state in which something had a way out, whatever the act was.
std::string group_of(const std::string& key) { return key.starts_with("no way out") ? key.substr(key.find(", ")) : key; }

void one_seed(const Folders& folders, const Given& given, std::uint64_t seed, Told& told) {
    const auto begin = std::chrono::steady_clock::now();
    Run run(folders);
    People people(run, seed, given.recalls);
    people.open();
    for (int day = 0; day < given.days; ++day) run.check_owed(people.day(day));
    run.check_rebuild();
    if (!given.recalls) retell(folders, run, Chance(seed + 1));
    if (!given.books.empty()) run.house().keep(given.books / std::to_string(seed));
    told.seconds += std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    told.entries += run.entries;
    told.violations += std::ssize(run.violations);
    told.acts += std::ssize(run.history());
    told.refused += run.refused_lines;
    for (const auto& [cell, n] : run.cells) told.cells[cell] += n;
    for (const auto& violation : run.violations) {
        ++told.kinds[violation.key];
        if (!told.shrunk.insert(group_of(violation.key)).second) continue;
        std::cout << "seed " << seed << ": " << violation.key << "\n  " << violation.told << '\n' << std::flush;
        if (given.first) return;
        keep(folders, given, seed, run.history(), violation);
    }
}

int replay(const Folders& folders, const Given& given) {
    std::ifstream in(given.replay);
    const std::string text((std::istreambuf_iterator<char>(in)), {});
    const auto history = read_history(text);
    Run run(folders);
    for (const auto& line : history) {
        if (!run.type(line)) std::cout << "refused: " << line.text << '\n';
    }
    run.check_rebuild();
    if (const auto asked = text.find(asked_mark); asked != std::string::npos) {
        const auto at = text.substr(asked + asked_mark.size(), text.find('\n', asked) - asked - asked_mark.size());
        if (const auto when = parse_when(at, run.zone(), Instant{})) run.check_owed(*when);
    }
    for (const auto& variant : variants()) {
        const auto mark = text.find(mark_of(variant.name));
        if (mark == std::string::npos) continue;
        const auto place = read_history(text.substr(0, mark)).size();
        for (auto& v : variant.tried(folders, history, run.accepted(), place)) run.violations.push_back(v);
    }
    for (const auto& violation : run.violations) std::cout << violation.key << "\n  " << violation.told << '\n';
    std::cout << "simulate: " << given.replay << " lines " << history.size() << " entries " << run.entries << " violations "
              << run.violations.size() << '\n';
    return run.violations.empty() ? 0 : 1;
}

int simulate(const Folders& folders, const Given& given) {
    Told told;
    for (int n = 0; n < given.seeds && !(given.first && told.violations > 0); ++n)
        one_seed(folders, given, given.seed + static_cast<std::uint64_t>(n), told);
    if (given.cells) print_cells(told.cells);
    for (const auto& [key, times] : told.kinds) std::cout << times << " x " << key << '\n';
    std::cout << "refused " << told.refused * 100 / std::max<std::int64_t>(told.acts, 1) << "% of " << told.acts << " lines; "
              << static_cast<std::int64_t>(static_cast<double>(told.entries) / told.seconds) << " entries a second\n";
    std::cout << "simulate: seed " << given.seed << " days " << given.days << " entries " << told.entries << " violations "
              << told.violations << '\n';
    return told.violations == 0 ? 0 : 1;
}

std::optional<Given> given_by(const std::vector<std::string>& words) {
    Given given;
    given.out = fs::path(PEELBOOK_BINARY_DIR) / "simulate";
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i] == "--cells" || words[i] == "--first" || words[i] == "--recalls") {
            (words[i] == "--cells" ? given.cells : words[i] == "--first" ? given.first : given.recalls) = true;
            continue;
        }
        if (i + 1 == words.size()) return {};
        const std::string value = words[++i];
        if (words[i - 1] == "--seed")
            given.seed = std::strtoull(value.c_str(), nullptr, 10);
        else if (words[i - 1] == "--days")
            given.days = std::atoi(value.c_str());
        else if (words[i - 1] == "--seeds")
            given.seeds = std::atoi(value.c_str());
        else if (words[i - 1] == "--replay")
            given.replay = value;
        else if (words[i - 1] == "--out")
            given.out = value;
        else if (words[i - 1] == "--books")
            given.books = fs::absolute(value);
        else
            return {};
    }
    return given;
}

}  // namespace
}  // namespace peelbook::simulate

int main(int count, char** words) {
    using namespace peelbook::simulate;
    const auto given = given_by({words + 1, words + count});
    if (!given) {
        std::cerr
            << "simulate --seed N --days N [--seeds N] [--cells] [--first] [--out FOLDER] [--recalls] [--books FOLDER] | --replay FILE\n";
        return 2;
    }
    std::filesystem::create_directories(given->out);
    const std::filesystem::path memory = "/dev/shm";  // a book that is thrown away need not wait for the disk
    const auto root = std::filesystem::exists(memory) ? memory : std::filesystem::temp_directory_path();
    const Folders folders{root / ("simulate-" + std::to_string(::getpid())),
                          std::filesystem::path(PEELBOOK_SOURCE_DIR) / "tests/simulate/plan"};
    std::filesystem::create_directories(folders.scratch);
    const int result = given->replay.empty() ? simulate(folders, *given) : replay(folders, *given);
    std::filesystem::remove_all(folders.scratch);
    return result;
}
