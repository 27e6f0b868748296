// Is the book what it was when it was written? Nothing here writes.
#include <sqlite3.h>

#include <map>

#include "base/text.h"
#include "book/book_impl.h"
#include "book/schema.h"

namespace peelbook::book {
namespace {

using record::Hash;

std::string named(Seq seq) { return "Entry " + std::to_string(seq); }

struct ChainWalk {
    Seq expected = 1;
    Hash before = record::no_hash;
    std::vector<std::pair<Seq, std::string>> files;  // attachments that entries name

    std::optional<Fault> step(Seq seq, std::string_view body, std::string_view hash);
    std::optional<Fault> look_inside(Seq seq, std::string_view body);
};

Fault wrong(Seq seq, const std::string& text) { return {seq, "entry", named(seq) + text}; }

// What the entry itself says: its number, the files it names, the head it seals.
std::optional<Fault> ChainWalk::look_inside(Seq seq, std::string_view body) {
    const Result<record::Entry> entry = record::from_body(body);
    if (!entry) return wrong(seq, " cannot be read; wanted: " + entry.refusal().wanted + ".");
    if (entry->seq != seq) return wrong(seq, " says that it is entry " + std::to_string(entry->seq) + ".");
    const record::Statement* statement = std::get_if<record::Statement>(&entry->payload);
    if (const auto* amended = std::get_if<record::Amended>(&entry->payload)) statement = &amended->statement;
    if (const auto* series = std::get_if<record::SeriesTaken>(statement)) files.emplace_back(seq, series->sha256);
    const auto* sealed = std::get_if<record::Sealed>(statement);
    if (sealed != nullptr && sealed->head != record::to_hex(before))
        return wrong(seq, " seals the head " + sealed->head + ", and the head before it is " + record::to_hex(before) + ".");
    return {};
}

std::optional<Fault> ChainWalk::step(Seq seq, std::string_view body, std::string_view hash) {
    if (seq != expected) return Fault{expected, "entry", named(expected) + " is not there: entry " + std::to_string(seq) + " stands next."};
    const Hash made = record::chained(before, body);
    if (std::string_view(reinterpret_cast<const char*>(made.data()), made.size()) != hash)
        return wrong(seq, " is not what was written, or what stands before it is not: its hash does not fit.");
    if (auto fault = look_inside(seq, body)) return fault;
    before = made;
    ++expected;
    return {};
}

void check_chain(const Sql& sql, std::vector<Fault>& faults, ChainWalk& walk) {
    Statement all = sql.prepared("SELECT seq, body, hash FROM entry ORDER BY seq");
    while (all.step()) {
        const Seq seq = all.number(0);
        if (auto fault = walk.step(seq, all.text(1), all.text(2))) {
            faults.push_back(*std::move(fault));
            return;
        }
    }
}

void check_attachments(const Sql& sql, std::vector<Fault>& faults, const ChainWalk& walk) {
    std::map<std::string, Seq> named_by;
    for (const auto& [seq, sha256] : walk.files) named_by.emplace(sha256, seq);
    std::map<std::string, bool> kept;
    Statement all = sql.prepared("SELECT sha256, bytes FROM attachment ORDER BY sha256");
    while (all.step()) {
        const std::string sha256(all.text(0));
        kept.emplace(sha256, true);
        const auto names = named_by.find(sha256);
        std::optional<Seq> by;
        if (names != named_by.end()) by = names->second;
        if (record::to_hex(record::sha256(all.text(1))) != sha256)
            faults.push_back({by, "attachment", "The file kept under " + sha256 + " is not the one that was put there."});
        else if (!by)
            faults.push_back({{}, "attachment", "The file kept under " + sha256 + " is named by no entry."});
    }
    for (const auto& [seq, sha256] : walk.files)
        if (!kept.contains(sha256))
            faults.push_back({seq, "attachment", named(seq) + " names the file " + sha256 + ", which is not kept."});
}

// --- guards: every table, trigger, index and view must read as schema/ has it

std::map<std::string, std::string> objects_of(const Sql& sql) {
    std::map<std::string, std::string> objects;
    Statement all = sql.prepared("SELECT type || ' ' || name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite@_%' ESCAPE '@'");
    while (all.step()) objects.emplace(all.text(0), all.text(1));
    return objects;
}

void check_guards(const Sql& sql, std::vector<Fault>& faults) {
    const Book fresh = Book::in_memory();
    const auto wanted = objects_of(*fresh.impl().sql);
    const auto found = objects_of(sql);
    for (const auto& [name, text] : wanted) {
        const auto standing = found.find(name);
        if (standing == found.end())
            faults.push_back({{}, name, "The " + name + " is missing: the book is not guarded as it was made."});
        else if (standing->second != text)
            faults.push_back({{}, name, "The " + name + " has been altered: the book is not guarded as it was made."});
    }
    for (const auto& [name, text] : found)
        if (!wanted.contains(name)) faults.push_back({{}, name, "The " + name + " does not belong to the book."});
}

void check_pages(const Sql& sql, std::vector<Fault>& faults) {
    Statement check = sql.prepared("PRAGMA integrity_check(3)");
    while (check.step())
        if (check.text(0) != "ok") faults.push_back({{}, "file", "The file is damaged: " + std::string(check.text(0)) + "."});
}

// --- rules

std::string row_in_words(Statement& statement) {
    std::vector<std::string> parts;
    for (int i = 0; i < statement.columns(); ++i)
        parts.push_back(statement.name(i) + " " + (statement.type(i) == SQLITE_NULL ? "none" : std::string(statement.text(i))));
    return joined(parts, ", ");
}

void check_rules(const Sql& sql, std::vector<Fault>& faults) {
    for (const Rule& rule : integrity_rules()) {
        Statement broken = sql.prepared(rule.query);
        if (broken.step()) faults.push_back({{}, rule.says, "A rule is broken: " + rule.says + ". First at " + row_in_words(broken) + "."});
    }
}

}  // namespace

std::vector<Fault> verify(const Book& book) {
    const Sql& sql = *book.impl().sql;
    std::vector<Fault> faults;
    ChainWalk walk;
    try {
        check_chain(sql, faults, walk);
        const bool whole = faults.empty();  // else the files named after the fault are not known
        if (whole) check_attachments(sql, faults, walk);
        check_guards(sql, faults);
        if (faults.empty()) check_pages(sql, faults);
        if (faults.empty()) check_rules(sql, faults);
    } catch (const Damaged& what) {
        faults.push_back({walk.expected, "file", what.what()});
    }
    return faults;
}

}  // namespace peelbook::book
