// Keeping the book: is it whole, does what is derived follow from it, make it again, copy it.
#include "fold/apply.h"
#include "site/impl.h"

namespace peelbook::site {
namespace {

// Derives every entry in the order of the book; inside the caller's transaction.
Seq derive_all(fold::Ledger& ledger, const book::Book& source, const std::function<void(Seq)>& progress) {
    Seq last = 0;
    source.each_entry([&](const record::Entry& entry) {
        fold::Derivation d{ledger, entry.seq, entry.written};
        apply(d, entry);
        last = entry.seq;
        if (progress) progress(last);
    });
    return last;
}

void copy_attachment(const book::Book& from, book::Book& to, const record::Entry& entry) {
    const auto* says = std::get_if<record::Statement>(&entry.payload);
    const auto* series = says ? std::get_if<record::SeriesTaken>(says) : nullptr;
    if (!series) return;
    if (const auto bytes = from.open_attachment(series->sha256)) to.attach(series->sha256, *bytes);
}

}  // namespace

Seq Site::rebuild(const std::function<void(Seq)>& progress) {
    auto& ledger = impl_->ledger;
    auto work = ledger.book.begin();
    ledger.forget();
    ledger.book.clear_derived();
    const Seq last = derive_all(ledger, ledger.book, progress);
    work.commit();
    return last;
}

std::vector<book::Fault> Site::verify(bool derived) const {
    auto faults = book::verify(impl_->ledger.book);
    if (!derived || !faults.empty()) return faults;
    fold::Ledger fresh(book::Book::in_memory());
    auto work = fresh.book.begin();
    impl_->ledger.book.each_entry([&](const record::Entry& entry) {
        copy_attachment(impl_->ledger.book, fresh.book, entry);
        fresh.book.append(entry);
        fold::Derivation d{fresh, entry.seq, entry.written};
        apply(d, entry);
    });
    work.commit();
    return book::compare_derived(impl_->ledger.book, fresh.book);
}

void Site::back_up(const std::filesystem::path& to) const { book::back_up(impl_->ledger.book, to); }

}  // namespace peelbook::site
