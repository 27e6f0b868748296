#pragma once
// A report whose queries run, in a thread, while the sheets that are filled are written: of the weekly workbook they take a third of the
// time. Nothing else may be asked of the site while one stands.
#include <condition_variable>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>

#include "site/report/report.h"

namespace peelbook::site {

class ReportUnderWay {
  public:
    // `snapshot` is the transaction in which the report was prepared: every sheet tells of the same entries, whoever writes meanwhile.
    ReportUnderWay(const book::Book& book, book::Book::Work snapshot, PreparedReport report);
    ~ReportUnderWay();  // ends it after the query that runs
    ReportUnderWay(const ReportUnderWay&) = delete;
    ReportUnderWay& operator=(const ReportUnderWay&) = delete;

    const Workbook& workbook() const { return report_.workbook; }  // a sheet's table only once it has arrived
    bool arrives(std::size_t sheet) noexcept;                      // base/workbook.h
    Check finish();  // when all have arrived or one never will; the refusal of its query. Throws what a query threw

  private:
    void fill();

    const book::Book& book_;
    book::Book::Work snapshot_;
    PreparedReport report_;
    std::mutex mutex_;  // guards what follows
    std::condition_variable changed_;
    std::vector<bool> arrived_;
    bool over_ = false;     // no more will come
    bool given_up_ = false; // nobody waits
    Check refusal_;
    std::exception_ptr thrown_;
    std::thread thread_;  // last: it works on all of the above
};

}  // namespace peelbook::site
