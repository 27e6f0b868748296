#include "fold/ledger.h"

#include <algorithm>

#include "plan/compiled.h"
#include "plan/reader.h"

namespace peelbook::fold {
namespace {

constexpr std::size_t most_kept_entries = 50'000;

plan::Plan read_adopted(const record::PlanAdopted& adopted) {
    std::vector<plan::Text> texts;
    for (const auto& file : adopted.files) texts.push_back({file.name, file.text});
    return plan::read_adopted_plan(texts);
}

}  // namespace

const record::Entry& Ledger::entry(Seq seq) {
    if (auto found = entries_.find(seq); found != entries_.end()) return found->second;
    auto read = book.entry(seq);
    if (!read) throw Damaged("entry " + std::to_string(seq) + " is named by another but is not in the book");
    if (entries_.size() >= most_kept_entries) entries_.clear();
    return entries_.emplace(seq, std::move(*read)).first->second;
}

void Ledger::remember(const record::Entry& entry) {
    if (entries_.size() < most_kept_entries) entries_.emplace(entry.seq, entry);
}

Effective Ledger::effective(Seq seq) { return effective(seq, rows().fact(seq)); }

Effective Ledger::effective(Seq seq, const std::optional<book::Fact>& fact) {
    const record::Entry& original = entry(seq);
    Effective out{.seq = seq,
                  .happened = original.happened,
                  .written = original.written,
                  .by = original.by,
                  .says = {},
                  .amended_by = {},
                  .voided_by = {}};
    if (const auto* says = std::get_if<record::Statement>(&original.payload)) {
        out.says = *says;
    } else {
        const auto& amended = std::get<record::Amended>(original.payload);
        out.says = amended.statement;
        return out;
    }
    if (!fact) return out;
    out.voided_by = fact->voided_by;
    out.amended_by = fact->amended_by;
    out.happened = {fact->happened};
    if (fact->amended_by) {
        const record::Entry& amendment = entry(*fact->amended_by);
        out.says = std::get<record::Amended>(amendment.payload).statement;
        out.written = amendment.written;
    }
    return out;
}

std::vector<Effective> Ledger::effective_touching(book::SubjectKind kind, const std::string& subject, std::optional<Instant> from) {
    std::vector<Effective> out;
    for (const auto& fact : rows().facts_touching(kind, subject, from ? std::optional<book::Int>(from->ms) : std::nullopt)) {
        out.push_back(effective(fact.seq, fact));
    }
    return out;
}

std::vector<Effective> Ledger::effective_before(book::SubjectKind kind, const std::string& subject, Instant before, book::Int most,
                                                const std::string& without) {
    std::vector<Effective> out;
    for (const auto& fact : rows().facts_before(kind, subject, before.ms, most, without)) {
        out.push_back(effective(fact.seq, fact));
    }
    return out;
}

const std::vector<book::PlanVersion>& Ledger::plan_versions() {
    if (!versions_) versions_ = rows().plan_versions();
    return *versions_;
}

bool Ledger::is_practice(Seq seq) {
    const auto& versions = plan_versions();
    const auto adopted = [&](const book::PlanVersion& version) { return version.seq <= seq; };
    return std::any_of(versions.begin(), versions.end(), adopted) &&
           std::none_of(versions.begin(), versions.end(), [&](const auto& v) { return adopted(v) && v.practice == 0; });
}

void Ledger::plans_changed() { versions_.reset(); }

void Ledger::forget() {
    versions_.reset();
    plans_.clear();
    entries_.clear();
}

GoverningPlan Ledger::plan_version(Seq seq) {
    static const auto none = std::make_shared<const plan::Plan>();
    if (seq == 0) return {0, none, false};
    auto& kept = plans_[seq];
    if (!kept) {
        const auto compiled = rows().plan_compiled(seq);
        auto read = compiled ? plan::from_compiled(compiled->text) : std::nullopt;
        if (!read) {
            const auto& says = std::get<record::Statement>(entry(seq).payload);
            read = read_adopted(std::get<record::PlanAdopted>(says));
        }
        kept = std::make_shared<const plan::Plan>(*std::move(read));
    }
    return {seq, kept, false};
}

GoverningPlan Ledger::plan_at(Instant t) {
    const auto& versions = plan_versions();
    if (versions.empty()) return plan_version(0);
    const book::PlanVersion* in_force = &versions.front();
    for (const auto& version : versions) {
        if (version.from_ms <= t.ms) in_force = &version;
    }
    auto governing = plan_version(in_force->seq);
    governing.before_first = t.ms < versions.front().from_ms;
    return governing;
}

const Zone& Ledger::zone() {
    const auto& versions = plan_versions();
    const std::string wanted = versions.empty() ? "UTC" : plan_version(versions.back().seq).plan->site.zone;
    if (!zone_ || zone_name_ != wanted) {
        auto named = Zone::named(wanted);
        zone_ = named.ok() ? *named : Zone::utc();
        zone_name_ = wanted;
    }
    return *zone_;
}

Ledger::Day Ledger::production_day(Instant t) {
    const int start = plan_at(t).plan->site.day_start_minutes;
    const LocalTime local = zone().to_local(t);
    Date day = local.date;
    if (local.hour * 60 + local.minute < start) day = add_days(day, -1);
    const IsoWeek week = iso_week(day);
    return {to_days(day), static_cast<std::int64_t>(week.year) * 100 + week.week};
}

std::pair<Instant, Instant> Ledger::span_of_week(IsoWeek week) {
    const Date monday = monday_of(week);
    const int start = plan_at({to_days(monday) * 86'400'000}).plan->site.day_start_minutes;
    const auto begins = [&](Date day) { return zone().day_start(day, start / 60, start % 60); };
    return {begins(monday), begins(add_days(monday, 7))};
}

}  // namespace peelbook::fold
