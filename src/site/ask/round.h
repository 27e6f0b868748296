#pragma once
// A delivery round: each customer's list is what went to them by it on their last day, with the exceptions of today, and lots are proposed for
// it, first expired first among those that the gate lets go. It only proposes. What then leaves is recorded lot by lot, or a recall by lot
// would be empty.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/calendar.h"
#include "book/rows.h"
#include "record/payload.h"

namespace peelbook::site {

// Whoever is passed over for some days, or comes once a week, keeps a list.
inline constexpr Duration round_looks_back = days(7);

// So much of it for them today, whatever the list says: "CAFE-1:pan-loaf=40".
struct RoundOrder {
    std::string whom;  // a partner, or own-shop or staff-shop
    std::string what;  // a product or material; or a lot, and it shall be of that
    std::int64_t pieces = 0;
    std::optional<Measure> mass;  // of what is not counted in pieces
};

struct RoundQuestion {
    std::string name;
    std::vector<std::string> customers;  // begin with what went to these by any way; none: with what went by the round
    std::optional<Date> like;            // of that production day; absent: of each customer's last one before today
    bool orders_only = false;            // the orders are the whole list
    std::vector<RoundOrder> orders;
    std::vector<std::string> skip;  // a customer, or "CAFE-1:pan-loaf"
    Instant at;
};

struct RoundLine {
    std::string whom;
    Way way = Way::customer;
    std::string item, label, lot;  // label: as it went last; lot: that it shall be of; both may be empty
    bool packed = false, in_mass = false;
    std::optional<Date> like;                                  // the day whose list it is; none: ordered today
    std::int64_t wanted = 0, gone = 0;                         // pieces or mg; gone: by this round, today already
    std::vector<std::pair<std::string, std::int64_t>> lots{};  // proposed, with how much of each
    std::int64_t lacking() const;                              // what is neither gone nor proposed
};

struct Round {
    std::string name;
    std::vector<RoundLine> lines;   // by customer and product
    std::vector<std::string> kept;  // lots that would do and may not go, and why; of products that are short
    // What the proposal comes to. Each customer's delivery note is `document`/CUSTOMER.
    std::vector<record::MovedOut> shipments(const std::string& document, const std::string& carrier) const;
};

}  // namespace peelbook::site
