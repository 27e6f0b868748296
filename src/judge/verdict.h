#pragma once
#include "base/verdict.h"

namespace peelbook::judge {

using peelbook::Verdict;
using peelbook::word;
using peelbook::worse;

}  // namespace peelbook::judge
