#include <ostream>

#include "base/measure.h"
#include "base/text.h"
#include "base/told_table.h"
#include "base/words.h"
#include "cli/frame/command.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

using output::Json;

struct TraceOnestepGiven {
    std::string lot;
    Asking asking;
};

void set_up(Options& options, TraceOnestepGiven& given) {
    options.word(given.lot, "LOT", "one of our codes, or a printed code");
    add_asking(options, given.asking);
}

Json firm_json(const site::Firm& f) {
    return Json::object().set("code", f.code).set("name", f.name).set("address", f.address).set("phone", f.phone).set("email", f.email);
}

// Name, then how to reach it; a firm that is not known by code is what was typed.
std::string firm_text(const site::Firm& f) {
    std::vector<std::string> parts;
    for (const auto& part : {f.name.empty() ? f.code : f.name, f.address, f.phone, f.email})
        if (!part.empty()) parts.push_back(part);
    return joined(parts, ", ");
}

Json answer_json(const site::OneStep& answer, const Zone& zone) {
    auto sources = Json::array(), recipients = Json::array(), asked = Json::array();
    for (const auto& lot : answer.asked) asked.add(lot.code);
    for (const auto& s : answer.sources)
        sources.add(Json::object()
                        .set("lot", s.lot.code)
                        .set("item", s.lot.item)
                        .set("name", s.name)
                        .set("supplier_lot", s.lot.supplier_lot)
                        .set("gtin", s.lot.gtin)
                        .set("mass_mg", s.lot.made_mg)
                        .set("pieces", s.lot.made_pieces)
                        .set("received", to_iso(zone, Instant{s.lot.happened}))
                        .set("document", s.lot.document)
                        .set("certain", s.certain)
                        .set("from", firm_json(s.from))
                        .set("carrier", firm_json(s.carrier)));
    for (const auto& r : answer.recipients)
        recipients.add(Json::object()
                           .set("lot", r.lot)
                           .set("printed_code", r.printed_code)
                           .set("name", r.name)
                           .set("way", word(r.way))
                           .set("pieces", r.pieces)
                           .set("mass_mg", r.mass_mg)
                           .set("happened", to_iso(zone, Instant{r.happened}))
                           .set("document", r.document)
                           .set("certain", r.certain)
                           .set("to", firm_json(r.to))
                           .set("carrier", firm_json(r.carrier)));
    return Json::object()
        .set("lots", std::move(asked))
        .set("sources", std::move(sources))
        .set("recipients", std::move(recipients))
        .set("missing", answer.missing);
}

std::string mass_or_none(const std::optional<std::int64_t>& mg) { return mg ? mass_text(*mg) : std::string(); }

std::string answer_text(const site::OneStep& answer, const Zone& zone) {
    const output::TextTableStyle style{.indent = 2, .most_width = 70, .headings = true};
    std::vector<std::string> codes;
    for (const auto& lot : answer.asked) codes.push_back(lot.code);
    const Table from = table_of(answer.sources, [&](TableRow& row, const site::Source& s) {
        row("lot", s.lot.code)("what", s.name)("supplier's lot", s.lot.supplier_lot)("quantity", mass_or_none(s.lot.made_mg));
        row("received", to_text(zone, Instant{s.lot.happened}))("document", s.lot.document)("from", firm_text(s.from));
        row("brought by", firm_text(s.carrier))("certain", s.certain ? "" : "possible");
    });
    const Table to = table_of(answer.recipients, [&](TableRow& row, const site::Recipient& r) {
        row("when", to_text(zone, Instant{r.happened}))("way", in_words(r.way))("lot", r.lot)("printed code", r.printed_code)("what",
                                                                                                                              r.name);
        row("pieces", r.pieces)("mass", mass_or_none(r.mass_mg))("document", r.document)("to", firm_text(r.to));
        row("taken by", firm_text(r.carrier))("certain", r.certain ? "" : "possible");
    });
    std::string text = joined(codes, ", ") + ": one step back\n" + output::text_table(from, style) + "\none step forward\n";
    text += to.rows.empty() ? "  nothing of it has left the house\n" : output::text_table(to, style);
    for (const auto& missing : answer.missing) text += "not in the book: " + missing + "\n";
    return text;
}

Result<Exit> act(Context& context, const TraceOnestepGiven& given) {
    const auto site = open_page(context, given.asking);
    if (!site) return site.refusal();
    const auto answer = (*site)->one_step(given.lot);
    if (!answer) return answer.refusal();
    if (given.asking.json)
        context.out << answer_json(*answer, (*site)->zone()).text() << '\n';
    else
        context.out << answer_text(*answer, (*site)->zone());
    return Exit::done;
}

}  // namespace

extern const Command trace_onestep_command;
const Command trace_onestep_command{.name = "trace onestep",
                                    .group = Group::recall,
                                    .about = "Who gave each ingredient of this lot, and who got each pack of it.",
                                    .more =
                                        "With addresses, carriers, documents and times, as 21 CFR 1.337 and 1.345 and Regulation (EC) "
                                        "178/2002 ask;\n"
                                        "what they ask and the book lacks is listed.",
                                    .examples = "peelbook trace onestep PACK-1",
                                    .takes_at = false,
                                    .body = body<TraceOnestepGiven, set_up, act>()};

}  // namespace peelbook::cli
