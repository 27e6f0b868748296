#include "calc/forecast.h"

#include <algorithm>
#include <cmath>

#include "calc/distribution.h"

namespace peelbook::calc {
namespace {

constexpr double powers[] = {0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1};
constexpr int rooms_tried = 5;
constexpr double hand_scatter = 0.7, worth_readings = 4;  // common practice
constexpr double nearest_to_room = 0.3;                   // a reading nearer to it says nothing of the fall
constexpr double a_week = 7 * 24 * 60, exact_enough = 0.25;

// One way in which the product may cool: a weighted line through the readings, u against time.
struct Way {
    double room = 0;
    double time = 0, u = 0;  // means of the readings
    double slope = 0, weight = 0, spread = 0, variance = 0;
    std::optional<double> target_u;  // absent: never in this room
    double target_weight = 0;
    double belief = 0;  // its logarithm, until all are known
};

std::optional<Way> way_of(const std::vector<CoreReading>& readings, double target, double room, double power) {
    const auto u_of = [&](double celsius) { return (std::pow(celsius - room, 1 - power) - 1) / (1 - power); };
    const auto weight_of = [&](double celsius) { return std::pow(celsius - room, 2 * power); };
    Way way;
    way.room = room;
    for (const CoreReading& r : readings) {
        if (r.temperature < room + nearest_to_room) return std::nullopt;
        const double weight = weight_of(r.temperature);
        way.weight += weight;
        way.time += weight * r.minute;
        way.u += weight * u_of(r.temperature);
    }
    way.time /= way.weight;
    way.u /= way.weight;
    double together = 0, squares = 0;
    for (const CoreReading& r : readings) {
        const double weight = weight_of(r.temperature), apart = r.minute - way.time;
        way.spread += weight * apart * apart;
        together += weight * apart * (u_of(r.temperature) - way.u);
    }
    way.slope = together / way.spread;
    if (!(way.slope < 0)) return std::nullopt;
    for (const CoreReading& r : readings) {
        const double off = u_of(r.temperature) - way.u - way.slope * (r.minute - way.time);
        squares += weight_of(r.temperature) * off * off;
    }
    squares += worth_readings * hand_scatter * hand_scatter;
    const double freedom = static_cast<double>(readings.size()) - 2 + worth_readings;
    way.variance = squares / freedom;
    way.belief = -freedom / 2 * std::log(squares);
    if (target > room) {
        way.target_u = u_of(target);
        way.target_weight = weight_of(target);
    }
    return way;
}

std::vector<Way> ways_of(const std::vector<CoreReading>& readings, double target, Rooms rooms) {
    std::vector<Way> ways;
    for (int i = 0; i < rooms_tried; ++i)
        for (const double power : powers) {
            const double room = rooms.coldest + (rooms.warmest - rooms.coldest) * i / (rooms_tried - 1);
            if (auto way = way_of(readings, target, room, power)) ways.push_back(*way);
        }
    if (ways.empty()) return ways;
    const double most = std::max_element(ways.begin(), ways.end(), [](const Way& a, const Way& b) { return a.belief < b.belief; })->belief;
    double all = 0;
    for (Way& way : ways) all += way.belief = std::exp(way.belief - most);
    for (Way& way : ways) way.belief /= all;
    return ways;
}

}  // namespace

std::optional<Forecast> forecast_cooling(const std::vector<CoreReading>& readings, double target, Rooms rooms) {
    constexpr std::size_t least_readings = 3;
    if (readings.size() < least_readings) return std::nullopt;
    const std::vector<Way> ways = ways_of(readings, target, rooms);
    if (ways.empty()) return std::nullopt;
    const double freedom = static_cast<double>(readings.size()) - 2 + worth_readings;
    const auto share_by = [&](double minute) {
        double share = 0;
        for (const Way& way : ways) {
            if (!way.target_u) continue;
            const double apart = minute - way.time;
            const double variance = way.variance * (1 / way.target_weight + 1 / way.weight + apart * apart / way.spread);
            share += way.belief * student_t_share((*way.target_u - way.u - way.slope * apart) / std::sqrt(variance), freedom);
        }
        return share;
    };
    const auto when = [&](double share) -> std::optional<double> {
        double low = readings.back().minute, step = 1;
        if (share_by(low) >= share) return low;
        while (share_by(low + step) < share) {
            low += step;
            step *= 1.5;
            if (low > a_week) return std::nullopt;
        }
        double high = low + step;
        while (high - low > exact_enough) {
            const double middle = (low + high) / 2;
            (share_by(middle) < share ? low : high) = middle;
        }
        return high;
    };
    Forecast out;
    for (const Way& way : ways) out.room += way.belief * way.room;
    out.earliest = when(0.05);
    out.expected = when(0.5);
    out.latest = when(0.95);
    return out;
}

}  // namespace peelbook::calc
