#!/usr/bin/env python3
"""Compares a forward trace with the reach of the uses that week.txt states, found here without peelbook, and says what it crosses.

    python3 check_trace.py trace.json week.txt site LOT
"""
import json
import sys
from collections import defaultdict
from pathlib import Path

from check_uses import read_plan, stated_uses


def reach(uses, lot):
    into = defaultdict(set)
    for source, made, _, _ in uses:
        into[source].add(made)
    found, waiting = set(), [lot]
    while waiting:
        here = waiting.pop()
        if here not in found:
            found.add(here)
            waiting.extend(into[here])
    return found


def main(trace, week, site, lot):
    uses = stated_uses(Path(week), read_plan(site))
    stated = reach(uses, lot)
    answer = json.loads(Path(trace).read_text())
    told = {entry["code"] for entry in answer["lots"]} | {lot}
    feedings = sorted(code for code in stated if code.startswith("LV-2611") and "LV-261116" <= code)
    rework = [(a, b) for a, b, _, _ in uses if a.startswith("QR-") and b.startswith("RD-") and a in stated]
    silos = [code for code in stated if code.startswith("SR-")]
    print(f"{lot} reaches {len(stated) - 1} lots: {len(silos)} fills of the rye silo, {len(feedings)} leaven feedings of the week, "
          f"{len(rework)} doughs with rework")
    names = {row["partner"] for row in answer["customers"] if row["partner"]}
    print(f"{sum(row['pieces'] or 0 for row in answer['customers'])} pieces of it left the house, to {len(names)} customers and the own shop; "
          f"{sum(row['on_hand_pieces'] or 0 for row in answer['lots'])} pieces are still here")
    for which, differ in (("not traced", stated - told), ("traced, and not stated", told - stated)):
        if differ:
            print(f"{which}: {', '.join(sorted(differ)[:10])}")
    return 0 if stated == told and silos and len(feedings) == 7 and rework else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:5]))
