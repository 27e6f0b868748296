// What a connection keeps between its transactions (book/kept.h) may never differ from what the tables say.
#include <catch2/catch.hpp>
#include <random>

#include "support.h"

using namespace peelbook;
using namespace peelbook::book;

namespace {

constexpr LotId lots = 5;

// Everything kept, as it is answered now.
struct Answers {
    std::vector<std::optional<Lot>> lot, by_code;
    std::vector<std::vector<Use>> into, from;
    std::vector<std::vector<Finding>> findings;
    std::vector<std::vector<Reading>> readings;
    std::vector<std::vector<Move>> moves;
    std::vector<std::vector<Fact>> facts;
    bool operator==(const Answers&) const = default;
};

Answers ask(const Derived& rows) {
    Answers a;
    for (LotId id = 1; id <= lots; ++id) {
        a.lot.push_back(rows.lot(id));
        a.by_code.push_back(rows.lot("L" + std::to_string(id)));
        a.into.push_back(rows.uses_into(id));
        a.from.push_back(rows.uses_from(id));
        a.findings.push_back(rows.findings(id));
        a.readings.push_back(rows.readings(id));
        a.moves.push_back(rows.moves(id));
        a.facts.push_back(rows.facts_touching(SubjectKind::lot, std::to_string(id)));
    }
    return a;
}

class Writer {
  public:
    explicit Writer(std::uint32_t seed) : random_(seed) {}

    void write(Derived& rows) {
        const LotId id = upto(lots);
        switch (upto(8)) {
            case 1: {
                Lot lot = lot_of(id, "L" + std::to_string(id));
                lot.made_mg = upto(3);
                rows.put(lot);
                break;
            }
            case 2: rows.erase_lot(id); break;
            case 3: {
                std::vector<Use> uses;
                for (LotId from = 1; from <= lots; ++from) {
                    if (from != id && upto(2) == 1) uses.push_back({id, from, upto(2), upto(2), {}, {}, 1, 1, {}, upto(3), ""});
                }
                rows.set_uses_into(rows.uses_into(id), uses);
                break;
            }
            case 4: {
                Finding f;
                f.anchor = upto(3);
                f.point = "core";
                f.grade = Grade::critical;
                f.verdict = f.raised = static_cast<Verdict>(upto(2));
                f.happened = upto(3);
                if (upto(4) > 1) f.lot = id;
                rows.put(f);
                break;
            }
            case 5: rows.erase_finding(upto(3), "core", 0); break;
            case 6: {  // entry numbers of their own, since a reading is of one lot
                std::vector<Reading> readings;
                for (Seq n = 1; n <= 3; ++n) {
                    if (upto(2) == 1) readings.push_back({10 * id + n, 0, id, "", "core", "", "T-1", 93400, "C", "93.4C", upto(3), "AB", {}});
                }
                rows.set_readings(id, readings);
                break;
            }
            case 7: {
                std::vector<Move> moves;
                for (Seq n = 1; n <= 2; ++n) {
                    Move move;
                    move.lot = id;
                    move.seq = n;
                    move.way = Way::waste;
                    move.happened = upto(3);
                    if (upto(2) == 1) moves.push_back(move);
                }
                rows.set_moves(id, moves);
                break;
            }
            case 8: {
                const Seq seq = upto(6);
                rows.put(Fact{seq, "reading", upto(3), 9, "AB", "", 0, {}, {}});
                rows.set_touches(rows.touches_of(seq), {{SubjectKind::lot, std::to_string(id), upto(3), seq}});
                break;
            }
        }
    }

  private:
    Int upto(Int most) { return std::uniform_int_distribution<Int>{1, most}(random_); }
    std::mt19937 random_;
};

}  // namespace

TEST_CASE("what is kept answers as the tables do, through commits and rollbacks") {
    Book book = Book::in_memory();
    Writer writer(20261128);
    for (int round = 0; round < 400; ++round) {
        std::optional<Answers> kept;
        {
            auto work = book.begin();
            for (int i = 0; i < 6; ++i) {
                writer.write(book.derived());
                if (i % 2 == 0) ask(book.derived());  // so that there is something kept to go wrong
            }
            if (round % 3 != 0) {
                kept = ask(book.derived());
                work.commit();
            }
        }
        const auto stands = ask(book.derived());  // no transaction: from the tables
        if (kept) REQUIRE(*kept == stands);
        auto next = book.begin();
        REQUIRE(ask(book.derived()) == stands);
    }
}

TEST_CASE("what another connection wrote is seen by the next transaction") {
    const Folder folder;
    Book mine = Book::create(folder / "book.db");
    Book other = Book::open(folder / "book.db", Book::Mode::write);
    const auto put = [](Book& book, Int made) {
        auto work = book.begin();
        Lot lot = lot_of(1, "L1");
        lot.made_mg = made;
        book.derived().put(lot);
        work.commit();
    };
    put(mine, 5);
    CHECK(mine.written_elsewhere());
    put(mine, 6);
    CHECK_FALSE(mine.written_elsewhere());
    put(other, 7);
    auto work = mine.begin();
    CHECK(mine.written_elsewhere());
    CHECK(mine.derived().lot(1)->made_mg == 7);
    CHECK(mine.derived().lot("L1")->made_mg == 7);
}
