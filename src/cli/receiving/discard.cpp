#include "cli/frame/command.h"
#include "cli/receiving/taken_out.h"

namespace peelbook::cli {
namespace {

Result<Exit> discard(Context& context, const TakenOut& given) { return record_taken_out(context, given, "waste"); }

}  // namespace

extern const Command discard_command;
const Command discard_command{.name = "discard",
                              .group = Group::receiving,
                              .about = "Throw a lot away, or a part of it.",
                              .more = {},
                              .examples =
                                  "peelbook discard PAN-1 4pcs --why 'fell on the floor' --by RS\n"
                                  "peelbook discard CUSTARD-1 rest --why 'cooled too slowly' --by QA",
                              .takes_at = true,
                              .body = body<TakenOut, set_up_taken_out, discard>()};

}  // namespace peelbook::cli
