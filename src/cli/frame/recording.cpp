#include "cli/frame/recording.h"

#include <ostream>
#include <utility>

#include "base/zone.h"
#include "cli/frame/receipt_text.h"
#include "site/site.h"

namespace peelbook::cli {

void add_recording_now(Options& options, Recording& recording, Need why) {
    options.text(recording.why, "--why", "TEXT", "the reason", why);
    options.common_from_here()
        .text(recording.by, "--by", "INITIALS", "who did it; else PEELBOOK_BY")
        .text(recording.token, "--token", "TEXT", "a key of your own: the same one twice records once")
        .text(recording.site, "--site", "DIR", "the site's folder; else PEELBOOK_SITE, else upward from here")
        .flag(recording.json, "--json", "answer in JSON");
}

void add_recording(Options& options, Recording& recording, Need why) {
    add_recording_now(options, recording, why);
    options.text(recording.at, "--at", "TIME", "when it happened, if not now: 05:40, 'yesterday 22:10', '2026-11-24 05:40'")
        .flag(recording.already_done, "--already-done",
              "it has happened although it should not have; recorded as a deviation; wants --why");
}

Result<std::string> who(const Context& context, const Recording& recording) {
    std::string by = recording.by.empty() ? context.environment("PEELBOOK_BY") : recording.by;
    if (by.empty()) return Refusal{"no initials", "who did it", "add --by with your initials, or set PEELBOOK_BY", {}};
    return by;
}

Result<std::optional<Instant>> when(const Context& context, const site::Site& site, const std::string& typed) {
    if (typed.empty()) return std::optional<Instant>{};
    const auto instant = parse_when(typed, site.zone(), context.clock.now());
    if (!instant) return instant.refusal();
    return std::optional<Instant>{*instant};
}

Result<Exit> record(Context& context, const Recording& recording, record::Statement says) {
    const auto by = who(context, recording);
    if (!by) return by.refusal();
    const auto site = context.site(recording.site);
    if (!site) return site.refusal();
    return record(context, **site, recording, std::move(says));
}

Result<Exit> record(Context& context, site::Site& site, const Recording& recording, record::Statement says) {
    const auto by = who(context, recording);
    if (!by) return by.refusal();
    const auto happened = when(context, site, recording.at);
    if (!happened) return happened.refusal();
    site::Draft draft{.says = std::move(says),
                      .by = *by,
                      .happened = *happened,
                      .token = recording.token,
                      .already_done = recording.already_done,
                      .why = recording.why};
    const auto receipt = site.record(draft);
    if (!receipt) return receipt.refusal();
    return tell(context, site, *receipt, recording.json);
}

Result<Exit> record_all(Context& context, const Recording& recording, const std::vector<record::Statement>& statements) {
    const auto by = who(context, recording);
    if (!by) return by.refusal();
    const auto site = context.site(recording.site);
    if (!site) return site.refusal();
    const auto happened = when(context, **site, recording.at);
    if (!happened) return happened.refusal();
    std::vector<site::Draft> drafts;
    for (const record::Statement& says : statements) {
        const std::string number = recording.token.empty() ? "" : "/" + std::to_string(drafts.size() + 1);
        drafts.push_back(site::Draft{.says = says,
                                     .by = *by,
                                     .happened = *happened,
                                     .token = recording.token + number,
                                     .already_done = recording.already_done,
                                     .why = recording.why});
    }
    const auto receipts = (*site)->record_all(drafts);
    if (!receipts) return receipts.refusal();
    auto list = output::Json::array();
    Exit exit = Exit::done;
    for (const site::Receipt& receipt : *receipts) {
        if (recording.json) list.add(receipt_json(receipt, (*site)->zone()));
        if (!recording.json) context.out << receipt_text(receipt, (*site)->zone());
        if (receipt.judged_bad()) exit = Exit::not_within;
    }
    if (recording.json) context.out << list.text() << '\n';
    return exit;
}

Exit tell(Context& context, const site::Site& site, const site::Receipt& receipt, bool json) {
    if (json)
        context.out << receipt_json(receipt, site.zone()).text() << '\n';
    else
        context.out << receipt_text(receipt, site.zone());
    return receipt.judged_bad() ? Exit::not_within : Exit::done;
}

}  // namespace peelbook::cli
