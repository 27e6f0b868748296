#pragma once
// The one reader of separated text: what a logger, a balance or a spreadsheet exports. Quotes as in RFC 4180,
// the separator is the caller's. One thing is left out: a line break within quotes ends the line all the
// same, or one forgotten quote would swallow the rest of a file.
//
//   LineReader lines(bytes);
//   Fields fields;
//   while (const auto line = lines.next())
//       for (const std::string_view field : fields.of(*line, ';')) ...
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/bytes.h"

namespace peelbook {

// Line by line through one buffer, so that a file of any length takes the same memory. Left out: a byte order
// mark, and the LF or CR LF at the end. A line that goes on beyond `longest` bytes is handed over as far as
// it was read; the caller tells it by its size.
class LineReader {
  public:
    explicit LineReader(Bytes& bytes, std::size_t longest = std::string::npos);
    std::optional<std::string_view> next();          // good until the next call; absent: no line is left
    std::int64_t number() const { return number_; }  // of the line handed over last, from 1
    std::int64_t bytes_read() const { return read_; }

  private:
    bool read_part();

    Bytes& bytes_;
    std::size_t longest_;
    std::int64_t number_ = 0, read_ = 0;
    std::string buffer_, begun_;  // begun_: of a line whose end stands in a later part
    std::string_view left_;       // of buffer_
};

// The fields of a line, good until the next call and as long as the line. Blanks around a field and just
// inside its quotes count for nothing; "" in quotes is a quote; what stands behind the closing one belongs to
// the field; a quote that is not closed reaches to the end of the line. Where blanks are the separator,
// several are one.
class Fields {
  public:
    const std::vector<std::string_view>& of(std::string_view line, char separator);

  private:
    std::string_view quoted(std::string_view line, char separator, std::size_t& at);

    std::vector<std::string_view> fields_;
    std::string unquoted_;
};

}  // namespace peelbook
