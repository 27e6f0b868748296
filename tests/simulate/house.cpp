#include "simulate/house.h"

#include <iostream>
#include <sstream>

#include "cli/frame/run.h"
#include "cli/frame/words.h"

namespace peelbook::simulate {
namespace {

namespace fs = std::filesystem;

constexpr Instant opening{1'795'500'000'000};  // 2026-11-24 07:00 at the house; the first line sets its own

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) text.replace(at, from.size(), to);
}

}  // namespace

std::string plan_version(std::string text, int n) {
    if (n % 2 == 0) return text;
    replace_all(text, "least = \"94C\"", "least = \"95C\"");
    replace_all(text, "limit = { most = \"5C\" }\nevery = \"4h\"", "limit = { most = \"5C\" }\nevery = \"3h\"");
    return text;
}

std::string stamped(const Zone& zone, Instant clock, const std::string& typed) { return to_iso(zone, clock) + " " + typed; }

History read_history(const std::string& text) {
    History history;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        const auto blank = line.find(' ');
        if (line.empty() || line.front() == '#' || blank == std::string::npos) continue;
        const auto clock = parse_when(line.substr(0, blank), Zone::utc(), Instant{});
        if (clock) history.push_back({static_cast<int>(history.size()) + 1, *clock, line.substr(blank + 1)});
    }
    return history;
}

House::House(const fs::path& folder, const fs::path& plan_folder)
    : folder_(folder),
      plan_folder_(plan_folder),
      zone_(*Zone::named("Europe/Copenhagen")),
      clock_(opening),
      context_(
          clock_, files_, std::cout, std::cerr, std::cin, [](std::string_view) { return std::string(); }, folder) {
    fs::remove_all(folder_);
    std::ostringstream out, err;
    auto own = context_.with_streams(out, err);
    cli::run(own, {"new", folder_.string(), "--by", "HB", "--person", "Hedda", "--name", "Lot Street Bakery", "--zone", zone_.name()});
    for (const auto& file : files_.list(folder_))
        if (file.extension() == ".toml") fs::remove(file);
    context_.site_folder = folder_.string();
    files_.create(folder_ / "site.toml", *files_.read(plan_folder_ / "site.toml"));
}

House::~House() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
}

std::string House::resolved(const std::string& text) const {
    const auto open = text.find('{'), close = text.find('}');
    if (open == std::string::npos || close == std::string::npos) return text;
    const auto found = entry_of_.find(std::stoi(text.substr(open + 1, close - open - 1)));
    const std::string number = std::to_string(found == entry_of_.end() ? 0 : found->second);  // 0: no entry, so it is refused
    return text.substr(0, open) + number + resolved(text.substr(close + 1));
}

Outcome House::type(const Line& line) {
    Outcome outcome;
    outcome.typed = resolved(line.text);
    clock_.set(line.clock);
    if (outcome.typed.starts_with("plan adopt") && adoptions_++ > 0) {
        fs::remove(folder_ / "site.toml");
        files_.create(folder_ / "site.toml", plan_version(*files_.read(plan_folder_ / "site.toml"), adoptions_ - 1));
    }
    std::ostringstream out, err;
    auto own = context_.with_streams(out, err);
    const auto exit = cli::run_line(own, *cli::split_words(outcome.typed));
    outcome.accepted = exit < cli::Exit::refused;
    outcome.broken = exit > cli::Exit::refused;
    outcome.told = out.str() + err.str();
    for (auto entry = site().entry(last_ + 1); entry; entry = site().entry(last_ + 1)) {
        line_of_[++last_] = line.id;
        outcome.entries.push_back(*entry);
    }
    // Water's lot comes before its use, holds after what caused them: the entry meant is the first that somebody would correct.
    for (const auto& entry : outcome.entries) {
        const auto* says = std::get_if<record::Statement>(&entry.payload);
        const auto* supply = says ? std::get_if<record::Received>(says) : nullptr;
        if (supply && !outcome.typed.starts_with("receive")) continue;
        entry_of_[line.id] = entry.seq;
        break;
    }
    return outcome;
}

void House::keep(const fs::path& folder) {
    fs::create_directories(folder);
    fs::remove(folder / "book.db");
    std::ostringstream out, err;
    auto own = context_.with_streams(out, err);
    if (cli::run_line(own, {"backup", (folder / "book.db").string()}) != cli::Exit::done) throw std::runtime_error(err.str());
    fs::copy_file(folder_ / "site.toml", folder / "site.toml", fs::copy_options::overwrite_existing);
}

std::vector<std::vector<Cell>> House::ask(const std::string& sql) {
    auto table = site().ask(sql);
    if (!table) throw std::logic_error("the simulator asks what cannot be asked: " + sql + ": " + table.refusal().given);
    return table->rows;
}

std::optional<fold::Duty> House::duty(const std::string& place, const std::string& point, Instant now) const {
    fold::Ledger ledger(book::Book::open(folder_ / "book.db", book::Book::Mode::read));
    return fold::duty_at(ledger, place, point, now);
}

int House::line_of(Seq seq) const {
    const auto found = line_of_.find(seq);
    return found == line_of_.end() ? 0 : found->second;
}

}  // namespace peelbook::simulate
