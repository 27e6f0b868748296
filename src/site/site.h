#pragma once
// The public face of peelbook: open a site folder, record what happened, ask what it means.
//
//   SystemClock clock; DiskFiles files;
//   auto site = site::Site::open("my-bakery", clock, files);
//   if (!site) ... site.refusal()
//   record::ReadingTaken reading{.subject = "PAN-261116-1", .point = "bake-core", .value = *parse_measure("96.4C")};
//   auto receipt = (*site)->record({.says = reading, .by = "MK"});
//   for (const auto& told : receipt->findings) ... told.finding.verdict
//
// Values in, values out. A Result holding a Refusal means that nothing was written. Damaged and MachineFailed (base/result.h) are
// thrown. One call is one transaction; what it returns is durable. Not thread-safe; many processes may share a site.
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/clock.h"
#include "base/gs1_scan.h"
#include "base/result.h"
#include "base/table.h"
#include "base/workbook.h"
#include "base/zone.h"
#include "book/book.h"
#include "book/recall_rows.h"
#include "book/rows.h"
#include "judge/cooling_ahead.h"
#include "judge/verdict.h"
#include "plan/plan.h"
#include "plan/reader.h"
#include "record/entry.h"
#include "site/ask/ask_allergens.h"
#include "site/ask/one_step.h"
#include "site/ask/recall.h"
#include "site/ask/round.h"
#include "site/ask/sequence.h"
#include "trace/custody.h"
#include "trace/trace.h"

namespace peelbook::site {

struct ChartQuestion;
struct ChartAnswer;

struct Draft {
    record::Statement says;
    std::string by;                   // initials of a person in the book
    std::optional<Instant> happened;  // absent: now
    std::string token;                // a repeated command with the same token answers with the first receipt
    bool already_done = false;        // it has happened, and should not have: record it as a critical deviation. Wants `why`.
    std::string why;
};

struct ToldFinding {
    book::Finding finding;
    std::string point_name, lot_code;
    std::string product_action, process_action;  // the plan's, for a deviation
    std::vector<book::Action> actions;           // what was done about it so far
    std::vector<Seq> waits;                      // entries that wait for a countersign, and with which it would be milder
    bool withdrawn = false;                      // what cleared it is the void of an event
};

struct AutomaticHold {
    Seq seq = 0;
    std::vector<std::string> lots;       // now held
    std::vector<std::string> customers;  // "CAFE-1: 40 pieces of PAN-261116-1", for what had already left
    std::string why;
};

struct WeighLine {
    std::string item, name;
    std::int64_t mass_mg = 0;
    std::int64_t micro_percent = 0;  // of the flour; 0 for absolute items
    std::vector<std::string> lots;   // on hand, first-expired first
};

// When a product that cools gets where it must, if it goes on as it does. It only predicts: the verdict comes from readings.
struct Outlook {
    std::string lot, point;
    judge::CoolingAhead ahead;
    std::string text;  // "21C at 14:20 (14:05 to 14:40); limit 14:30: may be late", in local time
};

// What a mixer adds to a dough, learned from logged batches: calc/dough_water.h, factor method.
struct Friction {
    struct Batch {
        std::string lot;
        Instant at;
        double dough_c = 0, others_c = 0;  // the dough after mixing; the sum of the other temperatures, the water's too
        double friction_c = 0;             // factors x dough - others
    };
    std::string product, line;
    std::int64_t dough_mg = 0;   // size that was asked for; 0: any
    int factors = 3;             // 4 with a preferment
    std::vector<Batch> batches;  // newest first, at most most_batches_learned_from
    double mean_c = 0;
    std::optional<double> sd_c;  // absent below two batches
};
inline constexpr std::size_t most_batches_learned_from = 30;
inline constexpr std::size_t least_batches_to_learn = 3;

// The dough water of a batch about to be mixed.
struct WaterAdvice {
    Measure wanted;                         // of the dough, by the plan
    std::optional<double> water_c;          // absent: something is lacking
    std::optional<double> from_c, until_c;  // with the friction a standard deviation off either way
    std::string text;                       // one line, with the working; or what is lacking
};

struct Receipt {
    Seq seq = 0;
    std::string kind;
    Instant happened, written;
    bool late = false;
    bool repeated = false;               // the token had been seen: nothing new was written
    std::string code;                    // of the lot that was made, if one was
    std::vector<std::string> said;       // what was recorded, in a line or two for the person
    std::vector<WeighLine> weigh_sheet;  // of `started`
    std::int64_t pieces_expected = 0;    // of `started`, when the product is counted in pieces
    std::optional<WaterAdvice> water;    // of `started`, when the plan wants a dough temperature
    std::vector<ToldFinding> findings;   // raised, changed or cleared by this entry; a `within` for the point just read
    std::vector<AutomaticHold> holds;
    std::vector<std::string> next;       // what is owed next, warnings, "21C by 12:20"
    std::vector<Outlook> outlook;        // of the cooling point just read
    bool practice = false;               // recorded in practice (rule 58)
    std::vector<std::string> practised;  // what would be refused or held in earnest, in words
    bool judged_bad() const;             // any finding that is not within and not cleared, or anything practised: exit code 1
};

struct DueItem {
    book::Owed owed;  // of a lot, a place, or an instrument whose calibration is overdue
    std::string name;
    Grade grade = Grade::critical;
    bool overdue = false;
    bool never = false;            // not done once since it was first owed
    std::vector<Outlook> outlook;  // of a lot that cools: one a unit with readings enough
};

// An entry that waits for another person, or that was decided alone and waits to be looked at.
struct WaitingEntry {
    Seq entry = 0, target = 0;  // the same where it corrects none
    std::string kind, by;       // "amended", "voided", or what was typed late
    Instant written;
    std::string what;                   // what the target is about: "bake-core of PAN-261116-1"
    std::string before, after, why;     // in words; before is empty for what was typed late, after for a void
    std::vector<ToldFinding> findings;  // that would be milder with it
    bool alone = false;                 // it counts, but nobody else has looked yet
};

struct Status {
    std::string site_name;
    Seq entries = 0;
    std::string head;  // hex
    std::optional<book::PlanVersion> plan;
    bool practice = false;  // what is recorded now is practice (rule 58)
    std::vector<book::Lot> open_batches;
    std::vector<ToldFinding> open_findings;                      // not within, not cleared, without disposition
    std::vector<DueItem> owed_not_done;                          // overdue now, of lots and places: findings once something is recorded
    std::vector<std::pair<book::Hold, std::string>> open_holds;  // with the lot's code
    std::vector<WaitingEntry> waiting;                           // for a countersign
};

// Of a forward trace: only what left the lots asked for in this time counts. A boil notice names two days, not the water of a
// month.
struct TraceWindow {
    std::optional<Instant> from, until;  // inclusive; absent: open
};

struct TraceAnswer {
    bool forward = true;
    std::vector<book::Lot> start;
    trace::Graph graph;
    std::vector<trace::Reached> reached;
    std::vector<trace::Delivery> customers;  // of what left, with what stands at co-packers
    std::vector<trace::Balance> balances;    // of the start lots, then of every reached lot
    std::vector<book::Lot> possible;         // batches with a missing use, made while the lot was in house (rule 20)
    std::vector<std::string> notes;          // "printed code 12 is shared by ...: cannot be told apart"
    std::int64_t carry_over_ppm = 0;         // of the plan: how lots reached are sorted by nearness (trace/near.h)
};

class Site {
  public:
    // A new folder with a starter plan and an empty book opened by `initials` (who gets role "manager").
    static Result<std::unique_ptr<Site>> create(const std::filesystem::path& folder, const std::string& name, const std::string& zone,
                                                const std::string& initials, const std::string& person_name, Clock& clock, Files& files,
                                                std::string_view starter = "full");  // of plan/starter.h
    static Result<std::unique_ptr<Site>> open(const std::filesystem::path& folder, Clock& clock, Files& files,
                                              book::Book::Mode mode = book::Book::Mode::write);
    // The folder to open: `given`, else `from_environment`, else upward from `here`, by the first site.toml met.
    static Result<std::filesystem::path> find(const std::string& given, const std::string& from_environment,
                                              const std::filesystem::path& here, const Files& files);
    ~Site();

