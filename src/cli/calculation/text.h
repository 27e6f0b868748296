#pragma once
// How a calculation answers: the answer in the first line, what to mind about it, the working that a person
// can follow by hand, the source, and the caution where safety is judged.
//
//   87F water (30.6C)
//
//   working
//     3 x 75 = 225 ...
//   source
//     ...
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/measure.h"
#include "base/table.h"
#include "cli/frame/command.h"
#include "output/json.h"

namespace peelbook::cli {

inline constexpr double micro = 1e6;  // in one
inline constexpr std::int64_t micro_in_milli = 1000;
inline constexpr double ms_a_minute = 60'000;

struct CalcAnswer {
    std::string answer;             // one line, or a line and a table below it; without '\n' at its end
    std::vector<std::string> mind;  // what to know before the number is used
    std::string working;            // lines, each ended by '\n'
    std::vector<std::string> source;
    bool judges_safety = false;                  // print the caution
    output::Json json = output::Json::object();  // keys carry their unit; mind, source and caution are added
};

// As text or as JSON.
void print(Context& context, const CalcAnswer& answer, bool json);

// Only --json: most calculations need no site.
void add_json(Options& options, bool& json);
// A number without a unit.
void add_number(Options& options, std::optional<double>& to, std::string name, std::string about, Need need = Need::optional);
// Options of one dimension that must be given.
void add_temperature(Options& options, std::optional<Measure>& to, std::string name, std::string about);
void add_mass(Options& options, std::optional<Measure>& to, std::string name, std::string about);
void add_percent(Options& options, std::optional<Measure>& to, std::string name, std::string about);

// "3.14": rounded to at most `decimals`, zeros at the end left out, a decimal point in every locale.
std::string number(double value, int decimals);
// "21.1C"
std::string degrees(double value, Unit unit, int decimals = 2);
// "51.44 min"
std::string minutes_text(double minutes, int decimals = 2);

// A temperature or mass as a number of `unit`: as typed when it was typed in that unit.
double in(const Measure& measure, Unit unit);
// A difference of temperatures ("8F" is 4.44 degrees of C).
double difference(const Measure& measure, Unit unit);
double to_celsius(double value, Unit unit);
double from_celsius(double celsius, Unit unit);
// A difference of temperatures in degrees C.
double difference_celsius(double value, Unit unit);

// A table for the working; of a long one the first and the last rows, and how many lie between.
std::string working_table(const Table& table, std::size_t most_rows = 40);

}  // namespace peelbook::cli
