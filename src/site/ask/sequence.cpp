#include "site/ask/sequence.h"

#include <algorithm>

#include "base/text.h"

namespace peelbook::site {
namespace {

class Proposing {
  public:
    Proposing(const plan::Plan& plan, std::string line, const std::vector<SequenceProduct>& given, const Lying& now)
        : plan_(plan), line_(std::move(line)), given_(given), now_(now) {
        std::vector<std::string> names;
        for (const auto& one : given_) names.push_back(one.product);
        const Lying at_all = can_lie(plan_, line_, names, now_);
        for (const auto& name : names) left_.push_back(left_by(plan_, line_, name, at_all));
    }

    calc::SequenceQuestion question() const;
    std::vector<SequenceStep> steps(const std::vector<std::size_t>& order, const calc::SequenceCheck& check) const;
    std::vector<std::string> breaks(const std::vector<std::size_t>& order, const calc::SequenceCheck& check) const;

  private:
    LineCleaning between(std::optional<std::size_t> from, std::size_t to) const {
        return cleaning_before(plan_, line_, from ? left_[*from] : now_, given_[to].product);
    }
    std::optional<std::size_t> before(const std::vector<std::size_t>& order, std::size_t position) const {
        return position == 0 ? std::nullopt : std::optional(order[position - 1]);
    }

    const plan::Plan& plan_;
    std::string line_;
    const std::vector<SequenceProduct>& given_;
    const Lying& now_;
    std::vector<Lying> left_;
};

calc::SequenceQuestion Proposing::question() const {
    calc::SequenceQuestion q;
    const std::size_t n = given_.size();
    for (const auto& one : given_) q.jobs.push_back({one.product, one.minutes, one.due_minutes});
    const auto changeover = [](const LineCleaning& cleaning) { return calc::Changeover{cleaning.minutes, cleaning.possible()}; };
    q.cleaning.assign(n, std::vector<calc::Changeover>(n));
    for (std::size_t from = 0; from < n; ++from) {
        for (std::size_t to = 0; to < n; ++to) {
            if (from != to) q.cleaning[from][to] = changeover(between(from, to));
        }
    }
    for (std::size_t to = 0; to < n; ++to) q.first.push_back(changeover(between({}, to)));
    return q;
}

std::vector<SequenceStep> Proposing::steps(const std::vector<std::size_t>& order, const calc::SequenceCheck& check) const {
    std::vector<SequenceStep> out;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const auto& one = given_[order[i]];
        out.push_back({one.product, one.batches, between(before(order, i), order[i]), check.done[i], one.due_minutes});
    }
    return out;
}

std::vector<std::string> Proposing::breaks(const std::vector<std::size_t>& order, const calc::SequenceCheck& check) const {
    std::vector<std::string> out;
    for (const std::size_t position : check.forbidden) {
        const auto cleaning = between(before(order, position), order[position]);
        out.push_back(joined(cleaning.cannot, ", ") + " before " + given_[order[position]].product +
                      ": no cleaning of the plan clears it there");
    }
    for (const std::size_t job : check.late) {
        const auto at = static_cast<std::size_t>(std::find(order.begin(), order.end(), job) - order.begin());
        out.push_back(given_[job].product + " is done " + std::to_string(check.done[at] - *given_[job].due_minutes) + " min late");
    }
    return out;
}

Check check_given(const plan::Plan& plan, const std::string& line, const std::vector<SequenceProduct>& given) {
    std::vector<std::string> lines, products;
    for (const auto& piece : plan.equipment) lines.insert(lines.end(), piece.lines.begin(), piece.lines.end());
    if (std::find(lines.begin(), lines.end(), line) == lines.end()) {
        return Refusal{"line '" + shown(line) + "'",
                       lines.empty() ? "a line with equipment: the plan names none" : "a line of the plan's equipment",
                       "check the name, or add [[equipment]] to the plan", nearest(line, lines)};
    }
    for (const auto& product : plan.products) {
        if (product.line == line) products.push_back(product.id);
    }
    if (given.empty()) return Refusal{"no products", "at least one product", "write them into the file", {}};
    for (std::size_t i = 0; i < given.size(); ++i) {
        const auto& one = given[i];
        if (std::find(products.begin(), products.end(), one.product) == products.end()) {
            return Refusal{"product '" + shown(one.product) + "'", "a product of " + line,
                           "check the word, or the product's line in the plan", nearest(one.product, products)};
        }
        if (one.minutes < 1)
            return Refusal{std::to_string(one.minutes) + " min of " + one.product, "how long it runs, from 1 min", "write it", {}};
        for (std::size_t j = 0; j < i; ++j) {
            if (given[j].product == one.product) {
                return Refusal{one.product + " twice", "each product once, all its batches together", "bring the two lines together", {}};
            }
        }
    }
    return {};
}

}  // namespace

Result<SequenceProposal> propose_sequence(const plan::Plan& plan, const std::string& line, const std::vector<SequenceProduct>& given,
                                          const Lying& now) {
    if (auto checked = check_given(plan, line, given); !checked) return checked.refusal();
    const Proposing proposing(plan, line, given, now);
    const auto question = proposing.question();
    const auto best = calc::best_sequence(question);
    if (!best) return best.refusal();
    std::vector<std::size_t> as_given;
    for (std::size_t i = 0; i < given.size(); ++i) as_given.push_back(i);
    const auto check = calc::check_order(question, as_given);
    if (!check) return check.refusal();
    SequenceProposal out;
    out.line = line;
    out.found = best->found;
    out.proven = best->proven;
    out.bound = best->bound;
    out.reasons = best->reasons;
    out.given_order_minutes = check->cleaning_minutes;
    out.given_order_breaks = proposing.breaks(as_given, *check);
    if (best->found) {
        out.order = proposing.steps(best->order, best->check);
        out.cleaning_minutes = best->check.cleaning_minutes;
    } else if (best->with_extra_cleaning) {
        out.order = proposing.steps(*best->with_extra_cleaning, *best->with_extra_check);
        out.cleaning_minutes = best->with_extra_check->cleaning_minutes;
    }
    for (const auto& step : out.order) out.cost += step.before.cost;
    return out;
}

}  // namespace peelbook::site
