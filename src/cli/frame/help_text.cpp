#include "cli/frame/help_text.h"

#include "base/text.h"
#include "cli/frame/registry.h"
#include "output/text_table.h"

namespace peelbook::cli {
namespace {

constexpr std::size_t help_width = 100;
constexpr std::size_t name_width = 15;  // the longest name of a command

using Pairs = std::vector<std::pair<std::string, std::string>>;

// Two columns; the right one is broken into lines that stay under each other. What is too long for the left
// one has a line of its own.
std::string columns(const Pairs& pairs, std::size_t indent, std::size_t left) {
    std::string text;
    for (const auto& [name, about] : pairs) {
        const bool fits = name.size() <= left;
        std::string start = std::string(indent, ' ') + name;
        if (!fits) text += start + "\n";
        start.resize(indent + left + 2, ' ');
        if (!fits) start.assign(start.size(), ' ');
        for (const std::string& line : output::wrapped(about, help_width - start.size())) {
            text += start + line + "\n";
            start.assign(start.size(), ' ');
        }
    }
    return text;
}

std::string typed_form(const Options::Row& row) {
    std::string form = row.named() && !row.flag() ? row.name + " " + row.value : row.name;
    if (row.many && !row.named()) form += "...";
    return form;
}

std::string usage(const Command& command, const std::vector<Options::Row>& rows) {
    std::string text = "peelbook " + std::string(command.name);
    bool more_options = false;
    for (const auto& row : rows) {
        if (!row.named()) text += row.needed ? " " + typed_form(row) : " [" + typed_form(row) + "]";
        if (row.named() && row.needed) text += " " + typed_form(row);
        more_options = more_options || (row.named() && !row.needed);
    }
    return text + (more_options ? " [options]" : "");
}

std::string rows_of(const std::vector<Options::Row>& rows, bool common) {
    Pairs pairs;
    for (const auto& row : rows)
        if (row.common == common) pairs.emplace_back(typed_form(row), row.about + (row.needed && row.named() ? " (needed)" : ""));
    return columns(pairs, 2, 24);
}

std::string indented(std::string_view lines) {
    std::string text;
    for (const std::string& line : split(trimmed(lines), '\n')) text += "  " + line + "\n";
    return text;
}

}  // namespace

std::string_view heading_of(Group group) {
    switch (group) {
        case Group::bench:
            return "At the bench";
        case Group::receiving:
            return "Receiving, store and shipping";
        case Group::quality:
            return "Quality: what is wrong, and what is done about it";
        case Group::recall:
            return "Recall: where a lot went, where it came from";
        case Group::plan:
            return "The plan";
        case Group::keeping:
            return "Keeping the book";
        case Group::calculation:
            return "Calculations";
    }
    return {};
}

std::string program_help() {
    std::string text =
        "peelbook: a dough room's book of record. It keeps lots, limits and verdicts, and traces a flour lot "
        "both ways.\n"
        "\nusage: peelbook [--site DIR] COMMAND [words and options]\n";
    for (const Group group :
         {Group::bench, Group::receiving, Group::quality, Group::recall, Group::plan, Group::keeping, Group::calculation}) {
        Pairs pairs;
        for (const Command* command : commands())
            if (command->group == group) pairs.emplace_back(command->name, command->about);
        if (!pairs.empty()) text += "\n" + std::string(heading_of(group)) + "\n" + columns(pairs, 2, name_width);
    }
    text +=
        "\n`peelbook COMMAND --help` shows a command's options and examples.\n"
        "Quantities carry their unit: 93.4C 200F 90kg 200lb 10min 8h30min 2.5%. Times: 05:40, 'yesterday "
        "22:10',\n"
        "'2026-11-24 05:40', or with an offset 2026-11-24T05:40+01:00.\n"
        "Exit codes: 0 done, 1 recorded but not within, 2 refused (nothing written), 3 the book is damaged, "
        "4 the machine failed.\n";
    text += std::string(caution) + "\n";
    return text;
}

std::string command_help(const Command& command) {
    const std::vector<Options::Row> rows = command.body.rows();
    std::string text = std::string(command.about) + "\n\nusage: " + usage(command, rows) + "\n";
    if (!command.more.empty()) text += "\n" + std::string(trimmed(command.more)) + "\n";
    if (!rows.empty()) text += "\n";
    text += rows_of(rows, false);
    const std::string common = rows_of(rows, true);
    if (!common.empty()) text += "\n" + common;
    text += "\nexample\n" + indented(command.examples);
    return text;
}

std::string family_help(const std::string& family) {
    Pairs pairs;
    for (const Command* command : commands())
        if (command->name.starts_with(family + " ")) pairs.emplace_back(command->name, command->about);
    if (pairs.empty()) return {};
    return "usage: peelbook " + family + " COMMAND\n\n" + columns(pairs, 2, name_width) + "\n`peelbook " + family +
           " COMMAND --help` shows more.\n";
}

}  // namespace peelbook::cli
