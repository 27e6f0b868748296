#include <ostream>

#include "base/text.h"
#include "cli/calculation/file.h"
#include "cli/frame/command.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct SequenceGiven {
    std::string line, products, start;
    Asking asking;
};

void set_up(Options& options, SequenceGiven& given) {
    options.word(given.line, "LINE", "the line, a place of the plan")
        .text(given.products, "--products", "FILE", "one product a line: product, batches, minutes, due", Need::wanted)
        .text(given.start, "--start", "TIME", "when the line starts, 05:00: wanted when a due is a time of day");
    add_asking(options, given.asking);
}

// "05:30" as minutes of the day.
std::optional<std::int64_t> clock(const std::string& text) {
    const auto cut = text.find(':');
    if (cut == std::string::npos) return {};
    const auto hour = number_of(text.substr(0, cut), ';'), minute = number_of(text.substr(cut + 1), ';');
    if (!hour || !minute || *hour < 0 || *hour > 23 || *minute < 0 || *minute > 59 || text.size() - cut != 3) return {};
    return static_cast<std::int64_t>(*hour) * 60 + static_cast<std::int64_t>(*minute);
}

std::optional<std::int64_t> whole(const std::string& text) {
    const auto number = number_of(text, ';');
    if (!number || *number < 0 || *number > 1e6 || *number != static_cast<double>(static_cast<std::int64_t>(*number))) return {};
    return static_cast<std::int64_t>(*number);
}

// A time of day, or a time from the start: "6h30min", or minutes.
Result<std::int64_t> due_of(const SequenceGiven& given, const FileRow& row, const std::string& text) {
    constexpr std::int64_t minutes_a_day = 24 * 60;
    if (const auto minutes = whole(text)) return *minutes;
    if (const auto at = clock(text)) {
        const auto start = clock(given.start);
        if (!start) return Refusal{"due " + text + " and no start of the line", "when the line starts", "add --start 05:00", {}};
        return (*at - *start + minutes_a_day) % minutes_a_day;
    }
    const auto period = parse_duration(text);
    if (period) return period->ms / 60'000;
    return bad_line(given.products, row.line, "due '" + shown(text) + "'",
                    "a time of day (11:30), a time from the start (6h30min) or nothing");
}

Result<std::vector<site::SequenceProduct>> products_of(const Context& context, const SequenceGiven& given) {
    const auto is_row = [](const std::vector<std::string>& cells, char) { return cells.size() >= 3 && whole(cells[1]) && whole(cells[2]); };
    const auto table = read_table(context, given.products, is_row, "product, batches, minutes, due");
    if (!table) return table.refusal();
    std::vector<site::SequenceProduct> out;
    for (const FileRow& row : table->rows) {
        site::SequenceProduct one{std::string(trimmed(row.cells[0])), *whole(row.cells[1]), *whole(row.cells[2]), {}};
        const std::string due(row.cells.size() > 3 ? trimmed(row.cells[3]) : std::string_view());
        if (!due.empty()) {
            const auto minutes = due_of(given, row, due);
            if (!minutes) return minutes.refusal();
            one.due_minutes = *minutes;
        }
        out.push_back(std::move(one));
    }
    return out;
}

std::string moment(const SequenceGiven& given, std::int64_t minutes) {
    const auto start = clock(given.start);
    const std::int64_t at = (start.value_or(0) + minutes) % (24 * 60);
    const std::string hour = std::to_string(start ? at / 60 : minutes / 60), minute = std::to_string(at % 60);
    return std::string(hour.size() < 2 ? "0" : "") + hour + ":" + (minute.size() < 2 ? "0" : "") + minute;
}

std::string cleaning_words(const site::LineCleaning& cleaning) {
    std::vector<std::string> parts;
    for (const auto& piece : cleaning.pieces)
        parts.push_back(piece.piece + " " + joined(piece.cleanings, " and ") + " (" + joined(piece.clears, ", ") + ")");
    for (const auto& what : cleaning.cannot) parts.push_back("NOT CLEARED: " + what);
    return parts.empty() ? "none" : joined(parts, "; ");
}

