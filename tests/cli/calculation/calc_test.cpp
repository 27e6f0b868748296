// The calculations as a person asks for them: whole command lines, the whole first line of each answer, the
// exit code. The expected values come from the sources beside them, as in tests/calc/reference.txt; "read"
// means read in a public copy, "memory" not looked up, "by hand" follows by arithmetic.
#include <catch2/catch.hpp>

#include "base/text.h"
#include "cli/walk.h"

using namespace peelbook;
using namespace peelbook::cli;

namespace {

std::string first_line(const Said& said) { return said.out.substr(0, said.out.find('\n')); }

// The number behind a key of the JSON answer.
double number_at(const Said& said, const std::string& key) {
    const auto at = said.out.find("\"" + key + "\": ");
    if (at == std::string::npos) FAIL("no " << key << " in " << said.out << said.err);
    return std::stod(said.out.substr(at + key.size() + 4));
}

bool refused(const Said& said) {
    return said.code == 2 && said.out.empty() && said.err.starts_with("refused: ") && said.err.find("\nwanted: ") != std::string::npos &&
           said.err.find("\nnext: ") != std::string::npos;
}

}  // namespace

TEST_CASE("calc lethality: the rows of a time and temperature table") {
    Walk walk;
    // FSIS Appendix A, 6.5-log column: 130 F for 112 min, 150 F for 67 s (read). Tref 140 F, z 10 F, 12 min
    // for 6.5 log, so D 1.846154 min; 6.067 and 6.049 by hand.
    walk.write("130.csv", "0;130\n112;130\n");
    walk.write("150.csv", "time,core F\n0s,150\n67s,150\n");
    const std::string food = " --tref 140F --z 10F --d 1.846154min";
    const Said slow = walk.run("calc lethality --series 130.csv" + food);
    CHECK(slow.code == 0);
    CHECK(first_line(slow) ==
          "log reduction 6.067, from F 11.2 min at 140F (lower end of each interval; by trapezoid F 11.2 min, "
          "log 6.067)");
    CHECK(slow.has("\nworking\n  rate = 10^((T - 140) / 10), T in F\n"));
    CHECK(slow.has("\nsource\n  Bigelow's model"));
    CHECK(slow.out.ends_with(caution_line));
    CHECK(number_at(walk.run("calc lethality --series 150.csv --json" + food), "log_reduction") == Approx(6.049).margin(0.005));
    // z of 5.56 C is z of 10.008 F: a difference, whichever scale the rest is in.
    CHECK(number_at(walk.run("calc lethality --series 130.csv --tref 140F --z 5.56C --d 1.846154min --json"), "log_reduction") ==
          Approx(6.067).margin(0.02));
    CHECK(first_line(walk.run("calc lethality --series 130.csv --cap 5" + food))
              .starts_with("log reduction at least 5, from F 11.2 min at 140F"));
}

TEST_CASE("calc lethality: a heating and cooling curve, the trapezoid beside the verdict's sum") {
    Walk walk;
    // By hand: rates 0.00000 0.00078 0.07762 0.48978 1 1 0.00078 at 121.1 C, z 10 C. Trapezoid 12.8428 min;
    // lower ends 5 x (0 + 0.00078 + 0.07762 + 0.48978 + 1 + 0.00078) = 7.8448 min.
    walk.write("curve.csv", "min\tcore (C)\n0\t60,0\n5\t90\n10\t110\n15\t118\n20\t121,1\n25\t121,1\n30\t90\n");
    const std::string line = "calc lethality --series curve.csv --tref 121.1C --z 10C --d 1min";
    const Said json = walk.run(line + " --json");
    CHECK(json.code == 0);
    CHECK(number_at(json, "f_min") == Approx(12.8428).margin(1e-3));
    CHECK(number_at(json, "f_lower_min") == Approx(7.8448).margin(1e-3));
    CHECK(json.has("\"caution\": "));
    CHECK(first_line(walk.run(line)) ==
          "log reduction 7.845, from F 7.845 min at 121.1C (lower end of each interval; by trapezoid F 12.843 "
          "min, log 12.843)");
    // Outside the studied range: 60 and 90 below, 121.1 above; both are told.
    const Said studied = walk.run(line + " --studied 100C:120C");
    CHECK(studied.has("Readings below 100C, where D was not studied, count nothing."));
    CHECK(studied.has("Readings above 120C, where D was not studied, count with the rate at 120C."));
}

