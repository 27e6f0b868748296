// A closed set reads and writes by one list of words.
#include "base/words.h"

#include <catch2/catch.hpp>

#include "base/fate.h"
#include "base/instrument_state.h"
#include "base/lot_kind.h"
#include "base/way.h"

using namespace peelbook;

namespace {

template <class E> void check_both_directions() {
    for (std::size_t i = 0; i < count_of<E>(); ++i) {
        const auto one = static_cast<E>(i);
        CHECK(from_word<E>(word(one)) == one);
        CHECK(stored_word<E>(in_words(one)) == one);
    }
}

}  // namespace

TEST_CASE("What a set writes it reads again, and no two have one word") {
    check_both_directions<LotKind>();
    check_both_directions<Way>();
    check_both_directions<Fate>();
    check_both_directions<InstrumentState>();
    STATIC_REQUIRE(count_of<Way>() == 11);
    STATIC_REQUIRE(words_of<LotKind, 2>() == std::array<std::string_view, 2>{"received", "supply"});
}

TEST_CASE("A word that a person typed may be none of the set; in a book it is damage") {
    CHECK_FALSE(from_word<Fate>("lost"));
    CHECK_FALSE(from_word<Fate>(""));
    CHECK_FALSE(stored_word_or_none<Fate>(""));
    CHECK(in_words(std::optional<Fate>()).empty());
    try {
        (void)stored_word_or_none<Fate>("lost");
        FAIL("it was read");
    } catch (const Damaged& damage) {
        CHECK(std::string(damage.what()) == "the book holds the word 'lost' where one of these belongs: returned, destroyed, used, found");
    }
}
