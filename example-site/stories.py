"""What goes wrong in the example, and nothing else does. See make_week.py."""
from datetime import date, datetime

FIRST_DAY, LAST_DAY = date(2026, 11, 16), date(2026, 11, 22)

SLOW_TRAY = "CU-261118-2/tray-B"   # cools too slowly: deviation, held by itself, discarded
THIN_TRAY = "CU-261119-1/tray-A"   # nobody read it between 25 and 15 C: unproven, decided by quality
NO_CORE = "WH-261117-2"            # nobody took its core: missing, decided by quality
NEARLY_WARM = "CP-261120-2"         # 6.8 C where 7 C is the most and the probe may be off by 0.5: unproven
LATE_READING = "TL-261117-2"       # its dough temperature was typed from a slip, 70 minutes after it was read
MISTYPED = "TL-261119-4"           # 69.3 typed for 96.3: held by itself, amended, countersigned, released
RETURNED_PACK = "TL-P261117-3"     # eight of it come back
MILLERS_LOT = "RF-261113-1"        # the miller calls about it on Sunday evening
UNDERBAKED = "TL-261121-2"         # 92.4 C in the oven, baked on: corrected in process
BACK_IN = "IF-261121-1"            # 91.6 C a minute after it came off the stone, back on it, 95.1 C: corrected in process
CORE_FROM_SLIP = "IS-261120-1"     # its core stood on slip 57 and was typed 40 minutes after the bake: within, from a slip
CORE_FROM_MEMORY = "TT-261119-2"   # its core was typed from memory and waited until quality countersigned it
STILL_WAITING = "TT-261122-3"      # the same, and nobody countersigned by the end of the week: unproven, not packed
FEW_FLATS = "IF-261119-1"          # 84 pieces where the dough makes 119: deviation of the yield, in pieces and in mass
DRY_PROOF = "TL-261118-3"          # 68 % of humidity in the proofer where 72 % is the least: deviation
FORGOTTEN_CHECK = datetime(2026, 11, 20, 14, 0)  # of the metal detector: missing; what passed meanwhile is held, and released
DROPPED = "TL-261117-1"            # three loaves slid off the rack: spoiled when it was finished
NO_CURRENT = datetime(2026, 11, 17, 11, 25), datetime(2026, 11, 17, 12, 45)  # of the metal detector: one check not made, unproven
NO_COLD = datetime(2026, 11, 18, 4, 10), datetime(2026, 11, 18, 6, 15)  # a fuse of the cold store: one reading not made, unproven
PEANUT_LOT = "SE-417"              # declares more than sesame is specified with: deviation, refused at the door
