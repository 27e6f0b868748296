// Fills a book with YEARS of an invented plant: 1,000 batches a day, each packed into a lot and shipped to four customers. Each batch
// is judged once; one in 200 deviates and is held until somebody signs for it, those of the last day wait. The room is checked every
// four hours, the detector every hour, and every quarter the plan is adopted anew.
//
//   make_year BOOK.db YEARS SEED LAST-DAY      its days are those before LAST-DAY, in days since 1970-01-01
//
// Rows are written straight into the derived tables (lot, use, move, stock, partner, reading, finding, action, hold, plan_version): there
// are no entries behind them, so `verify` would find that at once. It is there to measure how long a trace takes over as many rows as a
// plant has, and a question about now, and nothing else. The book must be that of a new site with the starter plan. The same seed makes
// the same rows. Prints what to trace, as NAME=VALUE lines:
//   flour    the first fill of the big silo after an inspected emptying, ten days long: about 10,000 batches
//   pack     a pack of the last day, to be traced back
//   leaven   the first flour of a leaven that is fed from itself every day for five years before the plant starts
#include <sqlite3.h>

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

namespace {

using Int = std::int64_t;

constexpr Int day_ms = 86'400'000, kg = 1'000'000;
constexpr int batches_a_day = 1000, fills_a_day = 3, days_between_emptyings = 10, customers = 400, lines_a_pack = 4;
constexpr int products = 50, years_of_leaven = 5, batches_a_deviation = 200, days_a_plan = 91;
constexpr Int hour_ms = 3'600'000;

[[noreturn]] void stop(sqlite3* db, const std::string& what) {
    std::fprintf(stderr, "make_year: %s: %s\n", what.c_str(), sqlite3_errmsg(db));
    std::exit(2);
}

void run(sqlite3* db, const char* sql) {
    if (sqlite3_exec(db, sql, nullptr, nullptr, nullptr) != SQLITE_OK) stop(db, sql);
}

// "INSERT INTO table" of the values given, in this order, and of nothing in every other column.
std::string insert_sql(sqlite3* db, const std::string& table, const std::vector<std::string>& given) {
    std::string columns, values;
    for (const auto& name : given) {
        columns += (columns.empty() ? "" : ", ") + name.substr(0, name.find('='));
        const auto fixed = name.find('=');
        values += (values.empty() ? "" : ", ") + (fixed == std::string::npos ? "?" : name.substr(fixed + 1));
    }
    sqlite3_stmt* row = nullptr;
    if (sqlite3_prepare_v2(db, ("PRAGMA table_info(" + table + ")").c_str(), -1, &row, nullptr) != SQLITE_OK) stop(db, table);
    while (sqlite3_step(row) == SQLITE_ROW) {
        const std::string name = reinterpret_cast<const char*>(sqlite3_column_text(row, 1));
        const bool text = std::string(reinterpret_cast<const char*>(sqlite3_column_text(row, 2))) == "TEXT";
        const bool wanted = sqlite3_column_int(row, 3) != 0;
        if ((", " + columns + ", ").find(", " + name + ", ") != std::string::npos || !wanted) continue;
        columns += ", " + name;
        values += text ? ", ''" : ", 0";
    }
    sqlite3_finalize(row);
    return "INSERT INTO " + table + " (" + columns + ") VALUES (" + values + ")";
}

class Insert {
  public:
    Insert(sqlite3* db, const std::string& table, const std::vector<std::string>& given) : db_(db) {
        const std::string sql = insert_sql(db, table, given);
        if (sqlite3_prepare_v2(db, sql.c_str(), -1, &row_, nullptr) != SQLITE_OK) stop(db, sql);
    }
    ~Insert() { sqlite3_finalize(row_); }
    Insert(const Insert&) = delete;
    Insert& operator=(const Insert&) = delete;
    Insert& number(Int n) {
        sqlite3_bind_int64(row_, ++at_, n);
        return *this;
    }
    Insert& text(const std::string& s) {
        sqlite3_bind_text(row_, ++at_, s.c_str(), static_cast<int>(s.size()), SQLITE_TRANSIENT);
        return *this;
    }
    void run() {
        if (sqlite3_step(row_) != SQLITE_DONE) stop(db_, "insert");
        sqlite3_reset(row_);
        at_ = 0;
    }

