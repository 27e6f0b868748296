#!/usr/bin/env python3
"""Compares use.csv of `peelbook export csv` with the uses that week.txt states, reckoned here without peelbook.

    python3 check_uses.py use.csv week.txt site

Its own small reckoning: what is left of a lot, what a silo holds after each fill (the plan's heel stays behind at least), and the mass of
k of N pieces by cumulative whole-number division. Prints the first differences and ends with 1 when there is any.
"""
import csv
import shlex
import sys
import tomllib
from collections import Counter
from datetime import datetime
from fractions import Fraction
from pathlib import Path

MILLIGRAMS = {"mg": 1, "g": 1000, "kg": 1000_000}
FLAGS = {"--free", "--possible", "--already-done", "--json"}


def milligrams(text):
    number = text.rstrip("kmg")
    return int(Fraction(number) * MILLIGRAMS[text[len(number):]])


class Lot:
    def __init__(self, mass=0, pieces=0, endless=False):
        self.mass, self.pieces, self.endless = mass, pieces, endless
        self.left, self.taken = mass, 0  # milligrams, pieces

    def take(self, mass=None, pieces=0):
        """The mass that goes: as stated, or the share of the pieces, or all that is left."""
        if mass is None and pieces:
            end = self.taken + pieces
            mass = self.mass * end // self.pieces - self.mass * self.taken // self.pieces
        self.taken += pieces
        mass = self.left if mass is None else mass
        self.left -= mass
        return mass


class Reckoning:
    def __init__(self, plan):
        self.heel = {v["id"]: milligrams(v.get("heel", "0g")) for v in plan["vessel"]}
        self.supplies = {m["id"] for m in plan["material"] if m.get("supply")}
        self.lots, self.holds, self.uses = {}, {}, Counter()  # holds: the blend in each vessel

    def use(self, source, into, mass, pieces, now):
        code = self.holds.get(source, source)
        self.uses[code, into, self.lots[code].take(mass, pieces), now] += 1

    def fill(self, vessel, lot, mass, blend, now):
        mass = self.lots[lot].take(mass)
        made = mass
        self.uses[lot, blend, mass, now] += 1
        if vessel in self.holds:
            old = self.lots[self.holds[vessel]]
            left = max(old.left, self.heel[vessel])
            self.uses[self.holds[vessel], blend, left, now] += 1
            made += left
        self.lots[blend] = Lot(made)
        self.holds[vessel] = blend

    def line(self, words, options, now):
        command, rest = words[0], words[1:]
        mass = milligrams(options["--mass"][0]) if "--mass" in options else None
        pieces = int(options.get("--pieces", ["0"])[0])
        if command == "receive":
            self.lots[options["--code"][0]] = Lot(mass or 0, pieces, rest[0] in self.supplies)
        elif command == "fill":
            self.fill(rest[0], rest[1], None if rest[2] == "rest" else milligrams(rest[2]), options["--code"][0], now)
        elif command == "start":
            self.lots[options["--code"][0]] = Lot()
        elif command == "finish":
            self.lots[rest[0]].__init__(mass, pieces)
        elif command == "use":
            amount = rest[1]
            counted = int(amount.removesuffix("pcs")) if amount.endswith("pcs") else 0
            stated = None if counted or amount == "rest" else milligrams(amount)
            self.use(rest[0], options["--into"][0], stated, counted, now)
        elif command == "split":
            for part in options["--part"]:
                rack, amount = part.split("=")
                mass = self.lots[rest[0]].take(None if amount == "rest" else milligrams(amount))
                self.uses[rest[0], f"{rest[0]}/{rack}", mass, now] += 1
                self.lots[f"{rest[0]}/{rack}"] = Lot(mass)
        elif command == "pack":
            pack = Lot()
            for part in rest:
                code, count = part.split("=")
                mass = self.lots[code].take(None, int(count))
                self.uses[code, options["--code"][0], mass, now] += 1
                pack.mass += mass
                pack.pieces += int(count)
            self.lots[options["--code"][0]] = pack
        elif command == "discard" and rest[1] == "rest":
            self.lots[rest[0]].take()
        elif command == "count":
            self.lots[rest[0]].left = milligrams(rest[1])


def taken_apart(line):
    """The words of a command, and its options with their values."""
    words, options = [], {}
    parts = iter(shlex.split(line, comments=True))
    for part in parts:
        if not part.startswith("--"):
            words.append(part)
        elif part in FLAGS:
            options[part] = []
        else:
            options.setdefault(part, []).append(next(parts))
    return words, options


def stated_uses(week, plan):
    reckoning = Reckoning(plan)
    for line in week.read_text().splitlines():
        words, options = taken_apart(line)
        if not words:
            continue
        now = int(datetime.fromisoformat(words[0]).timestamp() * 1000)
        if "--at" in options and words[1] in ("use", "fill", "pack", "split", "finish", "discard"):
            raise SystemExit(f"a flow at another time than its line is not reckoned here: {line}")
        reckoning.line(words[1:], options, now)
    return reckoning.uses


def read_plan(site):
    plan = {}
    for file in sorted(Path(site).glob("*.toml")):
        for section, rows in tomllib.loads(file.read_text()).items():
            plan[section] = rows
    return plan


def main(use_csv, week, site):
    stated = stated_uses(Path(week), read_plan(site))
    with open(use_csv, newline="") as file:
        booked = Counter((row["from_lot"], row["into_lot"], int(row["mass_mg"]), int(row["happened"])) for row in csv.DictReader(file))
    for which, differ in (("only in the command file", stated - booked), ("only in the book", booked - stated)):
        for use in sorted(differ)[:5]:
            print(f"{which}: {use[0]} into {use[1]}, {use[2]} mg, {use[3]}")
    print(f"{sum(booked.values())} uses in the book, {sum(stated.values())} in the command file,"
          f" {sum(((stated - booked) + (booked - stated)).values())} differ")
    return 1 if stated != booked or not stated else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:4]))
