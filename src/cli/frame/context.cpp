#include "cli/frame/context.h"

#include <utility>

#include "base/text.h"
#include "site/site.h"

namespace peelbook::cli {

struct Context::OpenSite {
    std::string asked_for;
    Mode mode = Mode::read;
    std::unique_ptr<site::Site> site;
};

Context::Context(Clock& clock_, Files& files_, std::ostream& out_, std::ostream& err_, std::istream& in_,
                 std::function<std::string(std::string_view)> environment_, std::filesystem::path here_)
    : clock(clock_),
      files(files_),
      out(out_),
      err(err_),
      in(in_),
      environment(std::move(environment_)),
      here(std::move(here_)),
      open_(std::make_shared<OpenSite>()) {}

Result<site::Site*> Context::site(const std::string& given, Mode mode) {
    const std::string asked_for = given.empty() ? site_folder : given;
    const bool serves = open_->mode >= mode;
    if (open_->site && open_->asked_for == asked_for && serves) return open_->site.get();
    open_->site.reset();
    const auto folder = site::Site::find(asked_for, environment("PEELBOOK_SITE"), here, files);
    if (!folder) return folder.refusal();
    constexpr book::Book::Mode of_book[] = {book::Book::Mode::read, book::Book::Mode::write, book::Book::Mode::rebuild};
    auto opened = site::Site::open(*folder, clock, files, of_book[static_cast<std::size_t>(mode)]);
    if (!opened) return opened.refusal();
    *open_ = {asked_for, mode, std::move(*opened)};
    return open_->site.get();
}

Result<std::filesystem::path> Context::free_file(const std::string& name) const {
    auto file = here / name;
    if (!files.exists(file)) return file;
    return Refusal{
        "file '" + shown(name) + "'", "a name that is free: nothing is overwritten", "choose another name, or move the file away", {}};
}

Context Context::with_streams(std::ostream& other_out, std::ostream& other_err) const {
    Context other(clock, files, other_out, other_err, in, environment, here);
    other.site_folder = site_folder;
    other.open_ = open_;
    return other;
}

}  // namespace peelbook::cli
