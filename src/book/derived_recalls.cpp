// Recalls and drills.
#include "book/derived_impl.h"

namespace peelbook::book {

void Derived::put(const Recall& r) { put_row(impl_->sql, r); }
std::optional<Recall> Derived::recall(const std::string& code) const { return select_one<Recall>(impl_->sql, "WHERE code = ?1", code); }
std::optional<Recall> Derived::recall(Seq seq) const { return select_one<Recall>(impl_->sql, "WHERE seq = ?1", seq); }
std::vector<Recall> Derived::recalls() const { return select<Recall>(impl_->sql, "ORDER BY seq DESC"); }
std::vector<Recall> Derived::open_recalls() const { return select<Recall>(impl_->sql, "WHERE closed_seq IS NULL ORDER BY seq"); }

void Derived::put(const RecallLot& l) { put_row(impl_->sql, l); }
void Derived::put(const RecallDelivery& d) { put_row(impl_->sql, d); }
void Derived::put(const RecallStep& s) { put_row(impl_->sql, s); }
void Derived::put(const RecallToldCode& t) { put_row(impl_->sql, t); }
void Derived::put(const RecallCount& c) { put_row(impl_->sql, c); }
void Derived::put(const RecallOut& o) { put_row(impl_->sql, o); }

void Derived::erase_recall_step(Seq seq) {
    for (const char* table : {"recall_step", "recall_told_code", "recall_count"}) {
        impl_->sql.prepared(std::string("DELETE FROM ") + table + " WHERE seq = ?1").with(seq).run();
    }
}

std::vector<RecallLot> Derived::recall_lots(Seq recall) const {
    return select<RecallLot>(impl_->sql, "WHERE recall = ?1 ORDER BY ord", recall);
}
std::vector<RecallDelivery> Derived::recall_deliveries(Seq recall) const {
    return select<RecallDelivery>(impl_->sql, "WHERE recall = ?1 ORDER BY ord", recall);
}
std::vector<RecallStep> Derived::recall_steps(Seq recall) const {
    return select<RecallStep>(impl_->sql, "WHERE recall = ?1 ORDER BY happened, seq", recall);
}
std::vector<RecallToldCode> Derived::recall_told_codes(Seq recall) const {
    return select<RecallToldCode>(impl_->sql, "WHERE seq IN (SELECT seq FROM recall_step WHERE recall = ?1) ORDER BY seq, code", recall);
}
std::vector<RecallCount> Derived::recall_counts(Seq recall) const {
    return select<RecallCount>(impl_->sql, "WHERE recall = ?1 ORDER BY happened, seq", recall);
}
std::vector<RecallOut> Derived::recall_outs(Seq recall) const {
    return select<RecallOut>(impl_->sql, "WHERE recall = ?1 ORDER BY lot", recall);
}

std::optional<RecallOut> Derived::recall_out(Seq recall, LotId lot) const {
    return select_one<RecallOut>(impl_->sql, "WHERE recall = ?1 AND lot = ?2", recall, lot);
}
std::vector<RecallLot> Derived::recalls_of(LotId lot) const {
    return select<RecallLot>(impl_->sql, "WHERE lot = ?1 ORDER BY recall, ord", lot);
}
std::vector<RecallLot> Derived::recall_asked(Seq recall) const {
    return select<RecallLot>(impl_->sql, "WHERE recall = ?1 AND asked = 1 ORDER BY ord", recall);
}
std::optional<Recall> Derived::covering(LotId lot) const {
    for (const auto& row : recalls_of(lot)) {
        auto one = recall(row.recall);
        if (!one || one->drill != 0 || one->closed_seq) continue;
        const auto out = recall_out(row.recall, lot);
        if (!out || out->ended_by) return one;
    }
    return {};
}
bool Derived::covers_item(Seq recall, const std::string& item) const {
    auto row = impl_->sql.prepared("SELECT 1 FROM recall_lot r JOIN lot l ON l.id = r.lot WHERE r.recall = ?1 AND l.item = ?2 LIMIT 1");
    return row.with(recall, item).step();
}

std::vector<Correction> Derived::corrections_since(Seq after) const {
    return select<Correction>(impl_->sql, "WHERE seq > ?1 ORDER BY seq", after);
}

}  // namespace peelbook::book
