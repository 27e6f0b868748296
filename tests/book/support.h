#pragma once
// A folder that goes away, a small book of entries with their facts, and raw SQL from outside the program.
#include <filesystem>
#include <string>

#include "book/book.h"
#include "book/derived.h"

namespace peelbook::book {

class Folder {
  public:
    Folder();
    ~Folder();
    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
    const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

// One command: an entry "step-done" with its fact, in a transaction of its own. Returns its seq.
Seq record_step(Book& book, const std::string& note = "mixed");
// As above, with `bytes` attached and an entry "series" that names them.
Seq record_series(Book& book, const std::string& bytes);

// A logger's file kept inside a transaction, under its SHA-256 in hex; and read back, absent when it is not kept.
std::string attach(Book& book, const std::string& bytes);
std::optional<std::string> attachment(const Book& book, const std::string& sha256);
// A book of `entries` such commands.
void make_book(const std::filesystem::path& file, int entries);

// Runs SQL as any other tool would; returns the error's text, empty when it passed.
std::string raw(const std::filesystem::path& file, const std::string& sql);
// As someone who knows the guards: drops the triggers, runs the SQL, and puts the triggers back word for
// word.
void tamper(const std::filesystem::path& file, const std::string& sql);

Lot lot_of(LotId id, const std::string& code, LotKind kind = LotKind::batch);

// Runs `work` in a process of its own; true when it returned true. Nobody else's rights when `as_nobody`.
bool in_child(const std::function<bool()>& work, bool as_nobody = false);

}  // namespace peelbook::book
