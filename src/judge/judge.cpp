#include "judge/judge.h"

#include "judge/by_unit.h"
#include "judge/ends.h"
#include "judge/hours.h"
#include "judge/limits.h"
#include "judge/window.h"
#include "judge/worse.h"

namespace peelbook::judge {
namespace {

struct ByLimit {
    const plan::Point& point;
    const Facts& facts;

    Judged operator()(const plan::RangeLimit& limit) const { return judge_range(point, limit, facts); }
    Judged operator()(const plan::TimeLimit& limit) const { return judge_time(point, limit, facts); }
    Judged operator()(const plan::CoolingLimit& limit) const { return judge_staged_cooling(point, limit, facts); }
    Judged operator()(const plan::BeforePackingLimit& limit) const { return judge_before_packing(point, limit, facts); }
    Judged operator()(const plan::LethalityLimit& limit) const { return judge_lethality(point, limit, facts); }
    Judged operator()(const plan::ClassLimit& limit) const { return judge_class(point, limit, facts); }
    Judged operator()(const plan::LossLimit& limit) const { return judge_loss(point, limit, facts); }
    Judged operator()(const plan::SouringLimit& limit) const { return judge_souring(point, limit, facts); }
    Judged operator()(const plan::YesNoLimit&) const { return judge_yes_no(point, facts); }
    Judged operator()(const plan::MarketLimit& limit) const { return judge_market(point, limit, facts); }
    Judged operator()(const plan::LabelLimit&) const { return {}; }  // of a line: judge/label_check.h
};

Judged by_limit(const plan::Point& point, const Facts& facts) { return std::visit(ByLimit{point, facts}, point.limit); }

}  // namespace

Judged judge_one(const plan::Point& point, const Facts& facts) {
    std::optional<Judged> judged;
    const auto by_either_end = [&](const Facts& of_hour, std::string_view hour) {
        over_choices_of_ends(point, of_hour, [&](const Facts& choice) {
            Judged one = judge_in_window(point, choice, by_limit);
            for (Finding& finding : one.findings) {
                append_sentence(finding.detail, choice.ends);
                append_sentence(finding.detail, hour);
            }
            judged = judged ? worse_of(*judged, one) : std::move(one);
        });
    };
    const auto second = in_the_second_hour(point, facts);
    by_either_end(facts, second ? "The hour that the clock showed twice is taken as the first" : "");
    if (second) by_either_end(*second, "The hour that the clock showed twice is taken as the second");
    return *std::move(judged);
}

std::optional<Verdict> worst(const std::vector<Judged>& all) {
    std::optional<Verdict> worst;
    bool settled = true;
    for (const Judged& judged : all) {
        if (judged.owed && (judged.standing != Standing::judged || judged.part_open)) settled = false;
        for (const Finding& finding : judged.findings) worst = worst ? worse(*worst, finding.verdict) : finding.verdict;
    }
    if (worst == Verdict::within && !settled) return std::nullopt;
    return worst;
}

}  // namespace peelbook::judge
