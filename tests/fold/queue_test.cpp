#include "fold/queue.h"

#include <catch2/catch.hpp>

using namespace peelbook;
using namespace peelbook::fold;

TEST_CASE("subjects are taken by rank, lots of one rank by id, each once with the whole of what changed of it") {
    Queue queue;
    queue.add(Subject::of_lot(Rank::findings, 3));
    queue.add(Subject::of_lot(Rank::lot, 9));
    queue.add(Subject::since(Rank::vessel, "silo", {500}));
    queue.add({Subject::of_lot(Rank::lot, 4), Subject::of_lot(Rank::lot, 9)});
    queue.add(Subject::since(Rank::vessel, "silo", {200}));
    queue.add({Rank::checks, 0, "cold-room", "air", {300}, {400}});
    queue.add({Rank::checks, 0, "cold-room", "air", {350}, {900}});
    queue.add({Rank::checks, 0, "cold-room", "door", {1}, {2}});

    const auto checks = queue.take();
    REQUIRE(checks);
    CHECK(checks->point == "air");
    CHECK(checks->from == Instant{300});
    CHECK(checks->until == Instant{900});
    CHECK(queue.take()->point == "door");
    const auto silo = queue.take();
    CHECK(silo->id == "silo");
    CHECK(silo->from == Instant{200});
    CHECK(queue.take()->lot == 4);
    CHECK(queue.take()->lot == 9);
    const auto last = queue.take();
    CHECK(last->rank == Rank::findings);
    CHECK(last->lot == 3);
    CHECK_FALSE(queue.take());
}

TEST_CASE("a subject that was taken is worked out again when it is added again") {
    Queue queue;
    queue.add(Subject::of_lot(Rank::stock, 7));
    REQUIRE(queue.take());
    queue.add(Subject::of_lot(Rank::stock, 7));
    CHECK(queue.take()->lot == 7);
    CHECK_FALSE(queue.take());
}
