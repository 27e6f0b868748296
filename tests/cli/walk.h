#pragma once
// A site in a folder of its own, a clock set by hand, and whole command lines run against it.
#include <unistd.h>

#include <filesystem>
#include <map>
#include <sstream>
#include <string>

#include "base/text.h"
#include "base/zone.h"
#include "cli/frame/context.h"
#include "cli/frame/run.h"
#include "cli/frame/words.h"

namespace peelbook::cli {

inline const std::string caution_line = std::string(caution) + "\n";

struct Said {
    int code = 0;
    std::string out, err;
    bool has(const std::string& text) const { return out.find(text) != std::string::npos; }
};

class Walk {
  public:
    Walk() : folder(std::filesystem::temp_directory_path() / ("peelbook-cli-" + std::to_string(getpid()) + "-" + next_number())) {
        std::filesystem::create_directories(folder);
        at("2026-11-16T03:00+00:00");
    }
    ~Walk() {
        std::error_code ignored;
        std::filesystem::remove_all(folder, ignored);
    }
    Walk(const Walk&) = delete;
    Walk& operator=(const Walk&) = delete;

    void at(const std::string& iso) { clock.set(*parse_when(iso, Zone::utc(), Instant{})); }
    void wait(Duration d) { clock.set(clock.now() + d); }

    // One command line, quoted as in a shell, without the program's name.
    Said run(const std::string& line) {
        std::ostringstream out, err;
        std::istringstream in(input);
        const auto look_up = [this](std::string_view name) {
            const auto found = environment.find(std::string(name));
            return found == environment.end() ? std::string() : found->second;
        };
        Context context(clock, files, out, err, in, look_up, folder);
        Said said;
        said.code = cli::run(context, *split_words(line));
        said.out = out.str();
        said.err = err.str();
        return said;
    }

    void write(const std::string& name, const std::string& text) { files.create(folder / name, text); }

    // A site under the starter plan, with people and partners.
    void open_bakery() {
        environment["PEELBOOK_SITE"] = (folder / "bakery").string();
        environment["PEELBOOK_BY"] = "AB";
        for (const char* line :
             {"new bakery --by AB --person 'Ada Brandt' --name 'Weir Lane Bakery' --zone UTC", "plan adopt",
              "person MK 'Mirek Kolar' --role baker", "person RS 'Rosa Stein' --role store", "person QA 'Quinn Amsel' --role quality",
              "partner MILL-1 'Weir Mill' --role supplier", "partner DAIRY-1 'Hill Dairy' --role supplier,carrier",
              "partner CAFE-1 'Corner Cafe' --role customer --phone '+00 555 0100'"})
            must(line);
    }

    Said must(const std::string& line, int code = 0) {
        Said said = run(line);
        if (said.code != code) throw std::runtime_error(line + "\nended with " + std::to_string(said.code) + "\n" + said.out + said.err);
        return said;
    }

    HandClock clock;
    DiskFiles files;
    std::filesystem::path folder;
    std::map<std::string, std::string> environment;
    std::string input;

  private:
    static std::string next_number() {
        static int number = 0;
        return std::to_string(++number);
    }
};

}  // namespace peelbook::cli
