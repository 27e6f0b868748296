// Opens a site, records a reading and reads its verdict, with nothing but the installed library.
//   reads_a_verdict SITE SUBJECT POINT VALUE INSTRUMENT INITIALS
// Prints "POINT VALUE: VERDICT", one line a finding of the point; exit 0 when there is one.
#include <peelbook/site/site.h>

#include <iostream>

int main(int count, char** words) {
    if (count != 7) return 2;
    peelbook::SystemClock clock;
    peelbook::DiskFiles files;
    auto site = peelbook::site::Site::open(words[1], clock, files);
    if (!site) {
        std::cerr << site.refusal().given << '\n';
        return 2;
    }
    const auto value = peelbook::parse_measure(words[4]);
    if (!value) return 2;
    peelbook::record::ReadingTaken reading;
    reading.subject = words[2];
    reading.point = words[3];
    reading.value = *value;
    reading.instrument = words[5];
    peelbook::site::Draft draft;
    draft.says = reading;
    draft.by = words[6];
    const auto receipt = (*site)->record(draft);
    if (!receipt) {
        std::cerr << receipt.refusal().given << "; wanted " << receipt.refusal().wanted << '\n';
        return 2;
    }
    bool found = false;
    for (const auto& told : receipt->findings) {
        if (told.finding.point != reading.point || told.finding.ord != 0) continue;
        found = true;
        std::cout << reading.point << ' ' << told.finding.measured << ": " << peelbook::judge::word(told.finding.verdict) << '\n';
    }
    return found ? 0 : 1;
}
