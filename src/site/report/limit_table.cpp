#include "site/report/limit_table.h"

#include <string>

#include "plan/boundaries.h"

namespace peelbook::site {
namespace {

Cell number(const std::optional<plan::Bound>& bound) { return bound ? Cell{bound->first.value} : Cell{}; }

class Rows {
  public:
    Rows(Table& table, Seq version, const plan::Point& point)
        : table_(table), version_(version), point_(point), dimension_(point.dimension ? name_of(*point.dimension) : "") {}

    void operator()(const plan::RangeLimit& limit) { add("range", 0, {}, number(limit.least), number(limit.most), {}); }
    void operator()(const plan::BeforePackingLimit& limit) { add("before-packing", 0, {}, {}, limit.most.first.value, {}); }
    void operator()(const plan::CoolingLimit& limit) {
        std::int64_t by_ms = 0, stage = 0;
        for (const auto& one : limit.stages) {
            by_ms = one.within.ms + (limit.each_from_previous ? by_ms : 0);
            add("cooling", ++stage, limit.from.first.value, {}, one.to.first.value, by_ms);
        }
    }
    void operator()(const plan::LethalityLimit& limit) { add("lethality", 0, {}, limit.wanted_milli_log, {}, {}); }
    void operator()(const plan::LossLimit& limit) { add("loss", 0, {}, number(limit.least), number(limit.most), {}); }
    void operator()(const plan::SouringLimit& limit) {
        std::int64_t stage = 0;
        for (const auto& one : limit.stages) add("souring", ++stage, {}, {}, one.to.first.value, one.within.ms);
    }
    void operator()(const plan::MarketLimit& limit) {
        if (const auto most = plan::strictest(limit)) add("market", 0, {}, {}, most->first.value, {});
    }
    void operator()(const plan::ClassLimit&) {}  // a table of two values: no line to draw
    void operator()(const plan::TimeLimit&) {}   // judged from events, not from readings: no line to draw
    void operator()(const plan::YesNoLimit&) {}
    void operator()(const plan::LabelLimit&) {}

  private:
    void add(const char* kind, std::int64_t stage, Cell start, Cell least, Cell most, Cell by_ms) {
        table_.rows.push_back({version_, point_.id, std::string(kind), dimension_, stage, std::move(start), std::move(least),
                               std::move(most), std::move(by_ms)});
    }

    Table& table_;
    Seq version_;
    const plan::Point& point_;
    std::string dimension_;
};

}  // namespace

Table limit_table(const std::vector<std::pair<Seq, const plan::Plan*>>& versions) {
    Table table{{"plan_seq", "point", "kind", "dimension", "stage", "start", "least", "most", "by_ms"}, {}};
    for (const auto& [version, plan] : versions) {
        for (const auto& point : plan->points) std::visit(Rows(table, version, point), point.limit);
    }
    return table;
}

}  // namespace peelbook::site
