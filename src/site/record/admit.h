#pragma once
// Before an entry is written: may this person say this, now, of these things? What a person left out and the book knows is filled
// in (a code, the mass of "the rest"). Runs inside the write transaction, so that no look-up can grow stale.
//
// What should not be done is refused; with `already_done` and a reason it is recorded as it is, and the fold makes it a critical
// deviation. What cannot be (an unknown lot, a lot made from itself) is refused always;
// more taken than there was is recorded too, and the stock below nothing shows until it is counted.
#include <string>
#include <vector>

#include "fold/ledger.h"
#include "site/site.h"

namespace peelbook::site {

struct Admitted {
    std::vector<record::Statement> before;  // entries the program writes first: a period's water lot
    record::Statement says;
    std::vector<std::string> notes;  // for the receipt: warnings that do not refuse
};

struct Request {
    fold::Ledger& ledger;
    const Draft& draft;
    Instant happened, now;
    fold::GoverningPlan governing;
    Seq amending = 0;  // the entry whose statement is replaced; then its own effects do not stand in its way

    const plan::Plan& plan() const { return *governing.plan; }
    book::Derived& rows() const { return ledger.rows(); }
};

Result<Admitted> admit(const Request& r);

// --- by kind
Result<Admitted> admit_kind(const Request& r, const record::PersonAdded& s);
Result<Admitted> admit_kind(const Request& r, const record::PartnerAdded& s);
Result<Admitted> admit_kind(const Request& r, const record::Received& s);
Result<Admitted> admit_kind(const Request& r, const record::Filled& s);
Result<Admitted> admit_kind(const Request& r, const record::Emptied& s);
Result<Admitted> admit_kind(const Request& r, const record::Cleaned& s);
Result<Admitted> admit_kind(const Request& r, const record::Started& s);
Result<Admitted> admit_kind(const Request& r, const record::Used& s);
Result<Admitted> admit_kind(const Request& r, const record::StepDone& s);
Result<Admitted> admit_kind(const Request& r, const record::Finished& s);
Result<Admitted> admit_kind(const Request& r, const record::Split& s);
Result<Admitted> admit_kind(const Request& r, const record::Packed& s);
Result<Admitted> admit_kind(const Request& r, const record::Stored& s);
Result<Admitted> admit_kind(const Request& r, const record::ClockStarted& s);
Result<Admitted> admit_kind(const Request& r, const record::MovedOut& s);
Result<Admitted> admit_kind(const Request& r, const record::Returned& s);
Result<Admitted> admit_kind(const Request& r, const record::Counted& s);
Result<Admitted> admit_kind(const Request& r, const record::ReadingTaken& s);
Result<Admitted> admit_kind(const Request& r, const record::SeriesTaken& s);
Result<Admitted> admit_kind(const Request& r, const record::Inspected& s);
Result<Admitted> admit_kind(const Request& r, const record::Calibrated& s);
Result<Admitted> admit_kind(const Request& r, const record::ServiceChanged& s);
Result<Admitted> admit_kind(const Request& r, const record::Outage& s);
Result<Admitted> admit_kind(const Request& r, const record::LabelChecked& s);
Result<Admitted> admit_kind(const Request& r, const record::LabelsCounted& s);
Result<Admitted> admit_kind(const Request& r, const record::Held& s);
Result<Admitted> admit_kind(const Request& r, const record::Released& s);
Result<Admitted> admit_kind(const Request& r, const record::Acted& s);
Result<Admitted> admit_kind(const Request& r, const record::Reviewed& s);
Result<Admitted> admit_kind(const Request& r, const record::Sealed& s);
Result<Admitted> admit_kind(const Request& r, const record::Voided& s);
Result<Admitted> admit_kind(const Request& r, const record::Countersigned& s);
Result<Admitted> admit_kind(const Request& r, const record::LineFed& s);
Result<Admitted> admit_kind(const Request& r, const record::CoPacked& s);
Result<Admitted> admit_kind(const Request& r, const record::CultureRenewed& s);
Result<Admitted> admit_kind(const Request& r, const record::RecallOpened& s);
Result<Admitted> admit_kind(const Request& r, const record::RecallDecided& s);
Result<Admitted> admit_kind(const Request& r, const record::RecallWidened& s);
Result<Admitted> admit_kind(const Request& r, const record::Contacted& s);
Result<Admitted> admit_kind(const Request& r, const record::RecallTold& s);
Result<Admitted> admit_kind(const Request& r, const record::RecallCounted& s);
Result<Admitted> admit_kind(const Request& r, const record::RecallClosed& s);

// --- shared rules
Check no_cycle(const Request& r, const book::Lot& into, const book::Lot& from);  // refused with the path that would close
Check may_do(const Request& r, const std::string& command);
bool role_may(const plan::Plan& plan, const std::string& role, const std::string& command);
std::string command_of(const record::Statement& says);  // the command that records it: "ship", "use"

Result<book::Lot> known_lot(const Request& r, const std::string& code);  // refused with the nearest codes
Check known_id(const std::string& what, const std::string& id, const std::vector<std::string>& known, const std::string& next);
Check not_before_lot(const Request& r, const book::Lot& lot);
// Whoever had goods is a customer, or a way out by which they left without a name.
Check one_holder(const std::string& partner, const std::string& way);
Check wanted_dimension(const std::string& what, const std::optional<Measure>& m, Dimension d);
// A value beyond what the plan says that a reading of the point can be, not yet said to be sure of; `how` to say so.
Refusal not_possible(const plan::Point& point, const Measure& value, const std::string& how);
Check reason_given(const Request& r, const std::string& why, const std::string& what);

// A use out of a vessel, all that admit_kind checks of one out of a lot.
Result<Admitted> admit_draw(const Request& r, const book::Lot& into, Admitted out);
void note_formula(const Request& r, const book::Lot& into, const std::string& item, Admitted& out);

std::vector<std::string> ids_of_materials(const plan::Plan& plan);
std::vector<std::string> ids_of_products(const plan::Plan& plan);

}  // namespace peelbook::site
