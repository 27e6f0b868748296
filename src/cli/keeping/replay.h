#pragma once
// Runs a file of commands: one a line, words as a shell takes them apart, '#' begins a comment, empty lines
// do nothing. A line may begin with a time stamp, ISO 8601 with offset:
//
//   2026-11-16T04:02+01:00 start pan-loaf --flour 200lb --by MK
//
// The shipped `peelbook replay` takes the stamp as --at, unless the line has its own: what it replays of the
// past shows as late, because the clock cannot be turned back. A program with a clock set by hand turns it in
// `on_stamp` instead; then --at in a line makes a late entry.
#include <functional>
#include <string>
#include <string_view>

#include "cli/frame/context.h"
#include "cli/frame/exit_codes.h"

namespace peelbook::cli {

struct Replay {
    std::string name;                       // of the file, for messages
    bool keep_going = false;                // past a refused line; a damaged book or a failed machine ends it all the same
    bool verbose = false;                   // print every answer, not only what is not within
    std::function<void(Instant)> on_stamp;  // empty: the stamp becomes --at
};

struct Replayed {
    std::size_t done = 0, not_within = 0, refused = 0;  // lines
    Exit exit = Exit::done;                             // the gravest of its lines
};

// Prints to the context's streams: what is not within, what is refused (as FILE:LINE), and a summary.
Replayed replay(Context& context, std::string_view text, const Replay& how);

}  // namespace peelbook::cli
