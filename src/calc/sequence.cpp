#include "calc/sequence.h"

#include <algorithm>

#include "calc/sequence_methods.h"

namespace peelbook::calc {
namespace {

Check check_changeovers(const std::vector<Changeover>& row, std::size_t n, const std::string& name) {
    if (row.size() != n) {
        return Refusal{name + " with " + std::to_string(row.size()) + " entries",
                       std::to_string(n) + " entries, one for each product",
                       "complete the cleaning table",
                       {}};
    }
    for (const Changeover& c : row) {
        if (c.minutes < 0) {
            return Refusal{name + " with " + std::to_string(c.minutes) + " minutes", "0 minutes or more", "correct the cleaning table", {}};
        }
    }
    return {};
}

SequenceQuestion with_everything_allowed(SequenceQuestion question) {
    for (auto& row : question.cleaning) {
        for (Changeover& c : row) c.allowed = true;
    }
    for (Changeover& c : question.first) c.allowed = true;
    return question;
}

std::optional<std::vector<std::size_t>> working_order(const SequenceQuestion& question) {
    if (question.jobs.size() <= most_jobs_exact) return exact_order(question);
    auto order = searched_order(question);
    if (!works(checked(question, order))) return std::nullopt;
    return order;
}

void explain(SequenceAnswer& answer, const SequenceQuestion& question) {
    answer.reasons = reasons_against(question);
    const bool exact = question.jobs.size() <= most_jobs_exact;
    answer.proven = exact || !answer.reasons.empty();
    if (answer.reasons.empty()) {
        answer.reasons.push_back(exact ? "no order meets every due time with the changeovers that are allowed"
                                       : "no order that works was found; whether none exists is not proven");
    }
    const SequenceQuestion relaxed = with_everything_allowed(question);
    answer.with_extra_cleaning = working_order(relaxed);
    if (answer.with_extra_cleaning) answer.with_extra_check = checked(question, *answer.with_extra_cleaning);
}

}  // namespace

std::optional<std::int64_t> changeover_minutes(const SequenceQuestion& question, std::optional<std::size_t> from, std::size_t to) {
    if (!from && question.first.empty()) return 0;
    const Changeover& c = from ? question.cleaning[*from][to] : question.first[to];
    if (!c.allowed) return std::nullopt;
    return c.minutes;
}

Changeover before_position(const SequenceQuestion& question, const std::vector<std::size_t>& order, std::size_t i) {
    if (i > 0) return question.cleaning[order[i - 1]][order[i]];
    return question.first.empty() ? Changeover{} : question.first[order[i]];
}

SequenceCheck checked(const SequenceQuestion& question, const std::vector<std::size_t>& order) {
    SequenceCheck out;
    std::int64_t now = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const std::size_t job = order[i];
        const Changeover before = before_position(question, order, i);
        if (!before.allowed) out.forbidden.push_back(i);
        out.cleaning_minutes += before.minutes;
        now += before.minutes + question.jobs[job].minutes;
        out.done.push_back(now);
        if (question.jobs[job].due && now > *question.jobs[job].due) out.late.push_back(job);
    }
    return out;
}

Check check(const SequenceQuestion& question) {
    const std::size_t n = question.jobs.size();
    if (n > most_jobs) {
        return Refusal{std::to_string(n) + " products", "up to " + std::to_string(most_jobs), "split the day or the line", {}};
    }
    if (question.cleaning.size() != n) {
        return Refusal{"a cleaning table of " + std::to_string(question.cleaning.size()) + " rows",
                       std::to_string(n) + " rows, one for each product",
                       "complete the cleaning table",
                       {}};
    }
    for (std::size_t i = 0; i < n; ++i) {
        const std::string& name = question.jobs[i].name;
        if (question.jobs[i].minutes < 0) {
            return Refusal{"'" + name + "' with " + std::to_string(question.jobs[i].minutes) + " minutes",
                           "0 minutes or more",
                           "correct the run time",
                           {}};
        }
        if (auto checked = check_changeovers(question.cleaning[i], n, "cleaning after '" + name + "'"); !checked) return checked;
    }
    if (question.first.empty()) return {};
    return check_changeovers(question.first, n, "cleaning before the first product");
}

Result<SequenceCheck> check_order(const SequenceQuestion& question, const std::vector<std::size_t>& order) {
    if (auto checked = check(question); !checked) return checked.refusal();
    auto sorted = order;
    std::sort(sorted.begin(), sorted.end());
    bool each_once = sorted.size() == question.jobs.size();
    for (std::size_t i = 0; each_once && i < sorted.size(); ++i) each_once = sorted[i] == i;
    if (!each_once) {
        return Refusal{"an order of " + std::to_string(order.size()) + " products",
                       "each of the " + std::to_string(question.jobs.size()) + " products once",
                       "leave none out and repeat none",
                       {}};
    }
    return checked(question, order);
}

Result<SequenceAnswer> best_sequence(const SequenceQuestion& question) {
    if (auto checked = check(question); !checked) return checked.refusal();
    SequenceAnswer answer;
    if (question.jobs.empty()) {
        answer.found = answer.proven = true;
        return answer;
    }
    const bool exact = question.jobs.size() <= most_jobs_exact;
    const auto order = working_order(question);
    if (!exact) answer.bound = cleaning_bound(question).value_or(0);
    if (!order) {
        explain(answer, question);
        return answer;
    }
    answer.found = true;
    answer.order = *order;
    answer.check = checked(question, *order);
    if (exact) answer.bound = answer.check.cleaning_minutes;
    answer.proven = answer.check.cleaning_minutes == answer.bound;
    return answer;
}

}  // namespace peelbook::calc
