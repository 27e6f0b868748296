#pragma once
// The book: one SQLite file with the append-only entries, the attachments and the derived tables. The only place that knows
// SQL (with the read-only reports). It keeps bytes and rows; what they mean is decided above (fold/).
//
//   Book book = Book::open(file, Book::Mode::write);
//   auto work = book.begin();                  // BEGIN IMMEDIATE: look-ups from here on cannot grow stale
//   Seq seq = book.append(entry);              // entry.seq must be next_seq()
//   book.derived()....                         // rows, in the same transaction
//   work.commit();                             // durable when it returns; destroyed without commit: rolled back
//
// Journal: write-ahead log with synchronous=FULL, so a commit is on the disk when it returns, also through a power cut.
// Measured with this code (an entry and its eight derived rows a commit, on a machine busy with other work) against the disk's
// own rate of one 4 KiB append and fdatasync in the same run: many commits in one process reach 88 to 147 % of that rate in
// WAL, 22 to 40 % with a rollback journal. One commit in a process of its own costs the same in both (84 ms, of which 36 are
// the empty process; the sqlite3 shell's one bare insert 68), because the last to close a WAL book folds the log back in. So
// WAL, for replay, the bench and readers beside a writer; and while nobody has the book open it is one file with nothing beside
// it. A commit writes about 10 pages and flushes once.
//
// Throws Damaged when the file contradicts itself, MachineFailed when it cannot be read or written (absent, read-only folder,
// disk full, another program's database). A busy book is waited for with jittered back-off, up to 60 s.
#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/bytes.h"
#include "base/table.h"
#include "record/entry.h"

namespace peelbook::book {

class Derived;

inline constexpr int layout_version = 4;                    // of the derived tables
inline constexpr std::int32_t application_id = 0x5065656c;  // "Peel", at offset 68 of the file

class Book {
  public:
    enum class Mode {
        write,
        read,
        rebuild,  // also one of an older layout, whose derived tables clear_derived makes as they are today
    };

    // A new file with schema/; throws MachineFailed when it exists.
    static Book create(const std::filesystem::path& file);
    static Book open(const std::filesystem::path& file, Mode mode);
    static Book in_memory();  // same schema and guards; for `verify --derived` and tests

    Book(Book&&) noexcept;
    Book& operator=(Book&&) noexcept;
    ~Book();

    class Work {  // one transaction
      public:
        Work(Work&&) noexcept;
        ~Work();
        void commit();

      private:
        friend class Book;
        explicit Work(Book& book);
        Book* book_;
    };
    Work begin();
    bool is_working() const;  // a Work stands

    Work snapshot();  // reading only: every look-up until it is gone sees the same entries, whoever writes meanwhile

    // --- entries
    Seq next_seq() const;                // 1 for an empty book
    record::Hash head() const;           // hash of the last entry; no_hash when empty
    Seq append(const record::Entry& e);  // writes body and hash, reads both back and re-hashes before it returns
    std::optional<record::Entry> entry(Seq seq) const;
    std::string body(Seq seq) const;                                              // empty when there is none
    void each_entry(const std::function<void(const record::Entry&)>& use) const;  // in order; streams

    // --- attachments (logger files)
    // Part by part, through a fixed amount of memory; the same bytes twice are kept once. `sha256` is what the bytes were seen
    // to have, in hex; throws MachineFailed when they have another now: the file was changed meanwhile.
    void attach(const std::string& sha256, Bytes& bytes);
    std::unique_ptr<Bytes> open_attachment(const std::string& sha256) const;  // null: not kept

    Derived& derived();

    void clear_derived();  // empties every derived table, inside a transaction

    // --- questions in SQL, for reports. Read-only: a statement that writes, attaches or calls pragma is refused.
    struct Parameter {
        std::string name;  // without ':'
        Cell value;
    };
    // Functions known to the SQL: local_time(ms) local_day(ms) iso_week(ms) as given to set_local().
    Result<Table> query(const std::string& sql, const std::vector<Parameter>& parameters) const;
    // A question that runs longer is refused; 60 s unless set.
    void set_longest_question(std::chrono::milliseconds longest);
    void set_local(std::function<std::string(std::int64_t ms)> local_time);
    // Temporary tables that reports may read: filled before the query. Replaces one of the same name.
    void set_temporary(const std::string& name, const Table& table) const;

    // Whole tables in key order, for csv export and comparison.
    static const std::vector<std::string>& derived_tables();
    Table whole_table(const std::string& table) const;

    struct Impl;
    const Impl& impl() const { return *impl_; }  // for this layer's own .cpp files

  private:
    explicit Book(std::unique_ptr<Impl> impl);
    std::unique_ptr<Impl> impl_;
};

// What `verify` found; empty = nothing wrong.
struct Fault {
    std::optional<Seq> entry;  // the first wrong entry, if it is about one
    std::string table;         // else a table, guard or rule by name
    std::string text;          // what is wrong, in a sentence
};
// Chain, attachments, guards present and unchanged, integrity.sql. Reads only. Stops at the first wrong entry of the chain.
std::vector<Fault> verify(const Book& book);
// The first differing row of each table between two books with the same entries.
std::vector<Fault> compare_derived(const Book& kept, const Book& remade);
// SHA-256 over every derived table's rows in key order.
std::string derived_digest(const Book& book);

// A copy in rollback-journal mode, so that it opens in a read-only folder; throws MachineFailed when `to` exists.
void back_up(const Book& book, const std::filesystem::path& to);

}  // namespace peelbook::book
