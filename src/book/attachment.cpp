// Files kept in the book, written and read part by part through SQLite's incremental blobs: a file of 40 MB
// then takes no more memory than one of 40 kB.
#include <sqlite3.h>

#include "book/book_impl.h"
#include "record/hasher.h"

namespace peelbook::book {
namespace {

// The `bytes` of one attachment, open.
class Blob {
  public:
    Blob(const Sql& sql, Int row, bool to_write) : sql_(sql) {
        const int code = sqlite3_blob_open(sql.handle(), "main", "attachment", "bytes", row, to_write ? 1 : 0, &blob_);
        if (code != SQLITE_OK) {
            sqlite3_blob_close(blob_);
            sql.fail(code);
        }
    }
    ~Blob() { sqlite3_blob_close(blob_); }
    Blob(const Blob&) = delete;
    Blob& operator=(const Blob&) = delete;

    Int size() const { return sqlite3_blob_bytes(blob_); }
    void write(Int at, std::string_view part) {
        const int code = sqlite3_blob_write(blob_, part.data(), static_cast<int>(part.size()), static_cast<int>(at));
        if (code != SQLITE_OK) sql_.fail(code);
    }
    void read(Int at, char* to, std::size_t many) {
        const int code = sqlite3_blob_read(blob_, to, static_cast<int>(many), static_cast<int>(at));
        if (code != SQLITE_OK) sql_.fail(code);
    }

  private:
    const Sql& sql_;
    sqlite3_blob* blob_ = nullptr;
};

class KeptBytes final : public Bytes {
  public:
    KeptBytes(const Sql& sql, Int row) : blob_(sql, row, false) {}
    std::int64_t size() const override { return blob_.size(); }
    void read(std::int64_t from, char* to, std::size_t many) override { blob_.read(from, to, many); }

  private:
    Blob blob_;
};

std::optional<Int> row_of_attachment(const Sql& sql, const std::string& sha256) {
    Statement found = sql.prepared("SELECT rowid FROM attachment WHERE sha256 = ?1");
    return found.with(sha256).step() ? found.maybe(0) : std::nullopt;
}

constexpr Int largest_file = 1'000'000'000;  // SQLite's own bound for one value

}  // namespace

void Book::attach(const std::string& sha256, Bytes& bytes) {
    Sql& sql = *impl_->sql;
    if (row_of_attachment(sql, sha256)) return;
    if (bytes.size() > largest_file)
        throw MachineFailed("The file is larger than 1 GB, which one value of the book cannot hold. Record it in parts.");
    sql.prepared("INSERT INTO attachment (sha256, bytes) VALUES (?1, zeroblob(?2))").with(sha256, bytes.size()).run();
    Blob blob(sql, *row_of_attachment(sql, sha256), true);
    record::Hasher seen;
    Int at = 0;
    each_part(bytes, [&](std::string_view part) {
        seen.add(part);
        blob.write(at, part);
        at += static_cast<Int>(part.size());
    });
    if (seen.hex() != sha256) throw MachineFailed("The file was changed while it was read. Nothing was written; record a copy of it.");
}

std::unique_ptr<Bytes> Book::open_attachment(const std::string& sha256) const {
    const auto row = row_of_attachment(*impl_->sql, sha256);
    if (!row) return nullptr;
    return std::make_unique<KeptBytes>(*impl_->sql, *row);
}

}  // namespace peelbook::book
