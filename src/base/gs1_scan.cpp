#include "base/gs1_scan.h"

#include <algorithm>
#include <charconv>

#include "base/gs1.h"
#include "base/text.h"

namespace peelbook {
namespace {

constexpr char fnc1 = '\x1D';  // how a scanner sends FNC1 inside a symbol (GenSpecs 7.8.3)

enum class Holds { digits, text, sscc, gtin, gln, date };

// One line an identifier. `n` is a last digit 0 to 5 that says where the decimal point stands. Length
// pre-defined: no FNC1 wanted after it. Formats and flags of the GS1 Barcode Syntax Dictionary.
struct Identifier {
    std::string_view ai, title;
    Holds holds;
    std::size_t least, most;
    bool predefined;
    bool of_article = false;  // wants (01) or (02)
};

constexpr Identifier identifiers[] = {
    {"00", "number of a logistic unit (SSCC)", Holds::sscc, 18, 18, true},
    {"01", "article number (GTIN)", Holds::gtin, 14, 14, true},
    {"02", "article number of the content", Holds::gtin, 14, 14, true},
    {"10", "lot", Holds::text, 1, 20, false, true},
    {"11", "production date", Holds::date, 6, 6, true, true},
    {"12", "due date", Holds::date, 6, 6, true},
    {"13", "packing date", Holds::date, 6, 6, true, true},
    {"15", "best-before date", Holds::date, 6, 6, true, true},
    {"16", "sell-by date", Holds::date, 6, 6, true, true},
    {"17", "use-by date", Holds::date, 6, 6, true, true},
    {"20", "variant", Holds::digits, 2, 2, true, true},
    {"21", "serial number", Holds::text, 1, 20, false, true},
    {"240", "additional article number", Holds::text, 1, 30, false},
    {"241", "customer's article number", Holds::text, 1, 30, false},
    {"250", "secondary serial number", Holds::text, 1, 30, false},
    {"251", "reference to source", Holds::text, 1, 30, false},
    {"254", "part of a location", Holds::text, 1, 20, false},
    {"30", "count of pieces", Holds::digits, 1, 8, false, true},
    {"310n", "net mass in kg", Holds::digits, 6, 6, true, true},
    {"320n", "net mass in lb", Holds::digits, 6, 6, true, true},
    {"330n", "gross mass in kg", Holds::digits, 6, 6, true},
    {"340n", "gross mass in lb", Holds::digits, 6, 6, true},
    {"37", "number of articles contained", Holds::digits, 1, 8, false},
    {"400", "order number", Holds::text, 1, 30, false},
    {"401", "consignment number", Holds::text, 1, 30, false},
    {"402", "shipment number", Holds::digits, 17, 17, false},
    {"403", "route", Holds::text, 1, 30, false},
    {"410", "ship to (GLN)", Holds::gln, 13, 13, true},
    {"411", "bill to (GLN)", Holds::gln, 13, 13, true},
    {"412", "purchased from (GLN)", Holds::gln, 13, 13, true},
    {"413", "ship for (GLN)", Holds::gln, 13, 13, true},
    {"414", "location (GLN)", Holds::gln, 13, 13, true},
    {"415", "invoicing party (GLN)", Holds::gln, 13, 13, true},
    {"416", "place of production (GLN)", Holds::gln, 13, 13, true},
    {"417", "party (GLN)", Holds::gln, 13, 13, true},
    {"420", "postal code of the receiver", Holds::text, 1, 20, false},
    {"422", "country of origin", Holds::digits, 3, 3, false},
    {"7003", "expiry date and time", Holds::digits, 10, 10, false},
    {"90", "as agreed between partners", Holds::text, 1, 30, false},
    {"91", "for use inside a company", Holds::text, 1, 90, false},
    {"92", "for use inside a company", Holds::text, 1, 90, false},
    {"93", "for use inside a company", Holds::text, 1, 90, false},
    {"94", "for use inside a company", Holds::text, 1, 90, false},
    {"95", "for use inside a company", Holds::text, 1, 90, false},
    {"96", "for use inside a company", Holds::text, 1, 90, false},
    {"97", "for use inside a company", Holds::text, 1, 90, false},
    {"98", "for use inside a company", Holds::text, 1, 90, false},
    {"99", "for use inside a company", Holds::text, 1, 90, false},
};

bool all_digits(std::string_view text) { return std::all_of(text.begin(), text.end(), is_digit); }

// The identifier that `text` begins with.
const Identifier* identifier_at(std::string_view text) {
    for (const Identifier& one : identifiers) {
        const bool point = one.ai.back() == 'n';
        const std::string_view stem = one.ai.substr(0, one.ai.size() - (point ? 1 : 0));
        if (!text.starts_with(stem)) continue;
        if (!point) return &one;
        if (text.size() > stem.size() && text[stem.size()] >= '0' && text[stem.size()] <= '5') return &one;
    }
    return nullptr;
}

std::string printable(std::string text) {
    for (std::size_t at = 0; (at = text.find(fnc1, at)) != std::string::npos;) text.replace(at, 1, "<FNC1>");
    return shown(text);
}

// GS1's character set 82 (GenSpecs fig. 7.11-1).
bool in_set_82(std::string_view text) {
    constexpr std::string_view marks = "!\"%&'()*+,-./_:;<=>?";
    return std::all_of(text.begin(), text.end(), [&](char c) {
        return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || marks.find(c) != std::string_view::npos;
    });
}

std::string lengths(const Identifier& one) {
    return one.least == one.most ? std::to_string(one.most) : std::to_string(one.least) + " to " + std::to_string(one.most);
}

Check check_form(const Identifier& one, const Gs1Element& element) {
    const std::string given = "scan: (" + element.ai + ") " + std::string(one.title) + " '" + printable(element.value) + "'";
    const bool text = one.holds == Holds::text;
    const std::string what = text ? " characters" : " digits";
    if (element.value.size() < one.least || element.value.size() > one.most) {
        const bool run_on = element.value.size() > one.most && !one.predefined;
        return Refusal{given,
                       lengths(one) + what + "; this has " + std::to_string(element.value.size()),
                       run_on ? "the separator (FNC1) after it is missing: set the scanner to send it as "
                                "ASCII 29, or type the values"
                              : "scan it again; if it stays so the label is wrong: type the values, and tell "
                                "who printed it",
                       {}};
    }
    if (text ? in_set_82(element.value) : all_digits(element.value)) return {};
    return Refusal{given,
                   text ? "letters A to Z, digits and the marks that GS1 allows" : lengths(one) + " digits and nothing else",
                   "scan it again, or type the values",
                   {}};
}

Check check_value(const Identifier& one, const Gs1Element& element, Date today) {
    if (auto checked = check_form(one, element); !checked) return checked;
    Check checked;
    if (one.holds == Holds::sscc) checked = check_sscc(element.value);
    if (one.holds == Holds::gtin) checked = check_gtin(element.value);
    if (one.holds == Holds::gln) checked = check_gln(element.value);
    if (one.holds == Holds::date) {
        if (const auto date = parse_gs1_date(element.value, today); !date) checked = date.refusal();
    }
    if (checked.ok()) return {};
    Refusal refusal = checked.refusal();
    refusal.given = "scan: (" + element.ai + ") " + refusal.given;
    return refusal;
}

Refusal unknown(std::string_view ai, std::string_view symbol) {
    return {"scan: application identifier '" + shown(ai) + "' in '" + printable(std::string(symbol)) + "'",
            "one that is read here: 00 01 02 10 11 13 15 17 21 30 310n 320n 37 410 to 417, or is passed over",
            "type the values with the options of the command",
            {}};
}

using Elements = std::vector<Gs1Element>;

// "(01)...(10)...": an opening bracket and 2 to 4 digits begin an element.
Result<Elements> bracketed(std::string_view symbol) {
    Elements found;
    const char open = symbol.front(), close = open == '(' ? ')' : ']';
    for (std::size_t at = 0; at < symbol.size();) {
        const std::size_t end = symbol.find(close, at);
        const std::string_view ai = symbol.substr(at + 1, end == std::string_view::npos ? end : end - at - 1);
        if (end == std::string_view::npos || ai.size() < 2 || ai.size() > 4 || !all_digits(ai)) return unknown(ai, symbol);
        const Identifier* one = identifier_at(ai);
        if (!one || one->ai.size() != ai.size()) return unknown(ai, symbol);
        std::size_t next = end + 1;
        for (; next < symbol.size(); ++next) {  // a bracket may stand inside a value too
            const std::size_t shut = symbol.find(close, next);
            const bool begins = symbol[next] == open && shut != std::string_view::npos && shut - next >= 3 && shut - next <= 5 &&
                                all_digits(symbol.substr(next + 1, shut - next - 1));
            if (begins) break;
        }
        found.push_back({std::string(ai), std::string(trimmed(symbol.substr(end + 1, next - end - 1)))});
        at = next;
    }
    return found;
}

Result<Elements> separated(std::string_view symbol) {
    Elements found;
    for (std::size_t at = 0; at < symbol.size();) {
        if (symbol[at] == fnc1) {
            ++at;
            continue;
        }
        const Identifier* one = identifier_at(symbol.substr(at));
        if (!one) return unknown(symbol.substr(at, 4), symbol);
        const std::string ai(symbol.substr(at, one->ai.size()));
        at += ai.size();
        const std::size_t separator = std::min(symbol.find(fnc1, at), symbol.size());
        const std::size_t end = one->predefined ? std::min(at + one->most, separator) : separator;
        found.push_back({ai, std::string(symbol.substr(at, end - at))});
        at = end;
    }
    return found;
}

Result<Elements> elements_of(std::string_view typed) {
    std::string_view symbol = trimmed(typed);
    bool article = false, whole = false;
    if (symbol.starts_with(']') && symbol.size() >= 3) {
        const std::string_view carrier = symbol.substr(0, 3);
        symbol.remove_prefix(3);
        article = carrier == "]E0" || carrier == "]E4" || carrier == "]I0" || carrier == "]I1";
        whole = carrier == "]C1" || carrier == "]e0" || carrier == "]d2" || carrier == "]Q3" || carrier == "]J1";
        if (!article && !whole)
            return Refusal{"scan: symbology '" + shown(carrier) + "'",
                           "a GS1 symbol: ]C1 GS1-128, ]e0 DataBar, ]d2 DataMatrix, ]Q3 QR, ]J1 DotCode, or "
                           "an article number ]E0 ]E4 ]I1",
                           "this symbol follows the printer's own rules: scan another one of the label, or "
                           "type the values",
                           {}};
    }
    if (symbol.empty()) return Refusal{"scan: nothing", "what the scanner reads, or what stands below the bars", "scan again", {}};
    const bool length = symbol.size() == 8 || (symbol.size() >= 12 && symbol.size() <= 14);
    if (article || (!whole && length && all_digits(symbol))) {
        if (auto checked = check_gtin(symbol); !checked) {
            Refusal refusal = checked.refusal();
            refusal.given = "scan: " + refusal.given;
            return refusal;
        }
        return Elements{{"01", gtin14(symbol)}};
    }
    return symbol.front() == '(' || symbol.front() == '[' ? bracketed(symbol) : separated(symbol);
}

std::int64_t whole_number(const std::string& digits) {
    std::int64_t n = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), n);
    return n;
}

