#!/usr/bin/python3
"""Every number of the weekly workbook equals the book's.

    weekly_read_back.py PEELBOOK SITE WEEK WORK-FOLDER

Writes the workbook, lets LibreOffice open it and save it again, reads that copy with openpyxl and compares it with the book's
tables, read through Python's own sqlite3: neither the program's SQL nor its workbook code is used twice.
"""
import json
import re
import shutil
import sqlite3
import subprocess
import sys
from collections import Counter
from pathlib import Path

import openpyxl
from openpyxl.utils.cell import range_boundaries

program, site, week, work = sys.argv[1], Path(sys.argv[2]), sys.argv[3], Path(sys.argv[4])
week_number = int(week[:4]) * 100 + int(week[6:])
verdicts = ["within", "unproven", "missing", "deviation"]
faults = []


def expect(what, found, wanted):
    if found != wanted:
        faults.append(f"{what}: the workbook has {found!r}, the book {wanted!r}")


def through_libreoffice(workbook):
    """The copy that LibreOffice makes after opening the file."""
    soffice = shutil.which("soffice") or shutil.which("libreoffice")
    if not soffice:
        sys.exit("LibreOffice is not installed: apt-get install libreoffice-calc")
    copies = work / "opened"
    copies.mkdir()
    profile = "-env:UserInstallation=" + (work / "profile").absolute().as_uri()
    subprocess.run([soffice, profile, "--headless", "--convert-to", "xlsx", "--outdir", str(copies), str(workbook)],
                   check=True, capture_output=True, timeout=300)
    return copies / workbook.name


def rows_of(book, sheet, first):
    """The rows below the header that begins with `first`, as dictionaries by heading without its unit."""
    lines = [list(row) for row in book[sheet].iter_rows(values_only=True)]
    at = next(i for i, row in enumerate(lines) if row and row[0] == first)
    heads = [str(h).replace("\n", " ") if h is not None else "" for h in lines[at]]
    return [dict(zip(heads, row)) for row in lines[at + 1:] if any(cell is not None for cell in row)]


def close(a, b):
    return a is not None and b is not None and abs(a - b) < 1e-9 * max(1.0, abs(b))


def check_number(what, found, wanted):
    if wanted is None and found is None:
        return
    if not (isinstance(found, (int, float)) and wanted is not None and close(found, wanted)):
        faults.append(f"{what}: the workbook has {found!r}, the book {wanted!r}")


def check_summary(book, db):
    lines = list(book["Summary"].iter_rows(values_only=True))
    by_grade = {}
    for grade, verdict, number in db.execute(
            "SELECT grade, verdict, count(*) FROM finding WHERE week = ? GROUP BY 1, 2", (week_number,)):
        by_grade.setdefault(grade, Counter())[verdicts[verdict]] = number
    seen = 0
    for row in lines:
        cells = [c for c in row if c is not None]
        if not cells or not str(cells[0]).startswith("All "):
            continue
        grade = str(cells[1])
        counts = by_grade.get(grade, Counter())
        numbers = [0 if c in ("–", "-") else c for c in cells[2:7]]
        expect(f"Summary, {grade}", numbers, [sum(counts.values())] + [counts[v] for v in verdicts])
        seen += 1
    expect("Summary, classes", seen, len(by_grade))


def check_readings(book, db):
    shown = rows_of(book, "Readings", "Entry")
    scale = {"C": 1000, "%": 1000, "pH": 1000, "g": 1000, "kg": 1_000_000, "min": 60_000, "mm": 1000}
    kept = {}
    for seq, typed, value in db.execute("SELECT seq, typed, value FROM reading"):
        kept[(seq, typed)] = value
    for row in shown:
        key = (row["Entry"], row["As typed"])
        if key not in kept:
            faults.append(f"Readings: entry {key} is not in the book")
            continue
        if row["Unit"] in scale and row["Number"] is not None:  # the sheet names the unit it shows
            check_number(f"Readings, entry {row['Entry']}", row["Number"], kept[key] / scale[row["Unit"]])
    wanted = db.execute(
        "SELECT count(*) FROM reading r LEFT JOIN lot ON lot.id = r.lot WHERE lot.week = ?", (week_number,)).fetchone()[0]
    of_lots = sum(1 for row in shown if db.execute("SELECT 1 FROM lot WHERE code = ?", (row["Lot or place"],)).fetchone())
    expect("Readings of lots, rows", of_lots, wanted)


