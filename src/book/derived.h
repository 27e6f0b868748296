#pragma once
// Typed access to the derived tables: named look-ups, and writes that touch only rows which really differ. Nothing here
// decides anything. All writes need a running Work.
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "book/date_rows.h"
#include "book/recall_rows.h"
#include "book/rows.h"

namespace peelbook::book {

class Derived {
  public:
    struct Impl;
    explicit Derived(std::unique_ptr<Impl> impl);
    ~Derived();

    // --- facts and touches
    void put(const Fact& f);  // insert or replace
    std::optional<Fact> fact(Seq seq) const;
    std::optional<Seq> seq_of_token(const std::string& token) const;
    // The touches of one entry, made equal to `rows`; `before`: all that stand there now.
    void set_touches(const std::vector<Touch>& before, const std::vector<Touch>& rows);
    std::vector<Touch> touches_of(Seq seq) const;
    // Entries that touch a subject, in (happened, seq) order; with `from`: those that happened at or after it.
    std::vector<Seq> touching(SubjectKind kind, const std::string& subject, std::optional<Int> from = {}) const;
    std::vector<Fact> facts_touching(SubjectKind kind, const std::string& subject, std::optional<Int> from = {}) const;
    // Those before `happened`, newest first, at most `most`; entries of the kind `without` are passed over ("": none is).
    std::vector<Fact> facts_before(SubjectKind kind, const std::string& subject, Int happened, Int most, const std::string& without) const;
    // The window around a change, at most `most`: those at or before `happened`, newest first; those after it, oldest first.
    std::vector<Seq> touching_before(SubjectKind kind, const std::string& subject, Int happened, Int most) const;
    std::vector<Seq> touching_after(SubjectKind kind, const std::string& subject, Int happened, Int most) const;

    // --- people, partners, plan
    void put(const Person& p);
    void put(const Partner& p);
    std::optional<Person> person(const std::string& initials) const;
    std::vector<Person> people() const;
    std::optional<Partner> partner(const std::string& code) const;
    std::vector<Partner> partners() const;
    void put(const PlanVersion& v, const std::vector<PlanPoint>& points, const std::vector<PlanItem>& items);
    void put(const PlanCompiled& p);
    std::optional<PlanCompiled> plan_compiled(Seq plan_seq) const;
    std::vector<PlanVersion> plan_versions() const;          // oldest first
    std::optional<PlanVersion> plan_in_force(Int at) const;  // the first version when `at` is before it; none when no plan

    // --- lots and genealogy
    // The functions below that put or set rows write only what differs, and those that say so tell whether anything did.
    bool put(const Lot& lot);  // insert or replace by id
    void erase_lot(LotId id);  // the row and its stock
    std::optional<Lot> lot(LotId id) const;
    std::optional<Lot> lot(const std::string& code) const;
    std::vector<Lot> lots_by_supplier(const std::string& supplier_lot) const;
    std::vector<Lot> lots_of_item(const std::string& item) const;  // by happened
    std::vector<Lot> lots_with_printed_code(const std::string& code) const;
    std::vector<LotId> ids_with_printed_code(const std::string& code) const;  // by happened
    Int count_with_printed_code(const std::string& code) const;
    std::vector<Lot> blends_of(const std::string& vessel) const;           // by happened
    std::optional<Lot> blend_at(const std::string& vessel, Int at) const;  // the last blend with happened <= at
    std::vector<Lot> lots_started(Int from, Int until) const;              // batches with happened in [from, until)
    std::vector<Lot> lots_open(Int from, Int until) const;                 // those of them that are not finished
    // Those that were there in [from, until): received, filled, split, packed, or (a batch) finished. By that time, then id.
    std::vector<Lot> lots_made(Int from, Int until) const;
    // What stood on a line at some moment of [from, until], by (from_ms, seq).
    std::vector<LineFeed> line_feeds(const std::string& line, Int from, Int until) const;
    void set_line_feeds(const std::vector<LineFeed>& before, const std::vector<LineFeed>& now);
    std::vector<std::string> codes_like(const std::string& prefix) const;  // lot codes that start so, spent ones too
    void put(const SpentCode& s);
    std::optional<SpentCode> spent_code(const std::string& code) const;
    std::vector<std::string> all_codes(Int most) const;  // newest first, for "nearest"
    void set_uses_into(LotId into, const std::vector<Use>& rows);
    bool set_uses_into(const std::vector<Use>& before, const std::vector<Use>& rows);  // `before`: all that stand there now
    std::vector<Use> uses_into(LotId into) const;
    std::vector<Use> uses_from(LotId from) const;

