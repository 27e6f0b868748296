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
    std::int64_t value = 0;  // thousandths of a degree; of an inspection 1 for yes
    bool trusted = true;     // by an instrument that was ever calibrated
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
    std::map<std::string, Instant> steps;
    std::vector<Decision> decisions;
    bool refused = false, finished = false;
    std::string held;    // empty: free; else why: "named", "made of named", "made of named, none left then", "in a warm room"
    Seq released = 0;    // the last release that named it
    std::string use_by;  // of milk: "2026-11-24"
    std::string place, label;
    std::set<std::string> allergens;           // declared of it
    std::int64_t pieces = 0, mg = 0;           // on hand, as stated
    std::map<std::string, std::int64_t> sent;  // pieces, by customer
    std::int64_t returned = 0;
};

class Facts {
  public:
    void take(const record::Entry& entry);

    const Lot* lot(const std::string& code) const;
    const std::map<std::string, Lot>& lots() const { return lots_; }
    const std::vector<Read>& detector() const { return detector_; }  // in order of time
    std::string in_silo(Instant at) const;                           // the blend that stood there; empty: none
    const Lot* lot_of(Seq seq) const;                                // that the entry made
    std::string newest() const { return by_id_.empty() ? "" : by_id_.rbegin()->second; }
    int plan() const { return adoptions_ - 1; }

  private:
    void read_again();
    void apply(const record::Entry& entry, const record::Statement& says);
    template <class S> void say(const record::Entry& entry, const S& says);
    Lot& born(const record::Entry& entry, const std::string& code, const std::string& kind, const std::string& item);
    Lot* find(const std::string& code);
    void part_of(Lot& lot, const std::string& code);
    void hold(const std::string& code, const std::string& why);
    void take_out(const std::string& code, std::int64_t pieces, const std::optional<Measure>& mass);

    std::vector<record::Entry> entries_;
    std::map<Seq, record::Amended> amended_;
    std::set<Seq> voided_;
    std::map<std::string, Lot> lots_;
    std::map<Seq, std::string> by_id_;
    std::vector<Read> detector_;
    std::vector<std::pair<Instant, std::string>> silo_;  // fills and inspected emptyings
    int adoptions_ = 0;
};

}  // namespace peelbook::simulate
