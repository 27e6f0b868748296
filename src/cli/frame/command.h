#pragma once
// A command: its name, what its help says, and the function behind it. Each stands in a file of its own:
//
//   namespace {
//   struct StepGiven {...};
//   void set_up(Options&, StepGiven&);
//   Result<Exit> act(Context&, const StepGiven&);
//   }
//   extern const Command step_command;
//   const Command step_command{.name = "step", ..., .body = body<StepGiven, set_up, act>()};
//
// and is made known by one line in registry.cpp.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "cli/frame/context.h"
#include "cli/frame/exit_codes.h"
#include "cli/frame/options.h"

namespace peelbook::cli {

// Who uses it: the headings of `peelbook help`, in this order.
enum class Group { bench, receiving, quality, recall, plan, keeping, calculation };

struct Command;

struct Body {
    Result<Exit> (*run)(Context&, const std::vector<std::string>& words);
    std::vector<Options::Row> (*rows)();                    // for help
    Check (*check)(const std::vector<std::string>& words);  // reads the words and does nothing
};

struct Command {
    std::string_view name;  // "reading", "plan check"
    Group group = Group::bench;
    std::string_view about;     // one line
    std::string_view more;      // further lines of help; may be empty
    std::string_view examples;  // whole command lines, one a line
    bool takes_at = false;      // it has --at: a replay hands it the time stamp of its line
    Body body;
};

template <class Given, void (*set_up)(Options&, Given&), Result<Exit> (*act)(Context&, const Given&)> constexpr Body body() {
    return {[](Context& context, const std::vector<std::string>& words) -> Result<Exit> {
                Given given;
                Options options;
                set_up(options, given);
                if (auto checked = options.parse(words); !checked) return checked.refusal();
                return act(context, given);
            },
            []() -> std::vector<Options::Row> {
                Given given;
                Options options;
                set_up(options, given);
                return options.rows();
            },
            [](const std::vector<std::string>& words) -> Check {
                Given given;
                Options options;
                set_up(options, given);
                return options.parse(words);
            }};
}

// For commands that only say where the site is and how to print.
struct Asking {
    std::string site;
    bool json = false;
};
void add_asking(Options& options, Asking& asking, bool with_json = true);
// Opens the site to read, for a command that prints a page about it: in practice (rule 58) the page says so first.
Result<site::Site*> open_page(Context& context, const Asking& asking);

}  // namespace peelbook::cli