def check_batches(book, db):
    shown = rows_of(book, "Batches", "Batch")
    kept = {code: row for code, *row in db.execute(
        "SELECT code, input_mg, made_mg, made_pieces FROM lot WHERE kind = 'batch' AND week = ?", (week_number,))}
    expect("Batches", sorted(row["Batch"] for row in shown), sorted(kept))
    for row in shown:
        put_in, made, pieces = kept.get(row["Batch"], (None, None, None))
        check_number(f"{row['Batch']} inputs", row["Inputs kg"], None if put_in is None else put_in / 1e6)
        check_number(f"{row['Batch']} made", row["Made kg"], None if made is None else made / 1e6)
        check_number(f"{row['Batch']} pieces", row["Made pieces"], pieces)
        if made is not None:
            check_number(f"{row['Batch']} loss", row["Loss kg"], (put_in - made) / 1e6)


def check_received(book, db):
    kept = {code: mass for code, mass in db.execute("SELECT code, made_mg FROM lot WHERE week = ?", (week_number,))}
    shown = rows_of(book, "Received lots", "Lot")
    for row in shown:
        check_number(f"{row['Lot']} mass", row["Mass kg"], None if kept.get(row["Lot"]) is None else kept[row["Lot"]] / 1e6)
    expect("Received lots, rows", len(shown), db.execute(
        "SELECT count(*) FROM lot WHERE kind IN ('received', 'supply') AND week = ?", (week_number,)).fetchone()[0])


def check_out_and_back(book, db):
    kept = {(seq, code): (mass, pieces) for seq, code, mass, pieces in db.execute(
        "SELECT m.seq, lot.code, m.mass_mg, m.pieces FROM move m JOIN lot ON lot.id = m.lot")}
    for row in rows_of(book, "Out and back", "Entry"):
        mass, pieces = kept[(row["Entry"], row["Lot"])]
        check_number(f"move {row['Entry']} mass", row["Mass kg"], None if mass is None else mass / 1e6)
        check_number(f"move {row['Entry']} pieces", row["Pieces"], pieces)


def check_curves(book, db):
    kept = Counter((code, round(value / 1000, 3)) for code, value in db.execute(
        "SELECT lot.code, r.value FROM reading r JOIN lot ON lot.id = r.lot WHERE r.symbol IN ('C', 'F')"))
    for sheet, first, code, number in (("Cooling curves", "Curve", "Curve", "Measured C"),
                                       ("Bake cores", "Product", "Batch", "Core C")):
        for row in rows_of(book, sheet, first):
            if row.get(number) is None or row[code] in (None, "limit", "Limit"):
                continue
            if kept[(row[code], round(row[number], 3))] == 0:
                faults.append(f"{sheet}: {row[number]} of {row[code]} is no reading of the book")


def individuals(values):
    """Centre and control lines of individuals, and the moving ranges' mean and upper line, with the printed constants."""
    moving = [abs(b - a) for a, b in zip(values, values[1:])]
    mean, spread = sum(values) / len(values), sum(moving) / len(moving)
    width = 3 * spread / 1.128  # d2 of two: ISO 7870-2
    return {"Centre line": mean, "Lower control line": mean - width, "Upper control line": mean + width,
            "Mean range": spread, "Its upper line": 3.267 * spread}  # D4 of two


