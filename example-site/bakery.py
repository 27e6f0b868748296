"""The invented people, partners, formulas and deliveries behind make_week.py. Names and numbers are made up."""

HEADING = """\
# What the people of Ternhavn Bakehouse typed, one command a line, from the opening of the book on 9 November 2026 to the end of
# week 2026-W47. The time in front is that of the recorder's clock; --at says that it happened earlier. Written by make_week.py.
"""

PEOPLE = [
    ("QO", "Odile Quist", "quality"),
    ("JM", "Jonas Mork", "baker"),
    ("IB", "Ida Brandsund", "baker"),
    ("TS", "Tove Sandvig", "baker"),
    ("KH", "Karl Havnsgaard", "baker"),
    ("EL", "Elin Lysholt", "baker"),
    ("SB", "Sune Birkemose", "baker"),
    ("DK", "Dagny Klitmark", "baker"),
    ("VO", "Villum Odde", "baker"),
    ("RK", "Rasmus Kvistbo", "packer"),
    ("AF", "Asta Foldager", "packer"),
    ("PN", "Pil Naesborg", "packer"),
    ("NV", "Nor Vangede", "store"),
    ("GH", "Gro Hjelmsted", "store"),
]

# Who stands where: Monday to Friday, Saturday and Sunday.
ROSTER = {
    "night": ("JM", "IB"),
    "rye": ("TS", "KH"),
    "pastry": ("EL", "SB"),
    "day": ("DK", "VO"),
    "pack early": ("RK", "PN"),
    "pack late": ("AF", "PN"),
    "store": ("NV", "GH"),
    "quality": ("QO", "QO"),
}

PARTNERS = [
    ("OTTER-MILL", "Otterbeck Mill", "supplier", " --phone '+00 555 0140' --gln 9520000471019"),
    ("FERN-DAIRY", "Fern Hollow Dairy", "supplier", " --phone '+00 555 0141' --gln 9520000471026"),
    ("LARK-EGGS", "Larkstead Egg Kitchen", "supplier", " --phone '+00 555 0142'"),
    ("FROTH-YEAST", "Frothwell Yeast", "supplier", " --phone '+00 555 0143'"),
    ("COVE-DRY", "Coveside Dry Goods", "supplier", " --phone '+00 555 0144'"),
    ("SKERRY-FISH", "Skerry Row Fish Kitchen", "supplier", " --phone '+00 555 0145'"),
    ("FOLD-PACK", "Foldwright Packaging", "supplier", " --phone '+00 555 0146'"),
    ("TOWN-WATER", "Ternhavn Town Water", "supplier", " --phone '+00 555 0147'"),
    ("GULL-HAUL", "Gullwing Haulage", "carrier", " --phone '+00 555 0148'"),
    ("OWN-VAN", "our own van", "carrier", ""),
    ("OPEN-TABLE", "The Open Table, soup kitchen", "customer", " --phone '+00 555 0150'"),
    ("ASH-FARM", "Ashfold Farm, pigs", "customer", " --phone '+00 555 0151'"),
]

