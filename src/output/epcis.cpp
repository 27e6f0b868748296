#include "output/epcis.h"

#include <array>
#include <cstdio>
#include <cstdlib>

#include "base/calendar.h"
#include "output/json.h"

namespace peelbook::output {
namespace {

using trace::CustodyEvent;
using trace::Goods;
using trace::Party;

constexpr std::int64_t ms_per_minute = 60'000, ms_per_day = 86'400'000;
constexpr double mg_per_kg = 1e6;

// What RFC 3986 leaves unreserved stands as it is, all else as %XX.
std::string escaped(const std::string& text) {
    std::string out;
    for (const char c : text) {
        const bool letter = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (letter || c == '-' || c == '.' || c == '_' || c == '~') {
            out += c;
            continue;
        }
        std::array<char, 4> hex{};
        std::snprintf(hex.data(), hex.size(), "%%%02X", static_cast<unsigned>(static_cast<unsigned char>(c)));
        out += hex.data();
    }
    return out;
}

std::string two(std::int64_t n) { return (n < 10 ? "0" : "") + std::to_string(n); }

std::string offset_text(int minutes) {
    const int size = std::abs(minutes);
    return (minutes < 0 ? "-" : "+") + two(size / 60) + ":" + two(size % 60);
}

// "2026-11-24T05:40:00.000+01:00"
std::string time_text(std::int64_t ms, int offset_minutes) {
    const std::int64_t local = ms + offset_minutes * ms_per_minute;
    const std::int64_t day = local >= 0 ? local / ms_per_day : -((-local + ms_per_day - 1) / ms_per_day);
    const std::int64_t rest = local - day * ms_per_day;
    const std::string thousandths = std::to_string(1000 + rest % 1000).substr(1);
    return to_text(from_days(day)) + "T" + two(rest / 3'600'000) + ":" + two(rest / 60'000 % 60) + ":" + two(rest / 1000 % 60) + "." +
           thousandths + offset_text(offset_minutes);
}

class Document {
  public:
    explicit Document(const trace::Custody& custody) : custody_(custody) {}

    Json json() const {
        Json events = Json::array();
        for (const CustodyEvent& event : custody_.events) events.add(of(event));
        Json body = Json::object();
        body.set("eventList", std::move(events));
        Json context = Json::array();
        context.add("https://ref.gs1.org/standards/epcis/2.0.0/epcis-context.jsonld");
        Json out = Json::object();
        out.set("@context", std::move(context)).set("type", "EPCISDocument").set("schemaVersion", "2.0");
        out.set("creationDate", time_text(custody_.created, 0)).set("epcisBody", std::move(body));
        return out;
    }

  private:
    std::string lot(const Goods& goods) const {
        if (goods.gtin.empty()) return custody_.web + "lot/" + escaped(goods.lot);
        return "https://id.gs1.org/01/" + goods.gtin + "/10/" + escaped(goods.lot);
    }
    std::string site() const { return custody_.gln.empty() ? custody_.web + "site" : "https://id.gs1.org/414/" + custody_.gln; }
    std::string party(const Party& party) const {
        const std::string& gln = party.code.empty() ? custody_.gln : party.gln;
        if (!gln.empty()) return "https://id.gs1.org/417/" + gln;
        return custody_.web + (party.code.empty() ? "site" : "partner/" + escaped(party.code));
    }
    std::string document(const CustodyEvent& event) const {
        const std::string& gln = event.issuer.code.empty() ? custody_.gln : event.issuer.gln;
        if (!gln.empty()) return "urn:epcglobal:cbv:bt:" + gln + ":" + escaped(event.document);
        return custody_.web + "document/" + (event.issuer.code.empty() ? "site" : escaped(event.issuer.code)) + "/" +
               escaped(event.document);
    }

    Json quantities(const std::vector<Goods>& goods) const {
        Json list = Json::array();
        for (const Goods& one : goods) {
            Json element = Json::object();
            element.set("epcClass", lot(one));
            if (one.pieces)
                element.set("quantity", *one.pieces);
            else if (one.mass_mg)
                element.set("quantity", static_cast<double>(*one.mass_mg) / mg_per_kg).set("uom", "KGM");
            list.add(std::move(element));
        }
        return list;
    }

    void add_goods(Json& out, const CustodyEvent& event) const {
        const std::string pallet = "https://id.gs1.org/00/" + event.sscc;
        switch (event.kind) {
            case CustodyEvent::Kind::object:
                if (!event.sscc.empty()) out.set("epcList", std::vector<std::string>{pallet});
                if (!event.goods.empty()) out.set("quantityList", quantities(event.goods));
                return;
            case CustodyEvent::Kind::transformation:
                out.set("inputQuantityList", quantities(event.inputs)).set("outputQuantityList", quantities(event.goods));
                return;
            case CustodyEvent::Kind::aggregation:
                out.set("parentID", pallet).set("childQuantityList", quantities(event.goods));
                return;
        }
    }

    static std::string_view type_of(CustodyEvent::Kind kind) {
        switch (kind) {
            case CustodyEvent::Kind::object:
                return "ObjectEvent";
            case CustodyEvent::Kind::transformation:
                return "TransformationEvent";
            case CustodyEvent::Kind::aggregation:
                return "AggregationEvent";
        }
        return "";
    }

    Json side(const char* key, const std::string& who) const {
        Json one = Json::object();
        one.set("type", "owning_party").set(key, who);
        Json list = Json::array();
        list.add(std::move(one));
        return list;
    }

    Json of(const CustodyEvent& event) const {
        const std::string part = event.part == 0 ? "" : "." + std::to_string(event.part);
        Json out = Json::object();
        out.set("type", type_of(event.kind)).set("eventID", custody_.web + "event/" + std::to_string(event.seq) + part);
        out.set("eventTime", time_text(event.happened, event.offset_minutes));
        out.set("recordTime", time_text(event.written, event.offset_minutes));
        out.set("eventTimeZoneOffset", offset_text(event.offset_minutes));
        if (event.kind != CustodyEvent::Kind::transformation) out.set("action", event.action);
        add_goods(out, event);
        out.set("bizStep", event.step).set("disposition", event.disposition);
        Json here = Json::object();
        here.set("id", site());
        if (event.stays) out.set("bizLocation", here);  // where it is afterwards
        out.set("readPoint", std::move(here));
        if (!event.document.empty()) {
            Json one = Json::object();
            one.set("type", "desadv").set("bizTransaction", document(event));
            Json list = Json::array();
            list.add(std::move(one));
            out.set("bizTransactionList", std::move(list));
        }
        const bool out_of_house = !event.to.code.empty(), in = !event.from.code.empty();
        if (out_of_house || in) {
            out.set("sourceList", side("source", party(event.from)));
            out.set("destinationList", side("destination", party(event.to)));
        }
        return out;
    }

    const trace::Custody& custody_;
};

}  // namespace

std::string epcis_json(const trace::Custody& custody) { return Document(custody).json().text() + "\n"; }

}  // namespace peelbook::output
