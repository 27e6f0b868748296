#!/usr/bin/python3
"""A drill over the flour lot of the example, played through the built program; its workbook, opened by LibreOffice, says what the book says.

    recall_read_back.py PEELBOOK SITE LOT WORK-FOLDER

Works on a copy of the recorded site. What is covered and who has it is reckoned here from the book's tables `use`, `lot` and `move`
alone; every reconciliation row must add up in decimal arithmetic; every page says DRILL, prints the caution, and after closing says
what is not accounted for.
"""
import json
import shutil
import sqlite3
import subprocess
import sys
from collections import defaultdict
from decimal import Decimal
from pathlib import Path

import openpyxl

program, recorded, lot, work = sys.argv[1], Path(sys.argv[2]), sys.argv[3], Path(sys.argv[4])
site = work / "site"
faults = []


def expect(what, found, wanted):
    if found != wanted:
        faults.append(f"{what}: found {found!r}, wanted {wanted!r}")


def peelbook(*words, status=0):
    done = subprocess.run([program, "--site", str(site), *words], capture_output=True, text=True)
    expect("exit of " + " ".join(words[:3]) + " " + done.stderr, done.returncode, status)
    return done.stdout


def through_libreoffice(workbook):
    soffice = shutil.which("soffice") or shutil.which("libreoffice")
    if not soffice:
        sys.exit("LibreOffice is not installed: apt-get install libreoffice-calc")
    copies = work / "opened"
    profile = "-env:UserInstallation=" + (work / "profile").absolute().as_uri()
    subprocess.run([soffice, profile, "--headless", "--convert-to", "xlsx", "--outdir", str(copies), str(workbook)],
                   check=True, capture_output=True, timeout=300)
    return openpyxl.load_workbook(copies / workbook.name, data_only=True)


def rows_of(book, sheet, first):
    """The rows below the header that begins with `first`, each a list, with the headings."""
    lines = [list(row) for row in book[sheet].iter_rows(values_only=True)]
    at = next(i for i, row in enumerate(lines) if row and row[0] is not None and str(row[0]).split("\n")[0] == first)
    heads = [str(h).replace("\n", " ") if h is not None else "" for h in lines[at]]
    return heads, [row for row in lines[at + 1:] if any(cell is not None for cell in row)]


def reached(db):
    """Everything made from the lot, and packs that share a printed code with some of it."""
    into = defaultdict(list)
    for source, made in db.execute("SELECT from_lot, into_lot FROM use"):
        into[source].append(made)
    found, waiting = set(), [row[0] for row in db.execute("SELECT id FROM lot WHERE code = ?", (lot,))]
    while waiting:
        here = waiting.pop()
        if here not in found:
            found.add(here)
            waiting.extend(into[here])
    printed = {row[0]: row[1] for row in db.execute("SELECT id, printed_code FROM lot WHERE printed_code <> ''")}
    codes = {printed[one] for one in found if one in printed}
    return found | {one for one, code in printed.items() if code in codes}


def deliveries(db, lots):
    """Pieces by customer and printed code."""
    pieces = defaultdict(int)
    for one, partner, number, printed in db.execute(
            "SELECT m.lot, m.partner, m.pieces, l.printed_code FROM move m JOIN lot l ON l.id = m.lot "
            "WHERE m.way NOT IN ('waste', 'sample', 'returned') AND m.of_returned = 0"):
        if one in lots:
            pieces[(partner, printed)] += number or 0
    return dict(pieces)


def check_pages(book, words):
    for sheet in book:
        page = " ".join(str(part.text) for part in (sheet.oddHeader.left, sheet.oddHeader.center, sheet.oddHeader.right) if part.text)
        foot = " ".join(str(part.text) for part in (sheet.oddFooter.left, sheet.oddFooter.center, sheet.oddFooter.right) if part.text)
        screen = " ".join(str(cell) for row in sheet.iter_rows(max_row=40, values_only=True) for cell in row if cell is not None)
        for word in words:
            expect(f"{sheet.title}: '{word}' on the page", word in page + foot, True)
            expect(f"{sheet.title}: '{word}' on the screen", word in screen, True)
        expect(f"{sheet.title}: caution", "validates the plan" in foot, True)


