#include "cli/recall/trace_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <ostream>
#include <set>

#include "base/measure.h"
#include "base/text.h"
#include "cli/recall/trace_rows.h"
#include "output/text_table.h"

namespace peelbook::cli {
namespace {

using trace::Near;

struct Shown {
    std::string_view field, heading;
};
using Columns = std::vector<Shown>;

const Columns lot_columns{{"code", "lot"},
                          {"kind", "kind"},
                          {"name", "what"},
                          {"happened", "since"},
                          {"made_mg", "made"},
                          {"made_pieces", "pcs"},
                          {"on_hand_mg", "on hand"},
                          {"on_hand_pieces", "on hand pcs"},
                          {"held", "held"},
                          {"certain", "sure"},
                          {"share_expected", "share"},
                          {"share_largest", "at most"},
                          {"printed_code", "printed"},
                          {"supplier", "supplier"},
                          {"supplier_lot", "supplier lot"}};
const Columns customer_columns{{"partner", "to"},           {"name", "name"},        {"way", "way"},
                               {"printed_code", "printed"}, {"lot", "lot"},          {"item", "what"},
                               {"pieces", "pcs"},           {"mass_mg", "mass"},     {"returned_pieces", "returned pcs"},
                               {"returned_mg", "returned"}, {"first", "first"},      {"last", "last"},
                               {"certain", "sure"},         {"document", "document"}};
const Columns balance_columns{{"lot", "lot"},
                              {"made_mg", "made"},
                              {"used_mg", "used"},
                              {"out_mg", "out"},
                              {"on_hand_mg", "on hand"},
                              {"gap_mg", "gap"},
                              {"returned_mg", "returned"},
                              {"unaccounted_mg", "unaccounted"},
                              {"made_pieces", "made pcs"},
                              {"used_pieces", "used pcs"},
                              {"out_pieces", "out pcs"},
                              {"on_hand_pieces", "on hand pcs"},
                              {"gap_pieces", "gap pcs"},
                              {"returned_pieces", "returned pcs"},
                              {"unaccounted_pieces", "unaccounted pcs"},
                              {"closes", "closes"}};
const Columns possible_columns{{"code", "lot"}, {"item", "what"}, {"happened", "since"}};

// How a field is told: masses in kg and the like, a word only for what stands out.
enum class Telling { as_it_is, mass, share, held, certain };

Telling telling_of(std::string_view field) {
    if (field.ends_with("_mg")) return Telling::mass;
    if (field.starts_with("share_")) return Telling::share;
    if (field == "held") return Telling::held;
    return field == "certain" ? Telling::certain : Telling::as_it_is;
}

// One column of a table: numbers stand right, amounts with their unit left.
class Column {
  public:
    Column(const Shown& shown, std::size_t rows) : text_(shown.heading, most_width, rows), telling_(telling_of(shown.field)) {}

    void put(std::string_view text) {
        note_text(text);
        text_.add(text);
    }
    void put(std::int64_t n) {
        if (telling_ == Telling::mass) return put_own(mass(n));
        std::array<char, 20> digits;
        const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), n).ptr;
        any_number_ = true;
        says_something_ = says_something_ || n != 0;
        text_.add_plain({digits.data(), static_cast<std::size_t>(end - digits.data())});
    }
    void put(double share) {
        if (share != share_) {
            const double percent = share * 100;
            share_ = share;
            before_ = to_text(to_canonical(percent, Unit::percent), Unit::percent, percent < 0.1 ? 3 : 1);
        }
        put_own(before_);
    }
    void put(bool yes) {
        switch (telling_) {
            case Telling::held:
                return put_own(yes ? "HELD" : "");
            case Telling::certain:
                return put_own(yes ? "" : "possible");
            default:
                return put_own(yes ? "yes" : "no");
        }
    }
    template <class Value> void put(const std::optional<Value>& value) {
        if (value) return put(*value);
        text_.add_plain({});
    }
    void put_own(std::string_view text) {  // words of the program's own, which need no check
        note_text(text);
        text_.add_plain(text);
    }

    bool says_something() const { return says_something_; }
    output::TextColumn text() && {
        text_.right = any_number_ && !any_text_;
        return std::move(text_);
    }

  private:
    static constexpr std::size_t most_width = 60;
    void note_text(std::string_view text) {
        any_text_ = any_text_ || !text.empty();
        says_something_ = says_something_ || (!text.empty() && text != "0");
    }
    std::string_view mass(std::int64_t mg) {
        if (mg != mg_) before_ = mg == 0 ? "0" : mass_text(mg);
        mg_ = mg;
        return before_;
    }

    output::TextColumn text_;
    Telling telling_;
    bool any_number_ = false, any_text_ = false, says_something_ = false;
    // What the row before told is not worked out again: a pack has its batch's mass and share.
    std::int64_t mg_ = 0;
    double share_ = -1;  // none is less than 0
    std::string before_ = "0";
};

// Rows told field by field; which column a field stands in is looked up in the first row only.
class TableText {
  public:
    TableText(const Columns& shown, const Zone& zone, std::size_t rows) : shown_(shown), zone_(zone) {
        for (const Shown& one : shown) columns_.emplace_back(one, rows);
    }

    void begin_row() { field_ = 0; }
    template <class Value> void operator()(std::string_view name, const Value& value) {
        if (field_ == column_of_.size()) column_of_.push_back(column_named(name));
        const std::size_t column = column_of_[field_++];
        if (column == columns_.size()) return;
        if constexpr (std::is_same_v<Value, Instant>) {
            columns_[column].put_own(to_text(zone_, value));
        } else if constexpr (std::is_convertible_v<Value, std::string_view>) {
            columns_[column].put(std::string_view(value));
        } else {
            columns_[column].put(value);
        }
    }

