#pragma once
// How much gluten or sulphite may be in the food as sold, by the market of its label (not of the site):
//   sulphites, as total SO2, that the label does not declare
//     EU     at most 10 mg/kg    Regulation (EU) No 1169/2011 Annex II point 12: declared above 10 mg/kg
//     Codex  below 10 mg/kg      CXS 1-1985: declared at 10 mg/kg and above
//     US     below 10 ppm        21 CFR 101.100(a)(4): 10 ppm or more is a detectable amount, which is declared (from memory;
//                                130.9(a), read in a public copy, has the same words for standardized food)
//   gluten, by what the label claims
//     gluten-free      EU at most 20 mg/kg     Regulation (EU) No 828/2014, Annex
//                      Codex at most 20 mg/kg  CXS 118-1979 (from memory)
//                      US below 20 ppm         21 CFR 101.91
//     very-low-gluten  EU at most 100 mg/kg    Regulation (EU) No 828/2014, Annex. The US has no such words, and Codex leaves the
//                      range above 20 mg/kg to each country (from memory): no boundary.
// Content is compared as typed, in millionths of a mg/kg; 1 ppm is 1 mg/kg.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/allergens.h"
#include "plan/plan.h"

namespace peelbook::plan {

inline constexpr std::string_view gluten_claims[] = {"gluten-free", "very-low-gluten"};

struct Boundary {
    Measure at;
    bool below = false;       // `at` itself is too much already
    std::string_view source;  // "21 CFR 101.91"
};
Boundary undeclared_sulphites(Market m);
std::optional<Boundary> claim_boundary(Market m, std::string_view claim);  // absent: the market has no rule for it

// What each label of the point's products allows of "gluten" or "sulphites", in the order of products, then of the plan's labels.
std::vector<MarketLimit::OfLabel> labels_of(const Plan& plan, const Point& point, std::string_view content);
// The most that a label allows, in millionths of a mg/kg, inclusive; absent: any content.
std::optional<std::int64_t> most_micro(const MarketLimit::OfLabel& label);
// The label that allows the least of those given; null when each allows any content.
const MarketLimit::OfLabel* strictest(const std::vector<const MarketLimit::OfLabel*>& labels);
// The labels that judge a lot: of a pack the one it is under, of a batch (`label` empty) all of its product.
std::vector<const MarketLimit::OfLabel*> labels_for(const MarketLimit& limit, std::string_view product, std::string_view label);
// The limit of a point in words as it is for such a lot: Point::limit_text, but of a market's limit the strictest label alone.
std::string limit_text_for(const Point& point, std::string_view product, std::string_view label);
// The boundary of the strictest of all its labels, for a line on a chart.
std::optional<Bound> strictest(const MarketLimit& limit);

// "at most 20mg/kg", "below 20mg/kg", "any content"
std::string allowed_words(const MarketLimit::OfLabel& label);
// What it stands for, after allowed_words: "for gluten-free on label seed-1, market eu", "undeclared on label fruit-1, market codex", "declared on label fruit-2, market us",
// "on label pan-1, market eu, which claims nothing of gluten"
std::string boundary_of_words(std::string_view content, const MarketLimit::OfLabel& label);
std::string_view source_of(const MarketLimit::OfLabel& label);  // of its boundary; empty when it allows any content
// The list above, for `plan show allergens`.
std::string boundaries_text();

}  // namespace peelbook::plan
