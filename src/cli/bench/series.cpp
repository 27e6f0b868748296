#include <unistd.h>

#include <ostream>

#include "base/text.h"
#include "cli/frame/command.h"
#include "cli/frame/recording.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct SeriesGiven {
    record::SeriesTaken series;
    std::string file;
    Recording recording;
};

void set_up(Options& options, SeriesGiven& given) {
    options.word(given.series.subject, "SUBJECT", "the batch, lot, place or device that was logged")
        .word(given.series.point, "POINT", "the control point, as the plan names it")
        .word(given.file, "FILE", "the logger's file: a line a reading")
        .text(given.series.logger, "--logger", "LOGGER",
              "how the file is written: a [[logger]] of the plan; else time and value, parted by ';', tab or ','")
        .text(given.series.column, "--column", "NAME", "the column of values, where the logger has several for this point")
        .text(given.series.value_unit, "--unit-of-values", "UNIT",
              "the unit of the values in the file, where no logger of the plan says it: C, F, ...")
        .text(given.series.unit, "--unit", "UNIT", "which oven, deck or rack, where the point has several")
        .text(given.series.instrument, "--with", "INSTRUMENT", "the logger, as an instrument of the plan");
    add_recording(options, given.recording);
}

// A line on the terminal's error stream that is written over; nothing when that stream goes elsewhere.
class ProgressLine {
  public:
    explicit ProgressLine(std::ostream& err) : err_(err), shown_(::isatty(STDERR_FILENO) == 1) {}
    ~ProgressLine() {
        if (!last_.empty()) err_ << "\r" << std::string(last_.size(), ' ') << "\r" << std::flush;
    }
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    void tell(std::string_view doing, std::int64_t done, std::int64_t of) {
        if (!shown_ || of <= 0) return;
        constexpr std::int64_t marks = 30;
        const auto full = static_cast<std::size_t>(done * marks / of);
        std::string line = "[" + std::string(full, '#') + std::string(static_cast<std::size_t>(marks) - full, '.') + "] " +
                           std::to_string(done * 100 / of) + " % " + std::string(doing);
        if (line == last_) return;
        const std::size_t over = last_.size() > line.size() ? last_.size() - line.size() : 0;
        err_ << "\r" << line << std::string(over, ' ') << std::flush;
        last_ = std::move(line);
    }

  private:
    std::ostream& err_;
    bool shown_;
    std::string last_;
};

Result<Exit> act(Context& context, const SeriesGiven& given) {
    const auto by = who(context, given.recording);
    if (!by) return by.refusal();
    const std::filesystem::path file = context.here / given.file;
    const auto bytes = context.files.open(file);
    if (!bytes) return Refusal{"file '" + shown(given.file) + "'", "a file that can be read", "check the name and the folder", {}};
    const auto site = context.site(given.recording.site);
    if (!site) return site.refusal();
    const auto happened = when(context, **site, given.recording.at);
    if (!happened) return happened.refusal();
    record::SeriesTaken series = given.series;
    series.file = file.filename().string();
    const site::Draft rest{.says = {},
                           .by = *by,
                           .happened = *happened,
                           .token = given.recording.token,
                           .already_done = given.recording.already_done,
                           .why = given.recording.why};
    const auto receipt = [&] {
        ProgressLine line(context.err);
        return (*site)->record_series(series, *bytes, rest,
                                      [&](std::string_view doing, std::int64_t done, std::int64_t of) { line.tell(doing, done, of); });
    }();
    if (!receipt) return receipt.refusal();
    return tell(context, **site, *receipt, given.recording.json);
}

}  // namespace

extern const Command series_command;
const Command series_command{.name = "series",
                             .group = Group::bench,
                             .about = "Record a logger's file: its rows become readings, the file is kept in the book.",
                             .more =
                                 "Gaps, doubled rows, rows out of order and a clock that was moved are told and kept beside it.\n"
                                 "A file of a place is judged production day by production day.",
                             .examples =
                                 "peelbook series CUSTARD-1 custard-cooling tray-1.csv --unit-of-values C --with probe-2 --by MK\n"
                                 "peelbook series chill-room chill-air week.csv --logger chill-export --with chill-logger --by MK",
                             .takes_at = true,
                             .body = body<SeriesGiven, set_up, act>()};

}  // namespace peelbook::cli
