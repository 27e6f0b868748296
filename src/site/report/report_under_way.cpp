#include "site/report/report_under_way.h"

namespace peelbook::site {

ReportUnderWay::ReportUnderWay(const book::Book& book, book::Book::Work snapshot, PreparedReport report)
    : book_(book),
      snapshot_(std::move(snapshot)),
      report_(std::move(report)),
      arrived_(report_.workbook.sheets.size()),
      over_(arrived_.empty()),
      thread_([this] { fill(); }) {}

ReportUnderWay::~ReportUnderWay() {
    {
        const std::lock_guard held(mutex_);
        given_up_ = true;
    }
    thread_.join();
}

void ReportUnderWay::fill() {
    const std::size_t sheets = report_.workbook.sheets.size();
    for (std::size_t turn = 1; turn <= sheets; ++turn) {
        const std::size_t sheet = turn % sheets;  // the order in which they are written: base/workbook.h
        Check refused;
        std::exception_ptr thrown;
        try {
            refused = fill_sheet(book_, report_, sheet);
        } catch (...) {
            thrown = std::current_exception();
        }
        const std::lock_guard held(mutex_);
        const bool failed = refused || thrown;
        refusal_ = std::move(refused);
        thrown_ = thrown;
        arrived_[sheet] = !failed;
        over_ = failed || given_up_ || turn == sheets;
        changed_.notify_all();
        if (over_) return;
    }
}

bool ReportUnderWay::arrives(std::size_t sheet) noexcept {
    std::unique_lock held(mutex_);
    changed_.wait(held, [&] { return arrived_[sheet] || over_; });
    return arrived_[sheet];
}

Check ReportUnderWay::finish() {
    std::unique_lock held(mutex_);
    changed_.wait(held, [&] { return over_; });
    if (thrown_) std::rethrow_exception(thrown_);
    return refusal_;
}

}  // namespace peelbook::site