  private:
    sqlite3* db_;
    sqlite3_stmt* row_ = nullptr;
    int at_ = 0;
};

class Plant {
  public:
    Plant(sqlite3* db, unsigned seed, Int last_day, Int days);
    void leaven_of_years();
    void day(Int number);
    void checks(const std::string& place, const std::string& point, Int every_ms);
    void plans();
    std::string flour, pack, leaven;

  private:
    int below(int n) { return static_cast<int>(engine_() % static_cast<unsigned>(n)); }
    Int lot(const std::string& code, const std::string& kind, const std::string& item, Int at, Int made_mg, Int pieces, Int used_mg,
            const std::string& printed = "");
    void use(Int into, Int from, Int mass_mg, Int at);
    void fill_silo(Int number);
    void feed_leaven(Int number);
    void batch(Int number, int n);
    std::string customer(int product);
    void judge(Int lot, Int number, int n, Int at);

    sqlite3* db_;
    Int first_day_, days_, plan_;
    Insert lot_, use_, move_, stock_, reading_, finding_, action_, hold_;
    std::mt19937 engine_;
    Int next_ = 1'000'000, leaven_ = 0, blend_ = 0, yeast_ = 0, salt_ = 0, water_ = 0, topping_ = 0, improver_ = 0;
};

Int number_in(sqlite3* db, const char* sql) {
    sqlite3_stmt* row = nullptr;
    if (sqlite3_prepare_v2(db, sql, -1, &row, nullptr) != SQLITE_OK || sqlite3_step(row) != SQLITE_ROW) stop(db, sql);
    const Int n = sqlite3_column_int64(row, 0);
    sqlite3_finalize(row);
    return n;
}

Plant::Plant(sqlite3* db, unsigned seed, Int last_day, Int days)
    : db_(db),
      first_day_(last_day - days),
      days_(days),
      plan_(number_in(db, "SELECT seq FROM plan_version")),
      lot_(db, "lot",
           {"id", "code", "kind", "item", "happened", "made_mg", "made_pieces=nullif(?, 0)", "printed_code", "day",
            "finished=nullif(?, 0)"}),
      use_(db, "use", {"into_lot", "from_lot", "seq", "mass_mg", "stated=1", "sure=1", "happened"}),
      move_(db, "move", {"lot", "seq", "way='customer'", "partner", "mass_mg", "pieces", "happened", "sure=1", "document"}),
      stock_(db, "stock", {"lot", "made_mg", "used_mg", "out_mg", "on_hand_mg", "made_pieces=nullif(?, 0)", "used_pieces", "out_pieces"}),
      reading_(db, "reading", {"seq", "place", "point", "happened", "symbol='C'", "typed='3.1C'", "by='AB'"}),
      finding_(db, "finding",
               {"anchor", "point", "lot=nullif(?, 0)", "place", "plan_seq", "verdict", "raised", "happened", "decided", "day",
                "grade='critical'"}),
      action_(db, "action", {"seq", "anchor", "point='bake'", "disposition='release'", "happened", "seen_verdict=3", "by='AB'"}),
      hold_(db, "hold", {"seq", "lot", "happened", "why='deviation'", "released_seq=nullif(?, 0)"}),
      engine_(seed) {}

// What does not go into other lots leaves the house, all of it.
Int Plant::lot(const std::string& code, const std::string& kind, const std::string& item, Int at, Int made_mg, Int pieces, Int used_mg,
               const std::string& printed) {
    const Int id = next_++;
    lot_.number(id).text(code).text(kind).text(item).number(at).number(made_mg).number(pieces).text(printed).number(at / day_ms);
    lot_.number(kind == "batch" ? at : 0).run();
    const bool goods = kind == "pack";
    const Int out = goods ? made_mg : 0;
    stock_.number(id).number(made_mg).number(used_mg).number(out).number(made_mg - used_mg - out).number(pieces);
    stock_.number(goods ? 0 : pieces).number(goods ? pieces : 0).run();
    return id;
}

void Plant::use(Int into, Int from, Int mass_mg, Int at) {
    use_.number(into).number(from).number(next_++).number(mass_mg).number(at).run();
}

void Plant::leaven_of_years() {
    const Int begin = first_day_ - years_of_leaven * 365 - 1;
    const Int water = lot("OLD-WATER", "supply", "water", begin * day_ms, 0, 0, 0);
    Int before = 0;
    for (Int d = begin; d < first_day_; ++d) {
        const Int at = d * day_ms, flour = lot("OLD-RYE-" + std::to_string(d), "received", "rye-flour", at, 50 * kg, 0, 50 * kg);
        if (leaven.empty()) leaven = "OLD-RYE-" + std::to_string(d);
        const Int now = lot("OLD-LEAVEN-" + std::to_string(d), "batch", "leaven", at, 100 * kg, 0, 10 * kg);
        use(now, flour, 45 * kg, at);
        use(now, water, 45 * kg, at);
        if (before != 0) use(now, before, 10 * kg, at);
        before = now;
    }
}

void Plant::fill_silo(Int number) {
    if (number % days_between_emptyings == 0) blend_ = 0;  // emptied and inspected in the night
    for (int n = 0; n < fills_a_day; ++n) {
        const Int at = (first_day_ + number) * day_ms + n;
        const std::string name = std::to_string(number) + "-" + std::to_string(n);
        const Int flour_lot = lot("WHEAT-" + name, "received", "wheat-flour", at, 22'000 * kg, 0, 22'000 * kg);
        if (n == 0 && number % days_between_emptyings == 0 && (flour.empty() || number == 180)) flour = "WHEAT-" + name;
        const Int blend = lot("SILO-" + name, "blend", "wheat-flour", at, 30'000 * kg, 0, 22'000 * kg);
        use(blend, flour_lot, 22'000 * kg, at);
        if (blend_ != 0) use(blend, blend_, 8'000 * kg, at);
        blend_ = blend;
    }
}

void Plant::feed_leaven(Int number) {
    const Int at = (first_day_ + number) * day_ms;
    const std::string name = std::to_string(number);
    const Int flour_lot = lot("RYE-" + name, "received", "rye-flour", at, 3'000 * kg, 0, 3'000 * kg);
    const Int now = lot("LEAVEN-" + name, "batch", "leaven", at, 6'000 * kg, 0, 6'000 * kg);
    use(now, flour_lot, 3'000 * kg, at);
    use(now, water_, 2'500 * kg, at);
    if (leaven_ != 0) use(now, leaven_, 500 * kg, at);
    leaven_ = now;
}

// A product goes to the same few customers every day.
std::string Plant::customer(int product) {
    constexpr int of_a_product = customers / products;
    return "C" + std::to_string(product * of_a_product + below(of_a_product));
}

void Plant::batch(Int number, int n) {
    const Int at = (first_day_ + number) * day_ms + n * (day_ms / batches_a_day);
    const std::string name = std::to_string(number) + "-" + std::to_string(n);
    const int product = n % products;
    const std::string item = "bread-" + std::to_string(product);
    const Int made = 78 * kg + below(4000) * 1000;
    const Int id = lot("B" + name, "batch", item, at, made, 100, made);
    use(id, blend_, 55 * kg + below(1000) * 1000, at);
    use(id, water_, 33 * kg, at);
    use(id, salt_, kg, at);
    use(id, yeast_, kg / 2, at);
    use(id, leaven_, 5 * kg, at);
    use(id, improver_, kg / 10, at);
    if (below(100) < 45) use(id, topping_, 2 * kg, at);
    const Int packed = lot("P" + name, "pack", item, at + 1000, made, 100, 0, "L" + std::to_string(number) + "-" + std::to_string(product));
    use(packed, id, made, at + 1000);
    pack = "P" + name;
    judge(id, number, n, at);
    for (int line = 0; line < lines_a_pack; ++line) {
        move_.number(packed).number(next_++).text(customer(product)).number(made / lines_a_pack);
        move_.number(100 / lines_a_pack)
            .number(at + 2000)
            .text("D" + std::to_string(number) + "-" + std::to_string(below(customers)))
            .run();
    }
}

void Plant::judge(Int lot, Int number, int n, Int at) {
    const bool deviates = n % batches_a_deviation == 0, waits = deviates && number + 1 == days_;
    finding_.number(lot).text("bake").number(lot).text("").number(plan_).number(deviates ? 3 : 0).number(deviates ? 3 : 0).number(at);
    finding_.text(deviates && !waits ? "release" : "").number(at / day_ms).run();
    if (!deviates) return;
    const Int held = next_++, released = waits ? 0 : next_++;
    hold_.number(held).number(lot).number(at).number(released).run();
    if (!waits) action_.number(released).number(lot).number(at).run();
}

// All within.
void Plant::checks(const std::string& place, const std::string& point, Int every_ms) {
    for (Int at = first_day_ * day_ms; at < (first_day_ + days_) * day_ms; at += every_ms) {
        const Int seq = next_++;
        reading_.number(seq).text(place).text(point).number(at).run();
        finding_.number(seq)
            .text(point)
            .number(0)
            .text(place)
            .number(plan_)
            .number(0)
            .number(0)
            .number(at)
            .text("")
            .number(at / day_ms)
            .run();
    }
}

// The one that was adopted governs from the first day on; later ones say the same.
void Plant::plans() {
    run(db_, ("UPDATE plan_version SET from_ms = " + std::to_string(first_day_ * day_ms)).c_str());
    for (Int number = days_a_plan; number < days_; number += days_a_plan) {
        const std::string seq = std::to_string(next_++), of = " WHERE seq = " + std::to_string(plan_);
        run(db_, ("INSERT INTO plan_version (seq, from_ms, sha256, by, practice) SELECT " + seq + ", " +
                  std::to_string((first_day_ + number) * day_ms) + ", sha256, by, practice FROM plan_version" + of)
                     .c_str());
        run(db_, ("INSERT INTO plan_compiled (plan_seq, text) SELECT " + seq +
                  ", text FROM plan_compiled WHERE plan_seq = " + std::to_string(plan_))
                     .c_str());
    }
}

void Plant::day(Int number) {
    const Int at = (first_day_ + number) * day_ms;
    if (number % 30 == 0) {
        const std::string month = std::to_string(number / 30);
        water_ = lot("WATER-" + month, "supply", "water", at, 0, 0, 0);
        salt_ = lot("SALT-" + month, "received", "salt", at, 40'000 * kg, 0, 30'000 * kg);
        topping_ = lot("SEED-" + month, "received", "seed", at, 40'000 * kg, 0, 27'000 * kg);
        improver_ = lot("IMPROVER-" + month, "received", "improver", at, 4'000 * kg, 0, 3'000 * kg);
    }
    yeast_ = lot("YEAST-" + std::to_string(number), "received", "yeast", at, 600 * kg, 0, 500 * kg);
    fill_silo(number);
    feed_leaven(number);
    for (int n = 0; n < batches_a_day; ++n) batch(number, n);
}

void add_customers(sqlite3* db) {
    Insert row(db, "partner", {"code", "name", "roles='customer'", "seq=1"});
    for (int n = 0; n < customers; ++n) row.text("C" + std::to_string(n)).text("Customer " + std::to_string(n)).run();
}

}  // namespace

int main(int count, char** words) {
    if (count != 5) {
        std::fputs("make_year BOOK.db YEARS SEED LAST-DAY\n", stderr);
        return 2;
    }
    sqlite3* db = nullptr;
    if (sqlite3_open_v2(words[1], &db, SQLITE_OPEN_READWRITE, nullptr) != SQLITE_OK) stop(db, words[1]);
    run(db, "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF; PRAGMA cache_size = -400000; BEGIN");
    add_customers(db);
    {
        const auto days = static_cast<Int>(std::atof(words[2]) * 365);
        Plant plant(db, static_cast<unsigned>(std::atoi(words[3])), std::atoll(words[4]), days);
        plant.leaven_of_years();
        for (Int number = 0; number < days; ++number) plant.day(number);
        plant.checks("chill-room", "chill-air", 4 * hour_ms);
        plant.checks("metal-detector", "metal-check", hour_ms);
        plant.plans();
        std::printf("flour=%s\npack=%s\nleaven=%s\n", plant.flour.c_str(), plant.pack.c_str(), plant.leaven.c_str());
    }
    run(db, "COMMIT; PRAGMA journal_mode = WAL");
    sqlite3_close(db);
}
