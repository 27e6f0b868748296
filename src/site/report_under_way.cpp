#include "site/report_under_way.h"

namespace peelbook::site {

ReportUnderWay::ReportUnderWay(const book::Book& book, PreparedReport report)
    : book_(book), report_(std::move(report)), thread_([this] { fill(); }) {}

ReportUnderWay::~ReportUnderWay() {
    {
        const std::lock_guard held(mutex_);
        given_up_ = true;
    }
    thread_.join();
}

void ReportUnderWay::fill() {
    const std::size_t sheets = report_.workbook.sheets.size();
    for (std::size_t sheet = 0; sheet < sheets; ++sheet) {
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
        if (!failed) filled_ = sheet + 1;
        over_ = failed || given_up_ || filled_ == sheets;
        changed_.notify_all();
        if (over_) return;
    }
}

bool ReportUnderWay::arrives(std::size_t sheet) noexcept {
    std::unique_lock held(mutex_);
    changed_.wait(held, [&] { return filled_ > sheet || over_; });
    return filled_ > sheet;
}

Check ReportUnderWay::finish() {
    std::unique_lock held(mutex_);
    changed_.wait(held, [&] { return over_; });
    if (thrown_) std::rethrow_exception(thrown_);
    return refusal_;
}

}  // namespace peelbook::site