TEST_CASE("calc dz: z from published D-values") {
    Walk walk;
    // Channaiah et al. 2017, Int. J. Food Microbiol. 250:1-6: muffin batter, z 10.4 +- 0.6 C (read); 10.41
    // and its limits by SciPy: lower 2.99, no upper limit.
    walk.write("muffin.csv", "temperature (C);D (min)\n55;62,2\n58;40,1\n61;16,5\n");
    const Said muffin = walk.run("calc dz muffin.csv");
    CHECK(muffin.code == 0);
    CHECK(first_line(muffin) == "z 10.41C (95% limits 2.99C to no upper limit), from 3 D-values at 55C to 61C");
    CHECK(muffin.out.ends_with(caution_line));
    CHECK(number_at(walk.run("calc dz muffin.csv --json"), "z_c") == Approx(10.4).margin(0.6));
    // Braz. J. Food Technol.: egg pastry batter, z 5.96 C (read); limits by SciPy.
    walk.write("egg.csv", "52 53.19\n55 20.45\n58 6.95\n61 1.60\n");
    const Said egg = walk.run("calc dz egg.csv --json");
    CHECK(number_at(egg, "z_c") == Approx(5.96).margin(0.01));
    CHECK(number_at(egg, "z_lower_c") == Approx(4.5528).margin(1e-3));
    CHECK(number_at(egg, "z_upper_c") == Approx(8.6248).margin(1e-3));
}

TEST_CASE("calc cooling: FDA Food Code 2022, 3-501.14(A), limits inclusive (read)") {
    Walk walk;
    const auto judged = [&](const std::string& rows, const std::string& rule = "us-two-stage") {
        walk.write("tray.csv", rows);
        Said said = walk.run("calc cooling --series tray.csv --rule " + rule);
        std::filesystem::remove(walk.folder / "tray.csv");
        return said;
    };
    const Said met = judged("0;57\n120;21\n360;5\n");
    CHECK(met.code == 0);
    CHECK(first_line(met) == "within: 2:00 to 21C, 6:00 to 5C");
    CHECK(met.has("FDA Food Code 2022, 3-501.14(A)"));
    CHECK(met.out.ends_with(caution_line));
    const Said late = judged("0;57\n121;21\n300;5\n");
    CHECK(late.code == 1);
    CHECK(first_line(late) == "deviation: 2:01 to 21C");
    CHECK(first_line(judged("0;57\n60;21\n360;5\n")) == "within: 1:00 to 21C, 6:00 to 5C");
    CHECK(first_line(judged("0;57\n90;21\n361;5\n")) == "deviation: 6:01 to 5C");
    CHECK(first_line(judged("clock;core F\n22:00;135\n0:00;70\n4:00;41\n")) == "within: 2:00 to 70F, 6:00 to 41F");
    // By hand: 57 C was crossed between 10:20 and 10:50, 21 C between 12:10 and 12:30.
    const Said sparse = judged("10:00;82\n10:20;60\n10:50;48\n12:10;23\n12:30;19\n15:00;9\n16:10;4.6\n", "57C:21C/2h,5C/6h");
    CHECK(sparse.code == 1);
    CHECK(first_line(sparse) == "unproven: 1:20-2:10 to 21C");
    CHECK(sparse.has("10:20 to 10:50"));
    // 3-501.14(B): made from ingredients at ambient temperature, 4 h to 5 C (read).
    CHECK(first_line(judged("0;20\n240;5\n", "us-ambient")) == "within: 4:00 to 5C");
    CHECK(first_line(judged("0;20\n241;5\n", "us-ambient")) == "deviation: 4:01 to 5C");
    // 60 C to 21 C in 2 h, then to 5 C in 4 h more: dofoodsafely.health.vic.gov.au (first part read, second
    // memory).
    CHECK(judged("0;60\n60;21\n300;5\n", "au-two-stage").code == 0);
    CHECK(judged("0;60\n60;21\n301;5\n", "60C:21C/2h,5C/+4h").code == 1);
}

