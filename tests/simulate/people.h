#pragma once
// The people of the bakery and what they type, by one seed: most of them careful, some forget a line, type late or wrongly or twice, and
// some try what they must not. What they do next depends on what was accepted, as in life.
#include <functional>
#include <queue>

#include "simulate/chance.h"
#include "simulate/run.h"

namespace peelbook::simulate {

std::string degrees(double value);  // as it is typed: "96.2C"

class People {
  public:
    // `recalling`: goods are recalled while they bake, and what went where is corrected.
    People(Run& run, std::uint64_t seed, bool recalling = false);
    void open();           // the plan, people, partners, what is in the house at first
    Instant day(int day);  // from midnight to midnight, which is returned

  private:
    using Doing = std::function<void()>;
    struct Event {
        Instant at;
        int order = 0;
        Doing doing;
        bool operator<(const Event& other) const { return std::tie(other.at, other.order) < std::tie(at, order); }
    };

    // --- time, and how a line comes to be typed
    void at(std::int64_t minute, Doing doing);  // of this day
    void later(std::int64_t minutes, Doing doing);
    bool say(const std::string& by, const std::string& text);
    void note(const std::string& by, const std::string& text);  // may be forgotten, typed late, or twice
    void reading(const std::string& by, const std::string& subject, const std::string& point, double value);

    // --- slips of the finger and of the memory, and how they are put right
    struct Typed {  // a reading that is wrong, and what it should have said
        std::string by, subject, point, value, instrument;
    };
    void mistype(const Typed& right);
    void put_right(const Typed& right, const std::string& change);
    void step(const std::string& by, const std::string& lot, const std::string& step);  // some press it twice, or too early
    void calibrate();
    void countersign();                     // what waits: by somebody who may, by the one who wrote it, or by nobody
    void cheat();                           // of a bad value, how to be rid of it
    bool careful(const std::string& text);  // whoever is careful does not even try what is forbidden
    std::string code(const std::string& prefix) { return prefix + "-" + std::to_string(++named_); }

    // --- recalls and drills
    void recall_goods();
    std::string began_with();  // as it is typed
    void act_in(const std::string& family, const std::string& recall);
    void count_in(const std::string& family, const std::string& recall);
    void close(const std::string& family, const std::string& recall);
    void dust();     // flour for the table, which nobody weighs
    void correct();  // what went into what, what left, what was packed

    // --- the work of a day
    void rooms(bool sunday);
    void outage();
    void deliveries(int day);
    void leaven();
    void custard();
    void cool(const std::string& tray, int fate);
    void bake(const std::string& product);
    void core(const std::string& batch);
    void pack_and_send(const std::string& batch);
    void send(const std::string& pack);
    void clear();
    void odd();  // something that does not happen every day

    // --- what must not be done, and is tried: the cells of the gate's table that were met least so far
    void tempt();
    void stage();
    std::string in_a_cell();
    std::string besides();
    std::pair<std::string, std::string> seldom_met();
    std::string printed_date(const std::string& product, int too_late = 0);  // as an option: " --date 2026-11-24"
    std::string try_text(const std::string& act, const Lot& lot);
    std::string open_batch(const std::string& other_than);
    void go_on(const std::string& text);
    void decide();

    std::vector<const Lot*> lots(const std::function<bool(const Lot&)>& wanted) const;
    const Lot* some(const std::function<bool(const Lot&)>& wanted);
    std::string one_of_it(const Lot& lot, bool as_option) const;

    Run& run_;
    Chance chance_;
    bool recalling_ = false;
    std::priority_queue<Event> events_;
    Instant midnight_, now_;
    Date first_day_;
    int order_ = 0, named_ = 0;
    std::string leaven_;
};

}  // namespace peelbook::simulate
