#include "fold/apply_recall.h"

#include <algorithm>

#include "base/text.h"
#include "base/words.h"

namespace peelbook::fold {
namespace {

// "a, b" of those that say something.
std::string told_together(std::initializer_list<std::string> words) {
    std::vector<std::string> said;
    for (const auto& word : words) {
        if (!word.empty()) said.push_back(word);
    }
    return joined(said, ", ");
}

std::string named(const std::string& name, const std::string& value) { return value.empty() ? "" : name + " " + value; }

void put_step(Ledger& ledger, const record::Entry& entry, Seq recall, book::RecallStepKind kind, const std::string& whom,
              const std::string& how, const std::string& text, bool reached = false, bool check = false) {
    ledger.rows().put(
        book::RecallStep{entry.seq, recall, kind, whom, how, reached ? 1 : 0, check ? 1 : 0, text, entry.happened.ms, entry.by});
}

Seq seq_of(Ledger& ledger, const std::string& code) {
    const auto recall = ledger.rows().recall(code);
    if (!recall) throw Damaged("an entry names the recall " + code + ", and no earlier entry opens it");
    return recall->seq;
}

void cover(Ledger& ledger, const record::Entry& entry, Seq recall, book::Int after, const std::vector<record::RecallLot>& lots) {
    for (const auto& one : lots) {
        const auto lot = ledger.rows().lot(one.lot);
        if (!lot) throw Damaged("entry " + std::to_string(entry.seq) + " covers lot " + one.lot + ", which was not in the book then");
        ledger.rows().put(book::RecallLot{recall, ++after, lot->id, one.lot, one.asked ? 1 : 0, one.possible ? 0 : 1, one.on_hand_mg,
                                          one.on_hand_pieces, entry.seq});
    }
}

void take_back_in(Ledger& ledger, const record::Entry& entry, book::RecallOut out) {
    out.ended_by = entry.seq;
    ledger.rows().put(out);
}

}  // namespace

std::string scope_text(const Zone& zone, const record::RecallOpened& s) {
    std::string text = joined(s.lots, ", ");
    for (const auto& word : {s.material, s.vessel}) {
        if (!word.empty()) text += (text.empty() ? "" : ", ") + word;
    }
    if (!s.supplier.empty()) text += (text.empty() ? "all" : "") + (" of " + s.supplier);
    if (s.taken) text += ", taken";
    if (s.from) text += " from " + to_text(zone, *s.from);
    if (s.until) text += " until " + to_text(zone, *s.until);
    return text;
}

void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallOpened& s) {
    auto& rows = ledger.rows();
    book::Recall recall;
    recall.seq = entry.seq;
    recall.code = s.recall;
    recall.drill = s.drill ? 1 : 0;
    const auto zone = Zone::named(ledger.plan_at(entry.happened).plan->site.zone);
    recall.scope = scope_text(zone ? *zone : Zone::utc(), s);
    recall.hazard = s.hazard;
    recall.grade = s.grade;
    recall.decision = s.decision;
    recall.why = s.why;
    recall.check_level = s.check_level;
    recall.check_percent = s.check_percent ? s.check_percent->value : 0;
    recall.seed = s.seed;
    recall.aware = s.aware.value_or(entry.happened).ms;
    recall.happened = entry.happened.ms;
    recall.by = entry.by;
    recall.digest = s.digest;
    recall.words = joined(s.lots, "\n");
    recall.material = s.material;
    recall.supplier = s.supplier;
    recall.vessel = s.vessel;
    if (s.from) recall.from_ms = s.from->ms;
    if (s.until) recall.until_ms = s.until->ms;
    recall.taken = s.taken ? 1 : 0;
    rows.put(recall);
    cover(ledger, entry, entry.seq, 0, s.snapshot);
    book::Int ord = 0;
    for (const auto& d : s.deliveries) {
        rows.put(book::RecallDelivery{entry.seq, ++ord, d.partner, d.way, d.printed_code, d.lot, d.item, d.document, d.pieces, d.mass_mg,
                                      d.returned_pieces, d.returned_mg, d.first.ms, d.last.ms, d.possible ? 0 : 1});
    }
    put_step(ledger, entry, entry.seq, book::RecallStepKind::opened, "", "",
             told_together({s.hazard, named("class", s.grade), named("decision", s.decision), s.why}));
}