TEST_CASE("calc cooling: what is still open says how it can be shown") {
    Walk walk;
    walk.write("tray.csv", "0;57\n60;40\n");
    const Said open = walk.run("calc cooling --series tray.csv --rule us-two-stage");
    CHECK(open.code == 0);
    CHECK(first_line(open) == "open: 21C not reached in 1:00");
    CHECK(open.has("To show it: 21C within 1:00 of the last reading."));
    const Said ended = walk.run("calc cooling --series tray.csv --rule us-two-stage --ended --json");
    CHECK(ended.code == 1);
    CHECK(ended.has("\"verdict\": \"unproven\""));
}

TEST_CASE("calc cooldown: Newton's law of cooling") {
    Walk walk;
    // A public answer page (read): 300 F in a room of 60 F, 200 F after 10 min, 75 F after 51.44 min, k
    // 0.05390.
    const std::string line = "calc cooldown --room 60F --start 300F --reading 10min=200F --to 75F";
    const Said said = walk.run(line);
    CHECK(said.code == 0);
    CHECK(first_line(said) == "75F at 51.44 min");
    CHECK(said.has("k 0.0539 a minute = ln((300 - 60) / (200 - 60)) / 10"));
    CHECK(said.out.ends_with(caution_line));
    const Said json = walk.run(line + " --json");
    CHECK(number_at(json, "target_at_min") == Approx(51.44).margin(0.01));
    CHECK(number_at(json, "k_per_min") == Approx(0.0539).margin(1e-5));
    // Eight readings of an invented loaf, room 22 C, when 35 C? SciPy: 68.746 min, 66.448 to 71.165.
    walk.write("loaf.csv", "0;92.1\n10;76.4\n20;64.6\n30;55.2\n45;45.3\n60;38.4\n80;32.0\n100;28.3\n");
    CHECK(first_line(walk.run("calc cooldown --room 22C --series loaf.csv --to 35C")) == "35C at 68.75 min (95%: 66.45 min to 71.17 min)");
    // With the room fitted: 69.099 min, 67.257 to 71.043 (SciPy).
    CHECK(first_line(walk.run("calc cooldown --series loaf.csv --to 35C")) == "35C at 69.1 min (95%: 67.26 min to 71.04 min)");
}

TEST_CASE("calc boiling: by pressure and by height") {
    Walk walk;
    // Computed from IAPWS-IF97 and the U.S. Standard Atmosphere 1976 outside this program.
    CHECK(first_line(walk.run("calc boiling --pressure 850hPa")) == "water boils at 95.125C (203.2F) at 850hPa");
    CHECK(number_at(walk.run("calc boiling --pressure 1013.25hPa --json"), "boiling_c") == Approx(99.974).margin(0.005));
    CHECK(number_at(walk.run("calc boiling --pressure 900hPa --json"), "boiling_c") == Approx(96.687).margin(0.005));
    const Said high = walk.run("calc boiling --altitude 5000ft --json");
    CHECK(number_at(high, "boiling_c") == Approx(94.90).margin(0.05));
    CHECK(number_at(high, "boiling_f") == Approx(202.83).margin(0.05));
    CHECK(number_at(walk.run("calc boiling --altitude 300m --json"), "pressure_hpa") == Approx(977.73).margin(0.01));
    // FDA Food Code 2022, 4-203.11: +-1 C (read). 96.1 - 95.125 and 96.2 - 95.125.
    const Said good = walk.run("calc boiling --pressure 850hPa --read 96.1C");
    CHECK(good.code == 0);
    CHECK(first_line(good).ends_with("; the probe shows 0.975C too much, within 1C"));
    CHECK(good.out.ends_with(caution_line));
    const Said bad = walk.run("calc boiling --pressure 850hPa --read 96.2C");
    CHECK(bad.code == 1);
    CHECK(first_line(bad).ends_with("; the probe shows 1.075C too much, OUTSIDE 1C"));
}

