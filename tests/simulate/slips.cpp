// How people mistype, press twice, forget to calibrate and put things right; and how some try to be rid of a bad value.
#include "simulate/people.h"

namespace peelbook::simulate {
namespace {

bool is_hot(const std::string& point) { return point == "core" || point == "boil"; }

bool is_bad(const Read& read) {
    if (read.point == "core") return read.value < 94'000;
    return (read.point == "boil" && read.value < 84'000) || (read.point == "cooling" && read.value > 10'000);
}

std::string good_value(const std::string& point) { return point == "core" ? "96.4C" : point == "boil" ? "86C" : "4C"; }

}  // namespace

void People::mistype(const Typed& right) {
    const std::string before = "reading " + right.subject + " " + right.point + " ", after = right.instrument;
    const double value = std::atof(right.value.c_str());
    switch (chance_.below(5)) {
        case 0: {  // without the point, or with one in the wrong place: what cannot be is asked about, and most look again
            const std::string wrong = before + degrees(chance_.of_100(50) ? value * 10 : value / 10) + after;
            const bool sure = chance_.of_100(30);
            if (!say(right.by, wrong) && !(sure && say(right.by, wrong + " --sure"))) return note(right.by, before + right.value + after);
            return put_right(right, "value=" + right.value);
        }
        case 1:  // another value, which it might have been
            if (say(right.by, before + degrees(is_hot(right.point) ? value - 9 : value + 4) + after))
                put_right(right, "value=" + right.value);
            return;
        case 2: {  // another lot
            const Lot* other = some([&](const Lot& lot) {
                return lot.code != right.subject &&
                       std::any_of(lot.reads.begin(), lot.reads.end(), [&](const Read& read) { return read.point == right.point; });
            });
            const std::string subject = other ? other->code : right.subject;
            if (say(right.by, "reading " + subject + " " + right.point + " " + right.value + after))
                put_right(right, "subject=" + right.subject);
            return;
        }
        case 3:  // another time
            if (say(right.by, before + right.value + after + " --at " + to_iso(run_.zone(), now_ - minutes(chance_.between(3, 60)))))
                put_right(right, "'at=" + to_iso(run_.zone(), now_) + "'");
            return;
        default:  // the same twice, as two entries
            say(right.by, before + right.value + after);
            say(right.by, before + right.value + after);
    }
}

void People::put_right(const Typed& right, const std::string& change) {
    const std::string wrong = "{" + std::to_string(run_.last_line()) + "}";
    const std::string anew = "reading " + right.subject + " " + right.point + " " + right.value + right.instrument;
    const auto fate = chance_.below(100);
    const std::string by = fate % 3 == 0 ? "QO" : right.by;
    if (fate < 50) return later(chance_.between(1, 40), [=, this] { say(by, "amend " + wrong + " " + change + " --why slip"); });
    if (fate < 85)
        return later(chance_.between(1, 9), [=, this] {
            say(by, fate < 70 ? "undo" : "void " + wrong + " --why slip");
            say(right.by, anew);
        });
    const std::string at = " --at " + to_iso(run_.zone(), now_);
    if (fate < 95) later(chance_.between(60, 300), [=, this] { say(right.by, anew + at); });
}

void People::step(const std::string& by, const std::string& lot, const std::string& step) {
    const std::string text = "step " + lot + " " + step;
    const auto fate = chance_.below(100);
    if (fate >= 4 && fate < 8) {  // too early
        if (!say(by, text)) return;
        const std::string back = fate < 6 ? "undo" : "void {" + std::to_string(run_.last_line()) + "} --why early";
        later(chance_.between(1, 20), [=, this] { say(by, back); });
        return later(chance_.between(21, 30), [=, this] { note(by, text); });
    }
    note(by, text);
    if (fate < 4) later(chance_.between(2, 90), [=, this] { say(by, text); });  // twice
}

void People::calibrate() {
    const auto fate = chance_.below(100);
    const std::string late = " --at " + to_iso(run_.zone(), now_ - hours(chance_.between(1, 40)));
    if (fate < 30) {
        say("QO", "calibrate spare --method ice --read 0.3C" + (fate < 20 ? late : ""));
    } else if (fate < 60) {
        say("QO", "calibrate probe --method ice --read 0.1C" + (fate < 45 ? late : ""));
    } else if (fate < 80) {
        say("QO", "calibrate spare passed");
    } else if (fate < 83) {
        say("QO", "calibrate probe --method ice --read 4C");
        later(30, [this] { say("QO", "calibrate probe --method ice --read 0.2C"); });
    }
}

void People::countersign() {
    for (const auto& row :
         run_.house().ask("SELECT entry, by FROM waiting JOIN fact ON seq = entry WHERE decided_by IS NULL ORDER BY entry")) {
        const int line = run_.house().line_of(std::get<std::int64_t>(row[0]));
        if (line == 0 || chance_.of_100(30)) continue;
        const std::string by = chance_.of_100(80) ? "QO" : to_text(row[1]);
        say(by, "countersign {" + std::to_string(line) + "}" + (chance_.of_100(15) ? " --refuse --why 'nobody saw it'" : ""));
    }
}

void People::cheat() {
    const Lot* lot = some([](const Lot& l) { return std::any_of(l.reads.begin(), l.reads.end(), is_bad); });
    if (!lot) return;
    std::vector<Read> bad;
    std::copy_if(lot->reads.begin(), lot->reads.end(), std::back_inserter(bad), is_bad);
    const Read read = chance_.of(bad);
    const int line = run_.house().line_of(read.seq);
    const std::string by = chance_.of(std::vector<std::string>{"BA", "BO"}), code = lot->code;
    const std::string entry = "{" + std::to_string(line) + "}", good = good_value(read.point);
    const std::string anew = "reading " + code + " " + read.point + " " + good + " --with probe";
    const Lot* other = some([&](const Lot& l) { return l.item == lot->item && l.code != code; });
    switch (line == 0 ? 5 + chance_.below(4) : chance_.below(9)) {
        case 0:
            say(by, "amend " + entry + " value=" + good + " --why slip");
            return;
        case 1:
            say(by, "void " + entry + " --why slip");
            return;
        case 2:
            if (other) say(by, "amend " + entry + " subject=" + other->code + " --why slip");
            return;
        case 3:
            say(by, "amend " + entry + " 'at=" + to_iso(run_.zone(), read.at + minutes(chance_.between(-200, 200))) + "' --why slip");
            return;
        case 4:
            say(by, "amend " + entry + " instrument=spare --why slip");
            return;
        case 5:
            say(by, anew + " --at " + to_iso(run_.zone(), read.at + minutes(chance_.between(1, 60))));
            return;
        case 6:  // an end that was hours later, and what was read before it
            say(by, "step " + code + (read.point == "core" ? " bake" : " boil"));
            say(by, anew);
            return;
        case 7:
            say(by, "finish " + code + " --mass 14kg --pieces 19");
            say(by, anew);
            return;
        default:
            say(by, anew + " --sure");
    }
}

}  // namespace peelbook::simulate
