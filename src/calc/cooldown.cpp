#include "calc/cooldown.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <string>

#include "calc/number_text.h"

namespace peelbook::calc {
namespace {

// A fitted room further below the readings than this many times their fall means that they do not bend enough
// to show it.
constexpr double furthest_room_in_falls = 10;

Check check_readings(const std::vector<CoreReading>& readings, std::optional<double> room) {
    const std::size_t least = room ? 2 : 3;
    if (readings.size() < least) {
        return Refusal{std::to_string(readings.size()) + " reading(s)",
                       std::to_string(least) + " or more" + (room ? "" : " when the room is not known"),
                       room ? "take another reading" : "give the room temperature, or take another reading",
                       {}};
    }
    for (std::size_t i = 1; i < readings.size(); ++i) {
        if (!(readings[i].minute > readings[i - 1].minute)) {
            return Refusal{"a reading at minute " + number_text(readings[i].minute),
                           "times in ascending order",
                           "put the readings in order of time",
                           {}};
        }
    }
    if (!(readings.back().temperature < readings.front().temperature)) {
        return Refusal{"readings from " + number_text(readings.front().temperature) + " to " + number_text(readings.back().temperature),
                       "a falling temperature",
                       "start from the reading at which cooling began",
                       {}};
    }
    for (const CoreReading& r : readings) {
        if (room && r.temperature <= *room) {
            return Refusal{"a reading of " + number_text(r.temperature),
                           "readings above the room's " + number_text(*room),
                           "check the room temperature",
                           {}};
        }
    }
    return {};
}

// Log-linear fit for a room that is taken as known: the start for the real fit, and its badness for choosing
// a room.
struct Guess {
    double start = 0, rate = 0, badness = std::numeric_limits<double>::infinity();
};

Guess guess_with_room(const std::vector<Point>& points, double room) {
    std::vector<Point> logs;
    for (const Point& p : points) logs.push_back({p.x, std::log(p.y - room)});
    const auto line = fit_line(logs);
    Guess guess;
    if (!line) return guess;
    guess.start = room + std::exp(line->intercept);
    guess.rate = -line->slope;
    guess.badness = 0;
    for (const Point& p : points) {
        const double off = p.y - room - (guess.start - room) * std::exp(-guess.rate * p.x);
        guess.badness += off * off;
    }
    return guess;
}

// Rooms from just under the coldest reading down to ten times the fall below it.
std::pair<double, Guess> guess_room(const std::vector<Point>& points) {
    const double fall = points.front().y - points.back().y;
    double coldest = points.front().y;
    for (const Point& p : points) coldest = std::min(coldest, p.y);
    std::pair<double, Guess> best;
    for (double below = 0.01; below < furthest_room_in_falls; below *= 1.3) {
        const double room = coldest - below * fall;
        const Guess guess = guess_with_room(points, room);
        if (guess.badness < best.second.badness) best = {room, guess};
    }
    return best;
}

Curve newton(std::optional<double> known_room) {
    return [known_room](std::span<const double> p, double t, std::span<double> gradient) {
        const double room = known_room ? *known_room : p[2];
        const double left = std::exp(-p[1] * t);
        gradient[0] = left;
        gradient[1] = -(p[0] - room) * t * left;
        if (!known_room) gradient[2] = 1 - left;
        return room + (p[0] - room) * left;
    };
}

// The minute after the first reading at which a falling function passes below `target`; absent within
// `horizon`.
std::optional<double> falls_to(const std::function<double(double)>& curve, double target, double horizon) {
    const int steps = 500;
    double low = 0;
    for (int i = 0; i <= steps; ++i) {
        double high = horizon * i / steps;
        if (curve(high) > target) {
            low = high;
            continue;
        }
        for (double middle = (low + high) / 2; i > 0 && middle > low && middle < high; middle = (low + high) / 2)
            (curve(middle) > target ? low : high) = middle;
        return high;
    }
    return std::nullopt;
}

}  // namespace

double Cooldown::at(double minute) const { return room + (start - room) * std::exp(-rate_per_min * (minute - first_minute)); }

Result<Cooldown> fit_cooldown(const std::vector<CoreReading>& readings, std::optional<double> room) {
    if (auto checked = check_readings(readings, room); !checked) return checked.refusal();
    std::vector<Point> points;
    for (const CoreReading& r : readings) points.push_back({r.minute - readings.front().minute, r.temperature});
    std::vector<double> start;
    if (room) {
        const Guess guess = guess_with_room(points, *room);
        start = {guess.start, guess.rate};
    } else {
        const auto [guessed_room, guess] = guess_room(points);
        start = {guess.start, guess.rate, guessed_room};
    }
    auto fit = fit_curve(points, start, newton(room));
    if (!fit) return fit.refusal();
    Cooldown out;
    out.room = room ? *room : fit->parameters[2];
    out.room_fitted = !room;
    out.first_minute = readings.front().minute;
    out.start = fit->parameters[0];
    out.rate_per_min = fit->parameters[1];
    out.fit = std::move(*fit);
    const double fall = readings.front().temperature - readings.back().temperature;
    const bool bends = !out.room_fitted || out.room > readings.back().temperature - furthest_room_in_falls * fall;
    if (!(out.rate_per_min > 0) || !(out.start > out.room) || !bends) {
        return Refusal{"readings that do not slow down as they fall",
                       "readings that follow Newton's law of cooling",
                       "give the room temperature, or leave out the readings before cooling began",
                       {}};
    }
    return out;
}

Result<Arrival> predict_arrival(const Cooldown& cooldown, double target, double confidence) {
    if (!(target > cooldown.room) || !(target < cooldown.start)) {
        return Refusal{"a target of " + number_text(target),
                       "a target between the room's " + number_text(cooldown.room) + " and the start's " + number_text(cooldown.start),
                       target <= cooldown.room ? "cool in a colder place: this one never gets there" : "the target is passed already",
                       {}};
    }
    const double after = std::log((cooldown.start - cooldown.room) / (target - cooldown.room)) / cooldown.rate_per_min;
    Arrival arrival;
    arrival.minute = cooldown.first_minute + after;
    if (cooldown.fit.degrees_of_freedom == 0) return arrival;

    const Curve curve = newton(cooldown.room_fitted ? std::nullopt : std::optional<double>(cooldown.room));
    const double t = student_t_two_sided(confidence, cooldown.fit.degrees_of_freedom);
    std::vector<double> gradient(cooldown.fit.parameters.size());
    const auto limit = [&](double minute, double side) {
        const double centre = curve(cooldown.fit.parameters, minute, gradient);
        return centre + side * t * std::hypot(cooldown.fit.residual_sd, cooldown.fit.curve_se(gradient));
    };
    const double horizon = after + 20 / cooldown.rate_per_min;
    const auto early = falls_to([&](double m) { return limit(m, -1); }, target, horizon);
    const auto late = falls_to([&](double m) { return limit(m, +1); }, target, horizon);
    if (early) arrival.earliest = cooldown.first_minute + *early;
    if (late) arrival.latest = cooldown.first_minute + *late;
    return arrival;
}

}  // namespace peelbook::calc