def check_reconciliation(book):
    heads, rows = rows_of(book, "Reconciliation", "Lot")
    at = {name: i for i, name in enumerate(heads)}
    for row in rows:
        number = {name: Decimal(str(row[i])) for name, i in at.items() if name not in ("Lot", "Item", "In", "Closes")}
        here = sum(number[n] for n in ("On hand", "Shipped", "Moved on", "Used", "Waste", "Samples", "Not accounted for"))
        there = sum(number[n] for n in ("Returned", "Destroyed", "Used up", "Found there", "Shipped, not accounted for"))
        expect(f"{row[0]} {row[at['In']]}: made", here, number["Made"])
        expect(f"{row[0]} {row[at['In']]}: shipped", there, number["Shipped"])
    return len(rows)


def main():
    shutil.rmtree(work, ignore_errors=True)
    shutil.copytree(recorded, site)
    holds = "SELECT count(*) FROM hold"
    db = sqlite3.connect(site / "book.db")
    before = db.execute(holds).fetchone()
    peelbook("drill", "open", lot, "--hazard", "sieve wire", "--level", "B", "--percent", "50%", "--seed", "3", "--why", "a test", "--by", "HB")
    covered, had = reached(db), deliveries(db, reached(db))
    view = json.loads(peelbook("drill", "status", "--json"))
    code = view["code"]
    expect("it is a drill", (view["drill"], view["stamp"], code[:6]), (True, "DRILL", "DRILL-"))
    codes = {row[0]: row[1] for row in db.execute("SELECT code, id FROM lot")}
    expect("lots covered", {codes[row["code"]] for row in view["scope"] if codes[row["code"]] in covered}, covered)
    expect("covered besides, all possible", [row["code"] for row in view["scope"] if codes[row["code"]] not in covered and row["certain"]], [])
    told = {(row["partner"], row["printed_code"]): row["pieces"] for row in view["customer"] if row["partner"]}
    expect("who has what", {key: told.get(key) for key, pieces in had.items() if key[0]}, {key: pieces for key, pieces in had.items() if key[0]})
    partner, printed = sorted(key for key in had if key[0] and had[key] > 3)[0]
    peelbook("drill", "contact", code, partner, "reached", "--how", "telephone", "--by", "HB")
    peelbook("drill", "count", code, printed, "used", f"{had[(partner, printed)]}pcs", "--from", partner, "--by", "HB")
    peelbook("drill", "tell", code, "authority", "--how", "form filled in, not sent", "--by", "HB")
    made = work / "drill.xlsx"
    peelbook("drill", "status", code, "--out", str(made))
    book = through_libreoffice(made)
    check_pages(book, ["DRILL"])
    heads, rows = rows_of(book, "Lots", "Lot")
    expect("sheet Lots", {row[0] for row in rows}, {row["code"] for row in view["scope"]})
    heads, rows = rows_of(book, "Customers", "Customer")
    expect("sheet Customers, pieces", sum(row[heads.index("Pieces")] or 0 for row in rows), sum(row["pieces"] for row in view["customer"]))
    heads, rows = rows_of(book, "Contact log", "When")
    expect("sheet Contact log", [row[heads.index("What")] for row in rows], ["opened", "contacted", "counted", "told"])
    heads, rows = rows_of(book, "Letters", "To")
    expect("sheet Letters", len(rows), len({key[0] for key in told}))
    accounts = check_reconciliation(book)
    peelbook("drill", "close", code, "--by", "HB", status=2)
    peelbook("drill", "close", code, "--why", "customers were not asked to count", "--by", "HB")
    peelbook("drill", "status", code, "--out", str(work / "closed.xlsx"))
    check_pages(through_libreoffice(work / "closed.xlsx"), ["DRILL", "NOT ACCOUNTED FOR"])
    expect("holds", db.execute(holds).fetchone(), before)
    peelbook("verify", "--derived")
    for fault in faults[:20]:
        print(fault)
    print(f"{code}: {len(covered)} lots, {len(told)} deliveries, {accounts} accounts, {len(faults)} wrong")
    sys.exit(1 if faults or accounts == 0 else 0)


main()
