#pragma once
// What the program tells the shell. Scripts depend on these numbers: do not change.
namespace peelbook::cli {

enum class Exit : int {
    done = 0,            // it was done
    not_within = 1,      // recorded (or status, due, plan check answered), and there is a deviation, unproven or missing
    refused = 2,         // usage or input: nothing was written
    damaged = 3,         // the book contradicts itself
    machine_failed = 4,  // disk, permission, a broken pipe, or a fault of the program itself
};

// Of two, the one to report: the larger number is the graver.
constexpr Exit graver(Exit a, Exit b) { return a < b ? b : a; }

}  // namespace peelbook::cli
