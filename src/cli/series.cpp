#include "base/text.h"
#include "cli/command.h"
#include "cli/recording.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct Given {
    record::SeriesTaken series;
    std::string file;
    Recording recording;
};

void set_up(Options& options, Given& given) {
    options.word(given.series.subject, "SUBJECT", "the batch, lot, place or device that was logged")
        .word(given.series.point, "POINT", "the control point, as the plan names it")
        .word(given.file, "FILE", "the logger's file: a line a reading, time and value with a comma between")
        .text(given.series.value_unit, "--unit-of-values", "UNIT",
              "the unit of the values in the file: C, F, ...", Need::wanted)
        .text(given.series.unit, "--unit", "UNIT", "which oven, deck or rack, where the point has several")
        .text(given.series.instrument, "--with", "INSTRUMENT", "the logger");
    add_recording(options, given.recording);
}

Result<Exit> act(Context& context, const Given& given) {
    const auto by = who(context, given.recording);
    if (!by) return by.refusal();
    const std::filesystem::path file = context.here / given.file;
    const auto bytes = context.files.read(file);
    if (!bytes)
        return Refusal{"file '" + shown(given.file) + "'",
                       "a file that can be read",
                       "check the name and the folder",
                       {}};
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
    const auto receipt = (*site)->record_series(series, *bytes, rest);
    if (!receipt) return receipt.refusal();
    return tell(context, **site, *receipt, given.recording.json);
}

}  // namespace

extern const Command series_command;
const Command series_command{
    .name = "series",
    .group = Group::bench,
    .about = "Record a logger's file: its rows become readings, the file is kept in the book.",
    .more = {},
    .examples =
        "peelbook series CUSTARD-1 custard-cooling tray-1.csv --unit-of-values C --with probe-2 --by MK",
    .takes_at = true,
    .body = body<Given, set_up, act>()};

}  // namespace peelbook::cli