    // --- record
    Result<Receipt> record(const Draft& draft);
    Result<std::vector<Receipt>> record_all(const std::vector<Draft>& drafts);  // all or none, in one transaction
    Result<Receipt> amend(Seq target, const record::Statement& instead, std::optional<Instant> happened, const std::string& by,
                          const std::string& why, const std::string& token = {});
    Result<Receipt> void_entry(Seq target, const std::string& by, const std::string& why, const std::string& token = {});
    // Takes back the last entry of this person: written within record::Voided::undo_within, an event or what raised nothing.
    Result<Receipt> undo(const std::string& by, const std::string& token = {});
    // A logger file: kept whole in the book, its rows become readings. It is read part by part; `progress` is told now and then
    // how far it is.
    using Progress = std::function<void(std::string_view doing, std::int64_t done, std::int64_t of)>;
    Result<Receipt> record_series(const record::SeriesTaken& series, Bytes& file, const Draft& rest, const Progress& progress = {});

    // What GS1 symbols of one item say, filled into what was typed (base/gs1_scan.h, site/record/scan.h); refused where the two differ.
    Result<record::Received> with_scan(const record::Received& typed, const std::vector<std::string>& symbols) const;
    Result<record::MovedOut> with_scan(const record::MovedOut& typed, const std::vector<std::string>& symbols) const;

    // --- the plan
    std::vector<plan::Text> plan_files() const;  // the folder's .toml files, sorted by name
    plan::Outcome check_plan() const;            // of the folder, as it is
    // Of the folder; refused with its faults. `hazard`: why it also judges what is still open of batches that began before it.
    Result<Receipt> adopt_plan(const std::string& by, const std::string& hazard = "");
    Result<plan::Plan> plan_in_force(std::optional<Instant> at = {}) const;  // refused when none was adopted
    Result<std::vector<std::string>> plan_changes() const;                   // folder against the version in force