# Customers and the products they take.
CUSTOMERS = {
    "LANTERN-CAFE": ("TL", "TT", "CP", "QR"),
    "GULL-INN": ("TL", "WH", "QR", "IS"),
    "QUAY-GROCER": ("TL", "WH", "TT", "QR", "IS"),
    "MOLE-SCHOOL": ("TL", "CP", "QR"),
    "FERRY-BUFFET": ("TL", "TT", "CP", "WH"),
    "HILL-HOSPICE": ("TL", "CP", "QR"),
    "TIDE-HOTEL": ("TT", "CP", "WH", "QR", "IS"),
    "NORTH-MARKET": ("TL", "WH", "QR", "TT"),
    "SALT-BISTRO": ("WH", "IS", "QR"),
    "ROWAN-NURSERY": ("TL", "CP"),
    "OAR-CLUB": ("TT", "CP", "IS"),
    "LIGHT-HOSTEL": ("TL", "TT", "QR"),
    "HERON-DELI": ("WH", "TT", "IS", "QR"),
    "PIER-KIOSK": ("TT", "CP"),
    "LANE-SHOP": ("TL", "WH", "TT"),
}
CUSTOMER_NAMES = {
    "LANTERN-CAFE": "Lantern Steps Cafe", "GULL-INN": "The Gull and Anchor Inn", "QUAY-GROCER": "Quayside Grocer",
    "MOLE-SCHOOL": "Mole Street School Kitchen", "FERRY-BUFFET": "Ferry Landing Buffet", "HILL-HOSPICE": "Hill Road Hospice",
    "TIDE-HOTEL": "Tideline Hotel", "NORTH-MARKET": "North Gate Market Hall", "SALT-BISTRO": "Saltpan Bistro",
    "ROWAN-NURSERY": "Rowan Tree Nursery", "OAR-CLUB": "Oarsmen Club House", "LIGHT-HOSTEL": "Lighthouse Hostel",
    "HERON-DELI": "Heron Lane Delicatessen", "PIER-KIOSK": "Pier Kiosk", "LANE-SHOP": "Ropewalk Lane Shop",
}

# Baker's percent, as in site/products.toml. What goes in at another moment of the batch stands in make_week.py.
FORMULAS = {
    "tin-loaf": [("wheat-flour", 100), ("water", 61), ("yeast", 2.2), ("salt", 1.9), ("rape-oil", 2.5), ("sugar", 1.5)],
    "rye-scald": [("rye-malt", 42), ("rye-flour", 58), ("water", 230)],
    "rye-dough": [("rye-flour", 100), ("rye-leaven", 20), ("rye-scald", 26), ("water", 58), ("salt", 2.4)],
    "weir-hearth": [("wheat-flour", 92), ("rye-flour", 8), ("water", 82), ("rye-leaven", 6), ("salt", 2.1), ("yeast", 0.3)],
    "tern-tail": [("wheat-flour", 100), ("water", 46), ("sugar", 9), ("egg", 5), ("yeast", 4), ("salt", 1.9)],
    "custard-pillow": [("wheat-flour", 100), ("milk", 48), ("butter", 12), ("sugar", 11), ("egg", 9), ("yeast", 4.5),
                       ("salt", 1.6)],
    "ink-stick": [("wheat-flour", 100), ("water", 47), ("olive-oil", 11), ("sesame", 4), ("squid-ink", 3.2), ("salt", 2.3),
                  ("yeast", 1.8)],
    "ink-flat": [("wheat-flour", 100), ("water", 68), ("olive-oil", 5), ("squid-ink", 2.5), ("salt", 2.2), ("yeast", 1.2)],
}
CUSTARD = [("milk", 15000), ("egg", 2600), ("sugar", 2900), ("starch", 1100), ("butter", 400)]

SILOS = {"wheat-flour": "silo-wheat", "rye-flour": "silo-rye"}
CODES = {"wheat-flour": "WF", "rye-flour": "RF", "rye-malt": "RM", "water": "WTR", "salt": "SALT", "sugar": "SUG", "starch": "ST",
         "sesame": "SES", "rape-oil": "OIL", "olive-oil": "OLV", "yeast": "YE", "butter": "BUT", "milk": "MILK", "egg": "EGG",
         "squid-ink": "INK", "bread-bag": "BAG"}

MILL = "--carrier GULL-HAUL --document "


def chilled(contains, best_before, temperature, document):
    return (f"--best-before {best_before} --temperature {temperature}C --with probe-door --contains {contains} "
            f"--document {document}")


