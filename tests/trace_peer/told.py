"""What the entries of a book say, read from entry.csv of `peelbook export csv` and from nothing else.

A correction counts from the time it was written. One that says what went in waits for another person, and until then what it takes away
may still be in there (rule 59).
"""
import csv
import json
import sys
import tomllib
from dataclasses import dataclass, field

csv.field_size_limit(sys.maxsize)


def table(folder, name):
    with open(folder / f"{name}.csv", newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


@dataclass
class Told:
    """An entry as it counts now."""
    seq: int
    kind: str
    says: dict
    at: int
    struck: bool = False  # what a correction took away, and nobody else has looked at it yet
    corrected: bool = False

    def get(self, name, otherwise=None):
        return self.says.get(name, otherwise)


@dataclass
class Plan:
    vessels: set = field(default_factory=set)
    supplies: set = field(default_factory=set)
    clock: int = 0  # ms by which two stated times may differ from the truth


def milliseconds(text):
    units = {"ms": 1, "s": 1000, "min": 60_000, "h": 3_600_000}
    number = text.rstrip("abcdefghijklmnopqrstuvwxyz")
    return int(float(number) * units[text[len(number):]])


def read_plan(adoptions):
    plan = Plan()
    for says in adoptions:
        for file in says["files"]:
            toml = tomllib.loads(file["text"])
            plan.vessels |= {one["id"] for one in toml.get("vessel", [])}
            plan.supplies |= {one["id"] for one in toml.get("material", []) if one.get("supply")}
            plan.clock = max(plan.clock, milliseconds(toml.get("site", {}).get("clock_uncertainty", "0s")))
    return plan


def read_book(folder):
    """The plan, and all that was told: what counts, and what was struck and may still be so, in order of time."""
    bodies = [json.loads(row["body"]) for row in table(folder, "entry")]
    decided = {}  # entries countersigned: whether they were refused; the first word counts
    for body in bodies:
        if body["kind"] == "countersigned":
            for seq in body["says"]["entries"]:
                decided.setdefault(seq, body["says"].get("refused", False))
    corrections = {}
    for body in bodies:
        if body["kind"] in ("voided", "amended") and not decided.get(body["seq"], False):
            corrections.setdefault(body["says"]["target"], []).append(body)
    told = []
    for body in bodies:
        if body["kind"] in ("voided", "amended", "countersigned") or decided.get(body["seq"], False):
            continue
        now = Told(body["seq"], body["kind"], body["says"], body["at"])
        for correction in corrections.get(now.seq, []):
            says = correction["says"]
            waits = now and now.kind == "used" and correction["seq"] not in decided and not says.get("undo", False)
            if waits:
                told.append(Told(now.seq, now.kind, now.says, now.at, True))
            if correction["kind"] == "voided":
                now = None
                break
            now = Told(now.seq, now.kind, says["statement"]["says"], says.get("happened", now.at), corrected=True)
        if now:
            told.append(now)
    told.sort(key=lambda one: (one.at, one.seq))
    return read_plan(body["says"] for body in bodies if body["kind"] == "plan-adopted"), told
