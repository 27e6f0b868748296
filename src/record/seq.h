#pragma once
#include <cstdint>

namespace peelbook {

// The place of an entry in the book, from 1. Also the identity, for ever, of what the entry made (a lot, a partner).
using Seq = std::int64_t;

}  // namespace peelbook