    // --- ask
    Status status() const;
    std::vector<WaitingEntry> waiting() const;                     // for a countersign, by entry
    bool in_practice() const;                                      // what is recorded now is practice (rule 58)
    bool is_practice(Seq seq) const;                               // that entry is
    std::vector<DueItem> due(Instant until) const;                 // owed by then, overdue first; calibrations when overdue
    std::string use_of(const book::Lot& lot) const;                // until when it may be used, or the date to print; empty: nothing ends
    std::vector<std::string> owed_of(const book::Lot& lot) const;  // what it still owes before it may leave, a line each
    // LOT is one of our codes, a printed code, or SUPPLIER:LOT / a supplier's lot code (all that carry it; `material` narrows).
    // A vessel stands for all it held, a supply for its lots of every period.
    Result<TraceAnswer> trace_forward(const std::string& lot, const std::string& material = {}, const TraceWindow& window = {}) const;
    Result<TraceAnswer> trace_back(const std::string& lot) const;
    // One step back and one step forward of a lot (site/ask/one_step.h).
    Result<OneStep> one_step(const std::string& lot) const;
    // A recall or drill as it stands now; its workbook; all of them, newest first; whom a recall calls.
    Result<RecallView> recall(const std::string& code) const;
    Result<Workbook> recall_workbook(const RecallView& view) const;  // the report "recall"
    std::vector<book::Recall> recalls() const;
    std::vector<book::Person> people() const;     // by initials, those who left too
    std::vector<book::Partner> partners() const;  // by code
    std::vector<Callee> call_list() const;
    Result<Round> round(const RoundQuestion& question) const;  // a delivery round as it may be driven now
    Result<book::Lot> lot(const std::string& code) const;      // refused with the nearest codes
    std::vector<ToldFinding> findings_of(const std::string& lot_code) const;
    Result<record::Entry> entry(Seq seq) const;
    std::pair<Instant, Instant> span_of_week(IsoWeek week) const;    // its production days; the second is not included
    Result<ChartAnswer> chart(const ChartQuestion& question) const;  // site/ask/control_chart.h
    // A report of reports/ (or the site's own reports/ folder) run with its parameters.
    Result<Workbook> report(const std::string& name, const std::vector<book::Book::Parameter>& parameters) const;
    std::vector<std::pair<std::string, std::string>> report_names() const;  // with title
    Result<Workbook> trace_workbook(const TraceAnswer& answer) const;       // the report "trace" of an answer
    // The genealogy of an answer as DOT text, to be drawn by Graphviz (trace/picture.h, output/drawing.h). Lots are gathered by day and
    // product where they are more than 60 or `most_groups`; above `most_groups` groups by week, then over all time.
    std::string genealogy_dot(const TraceAnswer& answer, std::size_t most_groups = 120) const;
    // Friction of the last batches of a product on a line (empty: the product's own) whose dough was of about this mass (0: any;
    // else within a tenth). Refused: a product the plan does not know or that has no wanted dough temperature.
    Result<Friction> learned_friction(const std::string& product, const std::string& line, std::int64_t dough_mg) const;
    Result<Table> ask(const std::string& sql) const;            // read-only SQL
    std::vector<std::pair<std::string, Table>> tables() const;  // every derived table, codes for ids of lots, and the entries; for csv
    // What came in, was made, packed on pallets and went out from the first to the last day, as events for an EPCIS document
    // (output/epcis.h). Open batches, refused goods and what moves inside the house are not told. Refused when the plan has no `web`.
    Result<trace::Custody> custody(std::optional<Date> from, std::optional<Date> until) const;
    // The element strings of a label for a packed or received lot (article, date, lot) or of a pallet's SSCC (18 digits).
    Result<std::vector<Gs1Element>> label_elements(const std::string& lot_or_sscc) const;
    const Zone& zone() const;
    const std::filesystem::path& folder() const;

    // --- allergens
    // The order of the day on a line, from what lies on its equipment now (site/ask/sequence.h).
    Result<SequenceProposal> sequence(const std::string& line, const std::vector<SequenceProduct>& products) const;
    Result<LotAllergens> allergens_of(const std::string& lot_code) const;
    AllergenMatrix allergen_matrix(Instant from, Instant until) const;
    Result<std::vector<NeverProduct>> never_contains(const std::string& allergen, Instant from, Instant until) const;

    // --- keep
    std::vector<book::Fault> verify(bool derived) const;
    // Empties the derived tables and makes them again from the entries; the number of entries read.
    Seq rebuild(const std::function<void(Seq)>& progress = {});
    void back_up(const std::filesystem::path& to) const;

    struct Impl;

  private:
    explicit Site(std::unique_ptr<Impl> impl);
    std::unique_ptr<Impl> impl_;
};

}  // namespace peelbook::site
