#pragma once
// What a command may touch: clock, files, the three streams, the environment, the current folder, and the
// open site. main.cpp hands in the machine's own; tests and the recorder of the example hand in a clock set
// by hand and streams in memory.
#include <cstdint>
#include <filesystem>
#include <functional>
#include <iosfwd>
#include <memory>
#include <string>
#include <string_view>

#include "base/clock.h"
#include "base/result.h"

namespace peelbook::site {
class Site;
}

namespace peelbook::cli {

class Context {
  public:
    // `environment` answers with an empty text for a variable that is not set.
    Context(Clock& clock, Files& files, std::ostream& out, std::ostream& err, std::istream& in,
            std::function<std::string(std::string_view)> environment, std::filesystem::path here);

    Clock& clock;
    Files& files;
    std::ostream& out;
    std::ostream& err;
    std::istream& in;
    std::function<std::string(std::string_view)> environment;
    std::filesystem::path here;  // the current folder
    std::string site_folder;     // --site before the command; empty: none

    enum class Mode { read, write, rebuild };  // rebuild: a book of an older layout too
    // The site to work on: `given`, else `site_folder`, else PEELBOOK_SITE, else upward from `here`. It stays
    // open until another one is asked for, so that a replay opens it once; one open for writing also serves
    // reading. The pointer is good until the next call.
    Result<site::Site*> site(const std::string& given, Mode mode = Mode::write);

    // The path of a file to write, from `here`; refused when there is one of that name: nothing is overwritten.
    Result<std::filesystem::path> free_file(const std::string& name) const;

    // The same world and the same open site with other streams.
    Context with_streams(std::ostream& other_out, std::ostream& other_err) const;

  private:
    struct OpenSite;
    std::shared_ptr<OpenSite> open_;
};

}  // namespace peelbook::cli
