#include "support.h"

#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <iostream>

namespace peelbook::book {
namespace {

namespace fs = std::filesystem;

struct Raw {
    sqlite3* db = nullptr;
    explicit Raw(const fs::path& file) { REQUIRE(sqlite3_open(file.c_str(), &db) == SQLITE_OK); }
    ~Raw() { sqlite3_close(db); }
    std::string run(const std::string& sql) {
        char* error = nullptr;
        sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &error);
        std::string text = error == nullptr ? "" : error;
        sqlite3_free(error);
        return text;
    }
    std::vector<std::pair<std::string, std::string>> triggers() {
        std::vector<std::pair<std::string, std::string>> found;
        const auto add = [](void* to, int, char** values, char**) {
            static_cast<decltype(found)*>(to)->emplace_back(values[0], values[1]);
            return 0;
        };
        sqlite3_exec(db, "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'", add, &found, nullptr);
        return found;
    }
};

Seq record(Book& book, record::Statement statement) {
    Book::Work work = book.begin();
    const Seq seq = book.next_seq();
    const Int at = 1'795'500'000'000 + 60'000 * seq;
    const std::string kind(record::kind_of(statement).name);
    book.append({seq, {at}, {at + 1000}, "AB", "", std::move(statement)});
    book.derived().put(Fact{seq, kind, at, at + 1000, "AB", "", 0, {}, {}});
    work.commit();
    return seq;
}

}  // namespace

Folder::Folder() {
    std::string name = (fs::temp_directory_path() / "peelbook-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
}

Folder::~Folder() {
    std::error_code ignored;
    fs::permissions(path_, fs::perms::owner_all, ignored);
    fs::remove_all(path_, ignored);
}

Seq record_step(Book& book, const std::string& note) { return record(book, record::StepDone{"RYE-1", "mix", note}); }

std::string attach(Book& book, const std::string& bytes) {
    const std::string sha256 = record::to_hex(record::sha256(bytes));
    BytesInMemory file(bytes);
    book.attach(sha256, file);
    return sha256;
}

std::optional<std::string> attachment(const Book& book, const std::string& sha256) {
    const auto kept = book.open_attachment(sha256);
    if (!kept) return {};
    std::string bytes;
    each_part(*kept, [&](std::string_view part) { bytes += part; });
    return bytes;
}

Seq record_series(Book& book, const std::string& bytes) {
    std::string sha256;
    {
        Book::Work work = book.begin();
        sha256 = attach(book, bytes);
        work.commit();
    }
    return record(book, record::SeriesTaken{"RYE-1", "cooling", "", "L-1", "logger.csv", sha256, "C", "", ""});
}

void make_book(const fs::path& file, int entries) {
    Book book = Book::create(file);
    for (int i = 0; i < entries; ++i) record_step(book);
}

std::string raw(const fs::path& file, const std::string& sql) { return Raw(file).run(sql); }

void tamper(const fs::path& file, const std::string& sql) {
    Raw db(file);
    const auto triggers = db.triggers();
    for (const auto& [name, text] : triggers) REQUIRE(db.run("DROP TRIGGER " + name) == "");
    REQUIRE(db.run(sql) == "");
    for (const auto& [name, text] : triggers) REQUIRE(db.run(text) == "");
}

Lot lot_of(LotId id, const std::string& code, LotKind kind) {
    Lot lot;
    lot.id = id;
    lot.code = code;
    lot.kind = kind;
    lot.item = "rye";
    lot.happened = id * 1000;
    lot.by = "AB";
    return lot;
}

bool in_child(const std::function<bool()>& work, bool as_nobody) {
    const pid_t child = fork();
    if (child == 0) {
        constexpr uid_t nobody = 65534;
        if (as_nobody && getuid() == 0 && (setgid(nobody) != 0 || setuid(nobody) != 0)) _exit(2);
        bool done = false;
        try {
            done = work();
        } catch (const std::exception& what) {
            std::cerr << "child: " << what.what() << "\n";
        }
        _exit(done ? 0 : 1);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

}  // namespace peelbook::book
