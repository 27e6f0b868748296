#pragma once
// Dates at the door.
#include "site/record/admit.h"

namespace peelbook::site {

// Past its date at the door: a reason, or refused, as its kind says.
Check not_past_its_date(const Request& r, const record::Received& s, const plan::Material& material);
}  // namespace peelbook::site
