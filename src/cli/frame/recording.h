#pragma once
// What every recording command shares: who, when, why, and how it is told afterwards.
#include <optional>
#include <string>
#include <vector>

#include "cli/frame/context.h"
#include "cli/frame/exit_codes.h"
#include "cli/frame/options.h"
#include "record/payload.h"

namespace peelbook::site {
struct Receipt;
}

namespace peelbook::cli {

struct Recording {
    std::string site;
    std::string by;     // initials; empty: PEELBOOK_BY
    std::string at;     // as typed; empty: now
    std::string token;  // empty: none
    std::string why;
    bool already_done = false;
    bool json = false;
};

// --by --at --token --already-done --why --json --site, listed last in help. Call it after the command's own
// options.
void add_recording(Options& options, Recording& recording, Need why = Need::optional);
// The same without --at and --already-done: for what can only happen now (adopting a plan, correcting an
// entry).
void add_recording_now(Options& options, Recording& recording, Need why = Need::optional);

// --by or PEELBOOK_BY; refused when neither says who.
Result<std::string> who(const Context& context, const Recording& recording);
// A time as typed, in the site's zone; none for an empty text.
Result<std::optional<Instant>> when(const Context& context, const site::Site& site, const std::string& typed);

// Opens the site, writes the statement and prints the receipt. not_within when something does not hold.
Result<Exit> record(Context& context, const Recording& recording, record::Statement says);
// The same for a site that is open already.
Result<Exit> record(Context& context, site::Site& site, const Recording& recording, record::Statement says);

// Several statements at one time, all or none. With a token, the n-th gets TOKEN/n.
Result<Exit> record_all(Context& context, const Recording& recording, const std::vector<record::Statement>& statements);

// Prints a receipt, as text or as JSON.
Exit tell(Context& context, const site::Site& site, const site::Receipt& receipt, bool json);

}  // namespace peelbook::cli
