// The only file that includes the command-line parser. It is asked to split the words into options and values
// and nothing else: what is needed, what may be repeated and every message are decided here, so that none of
// its texts or exit codes leak.
#include "cli/frame/options.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <deque>

#include "base/text.h"

namespace peelbook::cli {
namespace {

using Typed = std::deque<std::vector<std::string>>;  // one a row; addresses stay

std::vector<std::string> option_names(const std::vector<Options::Row>& rows) {
    std::vector<std::string> names;
    for (const auto& row : rows)
        if (row.named()) names.push_back(row.name);
    return names;
}

// Words get a name of their own for the parser, which allows fewer signs in one than help does
// ("FIELD=VALUE").
void add_to(CLI::App& app, const Options::Row& row, std::size_t at, std::vector<std::string>& typed) {
    if (row.flag()) {
        app.add_flag(row.name)->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
        return;
    }
    CLI::Option* option = app.add_option(row.named() ? row.name : "word" + std::to_string(at), typed);
    option->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    if (row.named()) option->expected(1);
    if (!row.named()) option->expected(1, row.many ? CLI::detail::expected_max_vector_size : 1);
    option->allow_extra_args(row.many && !row.named());  // else the parser takes "[a,b]" apart
}

Refusal no_value(const Options::Row& row) {
    return {row.name + " without a value", row.about, "type it as " + row.name + " " + row.value, {}};
}

// The parser says which option it stumbled over before the first ':'.
Refusal not_understood(const std::string& message, const std::vector<Options::Row>& rows) {
    const std::string name = message.substr(0, message.find(':'));
    for (const auto& row : rows)
        if (row.name == name) return no_value(row);
    return {"a command line that cannot be read", message, "see the command's --help", {}};
}

Refusal unknown_word(const std::string& word, const std::vector<Options::Row>& rows) {
    if (!word.starts_with("-") || word.size() < 2)
        return {"'" + shown(word) + "'", "no further word here", "put text with spaces in quotes, and a value behind its option", {}};
    const std::string name = word.substr(0, word.find('='));
    return {"option '" + shown(name) + "'", "an option of this command", "see the command's --help", nearest(name, option_names(rows))};
}

Check forgotten_value(const Options::Row& row, const std::vector<std::string>& typed, const std::vector<std::string>& options) {
    for (const std::string& value : typed)
        if (std::find(options.begin(), options.end(), value) != options.end()) return no_value(row);
    return {};
}

Check take_all(const std::vector<Options::Row>& rows, const Typed& typed) {
    const std::vector<std::string> options = option_names(rows);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const Options::Row& row = rows[i];
        if (auto checked = forgotten_value(row, typed[i], options); !checked) return checked;
        if (typed[i].empty()) {
            if (row.needed) {
                const std::string how = row.named() ? row.name + " " + row.value : row.name;
                return Refusal{"no " + row.name, row.about, "add " + how + "; see the command's --help", {}};
            }
            continue;
        }
        if (typed[i].size() > 1 && !row.many && !row.flag())
            return Refusal{
                row.name + " given " + std::to_string(typed[i].size()) + " times", row.name + " once", "leave one of them out", {}};
        if (auto checked = row.take(typed[i]); !checked) return checked;
    }
    return {};
}

}  // namespace

Check Options::parse(const std::vector<std::string>& words) const {
    CLI::App app;
    app.set_help_flag();
    app.allow_extras();
    Typed typed(rows_.size());
    for (std::size_t i = 0; i < rows_.size(); ++i) add_to(app, rows_[i], i, typed[i]);
    try {
        app.parse(std::vector<std::string>(words.rbegin(), words.rend()));
    } catch (const CLI::ParseError& error) {
        return not_understood(error.what(), rows_);
    }
    for (const std::string& word : app.remaining())
        if (word != "--") return unknown_word(word, rows_);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (!rows_[i].flag()) continue;
        for (const std::string& value : app.get_option(rows_[i].name)->results()) {
            if (value != "true") return Refusal{rows_[i].name + " with a value", rows_[i].name + " alone", "leave the value out", {}};
            typed[i] = {"yes"};
        }
    }
    return take_all(rows_, typed);
}

}  // namespace peelbook::cli
