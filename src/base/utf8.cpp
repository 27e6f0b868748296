#include "base/utf8.h"

#include <algorithm>
#include <array>

namespace peelbook {
namespace {

struct Block {
    char32_t first, last;
};

// Unicode 15.0, general categories Mn, Me and Cf that a terminal draws over the character before: the blocks that hold
// nothing else, and the zero-width format characters.
constexpr std::array zero_width{
    Block{0x0300, 0x036f}, Block{0x0483, 0x0489}, Block{0x0591, 0x05bd}, Block{0x0610, 0x061a},   Block{0x064b, 0x065f},
    Block{0x06d6, 0x06dc}, Block{0x093c, 0x093c}, Block{0x0941, 0x0948}, Block{0x0e34, 0x0e3a},   Block{0x0e47, 0x0e4e},
    Block{0x1ab0, 0x1aff}, Block{0x1dc0, 0x1dff}, Block{0x200b, 0x200f}, Block{0x2060, 0x2064},   Block{0x20d0, 0x20ff},
    Block{0xfe00, 0xfe0f}, Block{0xfe20, 0xfe2f}, Block{0xfeff, 0xfeff}, Block{0xe0100, 0xe01ef},
};

// Unicode 15.0 EastAsianWidth.txt, W and F, joined where only unassigned code points lie between.
constexpr std::array double_width{
    Block{0x1100, 0x115f},   Block{0x231a, 0x231b},   Block{0x2e80, 0x303e}, Block{0x3041, 0x33ff},   Block{0x3400, 0x4dbf},
    Block{0x4e00, 0x9fff},   Block{0xa000, 0xa4cf},   Block{0xa960, 0xa97f}, Block{0xac00, 0xd7a3},   Block{0xf900, 0xfaff},
    Block{0xfe30, 0xfe6f},   Block{0xff01, 0xff60},   Block{0xffe0, 0xffe6}, Block{0x1f300, 0x1f64f}, Block{0x1f680, 0x1f6ff},
    Block{0x1f900, 0x1f9ff}, Block{0x20000, 0x3fffd},
};

template <std::size_t N> bool inside(const std::array<Block, N>& blocks, char32_t c) {
    const auto after =
        std::upper_bound(blocks.begin(), blocks.end(), c, [](char32_t value, const Block& block) { return value < block.first; });
    return after != blocks.begin() && c <= std::prev(after)->last;
}

}  // namespace

CodePoint code_point(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) -> char32_t { return static_cast<unsigned char>(text[at + i]); };
    const char32_t first = byte(0);
    if (first < 0x80) return {first, 1};
    const std::size_t length = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
    if (first < 0xc2 || first > 0xf4 || at + length > text.size()) return {};
    char32_t c = first & (0x7fu >> length);
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte(i) & 0xc0) != 0x80) return {};
        c = (c << 6) | (byte(i) & 0x3f);
    }
    const bool overlong = (length == 3 && c < 0x800) || (length == 4 && c < 0x10000);
    const bool surrogate = c >= 0xd800 && c <= 0xdfff;
    if (overlong || surrogate || c > 0x10ffff) return {};
    return {c, length};
}

std::size_t cells_of(char32_t c) {
    if (c < zero_width.front().first) return 1;
    if (inside(zero_width, c)) return 0;
    return inside(double_width, c) ? 2 : 1;
}

}  // namespace peelbook
