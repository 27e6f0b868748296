#include "plan/boundaries.h"

#include <algorithm>

#include "plan/words.h"

namespace peelbook::plan {
namespace {

struct Law {
    Market market;
    std::string_view of;  // a claim, or sulphites that are not declared
    std::int64_t mg_per_kg;
    bool below;
    std::string_view source;
};
constexpr Law laws[] = {
    {Market::eu, "sulphites", 10, false, "Regulation (EU) No 1169/2011 Annex II point 12"},
    {Market::us, "sulphites", 10, true, "21 CFR 101.100(a)(4), from memory"},
    {Market::codex, "sulphites", 10, true, "CXS 1-1985"},
    {Market::eu, "gluten-free", 20, false, "Regulation (EU) No 828/2014"},
    {Market::us, "gluten-free", 20, true, "21 CFR 101.91"},
    {Market::codex, "gluten-free", 20, false, "CXS 118-1979, from memory"},
    {Market::eu, "very-low-gluten", 100, false, "Regulation (EU) No 828/2014"},
};

std::optional<Boundary> law_of(Market market, std::string_view of) {
    constexpr std::int64_t milli = 1'000;  // canonical integers are thousandths of a mg/kg
    for (const Law& law : laws)
        if (law.market == market && law.of == of)
            return Boundary{measure_of(law.mg_per_kg * milli, Unit::mg_per_kg), law.below, law.source};
    return std::nullopt;
}

bool is_claim(std::string_view word) {
    return std::find(std::begin(gluten_claims), std::end(gluten_claims), word) != std::end(gluten_claims);
}

MarketLimit::OfLabel of_label(const Label& label, std::string_view content) {
    MarketLimit::OfLabel out{label.id, label.product, label.market, "", std::nullopt, false};
    const std::optional<Market> market = market_from(label.market);
    std::optional<Boundary> boundary;
    if (content == "gluten") {
        out.claim = label.claim;
        if (market) boundary = claim_boundary(*market, label.claim);
    } else if (market && std::find(label.declares.begin(), label.declares.end(), content) == label.declares.end()) {
        boundary = undeclared_sulphites(*market);
    }
    if (boundary) {
        out.most = boundary->at;
        out.below = boundary->below;
    }
    return out;
}

std::string allowed(const Measure& most, bool below) { return (below ? "below " : "at most ") + to_text(most); }

std::string line_of(Market market, std::string_view what, const Boundary& boundary) {
    return "  " + std::string(word(market)) + ", " + std::string(what) + ": " + allowed(boundary.at, boundary.below) + " (" +
           std::string(boundary.source) + ")\n";
}

}  // namespace

Boundary undeclared_sulphites(Market m) { return *law_of(m, "sulphites"); }

std::optional<Boundary> claim_boundary(Market m, std::string_view claim) { return is_claim(claim) ? law_of(m, claim) : std::nullopt; }

std::vector<MarketLimit::OfLabel> labels_of(const Plan& plan, const Point& point, std::string_view content) {
    std::vector<MarketLimit::OfLabel> out;
    for (const std::string& product : point.products)
        for (const Label& label : plan.labels)
            if (label.product == product) out.push_back(of_label(label, content));
    return out;
}

std::optional<std::int64_t> most_micro(const MarketLimit::OfLabel& label) {
    if (!label.most) return std::nullopt;
    return label.most->typed_micro - (label.below ? 1 : 0);
}

const MarketLimit::OfLabel* strictest(const std::vector<const MarketLimit::OfLabel*>& labels) {
    const MarketLimit::OfLabel* least = nullptr;
    for (const MarketLimit::OfLabel* label : labels)
        if (label->most && (!least || *most_micro(*label) < *most_micro(*least))) least = label;
    return least;
}

std::vector<const MarketLimit::OfLabel*> labels_for(const MarketLimit& limit, std::string_view product, std::string_view label) {
    std::vector<const MarketLimit::OfLabel*> found;
    for (const MarketLimit::OfLabel& one : limit.labels)
        if (label.empty() ? one.product == product : one.label == label) found.push_back(&one);
    return found;
}

std::string limit_text_for(const Point& point, std::string_view product, std::string_view label) {
    const auto* limit = std::get_if<MarketLimit>(&point.limit);
    if (!limit) return point.limit_text;
    const auto labels = labels_for(*limit, product, label);
    const MarketLimit::OfLabel* least = strictest(labels);
    MarketLimit here{limit->of, {}};
    for (const MarketLimit::OfLabel* one : labels)
        if (!least || one == least) here.labels.push_back(*one);
    return here.labels.empty() ? point.limit_text : limit_words(here);
}

std::optional<Bound> strictest(const MarketLimit& limit) {
    std::vector<const MarketLimit::OfLabel*> all;
    for (const MarketLimit::OfLabel& label : limit.labels) all.push_back(&label);
    const MarketLimit::OfLabel* least = strictest(all);
    if (!least) return std::nullopt;
    return Bound{*least->most, std::nullopt};
}

std::string allowed_words(const MarketLimit::OfLabel& label) { return label.most ? allowed(*label.most, label.below) : "any content"; }

std::string boundary_of_words(std::string_view content, const MarketLimit::OfLabel& label) {
    const std::string where = "on label " + label.label + ", market " + label.market;
    if (!label.claim.empty()) return "for " + label.claim + " " + where;
    if (content == "gluten") return where + ", which claims nothing of gluten";
    return (label.most ? "undeclared " : "declared ") + where;
}

std::string_view source_of(const MarketLimit::OfLabel& label) {
    const std::optional<Market> market = market_from(label.market);
    if (!label.most || !market) return "";
    if (label.claim.empty()) return undeclared_sulphites(*market).source;
    return claim_boundary(*market, label.claim)->source;
}

std::string boundaries_text() {
    std::string text = "How much may be in the food as sold, by the market of its label:\n";
    for (const Market m : {Market::eu, Market::us, Market::codex}) {
        text += line_of(m, "sulphites as SO2 that are not declared", undeclared_sulphites(m));
        for (const std::string_view claim : gluten_claims)
            if (const auto boundary = claim_boundary(m, claim))
                text += line_of(m, "gluten under the claim " + std::string(claim), *boundary);
    }
    return text;
}

}  // namespace peelbook::plan
