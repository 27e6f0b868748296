// When each step of a recall was done, and what is still to be done or accounted for.
#include <algorithm>

#include "base/measure.h"
#include "base/text.h"
#include "site/ask/recall_view.h"

namespace peelbook::site {
namespace {

using Time = std::optional<std::int64_t>;

class Timings {
  public:
    Timings(const plan::Plan& plan, Instant now, RecallView& view) : plan_(plan), now_(now), view_(view) {}

    void run() {
        const auto& recall = view_.recall;
        add("", "word came", recall.aware, {}, "");
        add("", "opened, snapshot frozen", recall.happened, {}, "");
        std::set<std::string> with_deadline;
        for (const auto& d : plan_.deadlines) {
            if (d.step == "call-list") continue;
            with_deadline.insert(d.step);
            const std::string name = d.step == "hold" && recall.drill != 0 ? d.name + " (drill: listed)" : d.name;
            add(d.step, name, done(d.step), recall.aware + d.within.ms, d.basis);
        }
        const std::pair<const char*, const char*> others[] = {{"hold", "everything on hand held"},     {"authority", "authority told"},
                                                              {"customers", "every customer reached"}, {"public", "public told"},
                                                              {"supplier", "supplier told"},           {"close", "closed"}};
        for (const auto& [step, name] : others) {
            if (!with_deadline.contains(step)) add(step, name, done(step), {}, "");
        }
    }

  private:
    Time told(const std::string& whom) const {
        for (const auto& step : view_.steps) {
            if (step.kind == book::RecallStepKind::told && step.whom == whom) return step.happened;
        }
        return {};
    }

    // When the last of the customers was told of the last of their codes; none while one is missing.
    Time customers_reached() const {
        Time last = view_.recall.happened;
        for (const auto& one : view_.partners) {
            if (!one.to_tell()) continue;
            const auto reached = one.reached();
            if (!reached) return {};
            last = std::max(last, reached);
        }
        return last;
    }

    Time done(const std::string& step) const {
        if (step == "hold") return view_.recall.drill != 0 || view_.to_hold.empty() ? Time{view_.recall.happened} : Time{};
        if (step == "customers") return customers_reached();
        if (step == "close") return view_.recall.closed;
        return told(step);
    }

    void add(const std::string& of, const std::string& name, Time done, Time due, const std::string& basis) {
        std::string state = done ? "done" : "not done";
        if (due && done && *done > *due) state = "done late";
        if (due && !done) state = now_.ms > *due ? "overdue" : "open";
        view_.timings.push_back({of, name, done, due, basis, state});
    }

    const plan::Plan& plan_;
    Instant now_;
    RecallView& view_;
};

std::string excess_text(const RecallGoods& goods) {
    const auto& d = goods.delivery;
    return "NOT ASKED: " + (d.partner.empty() ? (d.way.empty() ? "nobody named" : d.way) : d.partner) + ", " +
           not_accounted_text(goods.excess.mg, goods.excess.pieces) + " of " + d.code() + " more than was sent";
}

}  // namespace

void add_timings(const plan::Plan& plan, Instant now, RecallView& view) { Timings(plan, now, view).run(); }

std::vector<std::string> RecallView::still_open() const {
    std::vector<std::string> out, excess, unchecked;
    if (const auto gap = not_accounted_text(missing_mg(), missing_pieces()); !gap.empty()) out.push_back("NOT ACCOUNTED FOR: " + gap);
    for (const auto& t : timings) {
        if (!t.done && t.of != "close" && t.of != "customers") out.push_back("NOT DONE: " + t.step);
    }
    for (const auto& one : partners) {
        std::vector<std::string> codes;
        for (const auto& goods : one.had) {
            if (!goods.told && !goods.left_out) codes.push_back(goods.delivery.code());
            if (!goods.asked) excess.push_back(excess_text(goods));
        }
        if (!codes.empty()) out.push_back("NOT TOLD: " + one.partner.code + " of " + joined(codes, ", "));
        if (one.to_check && !one.checked && one.to_tell()) unchecked.push_back(one.partner.code);
    }
    if (!unchecked.empty()) out.push_back("NOT DONE: effectiveness check of " + joined(unchecked, ", "));
    for (const auto& goods : unnamed) {
        if (goods.excess != trace::Amounts{}) excess.push_back(excess_text(goods));
    }
    out.insert(out.end(), excess.begin(), excess.end());
    return out;
}

}  // namespace peelbook::site
