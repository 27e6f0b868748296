// round: today's list of a delivery round, with lots for it; and with --ship all of it in one transaction.
#include <ostream>

#include "base/text.h"
#include "base/zone.h"
#include "cli/frame/command.h"
#include "cli/frame/parts.h"
#include "cli/frame/recording.h"
#include "cli/frame/words.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct RoundGiven {
    site::RoundQuestion question;
    std::vector<std::string> orders;
    std::string list, document, carrier;
    bool ship = false;
    Recording recording;
};

void set_up(Options& options, RoundGiven& given) {
    site::RoundQuestion& q = given.question;
    options.word(q.name, "NAME", "the round")
        .list(q.customers, "--to", "begin with what went to these customers, not with what went by the round")
        .date(q.like, "--like", "begin with that day; else with each customer's last")
        .each(given.orders, "--set", "CUSTOMER:PRODUCT=AMOUNT", "so much of it today; a lot for the product, and it is of that")
        .list(q.skip, "--skip", "nothing for these today: CUSTOMER, or CUSTOMER:PRODUCT")
        .text(given.list, "--list", "FILE", "the whole list from a file, one CUSTOMER:PRODUCT=AMOUNT a line")
        .text(given.document, "--document", "CODE", "the delivery note; each customer's is CODE/CUSTOMER")
        .text(given.carrier, "--carrier", "PARTNER", "who takes it there")
        .flag(given.ship, "--ship", "it has left as proposed: record it all, or none of it");
    add_recording(options, given.recording);
}

Result<site::RoundOrder> parse_order(const std::string& typed) {
    const auto colon = typed.find(':');
    const auto sign = typed.find('=');
    if (colon != std::string::npos && colon > 0 && sign != std::string::npos && colon < sign) {
        const auto part = parse_part(typed.substr(colon + 1));
        if (!part) return part.refusal();
        if (part->pieces > 0 || part->mass) return site::RoundOrder{typed.substr(0, colon), part->lot, part->pieces, part->mass};
    }
    return Refusal{"'" + shown(typed) + "'", "who gets how much of what", "type it as CAFE-1:pan-loaf=40, or =4kg", {}};
}

Check read_orders(const Context& context, const RoundGiven& given, site::RoundQuestion& question) {
    std::vector<std::string> words = given.orders;
    if (!given.list.empty()) {
        const auto text = context.files.read(context.here / given.list);
        if (!text) return Refusal{"file '" + shown(given.list) + "'", "a file that can be read", "check the name and the folder", {}};
        for (const auto& line : split(*text, '\n')) {
            const auto of_line = split_words(line);
            if (!of_line) return of_line.refusal();
            words.insert(words.end(), of_line->begin(), of_line->end());
        }
        question.orders_only = true;
    }
    for (const auto& word : words) {
        auto order = parse_order(word);
        if (!order) return order.refusal();
        question.orders.push_back(std::move(*order));
    }
    return {};
}

Cell amount(const site::RoundLine& line, std::int64_t value) {
    if (value == 0) return {};
    return line.in_mass ? Cell(mass_text(value)) : Cell(value);
}

std::string lots_text(const site::RoundLine& line) {
    std::vector<std::string> lots;
    for (const auto& [code, part] : line.lots) lots.push_back(code + " " + to_text(amount(line, part)));
    return joined(lots, ", ");
}

void print(std::ostream& out, const site::Round& round, const Zone& zone, Instant at) {
    out << "round " << round.name << " of " << to_text(zone, at) << '\n';
    Table table{{"to", "what", "as on", "wanted", "gone", "lots", "short"}, {}};
    for (const auto& line : round.lines) {
        table.rows.push_back({line.whom, line.item, line.like ? to_text(*line.like) : std::string("today"), amount(line, line.wanted),
                              amount(line, line.gone), lots_text(line), amount(line, line.lacking())});
    }
    out << output::text_table(table);
    for (const auto& one : round.kept) out << "kept here: " << one << '\n';
}

output::Json json_of(const site::Round& round) {
    auto lines = output::Json::array();
    for (const auto& line : round.lines) {
        auto lots = output::Json::array();
        for (const auto& [code, part] : line.lots) lots.add(output::Json::object().set("lot", code).set("amount", part));
        auto one = output::Json::object();
        one.set("to", line.whom).set("way", word(line.way)).set("item", line.item).set("unit", line.in_mass ? "mg" : "pieces");
        one.set("as_on", line.like ? to_text(*line.like) : "").set("wanted", line.wanted).set("gone", line.gone);
        lines.add(one.set("lots", lots).set("short", line.lacking()));
    }
    return output::Json::object().set("round", round.name).set("lines", lines).set("kept", round.kept);
}

Result<Exit> act(Context& context, const RoundGiven& given) {
    auto question = given.question;
    if (auto checked = read_orders(context, given, question); !checked) return checked.refusal();
    const auto site = context.site(given.recording.site, given.ship ? Context::Mode::write : Context::Mode::read);
    if (!site) return site.refusal();
    const auto at = when(context, **site, given.recording.at);
    if (!at) return at.refusal();
    question.at = at->value_or(context.clock.now());
    const auto round = (*site)->round(question);
    if (!round) return round.refusal();
    Exit exit = Exit::done;
    for (const auto& line : round->lines) exit = line.lacking() > 0 ? Exit::not_within : exit;
    if (!given.recording.json) print(context.out, *round, (*site)->zone(), question.at);
    if (!given.ship) {
        if (given.recording.json) context.out << json_of(*round).text() << '\n';
        return exit;
    }
    std::vector<record::Statement> statements;
    for (auto& moved : round->shipments(given.document, given.carrier)) statements.emplace_back(std::move(moved));
    const auto recorded = record_all(context, given.recording, statements);
    if (!recorded) return recorded.refusal();
    return graver(exit, *recorded);
}

}  // namespace

extern const Command round_command;
const Command round_command{.name = "round",
                            .group = Group::receiving,
                            .about = "Today's list of a delivery round, with lots for it; --ship records that it left.",
                            .more =
                                "The list is what each customer got by it on their last day. Lots are proposed first expired first, of\n"
                                "those that may go; what is short is told, with exit code 1. If another lot went on the van, name it:\n"
                                "--set CUSTOMER:LOT=AMOUNT. What went by the round today already is not shipped twice.",
                            .examples =
                                "peelbook round north --to CAFE-1,CAFE-2\n"
                                "peelbook round north --set CAFE-1:pan-loaf=40 --skip CAFE-2\n"
                                "peelbook round north --set CAFE-1:pan-loaf=40 --skip CAFE-2 --ship --document D-1021 --by RS\n"
                                "peelbook round north --list orders.txt --ship --by RS",
                            .takes_at = true,
                            .body = body<RoundGiven, set_up, act>()};

}  // namespace peelbook::cli