    // --- dates and ages
    bool set_keeping(LotId lot, const std::vector<Keeping>& rows);  // by kind
    std::vector<Keeping> keeping(LotId lot) const;
    bool set_clocks(LotId lot, const std::vector<Clock>& rows);
    std::vector<Clock> clocks(LotId lot) const;  // by (happened, seq)

    // --- leaving and stock
    void set_stays(LotId lot, const std::vector<Stay>& rows);
    std::vector<Stay> stays(LotId lot) const;                                             // by (from_ms, seq)
    std::vector<LotId> lots_stored(const std::string& place, Int from, Int until) const;  // at some moment of [from, until]; by lot
    void set_moves(LotId lot, const std::vector<Move>& rows);
    bool set_moves(const std::vector<Move>& before, const std::vector<Move>& rows);
    std::vector<Move> moves(LotId lot) const;
    std::vector<Move> moves_between(Int from, Int until) const;  // happened in [from, until), in order
    std::vector<Move> moves_to(const std::string& partner) const;
    std::vector<Move> moves_of_round(const std::string& round, Int from, Int until) const;  // happened in [from, until), in order
    std::vector<std::string> rounds() const;                                                // by name
    bool set_counts(LotId lot, const std::vector<StockCount>& rows);
    std::vector<StockCount> counts(LotId lot) const;
    void put(const Stock& s);
    std::optional<Stock> stock(LotId lot) const;

    // --- readings and findings
    void set_readings(LotId lot, const std::vector<Reading>& rows);    // all of a lot
    void set_reading_rows(Seq seq, const std::vector<Reading>& rows);  // of one entry on a place
    std::vector<Reading> readings(LotId lot) const;                    // by happened
    // Of a place and point, not voided: the last at or before `at` (excluding entry `not_seq`), the first after it.
    std::optional<Reading> reading_before(const std::string& place, const std::string& point, Int at, Seq not_seq) const;
    std::optional<Reading> reading_after(const std::string& place, const std::string& point, Int at, Seq not_seq) const;
    std::vector<Reading> readings_of_place(const std::string& place, const std::string& point, Int from, Int until) const;
    // Lots with a reading by this instrument in [from, until).
    std::vector<LotId> lots_read_by(const std::string& instrument, Int from, Int until) const;
    // Places and points that it checked from then on, by hand or as a logger, each with the first and the last moment.
    struct PlaceRead {
        std::string place, point;
        Int first = 0, last = 0;
    };
    std::vector<PlaceRead> places_read_by(const std::string& instrument, Int from) const;
    // Single readings at a point, of the lots of an item that began in [from, until); voided ones and loggers' rows not. By time.
    std::vector<ChartReading> readings_to_chart(const std::string& item, const std::string& point, Int from, Int until) const;

    // The figures that the judge measured at a point of the same lots, each with the version of the plan that judged. By time.
    struct ChartFigure {
        ChartReading of;  // value: the figure; by: who made the lot
        Seq plan_seq = 0;
    };
    std::vector<ChartFigure> figures_to_chart(const std::string& item, const std::string& point, Int from, Int until) const;

    // --- loggers' files
    void put(const Series& s);
    void erase_series(Seq seq);  // with its faults, days and rows
    std::optional<Series> series(Seq seq) const;
    std::vector<Series> series_of_lot(LotId lot) const;
    // Of a place and point, with any row in [from, until]; voided ones not.
    std::optional<Series> series_ended(const std::string& place, const std::string& point, Int before) const;  // the last to end by then
    std::vector<Series> series_within(const std::string& place, const std::string& point, Int from, Int until) const;
    void set_series_faults(Seq seq, const std::vector<SeriesFault>& rows);
    std::vector<SeriesFault> series_faults(Seq seq) const;
    void put(const SeriesDay& d);
    std::vector<SeriesDay> series_days(Seq seq) const;
    void erase_series_days(Seq seq, Int from_day, Int until_day);  // [from, until)
    void clear_series_rows(Seq seq);
    void add_series_row(const SeriesRow& row);
    // Rows in [from, until), by time and then line; streams. The rows of a file that do not stand there are not asked for.
    void each_series_row(Seq seq, Int from, Int until, const std::function<void(const SeriesRow&)>& use) const;
    std::optional<Int> series_row_before(Seq seq, Int at) const;  // time of its last row at or before
    std::optional<Int> series_row_after(Seq seq, Int at) const;   // time of its first row after

