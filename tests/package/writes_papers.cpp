// Writes the weekly workbook and the EPCIS document of a site, with nothing but the installed library.
//   writes_papers SITE WEEK FOLDER      WEEK as ISO year x 100 + week: 202647. FOLDER gets weekly.xlsx and events.jsonld
#include <peelbook/output/epcis.h>
#include <peelbook/output/workbook_file.h>
#include <peelbook/site/site.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>

int main(int count, char** words) {
    if (count != 4) return 2;
    const std::filesystem::path folder = words[3];
    peelbook::SystemClock clock;
    peelbook::DiskFiles files;
    const auto site = peelbook::site::Site::open(words[1], clock, files, peelbook::book::Book::Mode::read);
    if (!site) {
        std::cerr << site.refusal().given << '\n';
        return 2;
    }
    const auto weekly = (*site)->report("weekly", {{"week", std::int64_t{std::atoi(words[2])}}});
    const auto custody = (*site)->custody({}, {});
    if (!weekly || !custody) {
        std::cerr << (weekly ? custody.refusal() : weekly.refusal()).given << '\n';
        return 2;
    }
    peelbook::output::write_workbook(*weekly, folder / "weekly.xlsx");
    std::ofstream(folder / "events.jsonld") << peelbook::output::epcis_json(*custody);
}
