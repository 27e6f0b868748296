// Every kind of payload, filled at random, survives writing and reading. Compared field by field, by a
// visitor of this file's own, so that what the codec forgets is seen.
#include <catch2/catch.hpp>
#include <random>

#include "record/entry.h"

using namespace peelbook;
using namespace peelbook::record;

namespace {

class Filler {
  public:
    explicit Filler(unsigned seed) : random_(seed) {}

    template <class T> void operator()(std::string_view, T& value) { fill(value); }

    void fill(std::string& text) {
        static const std::vector<std::string> bits{"a",    "Z",    "9",      " ",      "\"",         "\\", "/", "\n", "\t", "\x01",
                                                   "\x1f", "\x7f", "\u00e9", "\u20ac", "\U0001F35E", "{",  "}", ":",  ",",  "'"};
        text.clear();
        for (int n = pick(0, 9); n > 0; --n) text += bits[static_cast<std::size_t>(pick(0, 19))];
    }
    void fill(std::int64_t& number) {
        constexpr std::int64_t most = (std::int64_t{1} << 53) - 1;
        const int sort = pick(0, 3);
        if (sort == 0) number = 0;
        if (sort == 1) number = pick(-1000, 1000);
        if (sort == 2) number = most;
        if (sort == 3) number = std::uniform_int_distribution<std::int64_t>{-most, most}(random_);
    }
    void fill(bool& truth) { truth = pick(0, 1) == 1; }
    void fill(Measure& measure) {
        static const std::vector<std::string> typed{"93.4C", "-18C",  "70F",    "90kg",   "200lb", "3.25oz",     "10min", "2h",
                                                    "2.5%",  "5.6pH", "0.93aw", "240pcs", "12mm",  "0.000001kg", "0C"};
        if (pick(0, 3) == 0)
            measure = measure_of(pick(0, 1'000'000'000), pick(0, 1) == 0 ? Unit::lb : Unit::tonne);
        else
            measure = *parse_measure(typed[static_cast<std::size_t>(pick(0, 14))]);
    }
    void fill(Date& date) { date = from_days(pick(0, 40'000)); }
    void fill(Instant& instant) { fill(instant.ms); }
    template <class T> void fill(std::optional<T>& value) {
        value.reset();
        if (pick(0, 1) == 1) fill(value.emplace());
    }
    template <class T> void fill(std::vector<T>& list) {
        list.clear();
        for (int n = pick(0, 3); n > 0; --n) fill(list.emplace_back());
    }
    template <class T> void fill(T& object) { T::fields(*this, object); }

    int pick(int least, int most) { return std::uniform_int_distribution<int>{least, most}(random_); }

  private:
    std::mt19937 random_;
};

class Teller {
  public:
    std::string said;

    template <class T> void operator()(std::string_view name, const T& value) {
        said += std::string(name) + "=";
        tell(value);
        said += ";";
    }
    void tell(const std::string& text) { said += "<" + text + ">"; }
    void tell(const std::int64_t& number) { said += std::to_string(number); }
    void tell(const bool& truth) { said += truth ? "T" : "F"; }
    void tell(const Measure& m) {
        said += std::to_string(m.value) + "/" + std::to_string(m.typed_micro) + "/" + std::string(symbol(m.unit));
    }
    void tell(const Date& d) { said += std::to_string(to_days(d)); }
    void tell(const Instant& t) { said += std::to_string(t.ms); }
    template <class T> void tell(const std::optional<T>& value) {
        said += value ? "some " : "none";
        if (value) tell(*value);
    }
    template <class T> void tell(const std::vector<T>& list) {
        for (const T& one : list) {
            tell(one);
            said += "|";
        }
    }
    template <class T> void tell(const T& object) {
        said += "(";
        T::fields(*this, object);
        said += ")";
    }
};

std::string told(const Statement& statement) {
    Teller teller;
    std::visit([&](const auto& one) { teller.tell(one); }, statement);
    return std::string(kind_of(statement).name) + " " + teller.said;
}

std::string told(const Payload& payload) {
    if (const auto* amended = std::get_if<Amended>(&payload)) {
        Teller teller;
        teller.tell(amended->happened);
        return std::to_string(amended->target) + amended->why + teller.said + told(amended->statement);
    }
    return told(std::get<Statement>(payload));
}

template <std::size_t I = 0> Statement filled(std::size_t which, Filler& filler) {
    if constexpr (I < std::variant_size_v<AnyKind>) {
        if (which != I) return filled<I + 1>(which, filler);
        std::variant_alternative_t<I, AnyKind> one;
        filler.fill(one);
        return one;
    } else {
        throw std::logic_error("no such kind");
    }
}

void check_round_trip(const Entry& entry) {
    const std::string body = to_body(entry);
    const Result<Entry> read = from_body(body);
    INFO(body);
    REQUIRE(read);
    CHECK(told(read->payload) == told(entry.payload));
    CHECK(read->seq == entry.seq);
    CHECK(read->happened == entry.happened);
    CHECK(read->written == entry.written);
    CHECK(read->by == entry.by);
    CHECK(read->token == entry.token);
}

}  // namespace

TEST_CASE("Every kind of entry survives writing and reading") {
    for (unsigned seed = 1; seed <= 40; ++seed) {
        Filler filler(seed);
        for (std::size_t which = 0; which < std::variant_size_v<AnyKind>; ++which) {
            Entry entry;
            filler.fill(entry.seq);
            filler.fill(entry.happened);
            filler.fill(entry.written);
            filler.fill(entry.by);
            filler.fill(entry.token);
            entry.payload = filled(which, filler);
            check_round_trip(entry);
            Amended amended{7, "", std::get<Statement>(entry.payload), {}};
            filler.fill(amended.why);
            filler.fill(amended.happened);
            entry.payload = amended;
            check_round_trip(entry);
        }
    }
}

// A body with any one byte changed is either refused or says something else: no two bodies say the same.
TEST_CASE("No byte of a body can be changed unseen") {
    Filler filler(99);
    for (std::size_t which = 0; which < std::variant_size_v<AnyKind>; ++which) {
        const Entry entry{2, {1}, {2}, "AB", "t", filled(which, filler)};
        const std::string body = to_body(entry);
        for (int n = 0; n < 60; ++n) {
            std::string changed = body;
            char& byte = changed[static_cast<std::size_t>(filler.pick(0, static_cast<int>(body.size()) - 1))];
            byte = static_cast<char>(byte ^ (1 << filler.pick(0, 7)));
            const Result<Entry> read = from_body(changed);
            if (read) CHECK(to_body(*read) == changed);
        }
    }
}
