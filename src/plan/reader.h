#pragma once
// Reads a plan from TOML texts and says everything that is wrong with it at once.
//
// All texts together are one plan; a section may be spread over several. * marks a key that must be there; measures are
// texts with their unit ("93C", "20kg", "2h30min", "2.5%"); a bound may state two units ("21C | 70F"). The starter plan
// (plan/starter.h) shows every key with a comment.
//   [site]        name* zone* allergen_list* ("eu" "us" "codex") address phone gln company_prefix web day_start ("03:00") late_after paper ("A4" "Letter")
//                 temperature_unit ("C" "F") mass_unit retention review_working_days carry_over ("0.1%")
//                 clock_uncertainty ("5min") alone people practice
//   [calendar]    open ["mon", "tue" ..] (all) closed [dates]
//   [[shift]]     id* name* from* ("22:00") until* (over midnight when before from) days ["sun"] (on which it begins: the open ones)
//   [[material]]  id* name* code allergens [ ] may_contain [ ] date ("best-before" "use-by") supply packaging
//                 traceability_list gtin (one or a list) suppliers [ ] a_week opened_within thawed_within refreeze
//                 protein = [ { allergen*, percent* } ]
//   [[product]]   id* name* formula* steps* [ ] code sort unit_mass pieces usual_flour tolerance yield_tolerance finish_step kill_step line (a place)
//                 label date shelf_life use_within opened_within thawed_within refreeze gtin traceability_list portion sold ("packed" "loose" "direct") a_week
//                 dough = { wanted* ("26C"), read*, flour*, water*, room*, preferment: points }
//                 formula = [ { item*, percent | absolute*, flour, optional } ]: all in percent of the items marked flour, which
//                 add up to 100%, or all in masses of one usual batch
//   [[label]]     id* name* product* market* declares* [ ] may_contain [ ] claim ("gluten-free" "very-low-gluten")
//   [[vessel]]    id* name* model* ("mixed" "first-in") holds* kind heel smear validation (the last two: first-in)
//   [[place]]     id* name*
//   [[instrument]] id* name* kind tolerance uncertainty calibrate_every place
//   [[logger]]    id* name* values* [ {column*, unit*, point, probed} ] separator ("tab" "blank" or a character) decimal ("." ",")
//                 header_lines date time (headings, or numbers from 1) time_format (base/time_format.h) zone (IANA or "+01:00")
//                 every no_value [ ]
//   [[possible]]  id* least most: what a reading of one kind can be at all, for points that name it
//   [[role]]      id* may* [commands or "*"]
//   [[hazard]]    id* kind* ("biological" "chemical" "physical" "allergen") what* step likelihood severity control significant
//   [[equipment]] id* name* lines* [places] products [ ] step residue (a mass)
//   [[cleaning]]  id* name* kind* ("dry" "wet") equipment* [ ] clears* [allergens] time* cost verify* [points of the equipment]
//   [[reference_dose]] allergen* dose* ("2mg" of protein) source*
//   [[point]]     id* name* class* ("critical" "operating" "quality") limit*, and one of products [ ] + step, materials [ ], place;
//                 hazard measures unit warn {least, most} possible {kind (a [[possible]]), least, most} units [ ]
//                 read_on (least, on products) window {from, until (events, as of time), after} (on products, or materials: after) every hours ("20:00-04:00") device_check lines [places]
//                 at ["start" "change" "end"] (of a run on those lines: with device_check) closed ("logger" "min-max" "alarm" "nothing")
//                 alarm (a point) chart optional takes ("1min") instrument with [instruments] acceptance ("simple" "guarded") room ("4C") | room_point how_often by basis
//                 action {product, process}. Critical: basis* and both actions*, and fastest* in a cooling or souring.
//   [[deadline]]  id* name* step* ("hold" "authority" "customers" "public" "close" "call-list") within* basis*: of a recall
//   limit         {least, most} | {time = {from*, until*, least, most}} | {before_packing = {most*}} | {yes_no = true} |
//                 {label = {at* ["start" "reel" "change" "end"], most_lost}} (on a place: the line) |
//                 {cooling = {from*, stages* = [ {to*, within*, fastest} ], counted* ("start" "previous"), hot_at (a step) | starts_at}} |
//                 {lethality = {t_ref*, z*, d*, studied* = {from*, to*}, log* (5), cap* (7), longest_gap*, food* [sorts of product],
//                 source*}} | {ph_aw = {table* ("A" "B")}} | {souring = {starts_at*, stages* = [ {to* (a pH), within*, fastest} ]}} |
//                 {loss = {before* (a point, "inputs"), after* (a point, "finish"), least, most}} |
//                 {market = {of* ("gluten" "sulphites")}} (on products: what the market of each of their labels allows)
#include <string>
#include <variant>
#include <vector>

#include "plan/plan.h"

namespace peelbook::plan {

struct Text {
    std::string name;  // file name, for messages
    std::string text;
};

struct Fault {
    std::string file;
    int line = 0, column = 0;           // from 1; 0 when it is about the whole file
    std::string source_line;            // the line itself
    std::string found, wanted, remedy;  // remedy may hold the nearest known name
    bool warning = false;               // does not refuse adoption
};

// "products.toml:12:9: error: ...\n    pieces = -3\n             ^\n    [remedy]"
std::string to_text(const Fault& f);

struct Outcome {
    Plan plan;                  // complete only when there is no error among the faults
    std::vector<Fault> faults;  // in file and line order
    bool usable() const;        // no fault but warnings
};

// Syntax, types, units, unknown keys, unknown ids and the cross rules (plan/rules.h). All texts together are one plan.
Outcome read_plan(const std::vector<Text>& texts);

// The plan of texts that were read without error when they were adopted: no cross rules and no time zone look-up, so that a
// command which records one entry starts fast. Throws Damaged when they cannot be read any more.
Plan read_adopted_plan(const std::vector<Text>& texts);

// Which ids the book knows and the plan may cite: partner codes. Faults are warnings: a supplier may be added later.
std::vector<Fault> check_against(const Plan& plan, const std::vector<std::string>& partner_codes);

}  // namespace peelbook::plan