Json step_json(const SequenceGiven& given, const site::SequenceStep& step) {
    auto cleanings = Json::array();
    for (const auto& piece : step.before.pieces)
        cleanings.add(Json::object().set("equipment", piece.piece).set("cleanings", piece.cleanings).set("clears", piece.clears));
    auto json = Json::object();
    json.set("product", step.product).set("batches", step.batches).set("cleaning_minutes", step.before.minutes);
    json.set("cleanings", std::move(cleanings)).set("not_cleared", step.before.cannot).set("done_minutes", step.done);
    json.set("done", moment(given, step.done)).set("due_minutes", step.due_minutes);
    return json;
}

void print_json(std::ostream& out, const SequenceGiven& given, const site::SequenceProposal& p) {
    auto order = Json::array();
    for (const auto& step : p.order) order.add(step_json(given, step));
    auto json = Json::object();
    json.set("line", p.line).set("found", p.found).set("order", std::move(order)).set("cleaning_minutes", p.cleaning_minutes);
    json.set("cost", p.cost).set("given_order_minutes", p.given_order_minutes).set("given_order_breaks", p.given_order_breaks);
    json.set("proven", p.proven).set("bound", p.bound).set("reasons", p.reasons).set("caution", caution);
    out << json.text() << '\n';
}

void print_text(std::ostream& out, const SequenceGiven& given, const site::SequenceProposal& p) {
    if (!p.found) {
        out << (p.proven ? "no order works on " : "no order that works was found on ") << p.line << '\n';
        for (const auto& reason : p.reasons) out << "  " << reason << '\n';
        if (!p.order.empty()) out << "with extra cleaning, as marked:\n";
    }
    Table table{{"product", "batches", "clean_before", "min", "done", "due"}, {}};
    for (const auto& step : p.order)
        table.rows.push_back({step.product, step.batches, cleaning_words(step.before), step.before.minutes, moment(given, step.done),
                              step.due_minutes ? moment(given, *step.due_minutes) : std::string()});
    if (!table.rows.empty())
        out << output::text_table(table, {"product", "batches", "clean before it", "min", "done", "due"},
                                  output::TextTableStyle{.indent = 2});
    if (!p.order.empty()) {
        out << "cleaning " << p.cleaning_minutes << " min";
        if (p.cost > 0) out << ", cost " << p.cost;
        if (p.found) out << (p.proven ? ", the least there can be" : "; no order can need less than " + std::to_string(p.bound) + " min");
        out << '\n';
    }
    out << "in the order given: " << p.given_order_minutes << " min";
    if (!p.given_order_breaks.empty()) out << ", and it does not work: " << joined(p.given_order_breaks, "; ");
    out << '\n';
    if (p.found && p.given_order_breaks.empty()) out << "saved: " << p.given_order_minutes - p.cleaning_minutes << " min\n";
    out << "each cleaning counts once it is verified; every changeover is judged as it happens\n" << caution << '\n';
}

Result<Exit> act(Context& context, const SequenceGiven& given) {
    if (!given.start.empty() && !clock(given.start))
        return Refusal{"--start " + shown(given.start), "a time of day", "write it like 05:00", {}};
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto products = products_of(context, given);
    if (!products) return products.refusal();
    const auto proposal = (*site)->sequence(given.line, *products);
    if (!proposal) return proposal.refusal();
    if (given.asking.json) print_json(context.out, given, *proposal);
    if (!given.asking.json) print_text(context.out, given, *proposal);
    return proposal->found ? Exit::done : Exit::not_within;
}

}  // namespace

extern const Command sequence_command;
const Command sequence_command{.name = "sequence",
                               .group = Group::quality,
                               .about = "Propose the order of the day on a line, with the least cleaning.",
                               .more =
                                   "FILE: a line a product: its name, batches, minutes of all its batches together, due (11:30, 6h30min "
                                   "or nothing).\n"
                                   "From what lies on the line's equipment now; no residue is left that the next product does not "
                                   "declare.\n"
                                   "Exact for up to 15 products; above that with a bound. Exit 1: no order works.",
                               .examples = "peelbook sequence line-bread --products today.csv --start 05:00",
                               .takes_at = false,
                               .body = body<SequenceGiven, set_up, act>()};

}  // namespace peelbook::cli
