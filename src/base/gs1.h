#pragma once
// GS1 check digits (GS1 General Specifications 7.9): modulo 10, weights 3,1,3,1... from the right.
#include <cstdint>
#include <string>
#include <string_view>

#include "base/result.h"

namespace peelbook {

// The check digit for the digits before it: gs1_check_digit("629104150021") == 3. Digits only.
int gs1_check_digit(std::string_view digits);

// A GTIN of 8, 12, 13 or 14 digits with a right check digit. The refusal names the digit that would be right.
Check check_gtin(std::string_view gtin);
Check check_gln(std::string_view gln);                // 13 digits
Check check_sscc(std::string_view sscc);              // 18 digits
Check check_company_prefix(std::string_view prefix);  // 4 to 12 digits (GS1 General Specifications 1.4.4)

// The 14 digits by which articles are compared: a shorter GTIN with zeros before it.
std::string gtin14(std::string_view gtin);

// An SSCC of our own: extension digit and serial reference together are `serial`, cut to the digits that the prefix leaves.
// make_sscc("0614141", 1234567890) == "106141412345678908". Prefix as check_company_prefix wants it.
std::string make_sscc(std::string_view prefix, std::int64_t serial);

}  // namespace peelbook
