#pragma once
// Rows of many lots out of one table, read in the order of an index. Neighbours are stepped to and only what lies far off is looked
// up: entries are numbered as they are written, so what a lot reached mostly stands side by side, and a look-up costs ten times a step.
// Inside the folder only.
#include <sqlite3.h>

#include <string>
#include <vector>

#include "book/sql.h"

namespace peelbook::book {

class Along {
  public:
    // `select` has the lot as its first column, begins at lot >= ?1 and ascends by lot, by an index and without a sort.
    Along(Sql& sql, const std::string& select) : sql_(sql) {
        const int code = sqlite3_prepare_v2(sql.handle(), select.c_str(), static_cast<int>(select.size()), &row_, nullptr);
        if (code != SQLITE_OK) sql.fail(code);
    }
    ~Along() { sqlite3_finalize(row_); }
    Along(const Along&) = delete;
    Along& operator=(const Along&) = delete;

    // take(row, place) for each row of each of `lots`, in ascending order; `place` is the lot's in the list.
    template <class Take> void each(const std::vector<LotId>& lots, const Take& take) {
        for (std::size_t place = 0; place < lots.size();) {
            begin_at(lots[place]);
            for (int passed = 0; passed < most_passed;) {
                if (!step()) return;
                const LotId lot = number(0);
                while (place < lots.size() && lots[place] < lot) ++place;
                if (place == lots.size()) return;
                const bool wanted = lots[place] == lot;
                if (wanted) take(static_cast<const Along&>(*this), place);
                passed = wanted ? 0 : passed + 1;
            }
        }
    }

    // The plain C columns: SQLiteCpp counts a shared pointer up and down at each, and a trace reads a million.
    Int number(int column) const { return sqlite3_column_int64(row_, column); }
    std::optional<Int> mostly(int column) const {  // of what is rarely empty
        const Int n = number(column);              // 0 of what is
        if (n == 0 && sqlite3_column_type(row_, column) == SQLITE_NULL) return {};
        return n;
    }
    std::optional<Int> rarely(int column) const {  // of what is mostly empty
        if (sqlite3_column_type(row_, column) == SQLITE_NULL) return {};
        return number(column);
    }
    std::string_view text(int column) const {  // until the next row
        const auto* data = static_cast<const char*>(sqlite3_column_blob(row_, column));
        if (data == nullptr) return {};
        return {data, static_cast<std::size_t>(sqlite3_column_bytes(row_, column))};
    }

  private:
    // Rows of other lots passed before the next lot is looked up; so the cost stays bound to the lots asked for.
    static constexpr int most_passed = 8;

    void begin_at(LotId lot) {
        sqlite3_reset(row_);
        sqlite3_bind_int64(row_, 1, lot);
    }
    bool step() {
        const int code = sqlite3_step(row_);
        if (code != SQLITE_ROW && code != SQLITE_DONE) sql_.fail(code);
        return code == SQLITE_ROW;
    }

    Sql& sql_;
    sqlite3_stmt* row_ = nullptr;
};

}  // namespace peelbook::book
