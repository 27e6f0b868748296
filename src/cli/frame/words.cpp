#include "cli/frame/words.h"

#include "base/text.h"

namespace peelbook::cli {
namespace {

struct Splitter {
    std::string_view line;
    std::size_t at = 0;
    std::vector<std::string> words;
    std::string word;
    bool in_word = false;

    bool blank() const { return line[at] == ' ' || line[at] == '\t' || line[at] == '\r'; }

    void end_word() {
        if (in_word) words.push_back(word);
        word.clear();
        in_word = false;
    }

    // From the opening quote to after the closing one; false when there is none.
    bool quoted() {
        const char quote = line[at++];
        for (; at < line.size(); ++at) {
            const char c = line[at];
            if (c == quote) {
                ++at;
                return true;
            }
            const bool escape = quote == '"' && c == '\\' && at + 1 < line.size();
            if (escape && (line[at + 1] == '"' || line[at + 1] == '\\')) ++at;
            word += line[at];
        }
        return false;
    }
};

}  // namespace

Result<std::vector<std::string>> split_words(std::string_view line) {
    Splitter s{.line = line, .at = 0, .words = {}, .word = {}, .in_word = false};
    while (s.at < line.size()) {
        const char c = line[s.at];
        if (s.blank()) {
            s.end_word();
            ++s.at;
        } else if (c == '#' && !s.in_word) {
            break;
        } else if (c == '\'' || c == '"') {
            s.in_word = true;
            if (!s.quoted()) return Refusal{"'" + shown(trimmed(line)) + "'", std::string("a closing ") + c, "close the quote", {}};
        } else {
            if (c == '\\' && ++s.at == line.size())
                return Refusal{"'" + shown(trimmed(line)) + "'",
                               "a character after the last backslash",
                               "leave the backslash out: a command stands on one line",
                               {}};
            s.in_word = true;
            s.word += line[s.at++];
        }
    }
    s.end_word();
    return s.words;
}

}  // namespace peelbook::cli
