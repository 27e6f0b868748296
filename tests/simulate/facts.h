#pragma once
// What the entries of a book say of each lot, read the slow way: from the first entry on, anew after every correction. It shares
// nothing with the program but the form of an entry. The people of the simulator look at it to find something to do, the judge to
// find what must not be done.
#include <map>
#include <set>
#include <string>
#include <vector>

#include "record/entry.h"

namespace peelbook::simulate {

struct Read {
    Seq seq = 0;
    Instant at;
    std::string point;
    std::int64_t value = 0;    // thousandths of a degree; of an inspection 1 for yes
    std::string instrument{};  // of a reading
    std::string unit{};
};

struct StepTold {  // that a step ended, or was begun again
    Instant at;
    bool again = false;
};

struct Decision {  // a signed disposition of a finding
    Seq seq = 0;
    std::string point, disposition;
};

struct Lot {
    Seq id = 0;
    std::string code, item, kind;  // kind: "received" "supply" "batch" "rack" "pack" "blend"
    Instant at;
    int plan = 0;                   // which version was in force
    std::string whole;              // of a rack: the batch
    std::vector<std::string> from;  // what surely became part of it
    std::set<std::string> raw;      // of these: taken before it was finished, so that its bake is this lot's
    std::vector<Read> reads;
    std::map<std::string, std::vector<StepTold>> steps;
    std::optional<Instant> finished_at;
    std::vector<Decision> decisions;
    bool refused = false, finished = false;
    std::string held;  // empty: free; else why: "named", "made of named", "made of named, none left then", "in a warm room"
    Seq released = 0;  // the last release that named it
    std::string date;  // as received, or as printed on the pack: "2026-11-24"
    std::string place, label, printed, supplier_lot;
    std::set<std::string> allergens;           // declared of it
    std::int64_t pieces = 0, mg = 0;           // on hand, as stated
    std::map<std::string, std::int64_t> sent;  // pieces, by customer
    std::int64_t returned = 0;
};

class Facts {
  public:
    void take(const record::Entry& entry);
    // These shall not count: what waits for a countersign, or was refused one.
    void leave_out(std::set<Seq> entries);

    const Lot* lot(const std::string& code) const;
    const std::map<std::string, Lot>& lots() const { return lots_; }
    // Of "detector" and "chill", in order of time, and of entries at one time.
    const std::vector<Read>& checks(const std::string& place) const;
    bool is_decided(Seq check, std::int64_t ord) const { return decided_.contains({check, ord}); }  // a finding of a place
    const std::vector<std::pair<Seq, Instant>>& adoptions() const { return adoptions_; }
    const std::vector<record::Outage>& outages() const { return outages_; }
    bool is_trusted(const Read& read) const { return calibrated_.contains(read.instrument); }  // by what was ever calibrated
    bool is_recalled(const std::string& code) const;  // an open recall covers it, and it is not left out
    bool is_vessel(const std::string& code) const { return vessels_.contains(code); }
    std::string standing_in(const std::string& vessel, Instant at) const;  // the blend; empty: none
    const Lot* lot_of(Seq seq) const;                                      // that the entry made
    std::string newest() const { return by_id_.empty() ? "" : by_id_.rbegin()->second; }
    int plan() const { return static_cast<int>(adoptions_.size()) - 1; }

  private:
    void read_again();
    void apply(const record::Entry& entry, const record::Statement& says);
    template <class S> void say(const record::Entry& entry, const S& says);
    Lot& born(const record::Entry& entry, const std::string& code, const std::string& kind, const std::string& item);
    Lot* find(const std::string& code);
    void part_of(Lot& lot, const std::string& code);
    void hold(const std::string& code, const std::string& why);
    void check(const std::string& place, Read read);
    void take_out(const std::string& code, std::int64_t pieces, const std::optional<Measure>& mass);

    std::vector<record::Entry> entries_;
    std::map<Seq, std::vector<std::pair<Seq, record::Amended>>> amended_;  // by target
    std::map<Seq, Seq> voided_;                                            // by target
    std::set<Seq> left_out_;
    std::map<std::string, Lot> lots_;
    std::map<Seq, std::string> by_id_;
    std::map<std::string, std::vector<Read>> checks_;
    std::set<std::pair<Seq, std::int64_t>> decided_;
    std::map<std::string, std::vector<std::pair<Instant, std::string>>> vessels_;  // fills and inspected emptyings
    std::vector<std::pair<Seq, Instant>> adoptions_;
    std::vector<record::Outage> outages_;
    std::set<std::string> calibrated_;
    struct Recall {
        std::string hazard;
        std::set<std::string> covered;
        std::map<std::string, std::string> left_out;  // the hazard that it was about
    };
    std::map<std::string, Recall> recalls_;  // open ones, no drills
};

}  // namespace peelbook::simulate
