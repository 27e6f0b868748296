#include "fold/owed/device.h"

#include <algorithm>

#include "base/text.h"
#include "fold/label_readings.h"
#include "fold/line.h"
#include "fold/owed/duty.h"
#include "fold/standing.h"
#include "judge/judge.h"

namespace peelbook::fold {
namespace {

class Device {
  public:
    Device(Ledger& ledger, const plan::Point& point, const std::string& line) : ledger_(ledger), point_(point), line_(line) {}

    PassedDevice passed_by(const book::Lot& pack, Instant now) const {
        const auto before = ledger_.rows().reading_before(point_.place, point_.id, pack.happened, 0);
        const auto after = ledger_.rows().reading_after(point_.place, point_.id, pack.happened, 0);
        if (before && !good(*before)) return bad("the check before was not good", before);
        if (after && !good(*after)) return bad("the check after was not good", after);
        if (before && gap_after(*before)) return bad("too long without a check", before);
        if (in_outage(pack)) return bad("packed in an outage in which a check was owed", before);
        if (before || after) {
            if (point_.interval->is_at(LabelMoment::start) && !(before && of_day(*before, pack)))
                return bad("no check of that day before it", before);
        }
        if (before && point_.interval->is_at(LabelMoment::change) && another_product_since(*before, pack))
            return bad("no check since another product ran", before);
        if (after && !before && late(*after)) return bad("first checked when it was overdue", after);
        if (after) return {point_.place, point_.id, Passing::good, ""};
        const auto duty = duty_at(ledger_, point_.place, point_.id, now);
        if (duty && duty->overdue(now)) return bad("no check since, and one is overdue", before);
        return {point_.place, point_.id, Passing::open, before ? "not checked since" : "not checked yet"};
    }

    std::optional<PassedDevice> failed_by(const book::Lot& pack) const {
        const auto before = ledger_.rows().reading_before(point_.place, point_.id, pack.happened, 0);
        if (!before || good(*before)) return {};
        return bad("the check before was not good", before);
    }

  private:
    PassedDevice bad(const std::string& why, const std::optional<book::Reading>& check) const {
        const std::string when = check ? ": " + check->typed + " at " + to_text(ledger_.zone(), {check->happened}) : "";
        return {point_.place, point_.id, Passing::bad, why + when};
    }
    bool good(const book::Reading& check) const {
        const auto finding = ledger_.rows().finding(check.seq, point_.id, 0);
        return finding && (finding->verdict == Verdict::within || finding->decided == record::Disposition::release);
    }
    bool gap_after(const book::Reading& check) const {
        constexpr book::Int gap_ord = 1;  // as the checks of a place are folded
        const auto gap = ledger_.rows().finding(check.seq, point_.id, gap_ord);
        return gap && is_open(*gap) && gap->decided != record::Disposition::release;
    }
    // What excuses the checks shows nothing of what was packed meanwhile.
    bool in_outage(const book::Lot& pack) const {
        const auto outages = ledger_.rows().outages_at(point_.place, pack.happened, pack.happened + 1);
        return std::any_of(outages.begin(), outages.end(), [&](const book::Outage& outage) {
            const auto finding = ledger_.rows().finding(outage.seq, std::string(judge::outage_point), 0);
            return finding && is_open(*finding) && finding->decided != record::Disposition::release;
        });
    }
    bool of_day(const book::Reading& check, const book::Lot& pack) const {
        return ledger_.production_day({check.happened}).day == pack.day;
    }
    bool another_product_since(const book::Reading& check, const book::Lot& pack) const {
        const auto runs = ledger_.rows().runs_on(line_, check.happened + 1, pack.happened);
        return std::any_of(runs.begin(), runs.end(), [&](const auto& run) {
            const auto other = ledger_.rows().lot(run.lot);
            return other && other->item != pack.item;
        });
    }
    bool late(const book::Reading& first) const {
        const Instant just_before{first.happened - 1};
        const auto duty = duty_at(ledger_, point_.place, point_.id, just_before);
        return duty && duty->overdue(just_before);
    }

    Ledger& ledger_;
    const plan::Point& point_;
    const std::string& line_;
};

}  // namespace

std::vector<PassedDevice> devices_passed(Ledger& ledger, const book::Lot& pack, Instant now) {
    std::vector<PassedDevice> out;
    const auto line = line_of(ledger, pack);
    const auto governing = ledger.plan_at({pack.happened});
    for (const auto& point : governing.plan->points) {
        if (point.checks_device_of(line)) out.push_back(Device(ledger, point, line).passed_by(pack, now));
    }
    return out;
}

std::vector<PassedDevice> devices_failed(Ledger& ledger, const book::Lot& pack) {
    std::vector<PassedDevice> out;
    const auto line = line_of(ledger, pack);
    const auto governing = ledger.plan_at({pack.happened});
    for (const auto& point : governing.plan->points) {
        const auto failed = point.checks_device_of(line) ? Device(ledger, point, line).failed_by(pack) : std::nullopt;
        if (failed) out.push_back(*failed);
    }
    return out;
}

Passing labels_read(Ledger& ledger, const book::Lot& pack) {
    Passing worst = Passing::good;
    const auto line = line_of(ledger, pack);
    const auto governing = ledger.plan_at({pack.happened});
    for (const auto* point : governing.plan->points_of_place(line)) {
        const auto* limit = std::get_if<plan::LabelLimit>(&point->limit);
        if (!limit) continue;
        const judge::PackFact fact{{pack.happened}, pack.label, pack.printed_code, pack.date};
        bool end_shown = std::find(limit->at.begin(), limit->at.end(), word(LabelMoment::end)) == limit->at.end();
        for (const auto& f : judge::judge_label_readings(*point, *limit, fact, label_readings(ledger, line, point->id, fact.at))) {
            if (f.verdict != Verdict::within) return Passing::bad;
            end_shown = end_shown || f.ord == judge::label_end_ord;
        }
        if (!end_shown) worst = Passing::open;
    }
    return worst;
}

}  // namespace peelbook::fold
