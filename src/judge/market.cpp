// Gluten or sulphites as measured in the food as sold, against what the market of its label allows (plan/boundaries.h).
//
// A pack is judged by its own label, a batch by all labels of its product, since nobody knows yet which it will get: the
// strictest decides, and the labels that would allow the content are named. A claim that is not made and sulphites that are
// declared allow any content. Every reading counts, the worst decides, and no later one corrects it.
#include "base/text.h"
#include "base/units.h"
#include "calc/acceptance.h"
#include "judge/by_unit.h"
#include "judge/compare.h"
#include "judge/limits.h"
#include "plan/boundaries.h"

namespace peelbook::judge {
namespace {

using OfLabel = plan::MarketLimit::OfLabel;

struct Content {
    const plan::Point& point;
    const plan::MarketLimit& limit;
    std::vector<const OfLabel*> labels;  // that judge this lot
    const OfLabel* strictest;            // null: each allows any content
};

Content content_of(const plan::Point& point, const plan::MarketLimit& limit, const Facts& facts) {
    Content content{point, limit, plan::labels_for(limit, facts.product, facts.label), nullptr};
    content.strictest = plan::strictest(content.labels);
    return content;
}

bool allows(const OfLabel& label, const Measure& value) {
    const auto most = plan::most_micro(label);
    return !most || value.typed_micro <= *most;
}

// Allowed as read, but not with the instrument's error against it.
bool content_straddles(const Content& content, const ReadingFact& reading) {
    if (!content.point.guarded) return false;
    if (!reading.guard || reading.guard->dimension() != Dimension::per_million) return true;
    return calc::conformity(reading.value.typed_micro, std::nullopt, plan::most_micro(*content.strictest), reading.guard->typed_micro) !=
           calc::Conformity::meets;
}

Verdict content_verdict(const Content& content, const ReadingFact& reading) {
    if (content.labels.empty()) return Verdict::unproven;
    if (!content.strictest) return Verdict::within;
    if (!allows(*content.strictest, reading.value)) return Verdict::deviation;
    const bool doubted = lacks_instrument(content.point, reading.instrument) || content_straddles(content, reading);
    return doubted ? Verdict::unproven : Verdict::within;
}

// "at most 20mg/kg for gluten-free on label seed-1, market eu (Regulation (EU) No 828/2014)"
std::string boundary_text(const Content& content, const OfLabel& label) {
    const std::string_view source = plan::source_of(label);
    return plan::allowed_words(label) + " " + plan::boundary_of_words(content.limit.of, label) +
           (source.empty() ? "" : " (" + std::string(source) + ")");
}

std::string too_much_text(const OfLabel& label, const Measure& value) {
    const std::int64_t apart = value.typed_micro - label.most->typed_micro;
    return to_text(value) + " is " + (apart > 0 ? decimal_text(apart, 6, true) + std::string(symbol(value.unit)) + " " : "") + "too much: ";
}

// Where the strictest label is broken, those that are not.
std::string allowing_text(const Content& content, const Measure& value) {
    std::vector<std::string> names;
    for (const OfLabel* label : content.labels)
        if (allows(*label, value)) names.push_back(label->label + " (market " + label->market + ", " + plan::allowed_words(*label) + ")");
    return names.empty() ? "" : "Allowed on label " + joined(names, ", ");
}

std::string content_text(const Content& content, const ReadingFact& reading, Verdict verdict) {
    if (content.labels.empty()) return "No label in the plan says what is allowed of " + content.limit.of;
    const OfLabel& label = content.strictest ? *content.strictest : *content.labels.front();
    if (verdict == Verdict::deviation) return too_much_text(label, reading.value) + boundary_text(content, label);
    const std::string text = to_text(reading.value) + ", limit " + boundary_text(content, label);
    if (verdict != Verdict::unproven) return text;
    const bool lacking = lacks_instrument(content.point, reading.instrument);
    return text + ", " + (lacking ? instrument_fault(reading.instrument) : guard_fault(reading));
}

Outcome judge_content(const Content& content, const Facts& facts, const std::vector<const ReadingFact*>& readings) {
    if (readings.empty()) return missing_or_open(content.point, facts, "reading");
    const ReadingFact* worst = readings.front();
    const auto rank = [&](const ReadingFact* r) { return std::pair(content_verdict(content, *r), r->value.typed_micro); };
    for (const ReadingFact* r : readings)
        if (rank(r) > rank(worst)) worst = r;
    Outcome outcome;
    Finding& finding = outcome.finding.emplace();
    finding.verdict = content_verdict(content, *worst);
    finding.happened = worst->at;
    finding.measured = to_text(worst->value);
    append_sentence(finding.detail, content_text(content, *worst, finding.verdict));
    if (finding.verdict == Verdict::deviation) {
        append_sentence(finding.detail, allowing_text(content, worst->value));
        return outcome;
    }
    const Sides warned = sides_of(content.point.warn_least, content.point.warn_most);
    for (const ReadingFact* r : readings)
        if (outcome.next.empty() && !meets(r->value, warned)) outcome.next = breach_text(r->value, warned, "operating limit");
    append_sentence(finding.detail, outcome.next);
    return outcome;
}

}  // namespace

Judged judge_market(const plan::Point& point, const plan::MarketLimit& limit, const Facts& facts) {
    const Content content = content_of(point, limit, facts);
    return judge_units(point, facts, facts.readings,
                       [&](const std::vector<const ReadingFact*>& readings) { return judge_content(content, facts, readings); });
}

}  // namespace peelbook::judge