    std::vector<Finding> findings(LotId lot) const;
    std::vector<Finding> findings_at(Seq anchor) const;
    // Of one anchor and point, with `ord` in [from, until).
    std::vector<Finding> findings_between(Seq anchor, const std::string& point, Int from, Int until) const;
    std::optional<Finding> finding(Seq anchor, const std::string& point, Int ord) const;
    std::vector<Finding> findings_of_week(Int week) const;  // of lots and places, by happened
    void put(const Finding& f);                             // insert or replace; no write when equal
    void erase_finding(Seq anchor, const std::string& point, Int ord);
    std::vector<Finding> open_findings() const;       // verdict > 0, not cleared; by happened
    std::vector<Finding> undecided_findings() const;  // those of them for which nothing is signed

    void set_waits(const Finding& of, const std::vector<Seq>& entries);  // which entries it waits for
    std::vector<Seq> waits(Seq anchor, const std::string& point, Int ord) const;
    std::vector<Finding> waiting_for(Seq entry) const;  // the findings that wait for it
    void put(const Waiting& w);
    std::optional<Waiting> waiting(Seq entry) const;
    std::optional<Waiting> waiting_on(Seq target) const;  // the correction of the target that waits, which is one at most
    std::vector<Seq> all_waiting() const;                 // entries that wait for a countersign, in order
    std::vector<Waiting> alone() const;                   // countersigned alone, and nobody else has looked since

    // --- holds, actions, allergens, instruments, owed, corrections, reviews
    void set_holds(LotId lot, const std::vector<Hold>& rows);
    std::vector<Hold> holds(LotId lot) const;
    bool is_held(LotId lot) const;  // a hold without release
    bool has_hold_for(Seq anchor, const std::string& point, Int ord) const;
    bool is_held_for(LotId lot, Seq anchor, const std::string& point, Int ord) const;  // by a hold of that cause, without release
    bool set_unsettled(const std::vector<Unsettled>& before, const std::vector<Unsettled>& now);
    std::vector<Unsettled> unsettled(LotId lot) const;
    std::vector<Unsettled> open_points() const;  // of lots themselves, that no record shows yet
    std::vector<Hold> open_holds() const;
    void put(const Action& a);
    void erase_action(Seq seq);
    std::vector<Action> actions(Seq anchor, const std::string& point, Int ord) const;
    void set_allergens(LotId lot, const std::vector<LotAllergen>& rows);
    std::vector<LotAllergen> allergens(LotId lot) const;
    void set_runs(LotId lot, const std::vector<Run>& rows);
    std::vector<Run> runs(LotId lot) const;
    std::vector<Run> runs_on(const std::string& equipment, Int from, Int until) const;  // in [from, until), in order
    std::optional<Run> run_before(const std::string& equipment, Int at) const;          // the last one earlier than `at`
    // Residue that lay there after `at`, and what was met from `from` on: read and made equal to `rows`.
    std::vector<Residue> residues_after(const std::string& equipment, Int at) const;
    void set_residues_after(const std::string& equipment, Int at, const std::vector<Residue>& rows);
    std::vector<CarryOver> carry_over_on(const std::string& equipment, Int from) const;
    void set_carry_over_on(const std::string& equipment, Int from, const std::vector<CarryOver>& rows);
    std::vector<CarryOver> carry_over(LotId lot) const;
    void set_spans(const std::string& instrument, const std::vector<InstrumentSpan>& rows);
    std::vector<InstrumentSpan> spans(const std::string& instrument) const;
    std::optional<InstrumentSpan> span_at(const std::string& instrument, Int at) const;
    void set_outages(Seq seq, const std::vector<Outage>& rows);  // of one entry
    std::vector<Outage> outages(Seq seq) const;
    // Of the place or of the whole house, with any time in [from, until); in order of their beginnings.
    std::vector<Outage> outages_at(const std::string& place, Int from, Int until) const;
    void set_owed(SubjectKind kind, const std::string& subject, const std::vector<Owed>& rows);
    std::vector<Owed> owed_by(SubjectKind kind, const std::string& subject) const;
    std::vector<Owed> owed_until(Int until) const;  // opens <= until, by due
    void put(const Correction& c);
    std::vector<Correction> corrections(Seq target) const;
    void put(const Review& r);
    std::vector<Review> reviews(const std::string& what) const;

