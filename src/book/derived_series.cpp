// Loggers' files: what each covers, what is odd about it, and the rows of those on a place.
#include "book/derived_impl.h"

namespace peelbook::book {

void Derived::put(const Series& s) { put_row(impl_->sql, s); }

void Derived::erase_series(Seq seq) {
    set_series_faults(seq, {});
    impl_->sql.prepared("DELETE FROM series_day WHERE seq = ?1").with(seq).run();
    clear_series_rows(seq);
    impl_->sql.prepared("DELETE FROM series WHERE seq = ?1").with(seq).run();
}

std::optional<Series> Derived::series(Seq seq) const { return select_one<Series>(impl_->sql, "WHERE seq = ?1", seq); }

std::vector<Series> Derived::series_of_lot(LotId lot) const { return select<Series>(impl_->sql, "WHERE lot = ?1 ORDER BY seq", lot); }

std::optional<Series> Derived::series_ended(const std::string& place, const std::string& point, Int before) const {
    return select_one<Series>(impl_->sql,
                              "WHERE place = ?1 AND place <> '' AND point = ?2 AND last_ms < ?3 AND voided_by IS NULL "
                              "ORDER BY last_ms DESC, seq LIMIT 1",
                              place, point, before);
}

std::vector<Series> Derived::series_within(const std::string& place, const std::string& point, Int from, Int until) const {
    return select<Series>(impl_->sql,
                          "WHERE place = ?1 AND place <> '' AND point = ?2 AND first_ms <= ?4 AND last_ms >= ?3 "
                          "AND voided_by IS NULL ORDER BY seq",
                          place, point, from, until);
}

void Derived::set_series_faults(Seq seq, const std::vector<SeriesFault>& rows) { make_equal(impl_->sql, series_faults(seq), rows); }

std::vector<SeriesFault> Derived::series_faults(Seq seq) const {
    return select<SeriesFault>(impl_->sql, "WHERE seq = ?1 ORDER BY ord", seq);
}

void Derived::put(const SeriesDay& d) { put_row(impl_->sql, d); }

std::vector<SeriesDay> Derived::series_days(Seq seq) const { return select<SeriesDay>(impl_->sql, "WHERE seq = ?1 ORDER BY day", seq); }

void Derived::erase_series_days(Seq seq, Int from_day, Int until_day) {
    impl_->sql.prepared("DELETE FROM series_day WHERE seq = ?1 AND day >= ?2 AND day < ?3").with(seq, from_day, until_day).run();
}

void Derived::clear_series_rows(Seq seq) { impl_->sql.prepared("DELETE FROM series_row WHERE seq = ?1").with(seq).run(); }

void Derived::add_series_row(const SeriesRow& row) {
    impl_->sql.prepared("INSERT INTO series_row (seq, happened, line, value) VALUES (?1, ?2, ?3, ?4)")
        .with(row.seq, row.happened, row.line, row.value)
        .run();
}

void Derived::each_series_row(Seq seq, Int from, Int until, const std::function<void(const SeriesRow&)>& use) const {
    Statement rows = impl_->sql.prepared(
        "SELECT happened, line, value FROM series_row WHERE seq = ?1 AND happened >= ?2 AND happened < ?3 "
        "ORDER BY happened, line");
    rows.with(seq, from, until);
    while (rows.step()) use({seq, rows.number(0), rows.number(1), rows.number(2)});
}

std::optional<Int> Derived::series_row_before(Seq seq, Int at) const {
    Statement row = impl_->sql.prepared("SELECT max(happened) FROM series_row WHERE seq = ?1 AND happened <= ?2");
    return row.with(seq, at).step() ? row.maybe(0) : std::nullopt;
}

std::optional<Int> Derived::series_row_after(Seq seq, Int at) const {
    Statement row = impl_->sql.prepared("SELECT min(happened) FROM series_row WHERE seq = ?1 AND happened > ?2");
    return row.with(seq, at).step() ? row.maybe(0) : std::nullopt;
}

}  // namespace peelbook::book
