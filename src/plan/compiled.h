#pragma once
// A plan that was read once, in a form that is read again some fifty times faster than its TOML texts: a command which
// records one entry would else spend most of its time on them. Derived from the texts, kept beside them, never instead.
//
//   number     decimal digits, a minus before a negative one, then ';'. Truth is 0 or 1, a choice its place in the enum.
//   text       its length in bytes, ':', the bytes
//   list       its length as a number, then the items; an absent value is a list of none, a present one a list of one
//   variant    the place of its alternative as a number, then that
//   struct     its members in the order of its list (lists.h)
//   whole      "peelbook plan N;" with N = compiled_format, then the plan, and nothing after it
#include <optional>
#include <string>
#include <string_view>

#include "plan/plan.h"

namespace peelbook::plan {

// One more whenever a list of lists.h, or an enum or value in it, changes.
inline constexpr int compiled_format = 10;

std::string compiled(const Plan& plan);

// None when it is of another format or not whole: read the texts instead.
std::optional<Plan> from_compiled(std::string_view text);

}  // namespace peelbook::plan
