#include "plan/starter.h"

namespace peelbook::plan {

const char* const starter_site =
    R"toml(# The site. All .toml files of this folder together are one plan; a file may hold any of the sections.
# Nothing here counts until a person adopts it:   peelbook plan check    then    peelbook plan adopt --by INITIALS
# After that the book keeps its own copy, and a change of these files counts from the next adoption on.

[site]
name = @NAME@
address = "12 Mill Lane, Sampletown"   # invented: write your own
# phone = "..."                        # part of the address that the traceability sheet gives
# gln = "..."                          # GS1 location number, 13 digits, if you have one
# company_prefix = "..."               # GS1 company prefix, if you number pallets (SSCC) yourself
# web = "https://..."                  # names your lots without a GTIN in EPCIS; nothing is fetched from there
zone = @ZONE@                          # IANA time zone: all times are shown in it
day_start = "00:00"                    # when the production day begins
late_after = "15min"                   # an entry written later than this after it happened shows as late
allergen_list = "eu"                   # "eu", "us" or "codex": what is asked about when goods are received
paper = "A4"                           # or "Letter"
temperature_unit = "C"                 # or "F": how temperatures are shown
mass_unit = "kg"                       # or "g", "lb", "oz", "t"
retention = "Starting point: keep records 2 years (21 CFR 117.315) or as your authority asks, whichever is longer."
holidays = ["2026-12-25", "2027-01-01"]  # no working days: they do not count towards the time for review
review_working_days = 7                # 21 CFR 117.165(a)(4): records reviewed within 7 working days
carry_over = "0.1%"                    # in a trace, shares below this are grouped; nothing is left out
clock_uncertainty = "5min"             # two stated times may be off by so much: a draw this near a fill may be of both (common practice)

# How soon after word came each step of a recall is owed. A drill is measured by the same times.

[[deadline]]
id = "hold"
name = "everything on hand held"
step = "hold"
within = "1h"
basis = "Starting point, common practice: hold first, ask afterwards."

[[deadline]]
id = "customers"
name = "every customer reached"
step = "customers"
within = "4h"
basis = "Starting point, common practice of recall drills."

[[deadline]]
id = "authority"
name = "authority told"
step = "authority"
within = "24h"
basis = "Starting point, from memory: 21 U.S.C. 350f (reportable food) within 24 hours; Regulation (EC) No 178/2002 art. 19 at once."

[[deadline]]
id = "call-list"
name = "call list tried"
step = "call-list"
within = "365days"
basis = "Starting point, common practice: each number once a year."
)toml";

const char* const starter_people =
    R"toml(# What each role may do: names of commands, or "*" for all. People are entries of the book, not of the plan:
#   peelbook person CD "Cleo Dorn" --role baker

[[role]]
id = "manager"
may = ["*"]

[[role]]
id = "quality"
may = ["inspect", "reading", "series", "sample", "count", "hold", "release", "act", "review", "calibrate", "clean", "amend",
       "void", "recall", "drill", "seal", "plan adopt", "person", "partner"]

[[role]]
id = "baker"
may = ["start", "use", "step", "reading", "series", "inspect", "finish", "split", "fill", "empty", "clean", "count", "discard", "amend"]

[[role]]
id = "packer"
may = ["pack", "inspect", "reading", "move", "count", "discard", "hold"]

[[role]]
id = "store"
may = ["receive", "partner", "reading", "inspect", "move", "ship", "return", "count", "hold"]
)toml";

const char* const starter_equipment =
    R"toml(# Places are rooms, lines and devices: what is read or checked and is not a lot.

[[place]]
id = "line-1"
name = "bread line"

[[place]]
id = "chill-room"
name = "chill room"

[[place]]
id = "metal-detector"
name = "metal detector behind the slicer"

# A piece of equipment is a place too. Residue of an allergen lies on it until a verified cleaning; each changeover is judged by the
# labels. Take the marks off and write your own; a [[cleaning]] is verified by points whose place is the piece.
#   [[equipment]]
#   id = "slicer"
#   name = "slicer"
#   lines = ["line-1"]
#   step = "pack"              # at whose end it is touched; without it: at the start of the batch
#   residue = "50g"            # of the product before, that one batch may take along
#   [[cleaning]]
#   id = "wash"
#   name = "washed and dried"
#   kind = "wet"               # or "dry"
#   equipment = ["slicer"]
#   clears = ["hazelnut"]      # what its validation shows that it takes off
#   time = "30min"
#   cost = 20
#   verify = ["slicer-seen"]   # a point with place = "slicer"
#   [[reference_dose]]         # for residue alone: a decision aid that a qualified person validates
#   allergen = "hazelnut"
#   dose = "3mg"               # of protein
#   source = "FAO/WHO expert consultation on allergens, part 2, 2022"

# Vessels hold what is filled in several times. model = "mixed": every draw may hold every fill since the last inspected
# emptying. model = "first-in" needs validation = "..." (a document that shows it) and smear = "..." (the mass on either side
# of a boundary that may be of both fills).

[[vessel]]
id = "silo-1"
name = "wheat flour silo"
kind = "silo"
model = "mixed"
holds = "wheat-flour"
heel = "40kg"        # what always stays behind

# Instruments: what a critical reading is taken with. A reading without one that is in service and calibrated is unproven.

[[instrument]]
id = "probe-1"
name = "core probe, bakery"
kind = "thermometer"
tolerance = "1C"            # Starting point: Food Code 4-203.11 asks for 1 C (2 F)
calibrate_every = "30days"  # Starting point, to be validated

[[instrument]]
id = "probe-2"
name = "core probe, pastry"
kind = "thermometer"
tolerance = "1C"
calibrate_every = "30days"

[[instrument]]
id = "chill-logger"
name = "chill room logger"
kind = "logger"
tolerance = "1C"
calibrate_every = "365days"
place = "chill-room"

# How the files of a logger are read:   peelbook series chill-room chill-air week.csv --logger chill-export --with chill-logger
# What is left out is found out. Columns go by heading or by number from 1; times are written YYYY MM DD hh mm ss, MON for
# "Jan", AP for "AM", zz for "+01:00", unix for seconds since 1970. zone is that of the logger's clock, else the site's.

[[logger]]
id = "chill-export"
name = "chill room logger, exported as text"
separator = ";"                        # one character, "tab" or "blank"
decimal = ","
header_lines = 1                       # the last of them holds the headings
date = "Date"                          # only where date and time stand in two columns
time = "Time"
time_format = "DD.MM.YYYY hh:mm:ss"    # of both, with a blank between
# zone = "+01:00"                      # a logger that knows no summer time
every = "5min"                         # what is longer by half is told as a gap
no_value = ["---"]
values = [ { column = "Air", unit = "C", point = "chill-air" } ]

[[instrument]]
id = "ph-meter"
name = "pH meter"
kind = "pH meter"
tolerance = "0.05pH"
calibrate_every = "7days"
)toml";

}  // namespace peelbook::plan
