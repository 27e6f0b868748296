#include <cmath>

#include "base/text.h"
#include "calc/thermometer.h"
#include "cli/calculation/text.h"
#include "cli/frame/height.h"

namespace peelbook::cli {
namespace {

struct CalcBoilingGiven {
    std::optional<Measure> pressure, read;
    std::string altitude;
    bool json = false;
};

void set_up(Options& options, CalcBoilingGiven& given) {
    const auto take_pressure = [&given](const std::vector<std::string>& typed) -> Check {
        auto measure = parse_measure(typed.front(), Dimension::pressure);
        if (!measure) return measure.refusal();
        given.pressure = *measure;
        return {};
    };
    options.row({"--pressure", "PRESSURE", "station pressure, not reduced to sea level: 850hPa", false, false, take_pressure});
    options.text(given.altitude, "--altitude", "HEIGHT", "height above the sea, when no pressure is known: 5000ft, 1600m")
        .temperature(given.read, "--read", "what a probe shows in the boiling water: its offset is told");
    add_json(options, given.json);
}

struct Place {
    double pascal = 0;
    std::string working;
};

Result<Place> place_of(const CalcBoilingGiven& given) {
    if (given.pressure.has_value() == !given.altitude.empty())
        return Refusal{given.pressure ? "--pressure and --altitude" : "neither --pressure nor --altitude",
                       "one of the two; the pressure is the better one",
                       "add --pressure 850hPa or --altitude 5000ft",
                       {}};
    if (given.pressure) return Place{in(*given.pressure, Unit::pascal), ""};
    const auto metres = height_metres("--altitude", given.altitude);
    if (!metres) return metres.refusal();
    const auto pascal = calc::standard_pressure(*metres);
    if (!pascal) return pascal.refusal();
    return Place{*pascal, "height " + number(*metres, 1) + " m; standard air pressure there = 1013.25 x (1 - 0.0065 x " +
                              number(*metres, 1) + " / 288.15)^5.25588 = " + number(*pascal / 100, 2) + " hPa\n"};
}

std::string both_scales(double celsius) {
    return degrees(celsius, Unit::celsius, 3) + " (" + degrees(from_celsius(celsius, Unit::fahrenheit), Unit::fahrenheit, 1) + ")";
}

// The probe's offset from the boiling point, against what the Food Code allows. Integers in thousandths.
Exit tell_probe(CalcAnswer& answer, const Measure& read, double boiling_c) {
    const bool fahrenheit = read.unit == Unit::fahrenheit;
    const auto bath = static_cast<std::int64_t>(std::llround(from_celsius(boiling_c, read.unit) * 1000));
    const calc::ProbeCheck check = calc::check_probe(read.typed_micro / micro_in_milli, bath,
                                                     fahrenheit ? calc::food_code_tolerance_milli_f : calc::food_code_tolerance_milli_c);
    const double offset = static_cast<double>(check.offset) / 1000;
    answer.answer += "; the probe shows " + number(std::abs(offset), 3) + std::string(symbol(read.unit)) +
                     (offset < 0 ? " too little" : " too much") + (check.within ? ", within " : ", OUTSIDE ") + (fahrenheit ? "2F" : "1C");
    answer.working += "offset = " + to_text(read) + " - " + degrees(static_cast<double>(bath) / 1000, read.unit, 3) + " = " +
                      degrees(offset, read.unit, 3) + "\n";
    answer.source.push_back(
        "FDA Food Code 2022, 4-203.11: 1 C for a Celsius or dual scale, 2 F for Fahrenheit "
        "only, inclusive (read in a state text that copies it).");
    answer.judges_safety = true;
    answer.json.set("offset", offset).set("offset_unit", symbol(read.unit)).set("probe_within", check.within);
    return check.within ? Exit::done : Exit::not_within;
}

Result<Exit> act(Context& context, const CalcBoilingGiven& given) {
    const auto place = place_of(given);
    if (!place) return place.refusal();
    const auto boiling = calc::boiling_celsius(place->pascal);
    if (!boiling) return boiling.refusal();
    CalcAnswer answer;
    answer.answer = "water boils at " + both_scales(*boiling) + " at " +
                    (given.pressure ? to_text(*given.pressure) : std::string(trimmed(given.altitude)));
    if (!given.pressure)
        answer.mind = {
            "Weather moves the pressure by 20 hPa, the boiling point by 0.55C: use the station pressure "
            "when it is known."};
    answer.working = place->working + "boiling point = temperature at which steam has a pressure of " + number(place->pascal / 100, 2) +
                     " hPa = " + number(*boiling + 273.15, 3) + " K; less 273.15 = " + both_scales(*boiling) + "\n";
    answer.source = {"IAPWS-IF97, saturation of water and steam (IAPWS R7-97(2012), region 4)."};
    if (!given.pressure) answer.source.push_back("U.S. Standard Atmosphere 1976 for the pressure at a height.");
    answer.json.set("boiling_c", *boiling)
        .set("boiling_f", from_celsius(*boiling, Unit::fahrenheit))
        .set("pressure_hpa", place->pascal / 100);
    const Exit exit = given.read ? tell_probe(answer, *given.read, *boiling) : Exit::done;
    print(context, answer, given.json);
    return exit;
}

}  // namespace

extern const Command calc_boiling_command;
const Command calc_boiling_command{.name = "calc boiling",
                                   .group = Group::calculation,
                                   .about = "Say at what temperature water boils here, for checking a thermometer.",
                                   .more = {},
                                   .examples =
                                       "peelbook calc boiling --pressure 850hPa\n"
                                       "peelbook calc boiling --altitude 5000ft --read 95.2C",
                                   .takes_at = false,
                                   .body = body<CalcBoilingGiven, set_up, act>()};

}  // namespace peelbook::cli
