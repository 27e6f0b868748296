#include "cli/frame/run.h"

#include <algorithm>
#include <exception>
#include <ostream>

#include "base/text.h"
#include "cli/frame/help_text.h"
#include "cli/frame/registry.h"

namespace peelbook::cli {
namespace {

using Words = std::vector<std::string>;

bool asks_for_help(const Words& words) {
    for (const std::string& word : words) {
        if (word == "--") return false;
        if (word == "--help" || word == "-h") return true;
    }
    return false;
}

// Takes --site from in front of the command.
Check take_site(Context& context, Words& words) {
    constexpr std::string_view option = "--site";
    while (!words.empty() && words.front().starts_with(option)) {
        const std::string first = words.front();
        std::size_t taken = 1;
        if (first.starts_with("--site=")) {
            context.site_folder = first.substr(option.size() + 1);
        } else if (first == option && words.size() > 1) {
            context.site_folder = words[1];
            taken = 2;
        } else {
            return Refusal{"'" + shown(first) + "'", "--site with a folder", "type it as --site DIR", {}};
        }
        words.erase(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(taken));
    }
    return {};
}

Result<Exit> run_words(Context& context, Words words) {
    if (auto checked = take_site(context, words); !checked) return checked.refusal();
    if (words.empty() || words.front() == "--help" || words.front() == "-h") {
        context.out << program_help();
        return Exit::done;
    }
    if (words.front() == "--version") words.front() = "version";
    const Named named = find_command(words);
    if (named.command == nullptr) {
        const std::string family = family_help(words.front());
        if (!family.empty() && (words.size() == 1 || asks_for_help(words))) {
            context.out << family;
            return Exit::done;
        }
        return unknown_command(words);
    }
    words.erase(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(named.words));
    if (asks_for_help(words)) {
        context.out << command_help(*named.command);
        return Exit::done;
    }
    return named.command->body.run(context, words);
}

}  // namespace

void print_refusal(std::ostream& err, const Refusal& refusal) {
    err << "refused: " << refusal.given << '\n';
    if (!refusal.wanted.empty()) err << "wanted: " << refusal.wanted << '\n';
    if (!refusal.next.empty()) err << "next: " << refusal.next << '\n';
    if (!refusal.nearest.empty()) err << "nearest: " << joined(refusal.nearest, ", ") << '\n';
}

Exit run_line(Context& context, const Words& args) {
    try {
        const Result<Exit> result = run_words(context, args);
        if (result) return *result;
        print_refusal(context.err, result.refusal());
        return Exit::refused;
    } catch (const Damaged& damaged) {
        context.err << "damaged: " << damaged.what() << '\n';
        return Exit::damaged;
    } catch (const MachineFailed& failed) {
        context.err << "failed: " << failed.what() << '\n';
        return Exit::machine_failed;
    } catch (const std::exception& error) {
        context.err << "failed: " << error.what() << "\nnext: this is a fault of peelbook itself; nothing was written by this command\n";
        return Exit::machine_failed;
    }
}

int run(Context& context, const Words& args) {
    Exit code = run_line(context, args);
    context.out.flush();
    if (!context.out) {
        context.err << "failed: the answer could not be written out\n"
                       "next: free the disk or mend the pipe; what was recorded stays recorded\n";
        code = Exit::machine_failed;
    }
    return static_cast<int>(code);
}

}  // namespace peelbook::cli
