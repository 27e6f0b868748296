#include "simulate/attempt.h"

#include <algorithm>

#include "cli/frame/words.h"

namespace peelbook::simulate {
namespace {

using Words = std::vector<std::string>;

std::string value_of(const Words& words, const std::string& option) {
    const auto found = std::find(words.begin(), words.end(), option);
    return found == words.end() || found + 1 == words.end() ? "" : *(found + 1);
}

std::string way_out(const Words& words) {
    if (words[1] == "--product") return "by-product";
    const auto way = value_of(words, "--way");
    const bool returned = std::find(words.begin(), words.end(), "--returned") != words.end();
    if (returned && way != "animal-feed") return "returned";
    return way.empty() ? "customer" : way;
}

std::int64_t pieces_in(const std::string& word) { return word.empty() ? 0 : std::atoll(word.c_str()); }

}  // namespace

std::vector<Attempt> attempts_of(const std::string& typed, Instant clock, const Facts& facts, const Zone& zone) {
    const Words words = *cli::split_words(typed);
    if (words.size() < 2) return {};
    Attempt one;
    one.at = one.now = clock;
    one.why = !value_of(words, "--why").empty();
    one.lot = words[1];
    one.already_done = std::find(words.begin(), words.end(), "--already-done") != words.end();
    one.pieces = pieces_in(value_of(words, "--pieces"));
    if (const auto at = parse_when(value_of(words, "--at"), zone, clock)) one.at = *at;
    const std::string& command = words[0];
    const Lot* lot = facts.lot(one.lot);
    if (command == "use") {
        one.act = lot && (lot->kind == "batch" || lot->kind == "rack" || lot->kind == "pack") && lot->pieces > 0 ? "rework" : "use";
        one.into = value_of(words, "--into");
        one.label = value_of(words, "--label");
        if (facts.is_vessel(one.lot)) one.lot = facts.standing_in(one.lot, one.at);
    } else if (command == "fill") {
        one.act = "fill";
        one.lot = words[2];
        Attempt onto = one;  // what stands there goes on with it
        onto.act = "onto";
        onto.lot = facts.standing_in(words[1], one.at);
        if (!onto.lot.empty()) return {one, onto};
    } else if (command == "pack") {
        one.act = "pack";
        one.date = value_of(words, "--date");
        std::vector<Attempt> parts;
        for (std::size_t i = 1; i < words.size() && !words[i].starts_with("--"); ++i) {
            one.lot = words[i].substr(0, words[i].find('='));
            one.label = value_of(words, "--label");
            const Lot* from = facts.lot(one.lot);
            if (one.label.empty() && from) one.label = from->item + "-1";
            parts.push_back(one);
        }
        return parts;
    } else if (command == "ship") {
        one.act = way_out(words);
        if (one.act == "by-product") one.lot = value_of(words, "--product");
    } else if (command == "count") {
        if (words.size() < 3) return {};
        const bool mass = words[2].ends_with("g");
        if (lot && (mass ? pieces_in(words[2]) * 1000 <= lot->mg : pieces_in(words[2]) <= lot->pieces)) return {};
        one.act = "count";
    } else if (command == "discard") {
        one.act = "waste";
    } else if (command == "move") {
        one.act = "store";
    } else if (command == "release" || command == "split" || command == "sample") {
        one.act = command;
    } else {
        return {};
    }
    return {one};
}

}  // namespace peelbook::simulate
