#include "base/tz_rules.h"

#include <algorithm>

namespace peelbook {
namespace {

constexpr std::size_t header_size = 44;

// The six counts of a TZif header, in the file's order (RFC 8536 3.1).
struct Counts {
    std::size_t is_ut, is_standard, leap, time, type, character;

    // Size of the data block whose times take `width` bytes.
    std::size_t block(std::size_t width) const {
        return time * width + time + type * 6 + character + leap * (width + 4) + is_standard + is_ut;
    }
};

std::int64_t big_endian(std::string_view bytes, std::size_t at, std::size_t width) {
    std::uint64_t n = (static_cast<unsigned char>(bytes[at]) & 0x80) != 0 ? ~std::uint64_t{0} : 0;
    for (std::size_t i = 0; i < width; ++i) n = (n << 8) | static_cast<unsigned char>(bytes[at + i]);
    return static_cast<std::int64_t>(n);
}

std::optional<Counts> parse_header(std::string_view bytes) {
    if (bytes.size() < header_size || !bytes.starts_with("TZif") || bytes[4] < '2') return std::nullopt;
    std::size_t counts[6];
    for (std::size_t i = 0; i < 6; ++i) {
        const std::int64_t count = big_endian(bytes, 20 + 4 * i, 4);
        if (count < 0 || count > 1'000'000) return std::nullopt;
        counts[i] = static_cast<std::size_t>(count);
    }
    return Counts{counts[0], counts[1], counts[2], counts[3], counts[4], counts[5]};
}

}  // namespace

std::int64_t TzRules::offset_at(std::int64_t utc) const {
    const auto next =
        std::upper_bound(changes.begin(), changes.end(), utc, [](std::int64_t t, const TzChange& change) { return t < change.at; });
    return next == changes.begin() ? first_offset : std::prev(next)->offset;
}

// No offset is beyond a day, so only changes within a day of the reading can matter.
LocalMeaning TzRules::meaning_of(std::int64_t local) const {
    auto change =
        std::upper_bound(changes.begin(), changes.end(), local - seconds_a_day, [](std::int64_t t, const TzChange& c) { return t < c.at; });
    std::int64_t before = change == changes.begin() ? first_offset : std::prev(change)->offset;
    for (; change != changes.end(); ++change) {
        const std::int64_t after = change->offset;
        if (local < change->at + std::min(before, after)) break;
        if (local < change->at + std::max(before, after))
            return {before < after ? LocalMeaning::skipped : LocalMeaning::twice, before, after, change->at};
        before = after;
    }
    return {LocalMeaning::once, before, before, 0};
}

std::optional<TzRules> parse_tzif(std::string_view bytes) {
    const auto old_header = parse_header(bytes);
    if (!old_header || bytes.size() < header_size + old_header->block(4)) return std::nullopt;
    bytes.remove_prefix(header_size + old_header->block(4));  // the 32-bit block, kept for old readers
    const auto counts = parse_header(bytes);
    if (!counts || counts->type == 0 || bytes.size() < header_size + counts->block(8)) return std::nullopt;
    const std::string_view block = bytes.substr(header_size, counts->block(8));
    const std::size_t kinds = counts->time * 8;
    const std::size_t types = kinds + counts->time;
    TzRules rules;
    rules.first_offset = big_endian(block, types, 4);  // type 0 holds before the first change (RFC 8536 3.2)
    for (std::size_t i = 0; i < counts->time; ++i) {
        const auto type = static_cast<unsigned char>(block[kinds + i]);
        if (type >= counts->type) return std::nullopt;
        rules.changes.push_back({big_endian(block, i * 8, 8), big_endian(block, types + 6 * std::size_t{type}, 4)});
    }
    const std::string_view footer = bytes.substr(header_size + counts->block(8));
    if (footer.size() < 2 || footer.front() != '\n' || footer.back() != '\n') return std::nullopt;
    if (!extend_by_rule(footer.substr(1, footer.size() - 2), rules)) return std::nullopt;
    return rules;
}

}  // namespace peelbook
