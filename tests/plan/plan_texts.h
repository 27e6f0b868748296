#pragma once
// A small plan without faults, to which a test adds what is wrong.
#include <string>
#include <vector>

#include "plan/reader.h"

namespace peelbook::plan::testing {

inline const std::string sound_site =
    "[site]\n"
    "name = \"Sample\"\n"
    "zone = \"UTC\"\n"
    "allergen_list = \"eu\"\n";

inline const std::string sound_goods = R"toml([[place]]
id = "line-1"
name = "line"
[[material]]
id = "wheat-flour"
name = "wheat flour"
allergens = ["wheat"]
[[material]]
id = "milk"
name = "milk"
allergens = ["milk"]
[[product]]
id = "loaf"
name = "loaf"
formula = [ { item = "wheat-flour", percent = "100%", flour = true }, { item = "milk", percent = "60%" } ]
steps = ["mix", "bake", "cool", "pack"]
line = "line-1"
label = "loaf-1"
[[label]]
id = "loaf-1"
name = "loaf"
product = "loaf"
market = "eu"
declares = ["wheat", "milk"]
)toml";

// Every fault of the sound plan with `text` beside it as plan.toml, one after the other.
inline std::string faults_with(const std::string& text) {
    const Outcome outcome = read_plan({{"site.toml", sound_site}, {"goods.toml", sound_goods}, {"plan.toml", text}});
    std::string all;
    for (const Fault& fault : outcome.faults) all += (all.empty() ? "" : "\n") + to_text(fault);
    return all;
}

// Every fault of `text` alone.
inline std::string faults_of(const std::string& text) {
    std::string all;
    for (const Fault& fault : read_plan({{"plan.toml", text}}).faults) all += (all.empty() ? "" : "\n") + to_text(fault);
    return all;
}

// The plan of the sound texts and `text`, which must be usable.
inline Outcome outcome_with(const std::string& text) {
    return read_plan({{"site.toml", sound_site}, {"goods.toml", sound_goods}, {"plan.toml", text}});
}

}  // namespace peelbook::plan::testing
