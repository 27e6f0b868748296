#include "cli/frame/command.h"
#include "cli/receiving/taken_out.h"

namespace peelbook::cli {
namespace {

Result<Exit> sample(Context& context, const TakenOut& given) { return record_taken_out(context, given, "sample"); }

}  // namespace

extern const Command sample_command;
const Command sample_command{.name = "sample",
                             .group = Group::receiving,
                             .about = "Take a sample of a lot.",
                             .more = {},
                             .examples = "peelbook sample PAN-1 2pcs --why 'shelf-life shelf' --by QA",
                             .takes_at = true,
                             .body = body<TakenOut, set_up_taken_out, sample>()};

}  // namespace peelbook::cli