// "3103" "001250" -> 1.250kg: the last digit of the identifier counts decimals.
Result<Measure> net_mass(const Gs1Element& element) {
    const auto decimals = static_cast<std::size_t>(element.ai.back() - '0');
    std::string number = element.value;
    if (decimals > 0) number.insert(number.size() - decimals, ".");
    number.erase(0, std::min(number.find_first_not_of('0'), number.size() - 1));
    if (number.front() == '.') number.insert(0, "0");
    return parse_measure(number + (element.ai.starts_with("310") ? "kg" : "lb"), Dimension::mass);
}

Check keep(Gs1Scan& scan, const Gs1Element& element, Date today) {
    const std::string& ai = element.ai;
    const auto date = [&] { return *parse_gs1_date(element.value, today); };
    if (ai == "00") scan.sscc = element.value;
    if (ai == "01") scan.gtin = element.value;
    if (ai == "02") scan.content_gtin = element.value;
    if (ai == "10") scan.lot = element.value;
    if (ai == "21") scan.serial = element.value;
    if (ai == "11") scan.produced = date();
    if (ai == "13") scan.packed = date();
    if (ai == "15") scan.best_before = date();
    if (ai == "17") scan.use_by = date();
    if (ai == "30") scan.count = whole_number(element.value);
    if (ai == "37") scan.contained = whole_number(element.value);
    if (ai.size() == 3 && ai.starts_with("41")) scan.places[static_cast<int>(whole_number(ai))] = element.value;
    if (ai.starts_with("310") || ai.starts_with("320")) {
        const auto mass = net_mass(element);
        if (!mass) return mass.refusal();
        scan.net_mass = *mass;
    }
    return {};
}

