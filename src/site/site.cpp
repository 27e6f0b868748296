#include "site/site.h"

#include <algorithm>

#include "base/text.h"
#include "fold/apply.h"
#include "plan/changes.h"
#include "plan/starter.h"
#include "site/impl.h"

namespace peelbook::site {
namespace {

namespace fs = std::filesystem;
constexpr std::string_view book_name = "book.db";
constexpr std::string_view mark_name = "site.toml";

Refusal no_site(const fs::path& folder) {
    return {"folder '" + folder.string() + "'",
            "a site folder: one with site.toml and book.db in it",
            "make one with: peelbook new DIR --by INITIALS --name \"...\"; or name it with --site DIR",
            {}};
}

// Entry 1 and the first person, before any rule can apply.
void write_opening(fold::Ledger& ledger, const std::string& name, const std::string& initials, const std::string& person, Instant now) {
    const auto write = [&](const record::Statement& says) {
        record::Entry entry;
        entry.seq = ledger.book.next_seq();
        entry.happened = now;
        entry.written = now;
        entry.by = initials;
        entry.payload = says;
        ledger.book.append(entry);
        fold::Derivation d{ledger, entry.seq, now};
        apply(d, entry);
    };
    auto work = ledger.book.begin();
    write(record::Opened{name});
    write(record::PersonAdded{initials, person, "manager"});
    work.commit();
}

}  // namespace

Site::Site(std::unique_ptr<Impl> impl) : impl_(std::move(impl)) {}
Site::~Site() = default;

Result<std::unique_ptr<Site>> Site::create(const fs::path& folder, const std::string& name, const std::string& zone,
                                           const std::string& initials, const std::string& person_name, Clock& clock, Files& files,
                                           std::string_view starter) {
    if (auto checked = check_text("name", name, longest_name, true); !checked) return checked.refusal();
    if (auto checked = check_text("person's name", person_name, longest_name, true); !checked) return checked.refusal();
    if (auto checked = check_code("initials", initials); !checked) return checked.refusal();
    if (auto known = Zone::named(zone); !known) return known.refusal();
    for (const auto& file : files.list(folder)) {
        return Refusal{"folder '" + folder.string() + "', which holds " + file.filename().string(),
                       "a new or an empty folder",
                       "choose another folder",
                       {}};
    }
    files.make_folder(folder);
    for (const auto& text : plan::starter_plan(name, zone, starter)) files.create(folder / text.name, text.text);
    fold::Ledger ledger(book::Book::create(folder / book_name));
    write_opening(ledger, name, initials, person_name, clock.now());
    return std::unique_ptr<Site>(new Site(std::make_unique<Impl>(Impl{folder, clock, files, std::move(ledger)})));
}

Result<std::unique_ptr<Site>> Site::open(const fs::path& folder, Clock& clock, Files& files, book::Book::Mode mode) {
    if (!files.exists(folder / mark_name) || !files.exists(folder / book_name)) return no_site(folder);
    fold::Ledger ledger(book::Book::open(folder / book_name, mode));
    return std::unique_ptr<Site>(new Site(std::make_unique<Impl>(Impl{folder, clock, files, std::move(ledger)})));
}

Result<fs::path> Site::find(const std::string& given, const std::string& from_environment, const fs::path& here, const Files& files) {
    for (const auto& named : {given, from_environment}) {
        if (named.empty()) continue;
        const fs::path folder = here / named;
        if (!files.exists(folder / mark_name)) return no_site(folder);
        return folder;
    }
    for (fs::path folder = here; !folder.empty(); folder = folder.parent_path()) {
        if (files.exists(folder / mark_name)) return folder;
        if (folder == folder.root_path()) break;
    }
    return Refusal{"no site here or in a folder above",
                   "a site folder: one with site.toml in it",
                   "name it with --site DIR or PEELBOOK_SITE, or make one with: peelbook new DIR",
                   {}};
}

std::vector<plan::Text> Site::plan_files() const {
    std::vector<plan::Text> texts;
    for (const auto& file : impl_->files.list(impl_->folder)) {
        if (file.extension() != ".toml") continue;
        auto text = impl_->files.read(file);
        if (!text) throw MachineFailed("cannot read " + file.string() + ": check its permissions");
        texts.push_back({file.filename().string(), std::move(*text)});
    }
    std::sort(texts.begin(), texts.end(), [](const auto& a, const auto& b) { return a.name < b.name; });
    return texts;
}

plan::Outcome Site::check_plan() const {
    auto outcome = plan::read_plan(plan_files());
    std::vector<std::string> partners;
    for (const auto& partner : impl_->ledger.rows().partners()) partners.push_back(partner.code);
    for (auto& fault : plan::check_against(outcome.plan, partners)) outcome.faults.push_back(std::move(fault));
    return outcome;
}

Result<Receipt> Site::adopt_plan(const std::string& by, const std::string& hazard) {
    const auto texts = plan_files();
    const auto outcome = plan::read_plan(texts);
    if (!outcome.usable()) {
        const auto errors = std::count_if(outcome.faults.begin(), outcome.faults.end(), [](const auto& f) { return !f.warning; });
        return Refusal{"a plan with " + std::to_string(errors) + (errors == 1 ? " fault" : " faults"),
                       "a plan without faults",
                       "see them all with: peelbook plan check",
                       {}};
    }
    if (auto checked = check_text("hazard", hazard, longest_note, false); !checked) return checked.refusal();
    auto& ledger = impl_->ledger;
    if (outcome.plan.site.practice && !ledger.plan_versions().empty() && !ledger.in_practice())
        return Refusal{"a plan of practice after one in earnest",
                       "practice only at the beginning of a book",
                       "take practice = true out of [site]; to practise more, begin a site of its own: peelbook new DIR",
                       {}};
    record::PlanAdopted says;
    says.hazard = hazard;
    for (const auto& text : texts) says.files.push_back({text.name, text.text});
    return record({.says = says, .by = by, .happened = {}, .token = {}, .already_done = false, .why = {}});
}

Result<plan::Plan> Site::plan_in_force(std::optional<Instant> at) const {
    const auto governing = impl_->ledger.plan_at(at.value_or(impl_->clock.now()));
    if (governing.seq != 0) return *governing.plan;
    return Refusal{"no plan in force", "an adopted plan", "check it with: peelbook plan check; then: peelbook plan adopt", {}};
}

Result<std::vector<std::string>> Site::plan_changes() const {
    auto outcome = plan::read_plan(plan_files());
    if (!outcome.usable()) {
        return Refusal{"a plan in the folder that has faults", "a plan without faults", "see them all with: peelbook plan check", {}};
    }
    auto before = plan_in_force();
    return plan::changes(before ? *before : plan::Plan{}, outcome.plan);
}

Result<record::Entry> Site::entry(Seq seq) const {
    if (auto entry = impl_->ledger.book.entry(seq)) return *entry;
    return Refusal{"entry " + std::to_string(seq),
                   "an entry of the book, 1 to " + std::to_string(impl_->ledger.book.next_seq() - 1),
                   "the number stands on the receipt and in the workbooks",
                   {}};
}

std::vector<book::Person> Site::people() const { return impl_->ledger.rows().people(); }
std::vector<book::Partner> Site::partners() const { return impl_->ledger.rows().partners(); }

const Zone& Site::zone() const { return impl_->ledger.zone(); }
const fs::path& Site::folder() const { return impl_->folder; }

}  // namespace peelbook::site