def charted_readings(db, point, product, unit, scale):
    """The values of a group as the book's readings have them: of lots that began in the four weeks, or of a place."""
    if product is None:
        return [value / scale for (value,) in db.execute(
            "SELECT value FROM reading WHERE point = ? AND place <> '' AND voided_by IS NULL ORDER BY happened, seq", (point,))]
    return [value / scale for (value,) in db.execute(
        "SELECT r.value FROM reading r JOIN lot ON lot.id = r.lot WHERE r.point = ? AND lot.item = ? AND r.unit = ? AND lot.week "
        "BETWEEN ? AND ? AND r.voided_by IS NULL AND r.symbol <> '' AND r.seq NOT IN (SELECT seq FROM series) "
        "ORDER BY r.happened, r.seq, r.row", (point, product, unit, week_number - 3, week_number))]


def charted_times(db, product, begin, end, ms):
    """Time between two events of each batch in units of `ms`, from the entries themselves."""
    done = {}
    for body, happened in db.execute("SELECT e.body, f.happened FROM entry e JOIN fact f ON f.seq = e.seq "
                                     "WHERE f.kind = 'step-done' AND f.voided_by IS NULL"):
        says = json.loads(body)["says"]
        done[(says["lot"], says["step"])] = happened
    finished = {}  # ends the last step, where nobody recorded its end by itself
    for body, happened in db.execute("SELECT e.body, f.happened FROM entry e JOIN fact f ON f.seq = e.seq "
                                     "WHERE f.kind = 'finished' AND f.voided_by IS NULL"):
        finished[json.loads(body)["says"]["lot"]] = happened
    minutes = []
    for code, started in db.execute("SELECT code, happened FROM lot WHERE kind = 'batch' AND item = ? AND week BETWEEN ? AND ?",
                                    (product, week_number - 3, week_number)):
        first = started if begin == "start" else done.get((code, begin))
        last = done.get((code, end), finished.get(code))
        if first is not None and last is not None:
            minutes.append((last, (last - first) / ms))
    return [value for _, value in sorted(minutes, key=lambda m: m[0])]


def charted_losses(db, product, before, after):
    """Percent lost from one weighing of a batch to another: each the mean of its readings."""
    def weighed(point):
        return {lot: (mean, last) for lot, mean, last in db.execute(
            "SELECT r.lot, avg(r.value), max(r.happened) FROM reading r JOIN lot ON lot.id = r.lot WHERE r.point = ? AND "
            "lot.item = ? AND lot.week BETWEEN ? AND ? AND r.voided_by IS NULL GROUP BY r.lot",
            (point, product, week_number - 3, week_number))}
    heavy, light = weighed(before), weighed(after)
    lost = [(light[lot][1], (mean - light[lot][0]) / mean * 100) for lot, (mean, _) in heavy.items() if lot in light]
    return [round(value, 3) for _, value in sorted(lost)]  # the judge measures thousandths of a percent


def charted_by_limit(db, point, limit, product, unit, shown_in):
    """The values of a group, by what its limit is about."""
    if between := re.match(r"(\S+) to (\S+): ", limit):
        return charted_times(db, product, *between.groups(), {"min": 60_000, "h": 3_600_000}[shown_in])
    if lost := re.search(r" lost from (\S+) to (\S+)$", limit):
        return charted_losses(db, product, *lost.groups())
    scale = {"C": 1000, "%": 1000, "pH": 1000, "mm": 1000, "pcs": 1, "min": 60_000}[shown_in]
    return charted_readings(db, point, product or None, unit, scale)