// The stem of an identifier that may stand on an item once only: two net masses with other decimals are two
// masses.
std::string once(const std::string& ai) {
    const bool point = ai.size() == 4 && (ai[0] == '3');
    return point ? ai.substr(0, 3) : ai;
}

Check check_together(const Gs1Scan& scan) {
    const bool article = !scan.gtin.empty(), content = !scan.content_gtin.empty();
    if (article && content)
        return Refusal{"scan: (01) " + scan.gtin + " and (02) " + scan.content_gtin,
                       "one of the two: an article, or what a pallet holds",
                       "scan the label of one item at a time",
                       {}};
    if (content != scan.contained.has_value())
        return Refusal{content ? "scan: (02) " + scan.content_gtin + " without (37)" : "scan: (37) without (02)",
                       "the article and how many of it, together",
                       "scan the other symbol of the label too: --scan once more",
                       {}};
    if (article || content) return {};
    for (const Gs1Element& element : scan.elements) {
        const Identifier* one = identifier_at(element.ai);
        if (one && one->of_article)
            return Refusal{"scan: (" + element.ai + ") " + std::string(one->title) + " '" + element.value + "' without an article number",
                           "(01) or (02) on the same label, which says what it is the " + std::string(one->title) + " of",
                           "scan the other symbol of the label too: --scan once more; or type the values",
                           {}};
    }
    return {};
}

}  // namespace

