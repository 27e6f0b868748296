#pragma once
// What every part of this layer works on: the book, the plan versions read from it, the site's zone, and entries as they stand
// after corrections. Entries never change, so decoded ones and parsed plans are kept for the life of the process.
#include <functional>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "base/zone.h"
#include "book/book.h"
#include "book/derived.h"
#include "plan/plan.h"
#include "record/entry.h"

namespace peelbook::fold {

inline constexpr book::Int for_ever = std::numeric_limits<book::Int>::max();  // Unix ms: after everything

// An entry with its latest amendment applied. Never holds Amended or Voided as `says` of a target.
struct Effective {
    Seq seq = 0;
    Instant happened;
    Instant written;  // of what it says: of the latest amendment, else of the entry
    std::string by;
    record::Statement says;
    std::optional<Seq> amended_by, voided_by;
};

struct GoverningPlan {
    Seq seq = 0;                             // plan-adopted entry; 0 when no plan was adopted
    std::shared_ptr<const plan::Plan> plan;  // never null: an empty plan when there is none
    bool before_first = false;               // the moment lies before the first adoption, which governs it all the same
};

class Ledger {
  public:
    explicit Ledger(book::Book book) : book(std::move(book)) {}

    book::Book book;
    // Told now and then while a large file is worked on; may be empty.
    std::function<void(std::string_view doing, std::int64_t done, std::int64_t of)> progress;
    book::Derived& rows() { return book.derived(); }

    GoverningPlan plan_at(Instant t);
    GoverningPlan plan_version(Seq seq);                    // of a lot's plan_seq
    const std::vector<book::PlanVersion>& plan_versions();  // oldest first; good until one is adopted
    void plans_changed();                                   // a version was adopted
    // Whether an entry is practice (rule 58): written before the first plan in earnest, and after one of practice. Practice is only at
    // the beginning of a book, so the order of the entries tells it, whatever the clock was.
    bool is_practice(Seq seq);
    bool in_practice() { return is_practice(book.next_seq()); }  // what is written now
    void forget();                                               // a transaction was rolled back: what was read inside it never was
    const Zone& zone();                                          // of the plan in force; UTC when there is none

    const record::Entry& entry(Seq seq);        // must be in the book
    void remember(const record::Entry& entry);  // just appended: its bytes are this entry's
    Effective effective(Seq seq);
    // All entries that touch a subject, in (happened, seq) order, voided ones included.
    std::vector<Effective> effective_touching(book::SubjectKind kind, const std::string& subject, std::optional<Instant> from = {});

    // Those before `before`, newest first, at most `most`; entries of the kind `without` are passed over ("": none is).
    std::vector<Effective> effective_before(book::SubjectKind kind, const std::string& subject, Instant before, book::Int most,
                                            const std::string& without);

    // Production day (in days since 1970-01-01) and week (ISO year x 100 + week) of a moment, by the plan of that moment.
    struct Day {
        std::int64_t day = 0;
        std::int64_t week = 0;
    };
    Day production_day(Instant t);
    std::pair<Instant, Instant> span_of_week(IsoWeek week);  // its production days; the second is not included

  private:
    Effective effective(Seq seq, const std::optional<book::Fact>& fact);

    std::optional<std::vector<book::PlanVersion>> versions_;
    std::unordered_map<Seq, std::shared_ptr<const plan::Plan>> plans_;
    std::unordered_map<Seq, record::Entry> entries_;
    std::optional<Zone> zone_;
    std::string zone_name_;
};

}  // namespace peelbook::fold
