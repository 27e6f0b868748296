#include "cli/frame/registry.h"

#include "base/text.h"

// One line a command, in the order of `help`. NAME stands for `extern const Command NAME_command`.
#define PEELBOOK_COMMANDS(COMMAND) \
    COMMAND(start)                 \
    COMMAND(use)                   \
    COMMAND(step)                  \
    COMMAND(reading)               \
    COMMAND(series)                \
    COMMAND(inspect)               \
    COMMAND(finish)                \
    COMMAND(split)                 \
    COMMAND(pack)                  \
    COMMAND(line_on)               \
    COMMAND(line_off)              \
    COMMAND(labels_read)           \
    COMMAND(labels_count)          \
    COMMAND(outage)                \
    COMMAND(due)                   \
    COMMAND(status)                \
    COMMAND(receive)               \
    COMMAND(fill)                  \
    COMMAND(empty)                 \
    COMMAND(clean)                 \
    COMMAND(opened)                \
    COMMAND(thawed)                \
    COMMAND(move)                  \
    COMMAND(ship)                  \
    COMMAND(round)                 \
    COMMAND(return_goods)          \
    COMMAND(copacked)              \
    COMMAND(discard)               \
    COMMAND(sample)                \
    COMMAND(count)                 \
    COMMAND(lot)                   \
    COMMAND(label)                 \
    COMMAND(allergens)             \
    COMMAND(matrix)                \
    COMMAND(sequence)              \
    COMMAND(hold)                  \
    COMMAND(release)               \
    COMMAND(act)                   \
    COMMAND(review)                \
    COMMAND(calibrate)             \
    COMMAND(service)               \
    COMMAND(chart)                 \
    COMMAND(report)                \
    COMMAND(ask)                   \
    COMMAND(trace_forward)         \
    COMMAND(trace_back)            \
    COMMAND(renew)                 \
    COMMAND(trace_onestep)         \
    COMMAND(recall_open)           \
    COMMAND(recall_status)         \
    COMMAND(recall_contact)        \
    COMMAND(recall_tell)           \
    COMMAND(recall_count)          \
    COMMAND(recall_decide)         \
    COMMAND(recall_narrow)         \
    COMMAND(recall_widen)          \
    COMMAND(recall_close)          \
    COMMAND(recall_list)           \
    COMMAND(recall_calls)          \
    COMMAND(recall_try)            \
    COMMAND(drill_open)            \
    COMMAND(drill_status)          \
    COMMAND(drill_contact)         \
    COMMAND(drill_tell)            \
    COMMAND(drill_count)           \
    COMMAND(drill_decide)          \
    COMMAND(drill_narrow)          \
    COMMAND(drill_widen)           \
    COMMAND(drill_close)           \
    COMMAND(drill_list)            \
    COMMAND(plan_check)            \
    COMMAND(plan_changes)          \
    COMMAND(plan_adopt)            \
    COMMAND(plan_show)             \
    COMMAND(new_site)              \
    COMMAND(person)                \
    COMMAND(partner)               \
    COMMAND(entry)                 \
    COMMAND(amend)                 \
    COMMAND(void_entry)            \
    COMMAND(undo)                  \
    COMMAND(countersign)           \
    COMMAND(replay)                \
    COMMAND(export_csv)            \
    COMMAND(export_epcis)          \
    COMMAND(verify)                \
    COMMAND(seal)                  \
    COMMAND(backup)                \
    COMMAND(rebuild)               \
    COMMAND(calc_lethality)        \
    COMMAND(calc_dz)               \
    COMMAND(calc_cooling)          \
    COMMAND(calc_cooldown)         \
    COMMAND(calc_boiling)          \
    COMMAND(calc_water)            \
    COMMAND(calc_ice)              \
    COMMAND(calc_scale)            \
    COMMAND(calc_loss)             \
    COMMAND(calc_chart)            \
    COMMAND(calc_capability)       \
    COMMAND(calc_class)            \
    COMMAND(help)                  \
    COMMAND(version)

namespace peelbook::cli {

#define DECLARED(name) extern const Command name##_command;
PEELBOOK_COMMANDS(DECLARED)
#undef DECLARED

const std::vector<const Command*>& commands() {
#define LISTED(name) &name##_command,
    static const std::vector<const Command*> all{PEELBOOK_COMMANDS(LISTED)};
#undef LISTED
    return all;
}

Named find_command(const std::vector<std::string>& words) {
    for (std::size_t count = std::min<std::size_t>(words.size(), 2); count > 0; --count) {
        const std::string name = count == 2 ? words[0] + " " + words[1] : words[0];
        for (const Command* command : commands())
            if (command->name == name) return {command, count};
    }
    return {};
}

Refusal unknown_command(const std::vector<std::string>& words) {
    std::vector<std::string> names;
    bool family = false;
    for (const Command* command : commands()) {
        names.emplace_back(command->name);
        family = family || command->name.starts_with(words.front() + " ");
    }
    const std::string typed = family && words.size() > 1 ? words[0] + " " + words[1] : words.front();
    return {"command '" + shown(typed) + "'", "one of the commands that `peelbook help` lists",
            family ? "`peelbook " + words.front() + "` lists its commands" : "check the spelling, or see `peelbook help`",
            nearest(typed, names)};
}

}  // namespace peelbook::cli
