#pragma once
// The order of the day on one line: calc/sequence.h on the plan's equipment, cleanings and labels, from what lies there now.
#include <optional>
#include <string>
#include <vector>

#include "calc/sequence.h"
#include "site/ask/line_cleaning.h"

namespace peelbook::site {

struct SequenceProduct {
    std::string product;  // of the plan; each once
    std::int64_t batches = 1;
    std::int64_t minutes = 0;                 // of all its batches together, cleaning not counted
    std::optional<std::int64_t> due_minutes;  // from the start of the line
};

struct SequenceStep {
    std::string product;
    std::int64_t batches = 1;
    LineCleaning before;
    std::int64_t done = 0;  // minutes from the start of the line
    std::optional<std::int64_t> due_minutes;
};

struct SequenceProposal {
    std::string line;
    bool found = false;
    bool proven = false;                          // found: no order needs less cleaning. Not found: no order works
    std::vector<SequenceStep> order;              // not found: the order that needs the cheapest extra cleaning, when there is one
    std::int64_t cleaning_minutes = 0, cost = 0;  // of `order`
    std::int64_t bound = 0;                       // minutes of cleaning that every order needs
    std::int64_t given_order_minutes = 0;         // cleaning of the order given
    std::vector<std::string> given_order_breaks;  // "tin-loaf late", "hazelnut on slicer before tin-loaf": it does not work as given
    std::vector<std::string> reasons;             // why no order works
};

// Refused: an unknown line or product, a product of another line, one named twice, minutes below 1.
Result<SequenceProposal> propose_sequence(const plan::Plan& plan, const std::string& line, const std::vector<SequenceProduct>& given,
                                          const Lying& now);

}  // namespace peelbook::site
