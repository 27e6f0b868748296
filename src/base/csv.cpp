#include "base/csv.h"

#include <algorithm>

#include "base/text.h"

namespace peelbook {

LineReader::LineReader(Bytes& bytes, std::size_t longest) : bytes_(bytes), longest_(longest) {}

bool LineReader::read_part() {
    constexpr std::int64_t part = 65'536;
    const std::int64_t many = std::min(part, bytes_.size() - read_);
    if (many == 0) return false;
    buffer_.resize(static_cast<std::size_t>(many));
    bytes_.read(read_, buffer_.data(), buffer_.size());
    left_ = buffer_;
    read_ += many;
    return true;
}

std::optional<std::string_view> LineReader::next() {
    begun_.clear();
    std::string_view line;
    while (true) {
        const std::size_t end = left_.find('\n');
        const bool ends = end != std::string_view::npos;
        line = left_.substr(0, end);
        left_.remove_prefix(ends ? end + 1 : left_.size());
        if (ends && begun_.empty()) break;
        line = begun_.append(line);
        if (ends || begun_.size() > longest_) break;
        if (read_part()) continue;
        if (begun_.empty()) return std::nullopt;
        break;
    }
    ++number_;
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (number_ == 1 && line.starts_with(byte_order_mark)) line.remove_prefix(byte_order_mark.size());
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    return line;
}

const std::vector<std::string_view>& Fields::of(std::string_view line, char separator) {
    fields_.clear();
    unquoted_.clear();
    for (std::size_t at = 0;; ++at) {
        while (separator == ' ' && !fields_.empty() && at < line.size() && line[at] == ' ') ++at;
        std::size_t first = at;
        while (separator != ' ' && first < line.size() && line[first] == ' ') ++first;
        if (first < line.size() && line[first] == '"') {
            at = first + 1;
            fields_.push_back(quoted(line, separator, at));
        } else {
            const std::size_t end = std::min(line.find(separator, at), line.size());
            fields_.push_back(trimmed(line.substr(at, end - at)));
            at = end;
        }
        if (at == line.size()) return fields_;
    }
}

// `at`: behind the opening quote; afterwards the separator, or the end of the line.
std::string_view Fields::quoted(std::string_view line, char separator, std::size_t& at) {
    unquoted_.reserve(line.size());  // of all fields together: the views into it stay good
    const std::size_t from = unquoted_.size();
    bool open = true;
    for (; at < line.size() && (open || line[at] != separator); ++at) {
        const bool quote = line[at] == '"';
        const bool doubled = open && quote && line.substr(at + 1).starts_with('"');
        if (doubled) ++at;
        if (open && quote && !doubled)
            open = false;
        else
            unquoted_ += line[at];
    }
    return trimmed(std::string_view(unquoted_).substr(from));
}

}  // namespace peelbook
