#pragma once
// An entry of the book around its payload, and its canonical bytes.
//
// The bytes of an entry ("body") are JSON (RFC 8259) written one way only: UTF-8, no space between tokens, keys ASCII and in
// byte order, numbers whole and of magnitude below 2^53, no null, no duplicate key; in strings only '"', '\' and
// characters below U+0020 are escaped (\b \t \n \f \r, else \u00xx in lower case). Keys of the body:
//   "at"      happened, Unix ms            "by"     initials             "format"  1
//   "kind"    the payload's kind           "seq"    place in the book    "says"    the payload, an object
//   "token"   client token, if any         "written" Unix ms
// A measure is {"typed":"93.4C","value":93400}; a date is "2026-11-24"; an instant is Unix ms. An amendment says
//   {"happened":ms,"statement":{"kind":"reading","says":{..}},"target":seq,"why":".."}
// In "says" what holds nothing is not written: an absent optional, an empty text or list, false, the number 0, and an inner
// object whose every field holds nothing; reading gives back just that. Members of a list are always written.
//
// hash(n) = SHA-256(hash(n-1) || body(n)), hash(0) = 32 zero bytes.
#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/instant.h"
#include "base/result.h"
#include "record/payload.h"

namespace peelbook::record {

struct Entry {
    Seq seq = 0;
    Instant happened;
    Instant written;
    std::string by;     // initials
    std::string token;  // empty: none
    Payload payload;
};

// Throws std::logic_error for what must have been refused before: a number of 2^53 or more, text that is not UTF-8.
std::string to_body(const Entry& entry);

// Refused: bytes that are not canonical JSON of a known kind and format; `wanted` says what is wrong. Unknown keys are
// refused too: nothing in a body goes unread.
Result<Entry> from_body(std::string_view body);

// For people: "field: value" pairs of a payload in field order, values as typed. Used by `plan changes`, amendments sheets,
// receipts. Nested parts are written as "parts: A 12 pieces, B 12 pieces".
std::vector<std::pair<std::string, std::string>> described(const Statement& s);
std::string in_one_line(const Statement& s);  // the same in one line: "lot: PAN-1; step: bake"

using Hash = std::array<std::uint8_t, 32>;
Hash sha256(std::string_view bytes);
Hash chained(const Hash& before, std::string_view body);  // SHA-256(before || body)
std::string to_hex(const Hash& hash);                     // lower case
inline constexpr Hash no_hash{};                          // hash(0)

}  // namespace peelbook::record