void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallDecided& s) {
    auto recall = *ledger.rows().recall(seq_of(ledger, s.recall));
    if (!s.decision.empty()) recall.decision = s.decision;
    if (!s.grade.empty()) recall.grade = s.grade;
    if (s.out.empty() && !s.hazard.empty() && s.hazard != recall.hazard) {
        recall.hazard = s.hazard;  // what was left out was left out for another one
        for (const auto& out : ledger.rows().recall_outs(recall.seq)) {
            if (!out.ended_by && out.hazard != s.hazard) take_back_in(ledger, entry, out);
        }
    }
    ledger.rows().put(recall);
    for (const auto& code : s.out) {
        const auto lot = ledger.rows().lot(code);
        const bool possible = std::find(s.possible.begin(), s.possible.end(), code) != s.possible.end();
        if (lot) ledger.rows().put(book::RecallOut{recall.seq, lot->id, entry.seq, s.hazard, s.why, possible ? 0 : 1, {}});
    }
    put_step(ledger, entry, recall.seq, book::RecallStepKind::decided, "", "",
             told_together({named("decision", s.decision), named("class", s.grade), named("left out", joined(s.out, " ")),
                            named("hazard:", s.hazard), s.why}));
}

void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallWidened& s) {
    const Seq recall = seq_of(ledger, s.recall);
    const auto covered = ledger.rows().recall_lots(recall);
    cover(ledger, entry, recall, covered.empty() ? 0 : covered.back().ord, s.lots);
    for (const auto& code : s.back) {
        const auto lot = ledger.rows().lot(code);
        const auto out = lot ? ledger.rows().recall_out(recall, lot->id) : std::nullopt;
        if (out) take_back_in(ledger, entry, *out);
    }
    std::vector<std::string> codes;
    for (const auto& one : s.lots) codes.push_back(one.lot);
    put_step(ledger, entry, recall, book::RecallStepKind::widened, "", "",
             told_together({named("covers", joined(codes, " ")), named("back in", joined(s.back, " ")),
                            s.cause == 0 ? "" : "by entry " + std::to_string(s.cause), s.why}));
}

void apply_recall(Ledger& ledger, const record::Entry& entry, const record::Contacted& s) {
    const Seq recall = s.recall.empty() ? 0 : seq_of(ledger, s.recall);
    put_step(ledger, entry, recall, book::RecallStepKind::contacted, s.partner, told_together({s.person, s.how}),
             told_together({s.note, named("told of", joined(s.reached ? s.codes : std::vector<std::string>{}, " "))}), s.reached, s.check);
    if (!s.reached || recall == 0) return;
    for (const auto& code : s.codes) ledger.rows().put(book::RecallToldCode{entry.seq, code});
    if (!s.codes.empty()) return;
    for (const auto& d : ledger.rows().recall_deliveries(recall)) {
        if (d.partner == s.partner) ledger.rows().put(book::RecallToldCode{entry.seq, d.printed_code.empty() ? d.lots : d.printed_code});
    }
}

void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallTold& s) {
    put_step(ledger, entry, seq_of(ledger, s.recall), book::RecallStepKind::told, s.whom, told_together({s.name, s.how}), s.note);
}

void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallCounted& s) {
    const Seq recall = seq_of(ledger, s.recall);
    book::RecallCount row{
        entry.seq, recall,      s.code,          s.partner,        stored_word_or_none<Way>(s.way), stored_word<Fate>(s.what), {},
        {},        s.excess_mg, s.excess_pieces, entry.happened.ms};
    if (s.mass) row.mass_mg = s.mass->value;
    if (s.pieces != 0 || !s.mass) row.pieces = s.pieces;
    ledger.rows().put(row);
    const std::string amount =
        told_together({s.pieces != 0 || !s.mass ? std::to_string(s.pieces) + " pieces" : "", s.mass ? to_text(*s.mass) : ""});
    put_step(ledger, entry, recall, book::RecallStepKind::counted, s.partner.empty() ? s.way : s.partner, "",
             told_together({s.what + " " + amount + " of " + s.code, s.note}));
}

void apply_recall(Ledger& ledger, const record::Entry& entry, const record::RecallClosed& s) {
    auto recall = *ledger.rows().recall(seq_of(ledger, s.recall));
    recall.closed_seq = entry.seq;
    recall.closed = entry.happened.ms;
    recall.closed_by = entry.by;
    recall.closed_why = s.why;
    recall.closed_open = joined(s.open, "\n");
    recall.made_mg = s.made_mg;
    recall.made_pieces = s.made_pieces;
    recall.missing_mg = s.missing_mg;
    recall.missing_pieces = s.missing_pieces;
    recall.placed = s.placed;
    recall.found = s.found;
    ledger.rows().put(recall);
    put_step(ledger, entry, recall.seq, book::RecallStepKind::closed, "", "", s.why);
}

}  // namespace peelbook::fold
