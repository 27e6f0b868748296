// Calibration in a bath, dough water from learned friction, and the units that a calculation assumed, as
// typed.
#include <catch2/catch.hpp>

#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

TEST_CASE("calibrate in ice and boiling water: reference and result are reckoned, the working is kept") {
    Walk walk;
    walk.open_bakery();
    const Said ice = walk.must("calibrate probe-1 --method ice --read 0.2C --by QA");
    CHECK(ice.has(": passed, melting ice: 0C; 0.2C - 0C = 0.2C, tolerance "));
    // 99.606 C at 1000 hPa (IAPWS-IF97, standards check).
    const Said boiling = walk.must("calibrate probe-1 --method boiling --read 99.5C --pressure 1000hPa --by QA");
    CHECK(boiling.has(": passed, boiling water, 1000hPa: 99.61C (IAPWS-IF97); 99.5C - 99.61C = -0.11C, tolerance "));
    CHECK(walk.must("calibrate probe-1 --method ice --read 3C --by QA").has(": failed, melting ice"));
    CHECK(walk.run("calibrate probe-1 passed --method ice --read 3C --by QA").code == 2);
    CHECK(walk.run("calibrate probe-1 --method boiling --read 99C --by QA").err.find("--pressure 1004hPa or --altitude 300m") !=
          std::string::npos);
    CHECK(walk.run("calibrate probe-1 --read 99C --by QA").err.find("a calibration without a result") != std::string::npos);
    CHECK(walk.must("calibrate probe-1 passed --by QA").has("without figures it shows nothing: what it read, against what reference"));
    CHECK(walk.run("calibrate probe-1 passed --read 5C --reference 0C --by QA").err.find("failed: it is outside its tolerance") !=
          std::string::npos);
}

TEST_CASE("calc water --learned says what is lacking") {
    Walk walk;
    walk.open_bakery();
    CHECK(walk.run("calc water --want 26C --flour 20C --room 23C --learned pan-loaf").err.find("a product whose plan says dough") !=
          std::string::npos);
    CHECK(
        walk.run("calc water --want 26C --flour 20C --room 23C --friction 20C --learned pan-loaf").err.find("--friction with --learned") !=
        std::string::npos);
    CHECK(walk.run("calc water --want 26C --flour 20C --room 23C --friction 20C --line line-1").err.find("--line without --learned") !=
          std::string::npos);
}

TEST_CASE("calc dz and calc cooldown say which unit was assumed") {
    Walk walk;
    walk.write("bare.csv", "55;62.2\n58;40.1\n61;16.5\n");
    const Said bare = walk.run("calc dz bare.csv");
    CHECK(bare.has("A bare temperature is read in C (assumed: the file names none), a bare D in min"));
    walk.write("headed.csv", "temp [F];D [s]\n131;3732\n136.4;2406\n141.8;990\n");
    const Said headed = walk.run("calc dz headed.csv");
    CHECK(headed.has("A bare temperature is read in F (from the file's heading), a bare D in s (from the"));
    CHECK(walk.run("calc dz bare.csv --unit-of-values C").has("read in C (as typed)"));
    walk.write("loaf.csv", "0;92.1\n10;76.4\n20;64.6\n30;55.2\n");
    CHECK(walk.run("calc cooldown --room 22C --series loaf.csv --to 35C").has("The unit of the values is not "));
    CHECK_FALSE(walk.run("calc cooldown --room 22C --series loaf.csv --to 35C --unit-of-values C").has("The unit of the values"));
}