    std::vector<Correction> corrections_since(Seq after) const;  // by seq

    // --- recalls and drills
    void put(const Recall& r);
    std::optional<Recall> recall(const std::string& code) const;
    std::optional<Recall> recall(Seq seq) const;
    std::vector<Recall> recalls() const;       // newest first
    std::vector<Recall> open_recalls() const;  // oldest first, drills too
    void put(const RecallLot& l);
    void put(const RecallDelivery& d);
    void put(const RecallStep& s);
    void put(const RecallToldCode& t);
    void put(const RecallCount& c);
    void put(const RecallOut& o);
    void erase_recall_step(Seq seq);                                  // with what hangs on it
    std::vector<RecallLot> recall_lots(Seq recall) const;             // as they came in: the snapshot in its order, then the others
    std::vector<RecallDelivery> recall_deliveries(Seq recall) const;  // in the order of the snapshot
    std::vector<RecallStep> recall_steps(Seq recall) const;           // by happened, seq; 0: tests of the call list
    std::vector<RecallToldCode> recall_told_codes(Seq recall) const;  // by entry
    std::vector<RecallCount> recall_counts(Seq recall) const;         // by happened, seq
    std::vector<RecallOut> recall_outs(Seq recall) const;             // by lot, also those taken back in
    std::optional<RecallOut> recall_out(Seq recall, LotId lot) const;
    std::vector<RecallLot> recalls_of(LotId lot) const;           // rows of every recall and drill that covers or covered it
    std::vector<RecallLot> recall_asked(Seq recall) const;        // those that it began with
    std::optional<Recall> covering(LotId lot) const;              // an open recall, no drill, that it is not left out of
    bool covers_item(Seq recall, const std::string& item) const;  // one of its lots is of it

    // --- the lot graph
    struct Graph {
        std::vector<Lot> lots;  // the reached lots, the start ones among them
        std::vector<Use> uses;  // every use into a reached lot: those among them, and (forward) all others, for shares
    };
    Graph forward(const std::vector<LotId>& start) const;  // all descendants
    Graph back(const std::vector<LotId>& start) const;     // all ancestors

    // The same, table by table, with everything that a trace shows. The cost grows with the lots, not with the book. Uses through
    // which a decision ended the trace are not followed. Lists of lots are ascending; texts are good until the next row.
    std::vector<LotId> reached_from(const std::vector<LotId>& start, bool forward) const;  // those of `start` among them

    struct TracedLot {
        LotId id = 0;
        LotKind kind = LotKind::received;
        std::string_view code, item, vessel, partner, supplier_lot, label, printed_code;
        Int happened = 0;
        std::optional<Int> made_mg, made_pieces;
        bool held = false;
    };
    struct TracedUse {
        LotId into_lot = 0, from_lot = 0;
        Seq seq = 0;
        std::optional<Int> mass_mg, pieces, largest_mg;
        bool sure = true;
        Int happened = 0;
        std::optional<Seq> ended_by;
    };
    struct TracedMove {
        LotId lot = 0;
        Seq seq = 0;
        Way way = Way::customer;
        std::string_view partner, document;
        std::optional<Int> mass_mg, pieces;
        bool of_returned = false, sure = true;
        Int happened = 0;
        std::optional<Way> left_by;
    };
    struct TracedStock {
        struct Sums {
            Int made = 0, used = 0, gap = 0, on_hand = 0;
        };
        Sums mg, pieces;
    };
    void each_lot(const std::vector<LotId>& lots, const std::function<void(const TracedLot&)>& take) const;       // by id
    void each_use_into(const std::vector<LotId>& lots, const std::function<void(const TracedUse&)>& take) const;  // by into, from, seq
    // `place`: of the lot in the list. Moves of a lot by seq.
    void each_stock(const std::vector<LotId>& lots, const std::function<void(const TracedStock&, std::size_t place)>& take) const;
    void each_move(const std::vector<LotId>& lots, const std::function<void(const TracedMove&, std::size_t place)>& take) const;
    std::vector<TracedUse> ended_after(const std::vector<LotId>& lots) const;  // uses of these that a decision ended, who is in them

  private:
    std::unique_ptr<Impl> impl_;
};

}  // namespace peelbook::book
