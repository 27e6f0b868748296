#!/usr/bin/python3
"""A second tracer beside the program: what it answers about the lots of a book, against what follows from the book's entries alone.

    compare.py PEELBOOK SITE WORK-FOLDER [--most N] [--drills N]
        --most N     so many of the lots are traced, spread over the book; without it all
        --drills N   a drill is opened over so many of the lots, on a copy of the site

Reads entry.csv of `peelbook export csv`; of what the program derived only which batches lack a use (finding.csv) and what is left of a
lot by mass (stock.csv), for the batches that may hold it. Shares nothing with the program but what DEVELOPERS.md says of an entry.
"""
import json
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

from custody import Custody
from reach import bearing_the_same_code, deliveries, reached
from recalls import Recall, may_miss_it
from told import table

MOST_TOLD = 12


class Comparison:
    def __init__(self, program, site, work):
        self.program, self.site = program, site
        shutil.rmtree(work, ignore_errors=True)
        work.mkdir(parents=True)
        self.ask("export", "csv", "--out", str((work / "csv").absolute()))
        self.custody = Custody(work / "csv")
        self.missing = [(row["lot"], row["unit"]) for row in table(work / "csv", "finding")
                        if row["point"] == "missing-use" and row["verdict"] != "0" and not row["cleared_by"] and row["lot"]]
        self.on_hand_mg = {row["lot"]: int(row["on_hand_mg"]) for row in table(work / "csv", "stock")}
        self.names = {row["id"]: row["name"] for row in sorted(table(work / "csv", "plan_item"), key=lambda row: int(row["plan_seq"]))}
        self.faults, self.compared = [], Counter()

    def ask(self, *words):
        done = subprocess.run([self.program, "--site", str(self.site), *words], capture_output=True, text=True, check=False)
        if done.returncode:
            sys.exit(f"{' '.join(words)}: exit {done.returncode}\n{done.stdout}{done.stderr}")
        return done.stdout

    def expect(self, what, found, wanted):
        self.compared[what.split(":")[0]] += 1
        if found == wanted:
            return
        if isinstance(found, (dict, set, Counter)):
            every = set(found) | set(wanted)
            get = (lambda of, key: of.get(key)) if hasattr(found, "get") else (lambda of, key: key in of)
            lines = [f"{key}: found {get(found, key)}, wanted {get(wanted, key)}"
                     for key in sorted(every, key=str) if get(found, key) != get(wanted, key)]
            self.faults.append(f"{what}: " + "; ".join(lines[:4]) + (f"; and {len(lines) - 4} more" if len(lines) > 4 else ""))
        else:
            self.faults.append(f"{what}: found {found!r}, wanted {wanted!r}")

    def codes(self):
        return sorted(self.custody.lots, key=lambda code: self.custody.lots[code].entry)

    # --- lots and traces

    def known_lots(self):
        stated = {row["code"]: (row["kind"], row["item"], row["made_pieces"] or "", row["printed_code"])
                  for row in json.loads(self.ask("ask", "SELECT code, kind, item, made_pieces, printed_code FROM lot", "--json"))}
        wanted = {lot.code: (lot.kind, lot.item, lot.pieces if lot.pieces is not None else "", lot.printed)
                  for lot in self.custody.lots.values()}
        self.expect("lots", stated, wanted)

    def trace(self, code):
        custody = self.custody
        answer = json.loads(self.ask("trace", "forward", code, "--json"))
        reach = reached(custody, [code])
        self.expect(f"reached: forward from {code}", {row["code"]: row["certain"] for row in answer["lots"]}, reach)
        self.expect(f"uses: forward from {code}", self.uses_told(answer),
                    Counter((use.source, use.into, use.entry, use.sure) for lot in reach for use in custody.into[lot]))
        told_of = reach | {lot: False for lot in bearing_the_same_code(custody, reach)}
        self.expect(f"customers: of {code}", self.deliveries_told(answer["customers"], "lot"),
                    self.deliveries_wanted(deliveries(custody, told_of)))
        for row in answer["balance"]:
            lot = custody.lots[row["lot"]]
            if lot.pieces is not None and row["made_pieces"] is not None:
                self.expect(f"balance: of {lot.code}", (row["made_pieces"], row["on_hand_pieces"]), (lot.pieces, lot.on_hand))
        self.expect(f"missing uses: of {code}", {row["code"] for row in answer["possible"]},
                    may_miss_it(custody, [code], reach, self.missing, self.on_hand_mg))
        answer = json.loads(self.ask("trace", "back", code, "--json"))
        self.expect(f"reached: back from {code}", {row["code"]: row["certain"] for row in answer["lots"]}, reached(custody, [code], False))

    def uses_told(self, answer):
        """A lot that is not in the trace is told by the number of the entry that made it."""
        code_of = {str(lot.entry): lot.code for lot in self.custody.lots.values()}
        return Counter((code_of.get(row["from_lot"], row["from_lot"]), row["into_lot"], row["entry"], row["certain"])
                       for row in answer["uses"])

    @staticmethod
    def deliveries_told(rows, lots):
        def parts(text):
            return frozenset(text.split(", ")) - {""}
        return {(row["partner"] or "way " + row["way"], row["printed_code"] or row[lots], row["item"]):
                (row["pieces"], row["returned_pieces"], row["certain"], parts(row["way"]), parts(row[lots]), parts(row["document"]))
                for row in rows}

    def deliveries_wanted(self, by_line):
        return {(to, code, self.names.get(item, item)): (one.pieces, one.returned, one.certain, frozenset(one.ways), frozenset(one.lots),
                                                    frozenset(one.documents))
                for (to, code, item), one in by_line.items()}

    # --- recalls

    def recalls(self):
        for opened in self.custody.told:
            if opened.kind == "recall-opened":
                self.recall(Recall(self.custody, opened, self.missing, self.on_hand_mg))

    def recall(self, wanted):
        code = wanted.code
        view = json.loads(self.ask("drill" if wanted.drill else "recall", "status", code, "--json"))
        self.expect(f"scope: of {code}", {row["code"]: (row["state"], row["certain"]) for row in view["scope"]}, wanted.scope())
        shipped = [row for row in view["customer"] if row["lots"]]  # not what is only said
        self.expect(f"who has it: of {code}", self.deliveries_told(shipped, "lots"), self.deliveries_wanted(wanted.deliveries()))

        def read(row):
            return row["printed_code"] or row["lots"]

        self.expect(f"told: of {code}", {(row["partner"], read(row)) for row in shipped if row["reached"]},
                    wanted.told() & {(row["partner"], read(row)) for row in shipped})
        amounts = {}
        for row in view["customer"]:
            both = amounts.setdefault((row["partner"] or "way " + row["way"], read(row)), [0, 0])
            both[0] += row["open_pieces"]
            both[1] += row["excess_pieces"]
        self.expect(f"open: of {code}", {key: tuple(both) for key, both in amounts.items() if any(both)}, wanted.open_and_excess())
        columns = ("made on_hand shipped moved_on used waste samples open returned destroyed consumed found shipped_open").split()
        self.expect(f"account: of {code}", {row["lot"]: tuple(row[column] for column in columns)
                                            for row in view["account"] if row["quantity"] == "pieces" and row["lot"] in self.custody.lots},
                    wanted.accounts())
        if wanted.is_open and not wanted.drill:
            self.expect(f"held: of {code}", view["to_hold"], [])


