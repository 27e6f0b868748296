// Runs two commands turn by turn, each in a process of its own, and compares the medians of their times, so that both meet the same
// noise of the machine. Processor time, the program's own and the system's for it, says more than the clock where other work runs beside.
// Prints one line:
//   speed: NAME ours=… other=… ratio=…, processor ours=… other=… ratio=… target<=…
//
//   race NAME times RUNS MOST  -- OUR WORDS -- OTHER WORDS     milliseconds a run; the ratio of processor times is to be at most MOST
//   race NAME rate RUNS LEAST COUNT -- OUR WORDS -- OTHER WORDS   both do COUNT things: things a second by the clock, at least LEAST
// {run} in a word becomes the number of the run. A command that writes a line "milliseconds ELAPSED PROCESSOR" is believed; others are
// timed from start to end. Exit 0 and 1 count as done (peelbook answers 1 when what it recorded is not within).
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <iostream>
#include <string>
#include <vector>

namespace {

using Words = std::vector<std::string>;

[[noreturn]] void stop(const std::string& why) {
    std::cerr << "race: " << why << '\n';
    std::exit(2);
}

Words of_run(Words words, int run) {
    constexpr std::string_view mark = "{run}";
    for (auto& word : words)
        if (const auto at = word.find(mark); at != std::string::npos) word.replace(at, mark.size(), std::to_string(run));
    return words;
}

[[noreturn]] void become(const Words& words, int output) {
    std::vector<char*> pointers;
    for (const auto& word : words) pointers.push_back(const_cast<char*>(word.c_str()));
    pointers.push_back(nullptr);
    ::dup2(output, STDOUT_FILENO);
    ::execvp(pointers[0], pointers.data());
    ::_exit(127);
}

std::string all_from(int input) {
    std::string text;
    char bytes[4096];
    for (ssize_t got = 0; (got = ::read(input, bytes, sizeof bytes)) > 0;) text.append(bytes, static_cast<std::size_t>(got));
    return text;
}

struct Took {  // milliseconds
    double elapsed, processor;
};

double milliseconds(const timeval& time) { return static_cast<double>(time.tv_sec) * 1e3 + static_cast<double>(time.tv_usec) / 1e3; }

Took time_of(const Words& words) {
    int ends[2];
    if (::pipe2(ends, O_CLOEXEC) != 0) stop("no pipe");
    const auto begin = std::chrono::steady_clock::now();
    const pid_t child = ::fork();
    if (child < 0) stop("no process");
    if (child == 0) become(words, ends[1]);
    ::close(ends[1]);
    const std::string said = all_from(ends[0]);
    ::close(ends[0]);
    int status = 0;
    rusage used{};
    ::wait4(child, &status, 0, &used);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
    if (!WIFEXITED(status) || WEXITSTATUS(status) > 1) stop(words.front() + " failed; it said: " + said);
    Took own{};
    if (std::sscanf(said.c_str(), "milliseconds %lf %lf", &own.elapsed, &own.processor) == 2) return own;
    return {took.count(), milliseconds(used.ru_utime) + milliseconds(used.ru_stime)};
}

double median(std::vector<double> times) {
    std::sort(times.begin(), times.end());
    const std::size_t half = times.size() / 2;
    return times.size() % 2 == 1 ? times[half] : (times[half - 1] + times[half]) / 2;
}

class Times {
  public:
    void add(const Took& took) {
        elapsed_.push_back(took.elapsed);
        processor_.push_back(took.processor);
    }
    Took medians() const { return {median(elapsed_), median(processor_)}; }

  private:
    std::vector<double> elapsed_, processor_;
};

}  // namespace

int main(int count, char** arguments) {
    const Words words(arguments + 1, arguments + count);
    const auto first = std::find(words.begin(), words.end(), "--");
    const auto second = first == words.end() ? first : std::find(first + 1, words.end(), "--");
    const auto given = first - words.begin();
    const bool rate = given == 5 && words[1] == "rate";
    if (second == words.end() || !(rate || (given == 4 && words[1] == "times")))
        stop("race NAME times RUNS MOST -- OUR WORDS -- OTHER WORDS, or race NAME rate RUNS LEAST COUNT -- …");
    const int runs = std::max(1, std::atoi(words[2].c_str()));
    Times our_times, other_times;
    for (int run = 1; run <= runs; ++run) {
        our_times.add(time_of(of_run({first + 1, second}, run)));
        other_times.add(time_of(of_run({second + 1, words.end()}, run)));
    }
    const Took ours = our_times.medians(), other = other_times.medians();
    const char* const name = words[0].c_str();
    const char* const target = words[3].c_str();
    const double processor = ours.processor / other.processor;
    if (rate) {
        const double things = std::atof(words[4].c_str()) * 1000;
        std::printf("speed: %s ours=%.0f/s other=%.0f/s ratio=%.2f target>=%s, processor ours=%.1fms other=%.1fms ratio=%.2f\n", name,
                    things / ours.elapsed, things / other.elapsed, other.elapsed / ours.elapsed, target, ours.processor, other.processor,
                    processor);
    } else {
        std::printf("speed: %s ours=%.1fms other=%.1fms ratio=%.2f, processor ours=%.1fms other=%.1fms ratio=%.2f target<=%s\n", name,
                    ours.elapsed, other.elapsed, ours.elapsed / other.elapsed, ours.processor, other.processor, processor, target);
    }
    return 0;
}
