// Separated text against RFC 4180, section 2 (the numbers are of its rules), and what loggers make of it.
#include "base/csv.h"

#include <catch2/catch.hpp>

using namespace peelbook;

namespace {

using Names = std::vector<std::string>;

Names fields(std::string_view line, char separator = ',') {
    Fields reader;
    const auto& found = reader.of(line, separator);
    return {found.begin(), found.end()};
}

Names lines(const std::string& text, std::size_t longest = std::string::npos) {
    BytesInMemory bytes(text);
    LineReader reader(bytes, longest);
    Names out;
    while (const auto line = reader.next()) out.push_back(std::to_string(reader.number()) + ":" + std::string(*line));
    CHECK(reader.bytes_read() == bytes.size());
    return out;
}

}  // namespace

TEST_CASE("fields of a line, in quotes and without") {
    CHECK(fields("aaa,bbb,ccc") == Names{"aaa", "bbb", "ccc"});              // 4
    CHECK(fields("\"aaa\",\"bbb\",ccc") == Names{"aaa", "bbb", "ccc"});      // 5
    CHECK(fields("\"b,bb\",\"c;c\"") == Names{"b,bb", "c;c"});               // 6
    CHECK(fields("\"b\"\"bb\",\"\"\"\",\"\"") == Names{"b\"bb", "\"", ""});  // 7
    CHECK(fields("rye, 5\" pan") == Names{"rye", "5\" pan"});                // a quote within a bare field stands for itself
    CHECK(fields(" a ; \" b;c \" ;", ';') == Names{"a", "b;c", ""});
    CHECK(fields("\"4.2\" C;\"x", ';') == Names{"4.2 C", "x"});
    CHECK(fields("\"a;b", ';') == Names{"a;b"});
    CHECK(fields("") == Names{""});
    CHECK(fields("a\t\tb", '\t') == Names{"a", "", "b"});
    CHECK(fields("05:40   \"93 4\" x", ' ') == Names{"05:40", "93 4", "x"});
}

TEST_CASE("lines end in LF or CR LF, the last one perhaps not at all") {
    CHECK(lines("\xEF\xBB\xBF"
                "a;b\r\n\nc") == Names{"1:a;b", "2:", "3:c"});
    CHECK(lines("a\n") == Names{"1:a"});
    CHECK(lines("") == Names{});
    CHECK(lines("\"a\nb\"") == Names{"1:\"a", "2:b\""});  // not as rule 6: a line break within quotes ends the line
}

TEST_CASE("a line that lies across parts is whole, and one beyond the longest is handed over as far as it goes") {
    const std::string most(65'530, 'x');
    CHECK(lines(most + "\nabcdefgh\nlast") == Names{"1:" + most, "2:abcdefgh", "3:last"});
    const Names cut = lines(most + "\n" + std::string(100'000, 'y') + "\n", 1'000);
    REQUIRE(cut.size() == 3);
    CHECK(cut[1].size() > 1'000);
    CHECK(cut[1].size() + cut[2].size() == 100'000 + 4);
}
