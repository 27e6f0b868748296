#pragma once
// Which lots an entry sends on, and how. Every kind of entry is asked: one that this file does not name does not compile.
#include <optional>
#include <string>
#include <vector>

#include "fold/gate/acts.h"
#include "fold/ledger.h"

namespace peelbook::fold {

struct Passage {
    Act act = Act::use;
    book::LotId lot = 0;
    std::optional<book::LotId> into{};  // the batch it goes into
    std::string label{};                // that it is packed under, or that the batch is to be
    struct Packed {
        std::optional<Date> date;  // as printed
        bool operator==(const Packed&) const = default;
    };
    std::optional<Packed> packed{};  // what is packed
    Seq release = 0;                 // the entry that ended holds of the lot
    bool returned = false;           // of what came back: only a recall keeps it
    bool operator==(const Passage&) const = default;
};

struct Passages {
    std::vector<Passage> all;
    // Out by product, without a lot: of these any, so many pieces.
    std::vector<book::LotId> any_of{};
    book::Int pieces = 0;
    Seq seq = 0;
    bool already_done = false;
    std::string why{};
};

// Goods that were baked already are rework.
Act act_of_use(const book::Lot& from);

// Of an entry that was just derived: its uses stand in the book.
Passages passages_of(Ledger& ledger, Seq seq, const record::Statement& says);

}  // namespace peelbook::fold