def spread(codes, most):
    return codes[::max(1, len(codes) // most)] if most else codes


def with_drills(program, site, work, most):
    """A copy of the site, on which drills are open over some of its lots."""
    first = Comparison(program, site, work)
    copy = work / "site"
    shutil.copytree(site, copy)
    for code in spread(first.codes(), most):
        first.site = copy
        first.ask("drill", "open", code, "--hazard", "wire", "--why", "a test", "--by", "HB")
    return Comparison(program, copy, work / "after")


def main(program, site, work, most, drills):
    site, work = Path(site), Path(work)
    one = with_drills(program, site, work, drills) if drills else Comparison(program, site, work)
    one.known_lots()
    for code in spread(one.codes(), most):
        one.trace(code)
    one.recalls()
    for fault in one.faults[:MOST_TOLD]:
        print(fault)
    print(f"trace peer: {len(one.custody.lots)} lots, compared " + ", ".join(f"{what} {n}" for what, n in sorted(one.compared.items())) +
          f"; {len(one.faults)} wrong")
    return 1 if one.faults or not one.compared["reached"] else 0


if __name__ == "__main__":
    words = sys.argv[1:]
    most, drills = (int(words[words.index(option) + 1]) if option in words else 0 for option in ("--most", "--drills"))
    sys.exit(main(*words[:3], most, drills))
