// Help is complete: every command says what it does and shows an example that its own options accept.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "base/text.h"
#include "cli/frame/help_text.h"
#include "cli/frame/registry.h"
#include "cli/frame/words.h"

using namespace peelbook;
using namespace peelbook::cli;

TEST_CASE("every command has a name of its own, an about-text and options that are explained") {
    std::set<std::string_view> names;
    for (const Command* command : commands()) {
        CAPTURE(std::string(command->name));
        CHECK(names.insert(command->name).second);
        CHECK(command->about.ends_with("."));
        CHECK(command->about.size() < 90);
        for (const auto& row : command->body.rows()) {
            CAPTURE(row.name);
            CHECK_FALSE(row.about.empty());
            CHECK((row.flag() || !row.named() || !row.value.empty()));
        }
    }
    CHECK(names.size() >= 45);
}

TEST_CASE("every example is a command line that its command takes") {
    for (const Command* command : commands()) {
        REQUIRE_FALSE(command->examples.empty());
        for (const std::string& line : split(command->examples, '\n')) {
            CAPTURE(line);
            auto words = split_words(line);
            REQUIRE(words);
            REQUIRE(words->front() == "peelbook");
            words->erase(words->begin());
            const Named named = find_command(*words);
            REQUIRE(named.command == command);
            words->erase(words->begin(), words->begin() + static_cast<std::ptrdiff_t>(named.words));
            const Check checked = command->body.check(*words);
            if (!checked.ok()) FAIL(checked.refusal().given + " / " + checked.refusal().wanted);
        }
    }
}

TEST_CASE("every line of the example's week is a command line that its command takes") {
    const auto week = DiskFiles().read(PEELBOOK_SOURCE_DIR "/example-site/week.txt");
    REQUIRE(week);
    std::size_t lines = 0;
    for (const std::string& line : split(*week, '\n')) {
        auto words = split_words(line);
        REQUIRE(words);
        if (words->empty()) continue;
        ++lines;
        words->erase(words->begin());  // the time
        const Named named = find_command(*words);
        if (named.command == nullptr) FAIL(line);
        words->erase(words->begin(), words->begin() + static_cast<std::ptrdiff_t>(named.words));
        if (auto checked = named.command->body.check(*words); !checked) FAIL(line + "\n" + checked.refusal().given);
    }
    CHECK(lines >= 3000);
}

TEST_CASE("a command that takes --at says so in its options, and only such a one") {
    for (const Command* command : commands()) {
        CAPTURE(std::string(command->name));
        const auto rows = command->body.rows();
        const bool has_at = std::any_of(rows.begin(), rows.end(), [](const auto& row) { return row.name == "--at"; });
        const bool asks_only = command->name == "plan show";  // its --at chooses a version
        CHECK(command->takes_at == (has_at && !asks_only));
    }
}

TEST_CASE("the program's help names every command and the exit codes, and ends with the caution") {
    const std::string help = program_help();
    for (const Command* command : commands()) CHECK(help.find("  " + std::string(command->name) + " ") != std::string::npos);
    CHECK(help.find("Exit codes: 0 done, 1 recorded but not within, 2 refused (nothing written), 3 the book "
                    "is damaged, 4 the "
                    "machine failed.") != std::string::npos);
    CHECK(help.ends_with(std::string(caution) + "\n"));
    for (const std::string& line : split(help, '\n')) CHECK(line.size() <= 125);
}

TEST_CASE("a command's help shows usage, needed options and an example") {
    const Named named = find_command({"hold", "LOT-1"});
    REQUIRE(named.command != nullptr);
    const std::string help = command_help(*named.command);
    CHECK(help.find("usage: peelbook hold LOT... --why TEXT [options]\n") != std::string::npos);
    CHECK(help.find("example\n  peelbook hold FLOUR-1 --why 'the miller called: stones' --by QA\n") != std::string::npos);
}

TEST_CASE("two-word commands are found, families are listed, a slip is answered with the nearest") {
    CHECK(find_command({"plan", "check"}).words == 2);
    CHECK(find_command({"plan"}).command == nullptr);
    CHECK(family_help("plan").find("plan adopt") != std::string::npos);
    CHECK(family_help("bread").empty());
    CHECK(unknown_command({"raeding"}).nearest == std::vector<std::string>{"reading"});
    CHECK(unknown_command({"plan", "chekc"}).nearest.front() == "plan check");
}