    // Columns that say nothing in any row are left out.
    void write(std::ostream& out) && {
        output::TextColumns texts;
        for (Column& column : columns_)
            if (column.says_something()) texts.push_back(std::move(column).text());
        output::write_text_table(out, texts, output::TextTableStyle{.indent = 2, .headings = true});
    }

  private:
    std::size_t column_named(std::string_view name) const {
        return static_cast<std::size_t>(std::find_if(shown_.begin(), shown_.end(), [&](const Shown& one) { return one.field == name; }) -
                                        shown_.begin());
    }
    const Columns& shown_;
    const Zone& zone_;
    std::vector<Column> columns_;
    std::vector<std::size_t> column_of_;  // by field; their number for one that is not shown
    std::size_t field_ = 0;
};

// A table of `all`, row by row by `tell_row(table, one)`.
template <class All, class TellRow>
void write_table(std::ostream& out, const Columns& columns, const Zone& zone, const All& all, const TellRow& tell_row) {
    TableText table(columns, zone, all.size());
    for (const auto& one : all) {
        table.begin_row();
        tell_row(table, one);
    }
    std::move(table).write(out);
}

struct LotRow {
    const trace::Lot* lot;
    const trace::Reached* reached;
};

// The reached lots by how near they stand.
class Groups {
  public:
    Groups(const site::TraceAnswer& answer, const TracedLots& lots) {
        for (const trace::Reached& reached : answer.reached) {
            const trace::Lot* lot = lots.find(reached.lot);
            if (!lot) continue;
            rows_[near(reached, answer.carry_over_ppm)].push_back({lot, &reached});
            ++count;
            if (lot->on_hand_mg > 0) ++here;
        }
    }
    void write_table(std::ostream& out, Near near, const Zone& zone) {
        cli::write_table(out, lot_columns, zone, rows_[near],
                         [&](auto& tell, const LotRow& row) { tell_lot(tell, *row.lot, *row.reached, near); });
    }
    void write_group(std::ostream& out, Near near, const std::string& heading, const Zone& zone) {
        if (rows_[near].empty()) return;
        out << '\n' << heading << ": " << rows_[near].size() << '\n';
        write_table(out, near, zone);
    }

    std::size_t count = 0, here = 0;  // all of them; those with some on hand

  private:
    std::map<Near, std::vector<LotRow>> rows_;
};

// The first line is what is asked on the telephone: how many lots, how many customers, what is still here.
std::string headline(const site::TraceAnswer& answer, const Groups& groups) {
    std::set<std::string_view> partners;
    for (const auto& delivery : answer.customers)
        if (!delivery.partner.empty()) partners.insert(delivery.partner);
    const std::string reached = counted(groups.count - answer.start.size(), "lot", "lots");
    std::string text = answer.forward ? "traced forward: " + reached + " made from it" : "traced back: " + reached + " behind it";
    text += ", " + counted(groups.here, "lot", "lots") + " with some on hand, " +
            counted(answer.customers.size(), "delivery", "deliveries") + " to " + counted(partners.size(), "partner", "partners");
    return text + "\n";
}

// Those asked for, and every other one with a gap or without a close; the rest is counted.
void write_balances(std::ostream& out, const site::TraceAnswer& answer, const TracedLots& lots, const Zone& zone) {
    std::set<trace::LotId> asked;
    for (const book::Lot& lot : answer.start) asked.insert(lot.id);
    std::vector<const trace::Balance*> told;
    bool with_gap = false;
    for (const trace::Balance& balance : answer.balances) {
        const bool gap = !balance.closes() || balance.gap_mg != 0 || balance.gap_pieces != 0;
        if (gap || asked.contains(balance.lot)) told.push_back(&balance);
        with_gap = with_gap || (gap && !asked.contains(balance.lot));
    }
    out << "\nmass balance: made = used + out + on hand - gap\n";
    write_table(out, balance_columns, zone, told, [&](auto& tell, const auto* b) { tell_balance(tell, *b, lots.code(b->lot)); });
    const std::size_t others = answer.balances.size() - told.size();
    if (others > 0) out << "  the other " << others << " lots close without a gap; --json and --out list them\n";
    if (with_gap) out << "  a gap comes from a stock count\n";
}

}  // namespace

void write_trace(std::ostream& out, const site::TraceAnswer& answer, const Zone& zone) {
    const TracedLots lots(answer.graph);
    Groups groups(answer, lots);
    out << headline(answer, groups);
    groups.write_table(out, Near::asked_for, zone);
    groups.write_group(out, Near::direct, answer.forward ? "made with it directly" : "used in it directly", zone);
    const std::string threshold = to_text(answer.carry_over_ppm / 10, Unit::percent, 2) + " of the inputs";
    groups.write_group(
        out, Near::further,
        answer.forward ? "carry-over through other lots, a share of " + threshold + " or more, or not known" : "through other lots", zone);
    groups.write_group(out, Near::carry_over, "carry-over through other lots, a share below " + threshold, zone);
    if (!answer.customers.empty()) {
        out << "\nwho has it, by printed code\n";
        write_table(out, customer_columns, zone, answer.customers, [](auto& tell, const auto& d) { tell_customer(tell, d); });
    }
    if (!answer.possible.empty()) {
        out << "\npossible: a use is missing, and they were made while the lot was in house\n";
        write_table(out, possible_columns, zone, answer.possible, [](auto& tell, const auto& lot) { tell_possible(tell, lot); });
    }
    write_balances(out, answer, lots, zone);
    for (const std::string& note : answer.notes) out << "note: " << note << '\n';
    out << caution << '\n';
}

}  // namespace peelbook::cli
