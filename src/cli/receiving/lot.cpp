#include <ostream>

#include "base/measure.h"
#include "base/text.h"
#include "base/words.h"
#include "cli/frame/command.h"
#include "cli/frame/finding_text.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;
using Pairs = std::vector<std::pair<std::string, std::string>>;

struct LotGiven {
    std::string code;
    Asking asking;
};

void set_up(Options& options, LotGiven& given) {
    options.word(given.code, "LOT", "the lot");
    add_asking(options, given.asking);
}

std::string quantity(std::optional<std::int64_t> mg, std::optional<std::int64_t> pieces) {
    std::vector<std::string> parts;
    if (pieces) parts.push_back(std::to_string(*pieces) + " pieces");
    if (mg) parts.push_back(mass_text(*mg));
    return joined(parts, ", ");
}

Pairs facts(const book::Lot& lot, const Zone& zone, bool practice, const std::string& use) {
    Pairs pairs{{"lot", lot.code},
                {"kind", in_words(lot.kind)},
                {"item", lot.item},
                {"since", to_text(zone, Instant{lot.happened}) + ", entry " + std::to_string(lot.id)}};
    const auto add = [&pairs](const std::string& name, const std::string& value) {
        if (!value.empty()) pairs.emplace_back(name, value);
    };
    add("practice", practice ? "made in practice: nothing of it was held by itself" : "");
    add("status", in_words(lot.status));
    add("made", quantity(lot.made_mg, lot.made_pieces));
    add("from", lot.partner);
    add("supplier lot", lot.supplier_lot);
    add(lot.date_kind ? in_words(lot.date_kind) : "date", lot.date);
    add("use", use);
    add("label", lot.label);
    add("printed", lot.printed_code);
    add("vessel", lot.vessel);
    add("place", lot.place);
    add("document", lot.document);
    add("GTIN", lot.gtin);
    add("pallet", lot.sscc);
    return pairs;
}

// Columns of `stock`, as facts in words; masses in mg become text.
std::string stock_text(const Table& stock) {
    if (stock.rows.empty()) return {};
    Pairs pairs;
    for (std::size_t i = 0; i < stock.columns.size(); ++i) {
        const auto* n = std::get_if<std::int64_t>(&stock.rows.front()[i]);
        if (n == nullptr) continue;
        std::string name = stock.columns[i];
        const bool mass = name.ends_with("_mg");
        if (mass) name.resize(name.size() - 3);
        for (char& c : name)
            if (c == '_') c = ' ';
        if (*n != 0 || name == "on hand") pairs.emplace_back(name, mass ? mass_text(*n) : std::to_string(*n));
    }
    return "stock\n" + output::text_pairs(pairs, 2);
}

Result<Exit> act(Context& context, const LotGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto lot = (*site)->lot(given.code);
    if (!lot) return lot.refusal();
    const auto stock = (*site)->ask(
        "SELECT made_mg, used_mg, out_mg, returned_mg, gap_mg, on_hand_mg, made_pieces, used_pieces, "
        "out_pieces, "
        "returned_pieces, gap_pieces, on_hand_pieces FROM stock WHERE lot = " +
        std::to_string(lot->id));
    if (!stock) return stock.refusal();
    const auto held = (*site)->ask("SELECT seq AS entry, why FROM hold WHERE released_seq IS NULL AND lot = " + std::to_string(lot->id) +
                                   " ORDER BY seq");
    if (!held) return held.refusal();
    const auto findings = (*site)->findings_of(given.code);
    const auto owed = (*site)->owed_of(*lot);
    const bool practice = (*site)->is_practice(lot->id);
    const std::string use = (*site)->use_of(*lot);
    if (given.asking.json) {
        auto told = Json::array();
        for (const auto& finding : findings) told.add(finding_json(finding, (*site)->zone()));
        auto json = Json::object();
        for (const auto& [name, value] : facts(*lot, (*site)->zone(), practice, use)) json.set(name, value);
        json.set("stock", output::to_json(*stock)).set("holds", output::to_json(*held)).set("owed", owed);
        json.set("findings", std::move(told)).set("caution", caution);
        context.out << json.text() << '\n';
        return Exit::done;
    }
    context.out << output::text_pairs(facts(*lot, (*site)->zone(), practice, use)) << stock_text(*stock);
    for (const auto& row : held->rows) context.out << "HELD by entry " << to_text(row[0]) << ": " << to_text(row[1]) << '\n';
    for (const auto& line : owed) context.out << "owed: " << line << '\n';
    for (const auto& finding : findings) context.out << finding_text(finding);
    if (!findings.empty()) context.out << caution << '\n';
    return Exit::done;
}

}  // namespace

extern const Command lot_command;
const Command lot_command{.name = "lot",
                          .group = Group::receiving,
                          .about = "Show a lot: what it is, what is left, its holds and verdicts, what it owes.",
                          .more = {},
                          .examples = "peelbook lot PAN-1",
                          .takes_at = false,
                          .body = body<LotGiven, set_up, act>()};

}  // namespace peelbook::cli
