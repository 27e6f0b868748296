#pragma once
// May so much of this lot be taken now?
#include <string>
#include <vector>

#include "site/record/admit.h"

namespace peelbook::site {

// What is on hand, and how much of it was asked for. `pieces` and `mass` are filled in for "the rest".
struct Amount {
    std::int64_t pieces = 0;
    std::optional<Measure> mass;
};
Result<Amount> take_from(const Request& r, const book::Lot& lot, std::int64_t pieces, const std::optional<Measure>& mass, bool rest);
Result<Amount> take_from(const Request& r, const book::Lot& lot, const book::Stock& stock, const Amount& asked, bool rest);

}  // namespace peelbook::site
