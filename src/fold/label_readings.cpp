// Label readings stand on a line; the packs between them are judged by them.
#include "fold/label_readings.h"

#include <limits>

#include "base/words.h"
#include "fold/fold.h"
#include "fold/ratchet/waiting.h"
#include "fold/touches.h"

namespace peelbook::fold {

std::vector<judge::LabelReading> label_readings(Ledger& ledger, const std::string& line, const std::string& point, Instant around) {
    constexpr book::Int most = 60;  // of one run: beyond that the start of a run is looked for no further
    auto& rows = ledger.rows();
    const std::string subject = place_subject(line, point);
    std::vector<judge::LabelReading> out;
    const auto add = [&](Seq seq) {
        const auto e = as_it_counts(ledger, ledger.effective(seq));
        const auto* says = std::get_if<record::LabelChecked>(&e.says);
        if (!says || e.voided_by) return;
        out.push_back({seq, e.happened, stored_word<LabelMoment>(says->moment), says->label, says->printed_code,
                       says->date ? to_text(*says->date) : ""});
    };
    auto before = rows.touching_before(book::SubjectKind::place, subject, around.ms, most);
    for (auto seq = before.rbegin(); seq != before.rend(); ++seq) add(*seq);
    for (const Seq seq : rows.touching_after(book::SubjectKind::place, subject, around.ms, most)) add(seq);
    return out;
}

Subjects packs_of_label_run(Ledger& ledger, const std::string& line, const std::string& point, Instant around) {
    const auto governing = ledger.plan_at(around);
    const auto* known = governing.plan->point(point);
    if (!known || !std::holds_alternative<plan::LabelLimit>(known->limit)) return {};
    Instant from{std::numeric_limits<book::Int>::min() / 2}, until{std::numeric_limits<book::Int>::max()};
    for (const auto& reading : label_readings(ledger, line, point, around)) {
        if (!begins_run(reading.moment)) continue;
        if (reading.at < around) from = reading.at;
        if (reading.at > around) {
            until = reading.at;
            break;
        }
    }
    Subjects packs;
    for (const auto& run : ledger.rows().runs_on(line, from.ms, until.ms)) packs.push_back(Subject::of_lot(Rank::findings, run.lot));
    return packs;
}

}  // namespace peelbook::fold
