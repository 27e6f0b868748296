#pragma once
// A failing history cut down to the fewest lines that still fail in the same way.
#include "simulate/run.h"

namespace peelbook::simulate {

// Whether the violation is still there when only these lines are typed.
bool still_fails(const Folders& folders, const History& history, const Violation& violation);

// Up to the first failing prefix, then by taking away ever smaller parts (delta debugging, Zeller and Hildebrandt 2002), then by simpler
// numbers.
History shrunk(const Folders& folders, const History& history, const Violation& violation);

}  // namespace peelbook::simulate
