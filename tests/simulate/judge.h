#pragma once
// A judge who is slow and obvious: it knows the limits of plan/site.toml by heart, reads what was stated, and says in which states of
// the gate a lot is. It shares no code with the program's folds and gate. Where the rules leave room it takes the milder reading, so
// that what it calls held or unsettled is so beyond argument.
#include <set>
#include <string>

#include "base/zone.h"
#include "simulate/facts.h"
#include "simulate/table.h"

namespace peelbook::simulate {

// What somebody tries to do with a lot.
struct Attempt {
    std::string act;    // of the gate's table; besides: "by-product", "returned" (goods that came back, to people again)
    std::string lot;    // or, shipped by product, the product
    std::string into;   // of a use: the batch
    std::string label;  // of a packing; of a use, where it is named
    std::string date;   // of a packing: as it is printed
    Instant at, now;    // when it is said to have happened, and when it is typed
    std::int64_t pieces = 0;
    bool already_done = false, why = false;
};

class Judge {
  public:
    Judge(const Facts& facts, const Zone& zone) : facts_(facts), zone_(zone) {}

    // The states of the gate's table that the lot of an attempt is in, with what made it so behind a colon: "finding: core". Never empty.
    std::set<std::string> states_of(const Attempt& attempt) const;
    bool is_in(const Lot& lot, const std::string& act, const std::string& state, Instant now) const;
    // Those of them that forbid it; empty: it may be done.
    std::set<std::string> forbidding(const Attempt& attempt) const;

  private:
    using States = std::set<std::string>;
    // `baked_in`: it was taken before it was baked, and this batch shows the core.
    void unsettled(const Lot& lot, States& states, std::set<std::string>& seen, const Lot* baked_in) const;
    struct Window {
        Instant from;
        std::optional<Instant> ended;  // its own step; of the cooling: the boil before it
    };
    Window window_of(const Lot& lot, const std::string& id) const;
    void point(const Lot& lot, const std::string& id, States& states) const;
    void device(const Lot& lot, const Attempt& attempt, States& states) const;
    void place(const Lot& lot, const Attempt& attempt, States& states) const;
    bool is_held(const Lot& lot) const;
    std::set<std::string> allergens(const std::string& code, std::set<std::string>& seen) const;
    bool misdated(const Lot& lot, const Attempt& attempt) const;
    bool label_short(const Attempt& attempt) const;
    std::vector<const Lot*> packs_of(const std::string& product) const;  // on hand

    const Facts& facts_;
    const Zone& zone_;
};

}  // namespace peelbook::simulate