TEST_CASE("calc water: the factor method") {
    Walk walk;
    // Baking-school example, farine-mc.blogspot.com (read).
    const std::string three = "calc water --want 75F --flour 65F --room 65F --friction 8F";
    const Said said = walk.run(three);
    CHECK(said.code == 0);
    CHECK(first_line(said) == "water of 87F (30.6C) for a dough of 75F");
    CHECK(said.has("= 3 x 75 - (65 + 65) - 8 = 87\n"));
    CHECK(number_at(walk.run(three + " --json"), "water_f") == Approx(87).margin(0.5));
    // With a preferment, four factors (memory): 4 x 76 - 70 - 72 - 74 - 24.
    CHECK(first_line(walk.run("calc water --want 76F --flour 70F --room 72F --preferment 74F --friction 24F")) ==
          "water of 64F (17.8C) for a dough of 76F");
    // By hand: 3 x 20 - (30 + 30) - 10 = -10.
    CHECK(walk.run("calc water --want 20C --flour 30C --room 30C --friction 10C").has("Colder than ice"));
}

TEST_CASE("calc water --balance: masses, specific heats and ice") {
    Walk walk;
    // By hand: flour 100 kg x 1.8 x (25 - 20) = 900 kJ must come from 60 kg of water: 25 + 900 / (60 x 4.19)
    // = 28.58 C.
    const std::string base = "calc water --balance --want 25C --flour 20C --flour-mass 100kg --water-mass 60kg";
    CHECK(number_at(walk.run(base + " --tap 15C --hot 60C --json"), "water_c") == Approx(28.58).margin(0.005));
    // 60 kg x (28.58 - 15) / (60 - 15) = 18.107 kg of the hot water.
    CHECK(first_line(walk.run(base + " --tap 15C --hot 60C")) == "hot water 18.107kg, tap water 41.893kg for a dough of 25C");
    // Without hot water: (900 + ...) (100 x 1.8 x 20 + 60 x 4.19 x 15) / (100 x 1.8 + 60 x 4.19) = 17.1 C.
    CHECK(first_line(walk.run(base + " --tap 15C")) == "25C cannot be reached: the nearest is 17.1C, with tap water 60kg");
    // The mixer brings 3000 kJ: 25 + (900 - 3000) / (60 x 4.19) = 16.647 C; ice 60 x (20 - 16.647) / (20
    // + 79.606).
    CHECK(first_line(walk.run(base + " --tap 20C --mixer-kj 3000")) == "ice 2.02kg, tap water 57.98kg for a dough of 25C");
}

TEST_CASE("calc ice: a heat balance") {
    Walk walk;
    // By hand: 40 x 10 / (20 + 79.606) = 4.016; 40 x 10 / (20 + 80) = 4. A public page prints 4.4: it forgets
    // that the tap water replaced by ice is gone.
    const Said said = walk.run("calc ice --water 40kg --tap 20C --need 10C");
    CHECK(said.code == 0);
    CHECK(first_line(said) == "ice 4.016kg, tap water 35.984kg");
    CHECK(said.has("= 40 x (20 - 10) / (20 + 79.61) = 4.016kg\n"));
    CHECK(first_line(walk.run("calc ice --water 40kg --tap 20C --need 10C --textbook")) == "ice 4kg, tap water 36kg");
    CHECK(number_at(walk.run("calc ice --water 40kg --tap 20C --need 10C --json"), "ice_kg") == Approx(4.016).margin(0.001));
    // By hand: 100 x 25 / (75 + 112) = 13.369 lb.
    CHECK(first_line(walk.run("calc ice --water 100lb --tap 75F --need 50F --textbook")) == "ice 13.369lb, tap water 86.631lb");
    CHECK(first_line(walk.run("calc ice --water 40kg --tap 10C --need 15C")) == "no ice: the tap water is cold enough");
}

