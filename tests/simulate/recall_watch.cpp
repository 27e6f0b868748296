#include "simulate/recall_watch.h"

#include <algorithm>
#include <cctype>

namespace peelbook::simulate {
namespace {

using Id = std::int64_t;

Id number(const Cell& cell) { return std::holds_alternative<Id>(cell) ? std::get<Id>(cell) : 0; }

// As it is read from a sack and typed: case, blanks and dashes are nobody's.
std::string letters_and_digits(const std::string& code) {
    std::string out;
    for (const char c : code)
        if (std::isalnum(static_cast<unsigned char>(c))) out += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return out;
}

const record::Statement* statement_of(const record::Entry& entry) {
    if (const auto* amended = std::get_if<record::Amended>(&entry.payload)) return &amended->statement;
    return std::get_if<record::Statement>(&entry.payload);
}

Seq about(const record::Entry& entry) {
    const auto* amended = std::get_if<record::Amended>(&entry.payload);
    return amended ? amended->target : entry.seq;
}

// Whether a statement may send a lot on, and whether it says that this has happened already. A split is always possible; what comes back
// from a co-packer had gone before.
struct Sends {
    bool sends = false, already_done = false;
};
Sends sends(const record::Statement& says) {
    return std::visit(
        [](const auto& s) -> Sends {
            using S = std::decay_t<decltype(s)>;
            if constexpr (std::is_same_v<S, record::Used> || std::is_same_v<S, record::Filled> || std::is_same_v<S, record::Packed> ||
                          std::is_same_v<S, record::MovedOut> || std::is_same_v<S, record::LineFed>)
                return {true, s.already_done};
            else
                return {};
        },
        says);
}

}  // namespace

struct RecallWatch::World {
    struct Lot {
        std::string code, kind, item, printed, delivery, vessel, partner;
        Instant at{};
        bool here = false, held = false;
    };
    struct Use {
        Id from = 0, into = 0;
        bool sure = false;
        Seq seq = 0;
        Instant at{};
    };
    std::map<Id, Lot> lots;
    std::map<std::string, Id> by_code;
    std::vector<Use> uses;
    std::set<std::pair<Seq, Id>> sent;  // entries, and the lots that they send on
    std::set<Seq> deviations;           // entries on which one hangs

