#pragma once
// The derived tables of dates and ages, as rows.h has all others.
#include "base/clock_kind.h"
#include "book/rows.h"

// A list of fields is a table, one member beside the next: laid out by hand.
// clang-format off
namespace peelbook::book {

struct SpentCode {  // of a lot whose maker was voided
    static constexpr std::string_view table = "spent_code";
    std::string code;
    LotId lot = 0;
    template <class V, class S> static void fields(V& v, S& s) { v("code", s.code); v("lot", s.lot); }
    bool operator==(const SpentCode&) const = default;
};

enum class KeptBy { date, shelf_life, age, opened, thawed };
constexpr std::string_view word(KeptBy reason) {
    constexpr std::string_view words[] = {"date", "shelf-life", "age", "opened", "thawed"};
    return static_cast<std::size_t>(reason) < std::size(words) ? words[static_cast<std::size_t>(reason)] : std::string_view{};
}

struct Keeping {  // until when a lot may be used
    static constexpr std::string_view table = "keeping";
    LotId lot = 0;
    DateKind kind = DateKind::best_before;
    Int until_ms = 0;  // the first moment that is too late
    KeptBy reason = KeptBy::date;
    LotId source = 0;  // whose date it is: the lot's own, or of what is in it
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("kind", s.kind); v("until_ms", s.until_ms); v("reason", s.reason); v("source", s.source);
    }
    bool operator==(const Keeping&) const = default;
};

struct Clock {  // a lot was opened or thawed
    static constexpr std::string_view table = "clock";
    LotId lot = 0;
    Seq seq = 0;
    ClockKind kind = ClockKind::opened;
    Int happened = 0;
    Int another = 0;  // 1: another tub or box of it, what ran before is used up
    std::optional<Int> until_ms;  // none: the plan states no time
    template <class V, class S> static void fields(V& v, S& s) {
        v("lot", s.lot); v("seq", s.seq); v("kind", s.kind); v("happened", s.happened); v("another", s.another);
        v("until_ms", s.until_ms);
    }
    bool operator==(const Clock&) const = default;
};

}  // namespace peelbook::book
