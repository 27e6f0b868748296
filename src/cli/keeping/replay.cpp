#include "cli/keeping/replay.h"

#include <algorithm>
#include <ostream>
#include <sstream>

#include "base/text.h"
#include "base/zone.h"
#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "cli/frame/registry.h"
#include "cli/frame/run.h"
#include "cli/frame/words.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using Words = std::vector<std::string>;

// "2026-11-16T04:02+01:00" and nothing else: no command looks like it.
bool looks_like_stamp(const std::string& word) {
    return word.size() > 10 && word[4] == '-' && word[7] == '-' && (word[10] == 'T' || word[10] == 't');
}

bool has_at(const Words& words) {
    return std::any_of(words.begin(), words.end(), [](const std::string& word) { return word == "--at" || word.starts_with("--at="); });
}

class Replayer {
  public:
    Replayer(Context& context, const Replay& how) : context_(context), how_(how) {}

    Replayed run(std::string_view text) {
        while (!text.empty() && !stopped_) {
            const std::size_t end = text.find('\n');
            ++line_;
            run_line(text.substr(0, end));
            text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        }
        const std::size_t lines = result_.done + result_.not_within + result_.refused;
        context_.out << "replayed " << lines << " lines of " << how_.name << ": " << result_.done << " done, " << result_.not_within
                     << " not within, " << result_.refused << " refused\n";
        if (result_.not_within > 0) context_.out << caution << '\n';
        return result_;
    }

  private:
    std::string place() const { return how_.name + ":" + std::to_string(line_) + ": "; }

    void fail(Exit code, const std::string& message) {
        context_.err << place() << message;
        result_.refused += 1;
        result_.exit = graver(result_.exit, code);
        stopped_ = code != Exit::refused || !how_.keep_going;
    }
    void refuse(std::string_view line, const Refusal& refusal) {
        std::ostringstream message;
        message << trimmed(line) << '\n';
        print_refusal(message, refusal);
        fail(Exit::refused, message.str());
    }

    void run_line(std::string_view line) {
        auto words = split_words(line);
        if (!words) return refuse(line, words.refusal());
        if (words->empty()) return;
        if (looks_like_stamp(words->front())) {
            const std::string stamp = words->front();
            const auto time = parse_when(stamp, Zone::utc(), context_.clock.now());
            if (!time) return refuse(line, time.refusal());
            words->erase(words->begin());
            take_program_name(*words);
            if (how_.on_stamp) how_.on_stamp(*time);
            if (!how_.on_stamp) take_as_at(*words, stamp);
        }
        take_program_name(*words);
        if (!words->empty()) run_words(*words, trimmed(line));
    }

    // Lines copied from a shell's history may begin with it.
    static void take_program_name(Words& words) {
        if (!words.empty() && words.front() == "peelbook") words.erase(words.begin());
    }

    static void take_as_at(Words& words, const std::string& stamp) {
        const Named named = find_command(words);
        if (named.command == nullptr || !named.command->takes_at || has_at(words)) return;
        words.push_back("--at=" + stamp);
    }

    void run_words(const Words& words, std::string_view line) {
        std::ostringstream out;
        std::ostringstream err;
        Context own = context_.with_streams(out, err);
        const Exit code = cli::run_line(own, words);
        if (code >= Exit::refused) return fail(code, std::string(line) + "\n" + out.str() + err.str());
        result_.exit = graver(result_.exit, code);
        (code == Exit::done ? result_.done : result_.not_within) += 1;
        if (code == Exit::not_within || how_.verbose) context_.out << place() << line << '\n' << without_caution(out.str());
    }

    // The caution stands once, at the end.
    static std::string without_caution(std::string text) {
        const std::string line = std::string(caution) + "\n";
        const std::size_t at = text.rfind(line);
        if (at != std::string::npos) text.erase(at, line.size());
        return text;
    }

    Context& context_;
    const Replay& how_;
    Replayed result_;
    std::size_t line_ = 0;
    bool stopped_ = false;
};

// --- the command

struct ReplayGiven {
    std::string file;
    bool keep_going = false, verbose = false;
    Asking asking;
};

void set_up(Options& options, ReplayGiven& given) {
    options.word(given.file, "FILE", "one command a line, without the program's name; - reads standard input")
        .flag(given.keep_going, "--keep-going", "go on after a refused line")
        .flag(given.verbose, "--verbose", "show every answer, not only what is not within");
    add_asking(options, given.asking, false);
}

Result<Exit> act(Context& context, const ReplayGiven& given) {
    std::string text;
    if (given.file == "-") {
        text.assign(std::istreambuf_iterator<char>(context.in), {});
    } else {
        const auto read = context.files.read(context.here / given.file);
        if (!read) return Refusal{"file '" + shown(given.file) + "'", "a file that can be read", "check the name and the folder", {}};
        text = *read;
    }
    if (!given.asking.site.empty()) context.site_folder = given.asking.site;
    const Replay how{.name = given.file, .keep_going = given.keep_going, .verbose = given.verbose, .on_stamp = {}};
    return replay(context, text, how).exit;
}

}  // namespace

Replayed replay(Context& context, std::string_view text, const Replay& how) { return Replayer(context, how).run(text); }

extern const Command replay_command;
const Command replay_command{.name = "replay",
                             .group = Group::keeping,
                             .about = "Run a file of commands, each line an entry of its own.",
                             .more =
                                 "A line may begin with a time stamp like 2026-11-16T04:02+01:00, which is taken as --at. The true "
                                 "clock is\n"
                                 "written all the same, so a replayed past shows as late. It stops at the first refused line and "
                                 "names it.",
                             .examples = "peelbook replay week.txt\npeelbook replay week.txt --keep-going --verbose",
                             .takes_at = false,
                             .body = body<ReplayGiven, set_up, act>()};

}  // namespace peelbook::cli
