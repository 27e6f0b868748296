#pragma once
// A refusal as one line, so that a test can hold the entire message.
#include <string>

#include "base/result.h"
#include "base/text.h"

namespace peelbook {

inline std::string said(const Refusal& refusal) {
    std::string line = refusal.given + " | " + refusal.wanted + " | " + refusal.next;
    if (!refusal.nearest.empty()) line += " | " + joined(refusal.nearest, ", ");
    return line;
}

template <class T> std::string said(const Result<T>& result) { return result ? "(accepted)" : said(result.refusal()); }

inline std::string said(const Check& check) { return check.ok() ? "(accepted)" : said(check.refusal()); }

}  // namespace peelbook