# when, material, supplier, the supplier's lot, grams, options, prefix of the blend in the silo
DELIVERIES = [
    ("2026-11-09T08:05", "wheat-flour", "OTTER-MILL", "OM-6681", 2600000,
     f"--best-before 2027-05-02 --contains wheat {MILL}OM-20311", "SW"),
    ("2026-11-09T08:30", "rye-flour", "OTTER-MILL", "OM-6640", 380000,
     f"--best-before 2027-03-30 --contains rye --may-contain wheat {MILL}OM-20311", "SR"),
    ("2026-11-09T08:50", "rye-malt", "OTTER-MILL", "OM-6592", 60000,
     f"--best-before 2027-08-15 --contains rye {MILL}OM-20311", None),
    ("2026-11-09T09:10", "water", "TOWN-WATER", "2026-11", 90000000, "--document TW-2026-11", None),
    ("2026-11-09T10:02", "salt", "COVE-DRY", "S-118", 125000, "--best-before 2029-01-31 --free --document CD-5560", None),
    ("2026-11-09T10:06", "sugar", "COVE-DRY", "Z-902", 100000, "--best-before 2028-06-30 --free --document CD-5560", None),
    ("2026-11-09T10:09", "starch", "COVE-DRY", "MS-77", 25000, "--best-before 2027-11-30 --free --document CD-5560", None),
    ("2026-11-09T10:12", "sesame", "COVE-DRY", "SE-405", 6000,
     "--best-before 2027-07-31 --contains sesame --document CD-5560", None),
    ("2026-11-09T10:15", "rape-oil", "COVE-DRY", "RO-331", 64000, "--best-before 2027-04-30 --free --document CD-5560", None),
    ("2026-11-09T10:18", "olive-oil", "COVE-DRY", "OO-082", 25000, "--best-before 2027-09-30 --free --document CD-5560", None),
    ("2026-11-12T09:20", "bread-bag", "FOLD-PACK", "FP-2210", 0, "--document FP-2210", None),
    ("2026-11-13T08:15", "rye-flour", "OTTER-MILL", "OM-6703", 760000,
     f"--best-before 2027-05-09 --contains rye --may-contain wheat {MILL}OM-20377", "SR"),
    ("2026-11-13T09:05", "butter", "FERN-DAIRY", "FD-B-3308", 120000,
     chilled("milk", "2027-01-20", 3.6, "FD-9981") + " --scan '(01)09520000520014(10)FD-B-3308(15)270120'", None),
    ("2026-11-13T09:40", "yeast", "FROTH-YEAST", "FY-471", 30000,
     "--best-before 2026-12-04 --temperature 3.9C --with probe-door --free --document FY-1187", None),
    ("2026-11-13T10:25", "squid-ink", "SKERRY-FISH", "SK-19", 8000,
     "--best-before 2027-10-31 --contains molluscs --may-contain fish --document SK-0744", None),
    ("2026-11-14T08:10", "milk", "FERN-DAIRY", "FD-M-318", 100000, chilled("milk", "2026-11-24", 3.2, "FD-9990"), None),
    ("2026-11-14T08:35", "egg", "LARK-EGGS", "LE-5521", 50000, chilled("egg", "2026-12-02", 2.8, "LE-3301"), None),
    ("2026-11-16T07:32", "milk", "FERN-DAIRY", "FD-M-320", 60000, chilled("milk", "2026-11-26", 3.4, "FD-9996"), None),
    ("2026-11-16T07:41", "butter", "FERN-DAIRY", "FD-B-3312", 100000, chilled("milk", "2027-01-23", 4.0, "FD-9996"), None),
    ("2026-11-16T09:15", "yeast", "FROTH-YEAST", "FY-474", 30000,
     "--best-before 2026-12-07 --temperature 4.2C --with probe-door --free --document FY-1194", None),
    ("2026-11-17T07:36", "milk", "FERN-DAIRY", "FD-M-321", 60000, chilled("milk", "2026-11-27", 2.9, "FD-10002"), None),
    ("2026-11-18T07:30", "milk", "FERN-DAIRY", "FD-M-322", 60000, chilled("milk", "2026-11-28", 3.7, "FD-10009"), None),
    ("2026-11-18T07:40", "butter", "FERN-DAIRY", "FD-B-3317", 120000, chilled("milk", "2027-01-25", 3.3, "FD-10009"), None),
    ("2026-11-18T08:20", "egg", "LARK-EGGS", "LE-5540", 60000, chilled("egg", "2026-12-06", 3.1, "LE-3318"), None),
    ("2026-11-18T09:02", "sugar", "COVE-DRY", "Z-911", 100000, "--best-before 2028-07-31 --free --document CD-5588", None),
    ("2026-11-18T10:10", "wheat-flour", "OTTER-MILL", "OM-6731", 1900000,
     f"--best-before 2027-05-11 --contains wheat {MILL}OM-20420", "SW"),
    ("2026-11-19T07:33", "milk", "FERN-DAIRY", "FD-M-323", 60000, chilled("milk", "2026-11-29", 3.0, "FD-10016"), None),
    ("2026-11-19T08:45", "rye-flour", "OTTER-MILL", "OM-6738", 500000,
     f"--best-before 2027-05-15 --contains rye --may-contain wheat {MILL}OM-20431", "SR"),
    ("2026-11-19T09:12", "yeast", "FROTH-YEAST", "FY-479", 45000,
     "--best-before 2026-12-10 --temperature 3.5C --with probe-door --free --document FY-1203", None),
    ("2026-11-20T07:31", "milk", "FERN-DAIRY", "FD-M-324", 60000, chilled("milk", "2026-11-30", 3.9, "FD-10023"), None),
    ("2026-11-20T07:44", "butter", "FERN-DAIRY", "FD-B-3321", 100000, chilled("milk", "2027-01-27", 3.8, "FD-10023"), None),
    ("2026-11-21T08:02", "milk", "FERN-DAIRY", "FD-M-325", 100000, chilled("milk", "2026-12-01", 3.3, "FD-10030"), None),
]

