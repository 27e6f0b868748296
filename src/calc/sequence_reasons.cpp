// Why no order works, in words a baker can act on. Each reason is sufficient by itself.
#include <algorithm>
#include <numeric>

#include "calc/sequence_methods.h"

namespace peelbook::calc {
namespace {

using Minutes = std::optional<std::int64_t>;

std::string minutes_text(std::int64_t minutes) { return std::to_string(minutes) + " min"; }

// "a, b and c"
std::string listed(const std::vector<std::string>& names) {
    std::string text = names.front();
    for (std::size_t i = 1; i < names.size(); ++i) text += (i + 1 < names.size() ? ", " : " and ") + names[i];
    return text;
}

// Least cleaning with which a job can be reached, from any other job or from the line's start.
Minutes least_before(const SequenceQuestion& q, std::size_t job) {
    Minutes least = changeover_minutes(q, std::nullopt, job);
    for (std::size_t from = 0; from < q.jobs.size(); ++from) {
        if (from == job) continue;
        const Minutes m = changeover_minutes(q, from, job);
        if (m && (!least || *m < *least)) least = m;
    }
    return least;
}

void jobs_that_fit_nowhere(const SequenceQuestion& q, std::vector<std::string>& reasons) {
    for (std::size_t job = 0; job < q.jobs.size(); ++job) {
        const SequenceJob& j = q.jobs[job];
        const Minutes before = least_before(q, job);
        if (!before) {
            reasons.push_back("'" + j.name + "' may not follow any product, and may not be the first");
        } else if (j.due && j.minutes > *j.due) {
            reasons.push_back("'" + j.name + "' takes " + minutes_text(j.minutes) + " and is due after " + minutes_text(*j.due) +
                              ": too late even as the first");
        }
    }
}

void jobs_that_only_end(const SequenceQuestion& q, std::vector<std::string>& reasons) {
    std::vector<std::string> names;
    for (std::size_t from = 0; from < q.jobs.size(); ++from) {
        bool leads_on = false;
        for (std::size_t to = 0; to < q.jobs.size(); ++to) {
            leads_on = leads_on || (to != from && changeover_minutes(q, from, to));
        }
        if (!leads_on) names.push_back("'" + q.jobs[from].name + "'");
    }
    if (names.size() < 2) return;
    reasons.push_back("nothing may follow " + listed(names) + ", and only one product can be the last");
}

void jobs_that_only_begin(const SequenceQuestion& q, std::vector<std::string>& reasons) {
    std::vector<std::string> names;
    for (std::size_t to = 0; to < q.jobs.size(); ++to) {
        bool follows = false;
        for (std::size_t from = 0; from < q.jobs.size(); ++from) {
            follows = follows || (to != from && changeover_minutes(q, from, to));
        }
        if (!follows && changeover_minutes(q, std::nullopt, to)) names.push_back("'" + q.jobs[to].name + "'");
    }
    if (names.size() < 2) return;
    reasons.push_back(listed(names) + " may not follow any product, and only one product can be the first");
}

// Jackson's rule: if some job is late in the order of due times without any cleaning, some job is late in
// every order.
void too_much_work(const SequenceQuestion& q, std::vector<std::string>& reasons) {
    std::vector<std::size_t> order;
    for (std::size_t job = 0; job < q.jobs.size(); ++job) {
        if (q.jobs[job].due) order.push_back(job);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return *q.jobs[a].due < *q.jobs[b].due; });
    std::int64_t now = 0;
    for (std::size_t job : order) {
        now += q.jobs[job].minutes;
        if (now <= *q.jobs[job].due) continue;
        reasons.push_back("the products due up to " + minutes_text(*q.jobs[job].due) + " after the start take " + minutes_text(now) +
                          " even without any cleaning ('" + q.jobs[job].name + "' would be " + minutes_text(now - *q.jobs[job].due) +
                          " late)");
        return;
    }
}

}  // namespace

std::vector<std::string> reasons_against(const SequenceQuestion& q) {
    std::vector<std::string> reasons;
    jobs_that_fit_nowhere(q, reasons);
    jobs_that_only_begin(q, reasons);
    jobs_that_only_end(q, reasons);
    too_much_work(q, reasons);
    if (reasons.empty() && !cleaning_bound(q)) {
        reasons.push_back("the changeovers that are allowed do not join all products into one order");
    }
    return reasons;
}

}  // namespace peelbook::calc
