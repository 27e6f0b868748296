#pragma once
// Subjects that an entry is about.
#include <string>
#include <utility>
#include <vector>

#include "base/one_of.h"
#include "fold/ledger.h"

namespace peelbook::fold {

// Kinds that no fold reads: what follows from them `apply` writes itself.
template <class S>
concept OfNoSubject =
    OneOf<S, record::Opened, record::PersonAdded, record::PartnerAdded, record::PlanAdopted, record::Acted, record::Reviewed,
          record::Sealed, record::Voided, record::Countersigned, record::RecallOpened, record::RecallDecided, record::RecallWidened,
          record::Contacted, record::RecallTold, record::RecallCounted, record::RecallClosed>;

std::vector<book::Touch> touches_of(Ledger& ledger, const Effective& e);

// Checks on a place hang on the place and the point together: place#point.
std::string place_subject(const std::string& place, const std::string& point);
std::pair<std::string, std::string> place_and_point(const std::string& subject);

}  // namespace peelbook::fold
