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

std::vector<Correction> Derived::corrections_since(Seq after) const {
    return select<Correction>(impl_->sql, "WHERE seq > ?1 ORDER BY seq", after);
}

}  // namespace peelbook::book
