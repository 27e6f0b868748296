#pragma once
// A judge who is slow and obvious: it knows the limits of plan/bakery.toml by heart, reads what was stated, and says in which states of
// the gate a lot is. It shares no code with the program's folds and gate. Where the rules leave room it takes the milder reading, so
// that what it calls held or unsettled is so beyond argument.
#include <set>
#include <string>

#include "base/zone.h"
#include "simulate/facts.h"

namespace peelbook::simulate {

// What somebody tries to do with a lot.
struct Attempt {
    std::string act;    // one of `acts`
    std::string lot;    // or, shipped by product, the product
    std::string into;   // of a use: the batch
    std::string label;  // of a packing
    Instant at;
    std::int64_t pieces = 0;
    bool already_done = false;
};

inline const std::vector<std::string> acts = {
    "use",      "rework",     "fill",     "pack",        "ship by lot", "ship by product", "own shop",
    "van",      "staff shop", "donation", "animal feed", "co-packer",   "returned goods",  "release",
    "count up", "split",      "move",     "waste",       "sample",      "return"};
inline const std::vector<std::string> states = {"free",         "held",       "refused",     "finding open", "worse than signed",
                                                "not recorded", "device bad", "device open", "past use-by",  "label short",
                                                "rework",       "downgrade",  "discard",     "not finished"};

class Judge {
  public:
    Judge(const Facts& facts, const Zone& zone) : facts_(facts), zone_(zone) {}

    // The states that the lot of an attempt is in, with what made it so behind a colon: "finding open: core". Never empty.
    std::set<std::string> states_of(const Attempt& attempt) const;
    // Those of them that forbid it; empty: it may be done.
    std::set<std::string> forbidding(const Attempt& attempt) const;

  private:
    using States = std::set<std::string>;
    // `raw`: it was taken before it was baked, so that the core of what it went into is its own.
    void unsettled(const Lot& lot, States& states, std::set<std::string>& seen, bool raw) const;
    void point(const Lot& lot, const std::string& id, States& states) const;
    void device(const Lot& pack, States& states) const;
    std::set<std::string> allergens(const std::string& code, std::set<std::string>& seen) const;
    bool label_short(const Attempt& attempt) const;
    std::vector<const Lot*> packs_of(const std::string& product) const;  // on hand

    const Facts& facts_;
    const Zone& zone_;
};

}  // namespace peelbook::simulate