TEST_CASE("calc scale: a formula in baker's percent") {
    Walk walk;
    // Baker's math slides, docstoc 104724265 (read): 40 lb of flour.
    walk.write("bread.csv", "item,percent\nflour,100\nsalt,1.75\nyeast,0.375\nsugar,2\nwater,58\n");
    const Said said = walk.run("calc scale bread.csv --flour 40lb");
    CHECK(said.code == 0);
    CHECK(first_line(said) == "dough 64.85lb from flour 40lb, 162.125% in all");
    for (const char* mass : {"0.7lb", "0.15lb", "0.8lb", "23.2lb"}) CHECK(said.has(mass));
    CHECK(number_at(walk.run("calc scale bread.csv --flour 40lb --json"), "dough_lb") == Approx(64.85).margin(0.005));
    // weekendbakery.com (read): six loaves of 750 g are 2644, 1666, 48, 37, 106 g, printed to the gram.
    walk.write("loaf.csv", "flour;100%;flour\nwater;63%\nsalt;1,8\nyeast;1,4\nbutter;4\n");
    const Said loaves = walk.run("calc scale loaf.csv --pieces 6 --piece-mass 750g");
    CHECK(first_line(loaves) == "dough 4500g from flour 2643.9g, 170.2% in all, 6 pieces");
    for (const char* mass : {"1665.7g", "47.6g", "37g", "105.8g"}) CHECK(loaves.has(mass));
    // Two flours add up to 100 %.
    walk.write("rye.csv", "rye;30;flour\nwheat;70;flour\nwater;70\n");
    CHECK(first_line(walk.run("calc scale rye.csv --flour 10kg")) == "dough 17kg from flour 10kg, 170% in all");
    // A separator within quotes parts nothing, as RFC 4180 has it; "" is a quote.
    walk.write("quoted.csv", "item,percent,flour\n\"rye, whole\",30,flour\n\"\"\"00\"\" wheat\",70,flour\nwater,70\n");
    const Said quoted = walk.run("calc scale quoted.csv --flour 10kg");
    CHECK(first_line(quoted) == "dough 17kg from flour 10kg, 170% in all");
    CHECK(quoted.has("rye, whole  "));
    CHECK(quoted.has("\"00\" wheat  "));
    walk.write("short.csv", "rye;30;flour\nwheat;60;flour\nwater;70\n");
    CHECK(refused(walk.run("calc scale short.csv --flour 10kg")));
}

TEST_CASE("calc scale: a product of the site's plan") {
    Walk walk;
    walk.open_bakery();
    // The starter plan's pan-loaf: water 62 %, yeast 2.5 %, salt 1.8 %, butter 2 %.
    const Said said = walk.run("calc scale pan-loaf --flour 50kg");
    CHECK(said.code == 0);
    CHECK(first_line(said).starts_with("dough 84.15kg from flour 50kg, 168.3% in all"));
    const Said unknown = walk.run("calc scale pan-laof --flour 50kg");
    CHECK(refused(unknown));
    CHECK(unknown.err.find("nearest: pan-loaf") != std::string::npos);
}

TEST_CASE("calc loss: dough, baked mass and loss, two give the third") {
    Walk walk;
    // Bake loss 10 to 13 %: Gisslen, Professional Baking (read); 500 / 0.88 by hand.
    const Said said = walk.run("calc loss --baked 500g --loss 12%");
    CHECK(said.code == 0);
    CHECK(first_line(said) == "dough 568.18g for 500g baked, at a loss of 12%");
    CHECK(number_at(walk.run("calc loss --baked 500g --loss 12% --json"), "dough_g") == Approx(568.18).margin(0.01));
    CHECK(first_line(walk.run("calc loss --dough 1kg --loss 12%")) == "baked 0.88kg from 1kg of dough, at a loss of 12%");
    CHECK(first_line(walk.run("calc loss --dough 1kg --baked 880g")) == "loss 12% of the dough");
}

