#include "plan/starter.h"

namespace peelbook::plan {

const char* const starter_points =
    R"toml(# Hazards and control points. EVERY LIMIT HERE IS A STARTING POINT: a qualified person or process authority validates the
# plan for this site, its ovens and its products, and writes into `basis` what the validation rests on.
#
# A point is read on products at a step, on materials when they are received, or on a place. Keys: id, name, class, limit; and
#   step, products | materials | place       where it is read
#   class        "critical" (needs basis and both actions), "operating", "quality"
#   limit        one of
#                { least = "93C", most = "99C" }                         either or both; "21C | 70F" states both units
#                { time = { from = "mix", until = "bake", most = "4h" } }  a step is its end; also "start" "finish" "pack" "ship"
#                { cooling = { from = "57C | 135F", stages = [ { to = "21C | 70F", within = "2h" } ], counted = "start",
#                  hot_at = "boil" } }     counted = "previous": each stage on its own; hot_at: last moment known hot;
#                                          starts_at = "mix" instead: the clock starts there, food of ambient ingredients
#                { before_packing = { most = "35C" } }
#                { yes_no = true }                                       an inspection that must pass
#                { lethality = { t_ref = "61C", z = "10.4C", d = "16.5min", studied = { from = "55C", to = "61C" }, log = 5, cap = 7,
#                  food = ["muffin"], source = "..." } }   heat added up over the readings; food: sorts of product studied
#                { ph_aw = { table = "B" } }               pH and water activity of a batch need no temperature control
#                { souring = { starts_at = "feed", stages = [ { to = "4.2pH", within = "12h" } ] } }
#                { loss = { before = "scaled", after = "finish", most = "13%" } }   of points weighed, or "inputs" and "finish"
#                { market = { of = "gluten" } }            what the market of each label of the product allows of it, by what that
#                                                         label claims; of = "sulphites": where it does not declare them
#   warn         { least = ..., most = ... }, inside the limit: time to act before it breaks
#   units        all must be read: ovens, racks
#   every, hours on a place: how often, and within which hours of the day ("20:00-04:00" goes over midnight)
#   device_check, lines     a failed check holds what passed on these lines since the last good one
#   instrument   whether a reading needs one in service: true for critical points
#   optional     judged only when read
#   chart        a control chart in the weekly workbook: of readings, or of the time or loss of each batch
#   acceptance   "guarded": a value that the instrument's error could carry over the limit is unproven, and so is a cooling
#                that is in time only when the readings are exact; else "simple"
#   room, room_point        where it cools, "4C" or a point that reads the air: for predicting when it is cold
#   unit, measures, how_often, by, hazard, basis, action = { product = "...", process = "..." }

[[hazard]]
id = "survival"
step = "bake"
kind = "biological"
what = "Salmonella or STEC from raw flour survive the bake"
likelihood = "low"
severity = "high"
significant = true
control = "point bake-core"

[[hazard]]
id = "growth"
step = "cool"
kind = "biological"
what = "spore formers grow out in custard that cools slowly"
likelihood = "medium"
severity = "high"
significant = true
control = "points custard-boil, custard-cooling, chill-air"

[[hazard]]
id = "metal"
step = "pack"
kind = "physical"
what = "metal from mixers, tins or the slicer"
likelihood = "low"
severity = "high"
significant = true
control = "point metal-check"

[[hazard]]
id = "undeclared"
step = "pack"
kind = "allergen"
what = "a pack under a label that does not declare what is in it"
likelihood = "medium"
severity = "high"
significant = true
control = "point label-check, and the book refuses to pack under such a label"

[[point]]
id = "chilled-receipt"
name = "chilled goods at receipt"
materials = ["milk", "egg", "butter"]
class = "operating"
measures = "temperature between packs"
unit = "C"
limit = { most = "5C | 41F" }
how_often = "each delivery"
by = "store"
basis = "Starting point, to be validated: Food Code 3-501.16 holds cold food at 5 C (41 F) or below."
action = { product = "Refuse the delivery, or hold it and ask quality.", process = "Tell the supplier and the carrier." }

[[point]]
id = "dough-temperature"
name = "dough temperature"
step = "mix"
products = ["pan-loaf", "rye-loaf"]
class = "quality"
measures = "temperature after mixing"
unit = "C"
limit = { least = "24C", most = "30C" }
how_often = "each batch"
by = "baker"
basis = "Starting point, to be validated: common practice."

[[point]]
id = "leaven-acid"
name = "acidity of the leaven"
step = "ripen"
products = ["rye-leaven"]
class = "operating"
measures = "pH"
unit = "pH"
limit = { most = "4.3pH" }
how_often = "each feeding"
by = "baker"
basis = "Starting point, to be validated: common practice, a ripe rye leaven is at pH 4.3 or below."
action = { product = "Ripen longer and measure again.", process = "Check temperature and share of old leaven." }

[[point]]
id = "bake-core"
name = "core at the end of the bake"
step = "bake"
products = ["pan-loaf", "rye-loaf"]
class = "critical"
hazard = "survival"
measures = "core temperature"
unit = "C"
limit = { least = "93C | 200F" }
warn = { least = "95C" }
how_often = "each batch, coldest place of the oven"
by = "baker"
basis = "Starting point, to be validated: common practice, lean bread is at 93 C or above at the core when baked."
action = { product = "Bake on and measure again; once out of the oven: hold the batch and tell quality.", process = "Check oven setting, load and probe before the next batch." }

[[point]]
id = "bun-core"
name = "core of buns at the end of the bake"
step = "bake"
products = ["custard-bun"]
class = "critical"
hazard = "survival"
measures = "core temperature"
unit = "C"
limit = { least = "88C" }
how_often = "each batch, coldest place of the oven"
by = "baker"
basis = "Starting point, to be validated: common practice, enriched dough is at 88 C or above at the core when baked."
action = { product = "Bake on and measure again; once out of the oven: hold the batch and tell quality.", process = "Check oven setting, load and probe before the next batch." }

[[point]]
id = "mix-to-bake"
name = "time from mixing to the end of the bake"
step = "bake"
products = ["pan-loaf"]
class = "operating"
limit = { time = { from = "mix", until = "bake", most = "4h" } }
how_often = "each batch"
by = "baker"
basis = "Starting point, to be validated: common practice."
action = { product = "Judge volume and smell; bake at once or discard.", process = "Plan dough and oven closer together." }

[[point]]
id = "cool-before-packing"
name = "bread cooled before packing"
step = "cool"
products = ["pan-loaf", "rye-loaf"]
class = "operating"
measures = "core temperature"
unit = "C"
limit = { before_packing = { most = "35C" } }
how_often = "each batch"
by = "packer"
basis = "Starting point, to be validated: common practice, bread is cooled to about 35 C before it is wrapped, or it moulds."
action = { product = "Leave it on the rack and measure again.", process = "Give racks more room or air." }

[[point]]
id = "custard-boil"
name = "custard brought to the boil"
step = "boil"
products = ["custard"]
class = "critical"
hazard = "growth"
measures = "temperature in the middle"
unit = "C"
limit = { least = "85C" }
how_often = "each batch"
by = "baker"
basis = "Starting point, to be validated: common practice; Food Code 3-401.11 asks for 68 C for 17 s where raw egg is used."
action = { product = "Heat on and measure again.", process = "Check the burner and the probe." }

[[point]]
id = "custard-cooling"
name = "custard cooled in time"
step = "cool"
products = ["custard"]
class = "critical"
hazard = "growth"
measures = "core temperature"
unit = "C"
limit = { cooling = { from = "57C | 135F", stages = [
  { to = "21C | 70F", within = "2h" },
  { to = "5C | 41F", within = "6h" },
], counted = "start", hot_at = "boil" } }
how_often = "each batch, warmest place, at least near 57 C, 21 C and 5 C"
by = "baker"
basis = "Starting point, to be validated: Food Code 3-501.14(A)."
action = { product = "Discard the batch; quality decides otherwise only in writing.", process = "Use shallower trays; check the blast chiller." }

[[point]]
id = "chill-air"
name = "air of the chill room"
place = "chill-room"
class = "critical"
hazard = "growth"
measures = "air temperature, warmest place"
unit = "C"
limit = { most = "5C | 41F" }
warn = { most = "4C" }
every = "4h"
by = "store"
basis = "Starting point, to be validated: Food Code 3-501.16."
action = { product = "Measure the goods; above 5 C: hold them and tell quality.", process = "Close the doors, call the engineer, move the goods." }

[[point]]
id = "metal-check"
name = "metal detector finds its test pieces"
place = "metal-detector"
class = "critical"
hazard = "metal"
limit = { yes_no = true }
every = "1h"
hours = "04:00-14:00"
device_check = true
lines = ["line-1"]
how_often = "at start, every hour, at each change of product and at the end"
by = "packer"
basis = "Starting point, to be validated: common practice; sizes of the test pieces as the detector's study found."
action = { product = "Hold everything since the last good check and pass it again.", process = "Stop the line until the detector finds all test pieces." }

[[point]]
id = "label-check"
name = "label is the right one for the product"
step = "pack"
products = ["pan-loaf", "rye-loaf", "custard-bun"]
class = "critical"
hazard = "undeclared"
limit = { yes_no = true }
units = ["start of run", "end of run"]
how_often = "at start, at each change of reel, date or product, and at the end"
by = "packer"
basis = "Starting point, to be validated: Regulation (EU) No 1169/2011 Annex II as the label declares it."
action = { product = "Hold every pack since the last good check; pack it anew.", process = "Take the wrong reel off the line and count what was issued." }
)toml";

}  // namespace peelbook::plan
