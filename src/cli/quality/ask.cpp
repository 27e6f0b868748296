#include <ostream>

#include "cli/frame/command.h"
#include "output/csv.h"
#include "output/json.h"
#include "output/text_table.h"
#include "site/site.h"

namespace peelbook::cli {
namespace {

struct AskGiven {
    std::string sql;
    bool csv = false;
    Asking asking;
};

void set_up(Options& options, AskGiven& given) {
    options.word(given.sql, "SQL", "a question over the derived tables; it can only read")
        .flag(given.csv, "--csv", "answer in comma-separated values");
    add_asking(options, given.asking);
}

Result<Exit> act(Context& context, const AskGiven& given) {
    const auto site = context.site(given.asking.site, Context::Mode::read);
    if (!site) return site.refusal();
    const auto table = (*site)->ask(given.sql);
    if (!table) return table.refusal();
    if (given.asking.json)
        context.out << output::to_json(*table).text() << '\n';
    else if (given.csv)
        output::write_csv(context.out, *table);
    else
        context.out << output::text_table(*table);
    return Exit::done;
}

}  // namespace

extern const Command ask_command;
const Command ask_command{.name = "ask",
                          .group = Group::quality,
                          .about = "Ask the derived tables a question in SQL.",
                          .more = {},
                          .examples = "peelbook ask 'SELECT code, item FROM lot ORDER BY happened DESC LIMIT 10'",
                          .takes_at = false,
                          .body = body<AskGiven, set_up, act>()};

}  // namespace peelbook::cli