TEST_CASE("calc chart: individuals and subgroups") {
    Walk walk;
    // NIST/SEMATECH e-Handbook 6.3.2.2 (memory): mean 50.81, mean moving range 1.8778, limits 45.8159
    // and 55.8041.
    walk.write("flow.csv", "flow\n49.6\n47.6\n49.9\n51.3\n47.8\n51.2\n52.6\n52.4\n53.6\n52.1\n");
    const Said said = walk.run("calc chart individuals flow.csv");
    CHECK(said.code == 0);
    CHECK(first_line(said) == "mean 50.81, control limits 45.8159 to 55.8041, no signal");
    CHECK(said.has("mean moving range 1.8778"));
    CHECK(said.has("a critical limit is never judged by them"));
    const Said json = walk.run("calc chart individuals flow.csv --json");
    CHECK(number_at(json, "mean") == Approx(50.81).margin(1e-4));
    CHECK(number_at(json, "upper") == Approx(55.8041).margin(1e-4));
    CHECK(number_at(json, "lower") == Approx(45.8159).margin(1e-4));
    CHECK(number_at(json, "range_mean") == Approx(1.8778).margin(1e-4));
    // By hand with A2 1.880, D4 3.267 (read): means 2, 3, 4, ranges 2.
    walk.write("groups.csv", "1 3\n2 4\n5 3\n");
    CHECK(first_line(walk.run("calc chart xbar groups.csv")) == "mean 3, control limits -0.76 to 6.76, no signal");
    // Eight on one side: an alarm by Western Electric, none by Nelson, who wants nine (read).
    walk.write("run.csv",
               "10,1\n9,9\n10,1\n9,9\n10,1\n9,9\n10,1\n9,9\n9,9\n9,9\n"
               "10,1\n10,2\n10,1\n10,2\n10,1\n10,2\n10,1\n10,2\n");
    const Said western = walk.run("calc chart individuals run.csv");
    CHECK(western.has("points 11 to 18: 8 in a row on one side of the centre line"));
    CHECK_FALSE(walk.run("calc chart individuals run.csv --rules nelson").has("in a row on one side"));
}

TEST_CASE("calc capability") {
    Walk walk;
    // A textbook problem (data read, answer by hand): (100 - 97) / (3 x 1.6) = 0.625.
    const Said said = walk.run("calc capability --mean 97 --sd 1.6 --lower 90 --upper 100");
    CHECK(said.code == 0);
    CHECK(first_line(said) == "Cpk 0.625, Cp 1.0417");
    CHECK(number_at(walk.run("calc capability --mean 97 --sd 1.6 --lower 90 --upper 100 --json"), "cpk") == Approx(0.625).margin(1e-6));
    // By hand: 1 2 3 has mean 2 and standard deviation 1; limits -1 and 5 are 3 away on both sides.
    walk.write("values.csv", "1\n2\n3\n");
    const Said file = walk.run("calc capability values.csv --lower -1 --upper 5 --json");
    CHECK(number_at(file, "cpk") == Approx(1).margin(1e-9));
    CHECK(number_at(file, "n") == 3);
    CHECK(number_at(file, "cpk_lower") < 1);
}