def check_control_charts(book, db):
    """Every line of every charted group, reckoned here from the book's readings."""
    points = {name: (point, limit) for name, point, limit in db.execute("SELECT name, id, limit_text FROM plan_point")}
    groups = {}
    for row in rows_of(book, "Control charts", "Control point"):
        groups.setdefault((row["Control point"], row["Product, oven"]), []).append(row)
    for (name, group), rows in groups.items():
        if group and group.startswith("daily mean"):
            continue
        point, limit = points[name]
        product, _, unit = (group or "").partition(", ")
        kept = charted_by_limit(db, point, limit, product, unit, rows[0]["Unit"])
        what = f"Control charts, {name}, {group}"
        if not kept:
            faults.append(f"{what}: the book has no such readings")
            continue
        expect(f"{what}, values", [round(row["Value"], 6) for row in rows], [round(value, 6) for value in kept])
        for heading, line in individuals(kept).items():
            for row in rows:
                check_number(f"{what}, {heading}", row[heading], line)
        for row, before, value in zip(rows[1:], kept, kept[1:]):
            if not close(row["Moving range"], abs(value - before)) and abs(row["Moving range"] - abs(value - before)) > 1e-9:
                faults.append(f"{what}: a moving range of {row['Moving range']}, reckoned {abs(value - before)}")


def check_figures(book, db):
    """What is charted is said of every group; each point that the plan marks and that has values is there, in its limit's unit."""
    shown = [row for row in rows_of(book, "Process figures", "Control point") if row["Values"] is not None]
    for row in shown:
        words, unit = row["Charted"], row["Unit"]
        starts = {"min": ("minutes from ",), "h": ("hours from ",), "%": ("percent lost from ",)}
        fits = words.startswith(starts.get(unit, ())) or f", in {unit}, each " in words
        expect(f"Process figures, {row['Control point']}, what is charted", fits, True)
    by_unit = Counter(row["Unit"] for row in shown)
    expect("Process figures, units of what is charted", sorted(by_unit), ["%", "C", "h", "min", "mm", "pcs"])


def check_drawn_lines(book):
    """Each charted point has a chart of its own, and for each group it draws the value, the centre line and both control lines."""
    sheet = book["Control charts"]
    lines = [list(row) for row in sheet.iter_rows(values_only=True)]
    top = next((i for i, row in enumerate(lines) if row and row[0] == "Control point"), 0)
    heads = [str(h) for h in lines[top]]
    stretches = {}  # of each point: the rows of its groups, as the sheet numbers them
    for number, row in enumerate(lines[top + 1:], start=top + 2):
        if len(row) > 5 and isinstance(row[5], (int, float)):
            first, _ = stretches.setdefault(row[0], {}).get(row[1], (number, number))
            stretches[row[0]][row[1]] = (first, number)
    expect("Control charts, charts", len(sheet._charts), len(stretches))
    for (point, groups), chart in zip(stretches.items(), sorted(sheet._charts, key=lambda c: (c.anchor._from.row, c.anchor._from.col))):
        drawn = Counter()
        for series in chart.series:
            left, above, right, below = range_boundaries(series.yVal.numRef.f.split("!")[1].replace("$", ""))
            drawn[(heads[left - 1] if left == right else "several columns", (above, below))] += 1
        wanted = Counter({(heading, rows): 1 for rows in groups.values()
                          for heading in ("Value", "Centre line", "Lower control line", "Upper control line")})
        expect(f"Control charts, {point}, lines drawn", drawn, wanted)


def main():
    shutil.rmtree(work, ignore_errors=True)
    work.mkdir(parents=True)
    made = work / "weekly.xlsx"
    subprocess.run([program, "--site", str(site), "report", "weekly", "--week", week, "--out", str(made)], check=True,
                   capture_output=True)
    book = openpyxl.load_workbook(through_libreoffice(made), data_only=True)
    db = sqlite3.connect(f"file:{site / 'book.db'}?mode=ro", uri=True)
    for check in (check_summary, check_readings, check_batches, check_received, check_out_and_back, check_curves, check_control_charts,
                  check_figures):
        check(book, db)
    check_drawn_lines(openpyxl.load_workbook(made))
    numbers = sum(1 for sheet in book for row in sheet.iter_rows(values_only=True) for c in row if isinstance(c, (int, float)))
    for fault in faults[:20]:
        print(fault)
    print(f"{numbers} numbers in {len(book.sheetnames)} sheets, {len(faults)} wrong")
    sys.exit(1 if faults or numbers == 0 else 0)


main()
