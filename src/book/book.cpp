#include "book/book.h"

#include "book/book_impl.h"
#include "book/schema.h"

namespace peelbook::book {
namespace {

record::Hash hash_from(std::string_view bytes, Seq seq) {
    record::Hash hash;
    if (bytes.size() != hash.size()) throw Damaged("Entry " + std::to_string(seq) + " has no proper hash.");
    std::copy(bytes.begin(), bytes.end(), reinterpret_cast<char*>(hash.data()));
    return hash;
}

std::string_view bytes_of(const record::Hash& hash) { return {reinterpret_cast<const char*>(hash.data()), hash.size()}; }

record::Entry decoded(Seq seq, std::string_view body) {
    Result<record::Entry> entry = record::from_body(body);
    if (!entry)
        throw Damaged("Entry " + std::to_string(seq) + " cannot be read; wanted: " + entry.refusal().wanted +
                      ". Run 'verify'; restore from a backup.");
    return *std::move(entry);
}

struct LastEntry {
    Seq seq = 0;  // 0: the book is empty
    record::Hash hash = record::no_hash;
};

LastEntry last_entry(const Sql& sql) {
    Statement found = sql.prepared("SELECT seq, hash FROM entry ORDER BY seq DESC LIMIT 1");
    return found.step() ? LastEntry{found.number(0), hash_from(found.text(1), found.number(0))} : LastEntry{};
}

}  // namespace

Book::Book(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

// --- transactions

Book::Work::Work(Book& book) : book_(&book) {}
Book::Work::Work(Work&& other) noexcept : book_(std::exchange(other.book_, nullptr)) {}

Book::Work::~Work() {
    if (book_ == nullptr) return;
    if (!book_->impl_->sql->in_transaction()) return;
    try {
        book_->impl_->sql->run("ROLLBACK");
    } catch (const std::exception&) {
        // The connection is past use; what was not committed is rolled back when the file is opened next.
    }
}

void Book::Work::commit() {
    assert(book_ != nullptr);
    book_->impl_->sql->prepared("COMMIT").run();
    book_ = nullptr;
}

Book::Work Book::begin() {
    if (impl_->mode != Mode::write) throw std::logic_error("a book opened for reading is written");
    impl_->sql->prepared("BEGIN IMMEDIATE").run();
    return Work(*this);
}

bool Book::is_working() const { return impl_->sql->in_transaction(); }

Book::Work Book::snapshot() {
    impl_->sql->prepared("BEGIN").run();
    Work work(*this);
    impl_->sql->number("SELECT count(*) FROM (SELECT 1 FROM entry LIMIT 1)");  // the snapshot is taken at the first read
    return work;
}

// --- entries

Seq Book::next_seq() const { return last_entry(*impl_->sql).seq + 1; }

record::Hash Book::head() const { return last_entry(*impl_->sql).hash; }

Seq Book::append(const record::Entry& e) {
    const auto [last, before] = last_entry(*impl_->sql);
    if (e.seq != last + 1) throw std::logic_error("an entry is appended under another number than the next");
    const std::string body = record::to_body(e);
    const record::Hash hash = record::chained(before, body);
    Statement insert = impl_->sql->prepared("INSERT INTO entry (seq, body, hash) VALUES (?1, ?2, ?3)");
    insert.bind(1, e.seq);
    insert.bind_bytes(2, body);
    insert.bind_bytes(3, bytes_of(hash));
    insert.run();
    Statement written = impl_->sql->prepared("SELECT body, hash FROM entry WHERE seq = ?1");
    written.with(e.seq);
    if (!written.step() || record::chained(before, written.text(0)) != hash_from(written.text(1), e.seq))
        throw Damaged("Entry " + std::to_string(e.seq) + " does not read back as it was written. Nothing was kept.");
    return e.seq;
}

std::string Book::body(Seq seq) const {
    Statement found = impl_->sql->prepared("SELECT body FROM entry WHERE seq = ?1");
    return found.with(seq).step() ? std::string(found.text(0)) : std::string();
}

std::optional<record::Entry> Book::entry(Seq seq) const {
    Statement found = impl_->sql->prepared("SELECT body FROM entry WHERE seq = ?1");
    if (!found.with(seq).step()) return {};
    return decoded(seq, found.text(0));
}

void Book::each_entry(const std::function<void(const record::Entry&)>& use) const {
    Statement all = impl_->sql->prepared("SELECT seq, body FROM entry ORDER BY seq");
    while (all.step()) use(decoded(all.number(0), all.text(1)));
}

// --- derived tables

Derived& Book::derived() { return impl_->derived; }

void Book::clear_derived() {
    if (!impl_->sql->in_transaction()) throw std::logic_error("the derived tables are emptied outside a transaction");
    if (impl_->sql->number("PRAGMA user_version") != layout_version) return create_derived_anew(*impl_->sql);
    for (const Layout* layout : all_layouts()) impl_->sql->run("DELETE FROM " + layout->table);
}

const std::vector<std::string>& Book::derived_tables() {
    static const std::vector<std::string> names = [] {
        std::vector<std::string> all;
        for (const Layout* layout : all_layouts()) all.push_back(layout->table);
        return all;
    }();
    return names;
}

}  // namespace peelbook::book
