#pragma once
// The moments at which a place was read at a point: single checks and the rows of loggers' files, none of
// them voided. A gap belongs to the last of those that share its first moment, in order of their entries, so
// that it is told once.
#include <limits>

#include "fold/ledger.h"

namespace peelbook::fold {

// Earlier and later than any moment.
inline constexpr book::Int never = std::numeric_limits<book::Int>::min(), ever = std::numeric_limits<book::Int>::max();

class PlaceMoments {
  public:
    PlaceMoments(Ledger& ledger, std::string place, std::string point)
        : rows_(ledger.rows()), place_(std::move(place)), point_(std::move(point)) {}

    std::optional<Instant> before(Instant at) const;  // the last one earlier than `at`
    // The first one later than `at`, seen from entry `seq`; `at` itself when another entry behind `seq` owns
    // the moment too.
    std::optional<Instant> after(Instant at, Seq seq) const;
    std::optional<Instant> first(Instant from) const;  // at or after

  private:
    book::Derived& rows_;
    std::string place_, point_;
};

}  // namespace peelbook::fold