    explicit World(House& house) {
        for (const auto& row : house.ask(
                 "SELECT id, code, kind, item, printed_code, partner, supplier_lot, "
                 "kind <> 'supply' AND (s.lot IS NULL OR on_hand_mg > 0 OR on_hand_pieces > 0 OR returned_mg > 0 OR returned_pieces > 0 OR "
                 "status = 'open'), EXISTS (SELECT 1 FROM hold h WHERE h.lot = id AND released_seq IS NULL), vessel, happened "
                 "FROM lot LEFT JOIN stock s ON s.lot = id")) {
            Lot lot{to_text(row[1]), to_text(row[2]), to_text(row[3]),   to_text(row[4]),     {},
                    to_text(row[9]), to_text(row[5]), {number(row[10])}, number(row[7]) != 0, number(row[8]) != 0};
            if (!to_text(row[6]).empty()) lot.delivery = lot.item + "\n" + to_text(row[5]) + "\n" + letters_and_digits(to_text(row[6]));
            by_code[lot.code] = number(row[0]);
            lots.emplace(number(row[0]), std::move(lot));
        }
        for (const auto& row : house.ask("SELECT from_lot, into_lot, sure, seq, happened FROM use WHERE ended_by IS NULL"))
            uses.push_back({number(row[0]), number(row[1]), number(row[2]) != 0, number(row[3]), {number(row[4])}});
        for (const auto& use : uses) sent.emplace(use.seq, use.from);
        // What left by product may be of any lot that was there: the judge says whether enough of it stood free.
        for (const auto& row :
             house.ask("SELECT seq, lot FROM move WHERE sure = 1 AND way NOT IN ('waste', 'sample', 'supplier', 'returned') "
                       "UNION ALL SELECT seq, lot FROM line_feed"))
            sent.emplace(number(row[0]), number(row[1]));
        for (const auto& row : house.ask("SELECT DISTINCT anchor FROM finding WHERE verdict = 3")) deviations.insert(number(row[0]));
    }
    std::optional<Id> id(const std::string& code) const {
        const auto lot = by_code.find(code);
        return lot == by_code.end() ? std::nullopt : std::optional(lot->second);
    }
};

// What was made of a lot after it was left out is not; in a time, only what was taken in it.
RecallWatch::Lots RecallWatch::reached(const World& world, const Open& recall, bool sure_only) {
    const auto goes_on = [&](const World::Use& use) {
        const auto out = recall.left_out.find(use.from);
        const bool rests_on_it = out != recall.left_out.end() && use.seq > out->second.since;
        const bool at_another_time =
            recall.taken && recall.asked.contains(use.from) && (!recall.in_time(use.at) || recall.asked.contains(use.into));
        return (use.sure || !sure_only) && !rests_on_it && !at_another_time;
    };
    Lots found = recall.asked;
    if (recall.taken)
        std::erase_if(found, [&](Id id) {
            return std::none_of(world.uses.begin(), world.uses.end(), [&](const auto& use) { return use.from == id && goes_on(use); });
        });
    for (bool more = true; more;) {
        more = false;
        for (const auto& use : world.uses)
            if (found.contains(use.from) && goes_on(use)) more = found.insert(use.into).second || more;
    }
    return found;
}

void RecallWatch::ask(const World& world, Open& recall, Id id) {
    const auto& delivery = world.lots.at(id).delivery;
    if (recall.asked.insert(id).second && !delivery.empty()) recall.deliveries.insert(delivery);
}

// Stood in the vessel of which it is, or came in the time of which it is.
bool RecallWatch::begins_with(const World& world, const Open& recall, Id id) {
    const auto& lot = world.lots.at(id);
    if (!recall.vessel.empty() && lot.vessel == recall.vessel) return true;
    if (recall.taken || (recall.material.empty() && recall.supplier.empty()) || lot.kind == "blend") return false;
    const bool of_it = recall.material.empty() || lot.item == recall.material;
    return of_it && (recall.supplier.empty() || lot.partner == recall.supplier) && recall.in_time(lot.at);
}

// What came by another truck under the same code is covered too, and so are packs that nobody can tell apart.
void RecallWatch::walk(const World& world, Open& recall) {
    std::set<std::string> printed;
    for (const auto& [id, lot] : world.lots)
        if (recall.deliveries.contains(lot.delivery) || begins_with(world, recall, id)) ask(world, recall, id);
    const auto certain = reached(world, recall, true);
    std::erase_if(recall.left_out, [&](const auto& out) { return certain.contains(out.first) && !out.second.certain; });
    const auto all = reached(world, recall, false);
    for (const Id id : all)
        if (const auto lot = world.lots.find(id); lot != world.lots.end() && !lot->second.printed.empty())
            printed.insert(lot->second.printed);
    recall.covered.insert(all.begin(), all.end());
    for (const auto& [id, lot] : world.lots)
        if (printed.contains(lot.printed)) recall.covered.insert(id);
}

void RecallWatch::hear(const World& world, const record::Entry& entry) {
    const auto* says = std::get_if<record::Statement>(&entry.payload);
    if (!says) return;
    const auto cover = [&](Open& recall, const std::vector<record::RecallLot>& lots) {
        for (const auto& lot : lots) {
            const auto id = world.id(lot.lot);
            if (!id) continue;
            recall.covered.insert(*id);
            if (lot.asked) ask(world, recall, *id);
        }
    };
    if (const auto* opened = std::get_if<record::RecallOpened>(says); opened && !opened->drill) {
        Open& recall = open_[opened->recall];
        const bool by_lot = !opened->lots.empty();
        recall.hazard = opened->hazard;
        recall.vessel = opened->vessel;
        if (!by_lot) recall.material = opened->material;
        if (!by_lot) recall.supplier = opened->supplier;
        recall.taken = opened->taken;
        recall.from = opened->from;
        recall.until = opened->until;
        cover(recall, opened->snapshot);
    } else if (const auto* decided = std::get_if<record::RecallDecided>(says); decided && open_.contains(decided->recall)) {
        Open& recall = open_[decided->recall];
        if (decided->out.empty() && !decided->hazard.empty()) {  // what was left out was so for another one
            recall.hazard = decided->hazard;
            std::erase_if(recall.left_out, [&](const auto& out) { return out.second.hazard != recall.hazard; });
        }
        const auto certain = reached(world, recall, true);
        for (const auto& code : decided->out)
            if (const auto id = world.id(code)) recall.left_out[*id] = {entry.seq, decided->hazard, certain.contains(*id)};
    } else if (const auto* widened = std::get_if<record::RecallWidened>(says); widened && open_.contains(widened->recall)) {
        cover(open_[widened->recall], widened->lots);
        for (const auto& code : widened->back)
            if (const auto id = world.id(code)) open_[widened->recall].left_out.erase(*id);
    } else if (const auto* closed = std::get_if<record::RecallClosed>(says)) {
        open_.erase(closed->recall);
    }
}

const RecallWatch::Open* RecallWatch::covering(Id lot) const {
    for (const auto& [code, recall] : open_)
        if (recall.covered.contains(lot) && !recall.left_out.contains(lot)) return &recall;
    return nullptr;
}

void RecallWatch::watch_sent(const World& world, const record::Entry& entry, std::vector<Violation>& out) const {
    const auto* says = statement_of(entry);
    const auto [sends_on, already_done] = says ? sends(*says) : Sends{};
    if (!sends_on) return;
    const Seq of = about(entry);
    const std::string kind = std::string(of == entry.seq ? "" : "amended, ") + std::string(record::kind_of(*says).name);
    for (auto sent = world.sent.lower_bound({of, 0}); sent != world.sent.end() && sent->first == of; ++sent) {
        const auto& lot = world.lots.at(sent->second);
        if (lot.kind == "supply" || sent_.contains(*sent) || !covering(sent->second)) continue;  // of water all that it goes into is held
        const std::string told = "entry " + std::to_string(entry.seq) + " sends on " + lot.code + ", which a recall covers";
        if (!already_done)
            out.push_back({"recall: sent on: " + kind + ", " + lot.kind, told});
        else if (!world.deviations.contains(of))
            out.push_back({"recall: already done is no deviation: " + kind, told});
    }
}

void RecallWatch::watch_held(const World& world, std::vector<Violation>& out) const {
    for (const auto& [id, lot] : world.lots)
        if (lot.here && !lot.held && covering(id))
            out.push_back({"recall: not held: " + lot.kind, lot.code + " is here, a recall covers it, and it is not held"});
}

std::vector<Violation> RecallWatch::after(House& house, const Outcome& outcome) {
    const bool opens = std::any_of(outcome.entries.begin(), outcome.entries.end(), [](const record::Entry& entry) {
        const auto* says = std::get_if<record::Statement>(&entry.payload);
        return says && std::holds_alternative<record::RecallOpened>(*says);
    });
    std::vector<Violation> out;
    if (open_.empty() && !opens) return out;
    const World world(house);
    for (const auto& entry : outcome.entries) {
        watch_sent(world, entry, out);  // as covered before it
        hear(world, entry);
    }
    for (auto& [code, recall] : open_) walk(world, recall);
    watch_held(world, out);
    sent_ = world.sent;
    return out;
}

}  // namespace peelbook::simulate
