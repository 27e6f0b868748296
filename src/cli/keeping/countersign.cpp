#include <charconv>
#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "cli/frame/waiting_text.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct CountersignGiven {
    std::vector<std::string> entries;
    bool list = false, refuse = false;
    Recording recording;
};

void set_up(Options& options, CountersignGiven& given) {
    options.words(given.entries, "ENTRY", "the number of an entry that waits; several: all or none", Need::optional);
    options.flag(given.list, "--list", "show what waits, and write nothing");
    options.flag(given.refuse, "--refuse", "it shall not count; wants --why");
    add_recording_now(options, given.recording);
}

Result<std::vector<Seq>> numbers(const std::vector<std::string>& typed) {
    std::vector<Seq> out;
    for (const auto& word : typed) {
        Seq seq = 0;
        const auto read = std::from_chars(word.data(), word.data() + word.size(), seq);
        if (read.ec != std::errc{} || read.ptr != word.data() + word.size())
            return Refusal{"'" + word + "'", "the number of an entry", "see what waits: peelbook countersign --list", {}};
        out.push_back(seq);
    }
    return out;
}

Result<Exit> act(Context& context, const CountersignGiven& given) {
    if (given.list) {
        const auto site = context.site(given.recording.site, Context::Mode::read);
        if (!site) return site.refusal();
        const auto waiting = (*site)->waiting();
        context.out << (given.recording.json ? waiting_json(waiting, (*site)->zone()).text() + "\n"
                                             : waiting_text(waiting, (*site)->zone()) + std::string(caution) + "\n");
        return waiting.empty() ? Exit::done : Exit::not_within;
    }
    const auto entries = numbers(given.entries);
    if (!entries) return entries.refusal();
    return record(context, given.recording, record::Countersigned{*entries, given.refuse, given.recording.why, false, ""});
}

}  // namespace

extern const Command countersign_command;
const Command countersign_command{.name = "countersign",
                                  .group = Group::keeping,
                                  .about = "Say as another person that what waits shall count, or shall not.",
                                  .more =
                                      "What would make something look better, typed late or as a correction, waits until somebody\n"
                                      "else has said so; until then the worse counts. It lifts no hold.",
                                  .examples =
                                      "peelbook countersign --list\n"
                                      "peelbook countersign 415 416 --by RS\n"
                                      "peelbook countersign 417 --refuse --why 'nobody saw it' --by RS",
                                  .takes_at = false,
                                  .body = body<CountersignGiven, set_up, act>()};

}  // namespace peelbook::cli
