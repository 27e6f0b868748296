#pragma once
// The words and options of one command: what its help shows and what its command line fills in. A vendor's
// parser stands behind it in options.cpp alone (it costs 11 s a file to compile), and only for the command
// that was named: fifty of them would cost 1.2 ms at every start, one costs 0.03.
//
//   Options options;
//   options.word(lot, "LOT", "the lot that goes in").mass(mass, "--mass", "how much");
//   if (auto checked = options.parse(words); !checked) return checked.refusal();
//
// What is not given leaves its variable as it was. Every value is checked while it is taken in, so that a
// command only sees what makes sense by itself. A value may begin with '-' ("-18C"); the name of an option in
// the place of a value means that the value was forgotten.
#include <functional>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/calendar.h"
#include "base/measure.h"
#include "base/result.h"

namespace peelbook::cli {

// A quantity as it stands on a command line: a mass, a number of pieces, or "rest" for all that is left.
struct Amount {
    std::optional<Measure> mass;
    std::int64_t pieces = 0;
    bool rest = false;
};
// "90kg" "240pcs" "rest"
Result<Amount> parse_amount(std::string_view text);
// "12" is pieces too: where a bare number can mean nothing else ("rack-A=40").
Result<Amount> parse_part_amount(std::string_view text);
// A whole number from 1.
Result<std::int64_t> parse_count(std::string_view text);

enum class Need { wanted, optional };

class Options {
  public:
    using Take = std::function<Check(const std::vector<std::string>& typed)>;
    struct Row {
        std::string name;   // "LOT", or "--why" for what is named on the command line
        std::string value;  // what stands for its value in help: "TEXT"; empty: a flag, or a word
        std::string about;
        bool needed = false;
        bool many = false;    // may be given more than once
        Take take;            // called with everything typed for it, once, when there is anything
        bool common = false;  // one that many commands share: help lists those last
        bool named() const { return name.starts_with("--"); }
        bool flag() const { return named() && value.empty(); }
    };

    // Words, in the order in which they are typed. Only the last may be `words`.
    Options& word(std::string& to, std::string name, std::string about, Need need = Need::wanted);
    Options& words(std::vector<std::string>& to, std::string name, std::string about, Need need = Need::wanted);
    Options& amount(Amount& to, std::string name, std::string about, Need need = Need::wanted);
    Options& seq_word(std::int64_t& to, std::string name, std::string about);

    // Named, from "--".
    Options& text(std::string& to, std::string name, std::string value, std::string about, Need need = Need::optional);
    Options& each(std::vector<std::string>& to, std::string name, std::string value, std::string about,
                  Need need = Need::optional);                                         // given again for each
    Options& list(std::vector<std::string>& to, std::string name, std::string about);  // "wheat,milk"
    Options& flag(bool& to, std::string name, std::string about);
    Options& pieces(std::int64_t& to, std::string name, std::string about);  // a whole number from 1
    Options& mass(std::optional<Measure>& to, std::string name, std::string about);
    Options& temperature(std::optional<Measure>& to, std::string name, std::string about);
    Options& measure(std::optional<Measure>& to, std::string name, std::string about);  // of any dimension
    Options& duration(std::optional<Duration>& to, std::string name, std::string about);
    Options& date(std::optional<Date>& to, std::string name, std::string about);
    Options& one_of(std::string& to, std::string name, std::vector<std::string> allowed, std::string about, Need need = Need::optional);

    // A row of one's own making. Rows added after `common_from_here` are listed last.
    Options& row(Row row);
    Options& common_from_here();

    Check parse(const std::vector<std::string>& words) const;
    const std::vector<Row>& rows() const { return rows_; }

  private:
    std::vector<Row> rows_;
    bool common_ = false;
};

}  // namespace peelbook::cli
