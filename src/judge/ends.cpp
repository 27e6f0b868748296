#include "judge/ends.h"

#include <algorithm>

#include "judge/window.h"

namespace peelbook::judge {
namespace {

using Stretch = std::vector<StepFact>;  // ends of one stretch of work, in order of time

std::vector<Stretch> stretches_of(const Facts& facts, std::string_view step) {
    std::vector<Stretch> stretches(1);
    for (StepFact& one : facts.told_of(step)) {
        if (one.again)
            stretches.emplace_back();
        else
            stretches.back().push_back(std::move(one));
    }
    return stretches;
}

bool ended_twice(const Facts& facts, std::string_view step) {
    const auto stretches = stretches_of(facts, step);
    return std::any_of(stretches.begin(), stretches.end(),
                       [](const Stretch& ends) { return !ends.empty() && ends.front().at < ends.back().at; });
}

// A `finish` that is not the end is no entry of the step, and ends none.
Facts with_one_end(const Facts& facts, const std::string& step, bool latest) {
    Facts choice = facts;
    Duration apart{};
    for (const Stretch& ends : stretches_of(facts, step)) {
        if (ends.empty()) continue;
        apart = std::max(apart, ends.back().at - ends.front().at);
        const std::int64_t kept = (latest ? ends.back() : ends.front()).seq;
        for (const StepFact& end : ends) {
            if (end.seq == kept) continue;
            if (end.seq == 0) choice.finish_ends = false;
            std::erase_if(choice.steps_done, [&](const StepFact& done) { return done.seq == end.seq; });
        }
    }
    if (!choice.ends.empty()) choice.ends += "; ";
    choice.ends += step + " was ended more than once, up to " + to_text(apart) + " apart: judged by the " + (latest ? "last" : "first");
    return choice;
}

// The steps of whose ends the verdict may depend: those that the limit and the window name, and those that may open the window.
std::vector<std::string> steps_behind(const plan::Point& point, const Facts& facts) {
    std::vector<std::string> named = {point.step};
    if (const auto* time = std::get_if<plan::TimeLimit>(&point.limit)) named.insert(named.end(), {time->from, time->until});
    if (const auto* cooling = std::get_if<plan::CoolingLimit>(&point.limit))
        named.insert(named.end(), {cooling->hot_at, cooling->starts_at});
    if (const auto* souring = std::get_if<plan::SouringLimit>(&point.limit)) named.push_back(souring->starts_at);
    if (point.window) named.insert(named.end(), {point.window->from, point.window->until});
    if (opens_after_earlier_step(point))
        named.insert(named.end(), facts.steps.begin(), std::find(facts.steps.begin(), facts.steps.end(), point.step));
    std::sort(named.begin(), named.end());
    named.erase(std::unique(named.begin(), named.end()), named.end());
    return named;
}

// Whoever takes back the end that started the clock of a cooling, and states it later, has not made the cooling shorter by that.
std::optional<Facts> with_taken_back(const plan::Point& point, const Facts& facts) {
    const auto* cooling = std::get_if<plan::CoolingLimit>(&point.limit);
    if (!cooling || facts.steps_taken_back.empty()) return {};
    std::optional<Facts> out;
    for (const StepFact& end : facts.steps_taken_back) {
        const bool starts = !end.again && (end.step == cooling->hot_at || end.step == cooling->starts_at);
        if (!starts || !facts.end_of(end.step)) continue;
        if (!out) out = facts;
        out->steps_done.push_back(end);
    }
    return out;
}

std::vector<std::string> steps_ended_twice(const plan::Point& point, const Facts& facts) {
    if (facts.steps_done.empty()) return {};
    auto steps = steps_behind(point, facts);
    std::erase_if(steps, [&](const std::string& step) { return !ended_twice(facts, step); });
    return steps;
}

}  // namespace

std::vector<Facts> choices_of_ends(const plan::Point& point, const Facts& facts) {
    std::vector<Facts> choices = {facts};
    for (const std::string& step : steps_ended_twice(point, facts)) {
        std::vector<Facts> both;
        for (const Facts& choice : choices)
            for (const bool latest : {false, true}) both.push_back(with_one_end(choice, step, latest));
        choices = std::move(both);
    }
    return choices;
}

void over_choices_of_ends(const plan::Point& point, const Facts& facts, const std::function<void(const Facts&)>& judge) {
    const auto told = with_taken_back(point, facts);
    const Facts& all = told ? *told : facts;
    if (steps_ended_twice(point, all).empty()) return judge(all);
    for (const Facts& choice : choices_of_ends(point, all)) judge(choice);
}

}  // namespace peelbook::judge
