#pragma once
// Everything the entries say of one lot, gathered in order. The first half of a lot's fold: no judgement here.
#include <optional>
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "fold/lot_plans.h"
#include "judge/facts.h"

namespace peelbook::fold {

struct Derivation;

struct LotFacts {
    bool made = false;  // an entry that is not voided makes it
    book::Lot row;
    std::vector<book::Use> uses_before, uses;  // into it: as they stand in the book, and as the entries say
    std::vector<book::Move> moves;
    std::vector<book::StockCount> counts;
    std::vector<book::Reading> readings;
    std::vector<book::Series> series;
    std::vector<book::SeriesFault> series_faults;
    std::vector<book::Hold> holds;
    std::vector<book::Run> runs;    // on equipment
    std::vector<book::Stay> stays;  // in places of the house
    std::vector<book::Clock> clocks;
    judge::Facts facts;
    LotPlans plans;
    std::optional<record::Started> size;          // of a batch
    std::optional<record::Declaration> declared;  // of a received lot
    struct AlreadyDone {
        Seq seq = 0;
        Instant at;
        std::string what;
        std::int64_t ord = 0;  // of several lots that one entry is about, the place of this one
    };
    std::vector<AlreadyDone> already_done;
    std::optional<Instant> first_split;  // batches: from here on its racks are judged
    bool wholly_on_racks = true;         // since then: nothing of it is left by itself, or went on so; known once it is weighed
    std::int64_t spoiled = 0;            // pieces of a batch that were waste when it was finished
    bool weighed_whole = false;          // a pack with a mass of its own: what went in is not what it weighs
    std::optional<Seq> renewed_by;       // the decision that its leaven counts as a new culture
};

LotFacts gather(Derivation& d, book::LotId lot);

}  // namespace peelbook::fold