CALIBRATION = {
    "probe-bread": "--method ice --read 0.2C --reference 0C",
    "probe-pastry": "--method ice --read -0.1C --reference 0C",
    "probe-custard": "--method ice --read 0.1C --reference 0C",
    "probe-door": "--method ice --read 0.4C --reference 0C",
    "logger-cold": "--method reference --read 3.4C --reference 3.1C",
    "meter-air": "--method certificate --read 25.3C --reference 25C --note 'certificate MA-26-4'",
    "meter-ph": "--method reference --read 4.02pH --reference 4.01pH",
    "meter-aw": "--method reference --read 0.756aw --reference 0.753aw",
    "scale-pack": "--method reference --read 501g --reference 500g",
}
CALIBRATIONS = [
    ("2026-11-13T13:10", ["probe-bread", "probe-pastry", "probe-custard", "probe-door", "logger-cold", "meter-air", "meter-aw",
                          "scale-pack"]),
    ("2026-11-13T13:40", ["meter-ph"]),
    ("2026-11-14T08:50", ["meter-ph"]),
    ("2026-11-17T09:05", ["meter-ph"]),
    ("2026-11-20T09:05", ["meter-ph"]),
]

# What was read in the days before the first shift, when goods already lay in the cold store, and in that shift, in which nothing is
# laminated or packed yet.
FIRST_LOOKS = [
    ("2026-11-13T13:25", "cold-store cold-air 3.4C --with logger-cold", "store"),
    ("2026-11-13T17:30", "cold-store cold-air 3.1C --with logger-cold", "store"),
    ("2026-11-14T08:55", "cold-store cold-air 2.9C --with logger-cold", "store"),
    ("2026-11-14T17:40", "cold-store cold-air 3.6C --with logger-cold", "day"),
    ("2026-11-15T06:15", "pastry-room pastry-air 13.6C --with meter-air", "pastry"),
    ("2026-11-15T08:10", "pastry-room pastry-air 14.2C --with meter-air", "pastry"),
    ("2026-11-15T08:50", "cold-store cold-air 3.3C --with logger-cold", "store"),
    ("2026-11-15T09:32", "pastry-room pastry-air 14.0C --with meter-air", "pastry"),
]
DETECTOR_CHECKS = [(f"{(235 + 55 * i) // 60:02d}:{(235 + 55 * i) % 60:02d}", "pack early" if i < 5 else "pack late") for i in range(13)]

# When somebody looks at the cold store, and who is in the house then.
COLD_LOOKS = [("01:20", "night"), ("05:05", "night"), ("08:50", "store"), ("12:30", "store"), ("15:00", "day"), ("18:00", "day"),
              ("21:35", "night")]
