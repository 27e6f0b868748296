#include "judge/changeover.h"

#include <algorithm>
#include <map>

namespace peelbook::judge {
namespace {

struct Pending {  // a cleaning since the last run
    const EquipmentCleaning* cleaning;
    std::map<std::string, EquipmentCheck> last;  // by point
};

class Piece {
  public:
    explicit Piece(std::vector<ResidueSpan> lying) { out_.spans = std::move(lying); }

    void clean(const EquipmentCleaning& cleaning) { pending_.push_back({&cleaning, {}}); }
    void check(const EquipmentCheck& check) {
        for (Pending& one : pending_) one.last[check.point] = check;
    }
    void clear();
    void run(const EquipmentRun& run);
    Changeovers finish() {
        clear();
        return std::move(out_);
    }

  private:
    static std::optional<Instant> verified_at(const Pending& one);
    void meet(const EquipmentRun& run);
    void leave(const EquipmentRun& run);

    Changeovers out_;
    std::vector<Pending> pending_;
};

std::optional<Instant> Piece::verified_at(const Pending& one) {
    std::optional<Instant> at;
    for (const std::string& point : one.cleaning->points) {
        const auto read = one.last.find(point);
        if (read == one.last.end() || !read->second.within) return std::nullopt;
        at = std::max(at.value_or(read->second.at), read->second.at);
    }
    return at;
}

void Piece::clear() {
    for (const Pending& one : pending_) {
        const auto at = verified_at(one);
        if (!at) continue;
        for (ResidueSpan& span : out_.spans) {
            const auto& clears = one.cleaning->clears;
            if (span.until || std::find(clears.begin(), clears.end(), span.allergen.id) == clears.end()) continue;
            span.until = at;
            span.cleaned_by = one.cleaning->seq;
        }
    }
}

void Piece::meet(const EquipmentRun& run) {
    std::map<std::string, const ResidueSpan*> surest;
    for (const ResidueSpan& span : out_.spans) {
        if (span.until || span.lot == run.lot) continue;
        const bool brought = std::any_of(run.brings.begin(), run.brings.end(), [&](const AllergenThere& own) {
            return own.id == span.allergen.id && (own.sure || !span.allergen.sure);
        });
        if (brought) continue;
        const ResidueSpan*& kept = surest[span.allergen.id];
        if (!kept || (!kept->allergen.sure && span.allergen.sure)) kept = &span;
    }
    for (const auto& [id, span] : surest) out_.met.push_back({run.lot, run.at, *span});
}

void Piece::leave(const EquipmentRun& run) {
    for (const AllergenThere& own : run.brings) {
        const auto same = std::find_if(out_.spans.begin(), out_.spans.end(), [&](const ResidueSpan& span) {
            return !span.until && span.allergen.id == own.id && (span.allergen.sure || !own.sure);
        });
        if (same != out_.spans.end()) continue;
        const auto weaker = std::find_if(out_.spans.begin(), out_.spans.end(), [&](const ResidueSpan& span) {
            return !span.until && span.allergen.id == own.id && span.from == run.at;
        });
        const ResidueSpan left{own, run.lot, run.at, {}, 0};
        if (weaker != out_.spans.end()) {
            *weaker = left;
        } else {
            out_.spans.push_back(left);
        }
    }
}

void Piece::run(const EquipmentRun& run) {
    clear();
    pending_.clear();
    meet(run);
    leave(run);
}

}  // namespace

Changeovers judge_changeovers(std::vector<ResidueSpan> lying, const std::vector<EquipmentRun>& runs,
                              const std::vector<EquipmentCleaning>& cleanings, const std::vector<EquipmentCheck>& checks) {
    Piece piece(std::move(lying));
    std::size_t cleaned = 0, checked = 0;
    const auto until = [&](std::optional<Instant> moment) {
        const auto due = [&](Instant at) { return !moment || at <= *moment; };
        while (true) {
            const bool cleaning = cleaned < cleanings.size() && due(cleanings[cleaned].at);
            const bool check = checked < checks.size() && due(checks[checked].at);
            if (!cleaning && !check) return;
            if (cleaning && (!check || cleanings[cleaned].at <= checks[checked].at)) {
                piece.clean(cleanings[cleaned++]);
            } else {
                piece.check(checks[checked++]);
            }
        }
    };
    for (const EquipmentRun& run : runs) {
        until(run.at);
        piece.run(run);
    }
    until({});
    return piece.finish();
}

}  // namespace peelbook::judge
