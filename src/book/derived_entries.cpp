// Facts, touches, people, partners, plan versions, corrections, reviews.
#include <limits>

#include "book/derived_impl.h"

namespace peelbook::book {
namespace {

std::vector<Seq> seqs(Statement statement) {
    std::vector<Seq> found;
    while (statement.step()) found.push_back(statement.number(0));
    return found;
}

}  // namespace

Derived::Derived(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Derived::~Derived() = default;

void Derived::put(const Fact& f) { put_row(impl_->sql, f); }
std::optional<Fact> Derived::fact(Seq seq) const { return select_one<Fact>(impl_->sql, "WHERE seq = ?1", seq); }

std::optional<Seq> Derived::seq_of_token(const std::string& token) const {
    const auto fact = select_one<Fact>(impl_->sql, "WHERE token = ?1 AND token <> ''", token);
    return fact ? std::optional(fact->seq) : std::nullopt;
}

void Derived::set_touches(const std::vector<Touch>& before, const std::vector<Touch>& rows) { make_equal(impl_->sql, before, rows); }

std::vector<Touch> Derived::touches_of(Seq seq) const {
    return select<Touch>(impl_->sql, "WHERE seq = ?1 ORDER BY subject_kind, subject, happened", seq);
}

std::vector<Seq> Derived::touching(SubjectKind kind, const std::string& subject, std::optional<Int> from) const {
    Statement statement = impl_->sql.prepared(
        "SELECT seq FROM touch WHERE subject_kind = ?1 AND subject = ?2 AND happened >= ?3 ORDER BY "
        "happened, seq");
    statement.with(kind, subject, from.value_or(std::numeric_limits<Int>::min()));
    return seqs(std::move(statement));
}

std::vector<Fact> Derived::facts_touching(SubjectKind kind, const std::string& subject, std::optional<Int> from) const {
    return select<Fact>(impl_->sql,
                        "JOIN (SELECT seq, happened AS touched FROM touch WHERE subject_kind = ?1 AND subject = ?2 "
                        "AND happened >= ?3) USING (seq) ORDER BY touched, seq",
                        kind, subject, from.value_or(std::numeric_limits<Int>::min()));
}

std::vector<Fact> Derived::facts_before(SubjectKind kind, const std::string& subject, Int happened, Int most,
                                        const std::string& without) const {
    // The cross join keeps the touches outside: they come in order, and the limit stops them.
    return select<Fact>(impl_->sql,
                        "JOIN (SELECT t.seq, t.happened AS touched FROM touch t CROSS JOIN fact f ON f.seq = t.seq "
                        "WHERE t.subject_kind = ?1 AND t.subject = ?2 AND t.happened < ?3 AND f.kind <> ?5 "
                        "ORDER BY t.happened DESC, t.seq DESC LIMIT ?4) USING (seq) ORDER BY touched DESC, seq DESC",
                        kind, subject, happened, most, without);
}

std::vector<Seq> Derived::touching_before(SubjectKind kind, const std::string& subject, Int happened, Int most) const {
    Statement statement = impl_->sql.prepared(
        "SELECT seq FROM touch WHERE subject_kind = ?1 AND subject = ?2 AND happened <= ?3 "
        "ORDER BY happened DESC, seq DESC LIMIT ?4");
    statement.with(kind, subject, happened, most);
    return seqs(std::move(statement));
}

std::vector<Seq> Derived::touching_after(SubjectKind kind, const std::string& subject, Int happened, Int most) const {
    Statement statement = impl_->sql.prepared(
        "SELECT seq FROM touch WHERE subject_kind = ?1 AND subject = ?2 AND happened > ?3 "
        "ORDER BY happened, seq LIMIT ?4");
    statement.with(kind, subject, happened, most);
    return seqs(std::move(statement));
}

// --- people, partners, plan

void Derived::put(const Person& p) { put_row(impl_->sql, p); }
void Derived::put(const Partner& p) { put_row(impl_->sql, p); }

std::optional<Person> Derived::person(const std::string& initials) const {
    return select_one<Person>(impl_->sql, "WHERE initials = ?1", initials);
}
std::vector<Person> Derived::people() const { return select<Person>(impl_->sql, "ORDER BY initials"); }

std::optional<Partner> Derived::partner(const std::string& code) const { return select_one<Partner>(impl_->sql, "WHERE code = ?1", code); }
std::vector<Partner> Derived::partners() const { return select<Partner>(impl_->sql, "ORDER BY code"); }

void Derived::put(const PlanVersion& v, const std::vector<PlanPoint>& points, const std::vector<PlanItem>& items) {
    put_row(impl_->sql, v);
    make_equal(impl_->sql, select<PlanPoint>(impl_->sql, "WHERE plan_seq = ?1", v.seq), points);
    make_equal(impl_->sql, select<PlanItem>(impl_->sql, "WHERE plan_seq = ?1", v.seq), items);
}

void Derived::put(const PlanCompiled& p) { put_row(impl_->sql, p); }
std::optional<PlanCompiled> Derived::plan_compiled(Seq plan_seq) const {
    return select_one<PlanCompiled>(impl_->sql, "WHERE plan_seq = ?1", plan_seq);
}

std::vector<PlanVersion> Derived::plan_versions() const { return select<PlanVersion>(impl_->sql, "ORDER BY from_ms, seq"); }

std::optional<PlanVersion> Derived::plan_in_force(Int at) const {
    auto in_force = select_one<PlanVersion>(impl_->sql, "WHERE from_ms <= ?1 ORDER BY from_ms DESC, seq DESC LIMIT 1", at);
    return in_force ? in_force : select_one<PlanVersion>(impl_->sql, "ORDER BY from_ms, seq LIMIT 1");
}

// --- corrections and reviews

void Derived::put(const Correction& c) { put_row(impl_->sql, c); }
std::vector<Correction> Derived::corrections(Seq target) const {
    return select<Correction>(impl_->sql, "WHERE target = ?1 ORDER BY seq", target);
}
void Derived::put(const Review& r) { put_row(impl_->sql, r); }
std::vector<Review> Derived::reviews(const std::string& what) const {
    return select<Review>(impl_->sql, "WHERE what = ?1 ORDER BY seq", what);
}

}  // namespace peelbook::book
