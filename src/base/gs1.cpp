#include "base/gs1.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <initializer_list>

namespace peelbook {
namespace {

bool only_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

Check check_number(std::string_view what, std::string_view number, std::initializer_list<std::size_t> lengths,
                   std::string_view lengths_text) {
    const std::string given = fmt::format("{} '{}'", what, number);
    if (number.empty() || !only_digits(number))
        return Refusal{given, fmt::format("{} digits and nothing else", lengths_text), "type it again without spaces or dashes", {}};
    if (std::find(lengths.begin(), lengths.end(), number.size()) == lengths.end())
        return Refusal{
            given, fmt::format("{} digits; this has {}", lengths_text, number.size()), "compare it with the label or the document", {}};
    const int right = gs1_check_digit(number.substr(0, number.size() - 1));
    const int found = number.back() - '0';
    if (right != found)
        return Refusal{given,
                       fmt::format("check digit {}; this ends in {}", right, found),
                       "compare each digit with the label: one is wrong or two are swapped",
                       {}};
    return {};
}

}  // namespace

int gs1_check_digit(std::string_view digits) {
    assert(only_digits(digits));
    int sum = 0;
    int weight = 3;
    for (auto digit = digits.rbegin(); digit != digits.rend(); ++digit) {
        sum += weight * (*digit - '0');
        weight = 4 - weight;
    }
    return (10 - sum % 10) % 10;
}

Check check_gtin(std::string_view gtin) { return check_number("GTIN", gtin, {8, 12, 13, 14}, "8, 12, 13 or 14"); }

Check check_gln(std::string_view gln) { return check_number("GLN", gln, {13}, "13"); }

Check check_sscc(std::string_view sscc) { return check_number("SSCC", sscc, {18}, "18"); }

Check check_company_prefix(std::string_view prefix) {
    if (prefix.size() >= 4 && prefix.size() <= 12 && only_digits(prefix)) return {};
    return Refusal{fmt::format("company prefix '{}'", prefix),
                   "4 to 12 digits",
                   "copy it from the licence of your GS1 organisation; it is how your own numbers begin",
                   {}};
}

std::string gtin14(std::string_view gtin) { return std::string(gtin.size() < 14 ? 14 - gtin.size() : 0, '0') + std::string(gtin); }

std::string make_sscc(std::string_view prefix, std::int64_t serial) {
    assert(check_company_prefix(prefix).ok() && serial >= 0);
    const std::size_t room = 17 - prefix.size();  // extension digit and serial reference
    std::string digits = fmt::format("{:0{}}", serial, room);
    digits = digits.substr(digits.size() - room);
    const std::string number = digits.substr(0, 1) + std::string(prefix) + digits.substr(1);
    return number + static_cast<char>('0' + gs1_check_digit(number));
}

}  // namespace peelbook
