#pragma once
// What a scanner reads from GS1 symbols on one item: element strings, each an application identifier (AI) and
// its value. Sources: GS1 General Specifications 3 (the AIs), 5 and 7.8 (FNC1), 7.12 (two-digit years);
// formats, pre-defined lengths and which AIs want one another as in the GS1 Barcode Syntax Dictionary.
//
// A symbol is taken in any of these forms:
//   "]C10112345678901231"   as the scanner sends it: symbology identifier ]C1 (GS1-128), ]e0 (DataBar), ]d2
//   (DataMatrix),
//                           ]Q3 (QR) or ]J1 (DotCode); FNC1 after a value of variable length is ASCII 29
//   "0112345678901231..."   the same without the identifier
//   "(01)12345678901231(10)A-7"   as printed below the bars; square brackets do as well
//   "]E04012345678901", "4012345678901"   a bare article number of 8, 12, 13 or 14 digits
//
// Day 00 of a date is the last day of its month. Of a year the century is the one that puts it nearest today:
// 51 and more above today's two digits is the century before, 50 and more below them the next.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/calendar.h"
#include "base/measure.h"
#include "base/result.h"

namespace peelbook {

struct Gs1Element {
    std::string ai, value;
};

struct Gs1Scan {
    std::vector<Gs1Element> elements;       // as read, also those that no field below is for
    std::string sscc;                       // (00)
    std::string gtin;                       // (01) 14 digits
    std::string content_gtin;               // (02) what the pallet holds, 14 digits
    std::string lot;                        // (10)
    std::string serial;                     // (21)
    std::optional<Date> produced;           // (11)
    std::optional<Date> packed;             // (13)
    std::optional<Date> best_before;        // (15)
    std::optional<Date> use_by;             // (17)
    std::optional<std::int64_t> count;      // (30) pieces in an item of variable count
    std::optional<std::int64_t> contained;  // (37) articles (02) on the pallet
    std::optional<Measure> net_mass;        // (310n) kg, (320n) lb
    std::map<int, std::string> places;      // (410) to (417): GLN
};

// All symbols on one item together. Refused with the fault explained: not a GS1 symbol, an AI that is not
// known, a value too short or long or of wrong characters, a wrong check digit (the right one is named), a
// date that does not exist, an AI twice with two values, AIs that exclude or want one another: (02) and (37)
// go together and not with (01); lot, dates and count want (01) or (02).
Result<Gs1Scan> read_gs1_scan(const std::vector<std::string>& symbols, Date today);

// "261200" -> 2026-12-31, as (11) to (17) write it.
Result<Date> parse_gs1_date(std::string_view yymmdd, Date today);

}  // namespace peelbook
