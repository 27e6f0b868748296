#pragma once
// What happened to goods, as events for other companies: the values behind an EPCIS document
// (output/epcis.h). Times are Unix ms, masses mg; absent = not known.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace peelbook::trace {

struct Goods {
    std::string gtin;  // 14 digits; empty: none, then `lot` is our own code
    std::string lot;
    std::optional<std::int64_t> pieces, mass_mg;  // pieces are told when both are known
};

struct Party {
    std::string code, gln;  // of the partner; empty code: nobody
};

struct CustodyEvent {
    enum class Kind { object, transformation, aggregation };
    Kind kind = Kind::object;
    std::int64_t seq = 0;  // the entry behind it
    int part = 0;          // several events of one entry: 0, 1, ...
    std::int64_t happened = 0, written = 0;
    int offset_minutes = 0;         // of local time from UTC, then
    std::string step, disposition;  // words of the Core Business Vocabulary
    std::string action;             // "OBSERVE" "ADD" "DELETE"; of no transformation
    std::vector<Goods> inputs;      // of a transformation
    std::vector<Goods> goods;       // outputs of a transformation, contents of an aggregation, else what it is about
    std::string sscc;               // of the pallet
    bool stays = true;              // it is at the site afterwards
    Party from, to;
    std::string document;
    Party issuer;  // of the document; empty code: the site
};

struct Custody {
    std::string site_name, gln, web;  // web ends in "/"
    std::int64_t created = 0;
    std::vector<CustodyEvent> events;  // by time
    std::size_t left_out = 0;          // shipments of "any lot on hand": which lot is not known
};

}  // namespace peelbook::trace
