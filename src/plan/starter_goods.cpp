#include "plan/starter.h"

namespace peelbook::plan {

const char* const starter_materials = R"toml(# What is bought. Keys: id, name; and where they apply:
#   code               the beginning of its lot codes; else the id in capitals
#   allergens          what its specification says it contains: words of the published lists, each cereal and each nut by name
#   may_contain        what its specification says it may contain
#   date               "best-before" (a reason is asked past it) or "use-by" (refused past it)
#   supply = true      water, ice: never received, never used up
#   packaging = true   counts pieces and is no ingredient
#   traceability_list = true   on the Food Traceability List (21 CFR 1 subpart S)
#   gtin, suppliers    article number (several: a list); codes of the partners that may supply it

[[material]]
id = "wheat-flour"
name = "strong wheat flour"
code = "WF"
allergens = ["wheat"]

[[material]]
id = "rye-flour"
name = "medium rye flour"
code = "RF"
allergens = ["rye"]
may_contain = ["wheat"]

[[material]]
id = "water"
name = "drinking water"
supply = true

[[material]]
id = "salt"
name = "salt"

[[material]]
id = "yeast"
name = "fresh yeast"
date = "use-by"

[[material]]
id = "sugar"
name = "sugar"

[[material]]
id = "butter"
name = "butter"
allergens = ["milk"]

[[material]]
id = "milk"
name = "whole milk, pasteurised"
allergens = ["milk"]
date = "use-by"

[[material]]
id = "egg"
name = "whole egg, pasteurised"
allergens = ["egg"]
date = "use-by"

[[material]]
id = "maize-starch"
name = "maize starch"

[[material]]
id = "bread-bag"
name = "bread bag"
packaging = true
)toml";

const char* const starter_products =
    R"toml(# What is made: also leavens, scalds and fillings, each a lot of its own. Keys: id, name, formula, steps; and
#   code         the beginning of its lot codes; else the id in capitals
#   sort         in words: "bread", "leaven", "filling"
#   formula      in baker's percent (the items with flour = true add up to 100%), or in masses of one usual batch:
#                { item = "milk", absolute = "10kg" }. optional = true: rework or dusting, not missed when absent.
#   unit_mass    dough of one piece          pieces   of the usual batch       usual_flour   of the usual batch
#   tolerance    of each weighed item, else 2%: outside it a use is missing
#   steps        in order; finish_step is the one that `finish` ends: else the last before "pack"
#   line         a place       label   the label it is usually packed under
#   date         "best-before" or "use-by"       shelf_life   counted from the end of finish_step

[[product]]
id = "pan-loaf"
name = "white pan loaf"
code = "PAN"
sort = "bread"
formula = [
  { item = "wheat-flour", percent = "100%", flour = true },
  { item = "water", percent = "62%" },
  { item = "yeast", percent = "2.5%" },
  { item = "salt", percent = "1.8%" },
  { item = "butter", percent = "2%" },
]
unit_mass = "880g"
usual_flour = "50kg"
steps = ["mix", "proof", "bake", "cool", "pack"]
line = "line-1"
label = "pan-loaf-1"
shelf_life = "5days"

[[product]]
id = "rye-leaven"
name = "rye leaven"
code = "LEAVEN"
sort = "leaven"
formula = [
  { item = "rye-flour", percent = "100%", flour = true },
  { item = "water", percent = "100%" },
  { item = "rye-leaven", percent = "20%" },   # fed from itself
]
steps = ["feed", "ripen"]
usual_flour = "10kg"

[[product]]
id = "rye-loaf"
name = "rye loaf"
code = "RYE"
sort = "bread"
formula = [
  { item = "rye-flour", percent = "60%", flour = true },
  { item = "wheat-flour", percent = "40%", flour = true },
  { item = "rye-leaven", percent = "40%" },
  { item = "water", percent = "55%" },
  { item = "salt", percent = "2%" },
  { item = "rye-loaf", percent = "3%", optional = true },   # rework: like into like
]
unit_mass = "1150g"
usual_flour = "40kg"
steps = ["mix", "proof", "bake", "cool", "pack"]
line = "line-1"
label = "rye-loaf-1"
shelf_life = "7days"

[[product]]
id = "custard"
name = "vanilla custard"
sort = "filling"
formula = [
  { item = "milk", absolute = "10kg" },
  { item = "egg", absolute = "1500g" },
  { item = "sugar", absolute = "2kg" },
  { item = "maize-starch", absolute = "800g" },
]
steps = ["boil", "cool"]

[[product]]
id = "custard-bun"
name = "bun filled with custard"
code = "BUN"
sort = "filled piece"
formula = [
  { item = "wheat-flour", percent = "100%", flour = true },
  { item = "milk", percent = "50%" },
  { item = "egg", percent = "10%" },
  { item = "butter", percent = "12%" },
  { item = "sugar", percent = "10%" },
  { item = "yeast", percent = "5%" },
  { item = "salt", percent = "1.5%" },
  { item = "custard", percent = "80%" },
]
unit_mass = "95g"
usual_flour = "12kg"
steps = ["mix", "proof", "bake", "cool", "fill", "pack"]
finish_step = "bake"
label = "custard-bun-1"
date = "use-by"
shelf_life = "36h"

# Each version of each label is an entry of its own: it is what the packer scans. `declares` is copied from the printed label,
# and the market is that of the label: "eu", "us" or "codex". claim = "gluten-free" (or "very-low-gluten", EU) where it is printed.

[[label]]
id = "pan-loaf-1"
name = "white pan loaf, first version"
product = "pan-loaf"
market = "eu"
declares = ["wheat", "milk"]
may_contain = []

[[label]]
id = "rye-loaf-1"
name = "rye loaf, first version"
product = "rye-loaf"
market = "eu"
declares = ["rye", "wheat"]

[[label]]
id = "custard-bun-1"
name = "custard bun, first version"
product = "custard-bun"
market = "eu"
declares = ["wheat", "milk", "egg"]
)toml";

}  // namespace peelbook::plan