Result<Date> parse_gs1_date(std::string_view yymmdd, Date today) {
    const std::string given = "date '" + shown(yymmdd) + "'";
    if (yymmdd.size() != 6 || !all_digits(yymmdd))
        return Refusal{given, "6 digits: year, month, day as YYMMDD", "scan it again, or type the date", {}};
    const auto two = [&](std::size_t at) { return (yymmdd[at] - '0') * 10 + (yymmdd[at + 1] - '0'); };
    const int above = two(0) - today.year % 100;
    const int century = today.year / 100 * 100 + (above >= 51 ? -100 : above <= -50 ? 100 : 0);
    Date date{century + two(0), two(2), two(4)};
    if (date.month < 1 || date.month > 12)
        return Refusal{given, "a month from 01 to 12 in the middle (YYMMDD)", "read the date on the goods and type it", {}};
    if (date.day == 0) {
        const bool december = date.month == 12;
        return add_days(Date{date.year + (december ? 1 : 0), december ? 1 : date.month + 1, 1}, -1);
    }
    if (!exists(date)) return Refusal{given, "a day that the month has, or 00 for its last", "read the date on the goods and type it", {}};
    return date;
}

Result<Gs1Scan> read_gs1_scan(const std::vector<std::string>& symbols, Date today) {
    Gs1Scan scan;
    std::map<std::string, Gs1Element> seen;
    for (const std::string& symbol : symbols) {
        const auto elements = elements_of(symbol);
        if (!elements) return elements.refusal();
        for (const Gs1Element& element : *elements) {
            if (auto checked = check_value(*identifier_at(element.ai), element, today); !checked) return checked.refusal();
            const auto [before, is_new] = seen.emplace(once(element.ai), element);
            if (!is_new && (before->second.value != element.value || before->second.ai != element.ai))
                return Refusal{
                    "scan: (" + before->second.ai + ") '" + before->second.value + "' and (" + element.ai + ") '" + element.value + "'",
                    "one value of each kind on an item",
                    "scan the label of one item at a time",
                    {}};
            if (!is_new) continue;
            if (auto checked = keep(scan, element, today); !checked) return checked.refusal();
            scan.elements.push_back(element);
        }
    }
    if (auto checked = check_together(scan); !checked) return checked.refusal();
    return scan;
}

}  // namespace peelbook