TEST_CASE("calc class: FDA Food Code 2022, 1-201.10, Tables A and B (read)") {
    Walk walk;
    const auto asks = [&](const std::string& table, const std::string& aw, const std::string& ph) {
        const Said said = walk.run("calc class --table " + table + " --aw " + aw + " --ph " + ph);
        CHECK(said.code == 0);
        CHECK(said.out.ends_with(caution_line));
        CHECK(said.out.find("safe ") == std::string::npos);
        return first_line(said).starts_with("product assessment required");
    };
    CHECK_FALSE(asks("A", "0.92", "7"));
    CHECK_FALSE(asks("A", "0.93", "5.6"));
    CHECK(asks("A", "0.93", "5.7"));
    CHECK_FALSE(asks("A", "0.96", "4.6"));
    CHECK(asks("A", "0.96", "4.7"));
    CHECK_FALSE(asks("B", "0.87", "7"));
    CHECK(asks("B", "0.88", "5.1"));
    CHECK_FALSE(asks("B", "0.90", "5.0"));
    CHECK_FALSE(asks("B", "0.91", "4.6"));
    CHECK(asks("B", "0.91", "4.7"));
    CHECK_FALSE(asks("B", "0.93", "4.19"));
    CHECK(asks("B", "0.93", "4.2"));
    CHECK(first_line(walk.run("calc class --ph 5.6 --aw 0.93 --table A")) ==
          "no time and temperature control needed by pH and water activity (5.6pH, 0.93aw, Table A)");
    CHECK(first_line(walk.run("calc class --ph 5.7 --aw 0.93 --table A")) ==
          "product assessment required: until then, time and temperature control (5.7pH, 0.93aw, Table A)");
    CHECK(walk.run("calc class --ph 5.7 --aw 0.93 --table A --json").has("\"assessment_required\": true"));
}

TEST_CASE("calc refuses what cannot be, says what is wanted, and prints nothing else") {
    Walk walk;
    walk.write("two.csv", "0;60\n10;61\n");
    walk.write("back.csv", "0;60\n10;61\n5;62\n");
    walk.write("three.csv", "0,93,4\n1,94,2\n");
    walk.write("values.csv", "point,mass\n1,812\n2,815\n");
    walk.write("word.csv", "0;60\nten;61\n");
    for (const char* line : {
             "calc lethality --series none.csv --tref 60C --z 5C --d 1min",
             "calc lethality --series two.csv --tref 60C --z 0C --d 1min",
             "calc lethality --series two.csv --tref 60C --z 5C",
             "calc lethality --series two.csv --tref 60C --z 5C --d 1min --cap many",
             "calc lethality --series back.csv --tref 60C --z 5C --d 1min",
             "calc lethality --series three.csv --tref 60C --z 5C --d 1min",
             "calc lethality --series word.csv --tref 60C --z 5C --d 1min",
             "calc lethality --series two.csv --tref 60C --z 5C --d 1min --studied 55C",
             "calc dz two.csv",
             "calc cooling --series two.csv --rule us-two-stages",
             "calc cooling --series two.csv --rule 57C:60C/2h",
             "calc cooling --series two.csv --rule 57C:21C",
             "calc cooldown --room 60F --to 75F",
             "calc cooldown --room 60F --start 300F --reading 200F --to 75F",
             "calc cooldown --room 80F --start 300F --reading 10min=200F --to 75F",
             "calc boiling",
             "calc boiling --pressure 850hPa --altitude 5000ft",
             "calc boiling --altitude 5000",
             "calc boiling --altitude 20000m",
             "calc water --want 75F --flour 65F --room 65F",
             "calc water --want 75F --flour 65F --room 65F --friction 8F --tap 50F",
             "calc water --balance --want 75F --flour 65F",
             "calc ice --water 0kg --tap 20C --need 10C",
             "calc ice --water 40kg --tap 20C --need -90C",
             "calc scale none.csv --flour 200lb",
             "calc scale two.csv",
             "calc loss --baked 500g",
             "calc loss --baked 500g --loss 100%",
             "calc loss --dough 400g --baked 500g",
             "calc chart individuals values.csv",
             "calc chart histogram two.csv",
             "calc capability --mean 97 --sd 0 --lower 90",
             "calc capability --mean 97 --sd 1.6",
             "calc class --ph 14.1 --aw 0.93 --table A",
             "calc class --ph 4.6004 --aw 0.93 --table A",
             "calc class --ph 5.6 --aw 93 --table A",
         }) {
        CAPTURE(line);
        const Said said = walk.run(line);
        CAPTURE(said.out, said.err);
        CHECK(refused(said));
    }
    CHECK(walk.run("calc lethality --series back.csv --tref 60C --z 5C --d 1min").err ==
          "refused: file 'back.csv', line 3: '5 62'\n"
          "wanted: a time after that of the line before it, 10 min\n"
          "next: mend that line in a copy of the file\n");
}
