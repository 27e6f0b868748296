"""The bench: the lines as they are typed, the stock behind them, and what every batch has in common. See make_week.py."""
import heapq
import itertools
import random
from datetime import datetime, time, timedelta

import bakery
from bakery import FORMULAS, SILOS

chance = random.Random(20261116)  # the scatter of hands, scales and ovens
making = random.Random(20261117)  # that of the making itself: one more point there moves no weight and no core
trade = random.Random(20261118)   # that of ovens, folds and flats, likewise


def kg(grams):
    if grams < 1000:
        return f"{grams}g"
    return f"{grams / 1000:.3f}".rstrip("0").rstrip(".") + "kg"


def weighed(grams):
    """What the scale showed when `grams` were wanted."""
    if grams >= 5000:
        return round(grams * chance.uniform(0.997, 1.003) / 10) * 10
    if grams >= 500:
        return round(grams * chance.uniform(0.996, 1.004) / 5) * 5
    return grams + chance.choice((-1, 0, 0, 0, 1))


def between(low, high, decimals=1):
    return f"{chance.uniform(low, high):.{decimals}f}"


def about(low, high, decimals=1):
    return f"{making.uniform(low, high):.{decimals}f}"


def ymd(day):
    return day.strftime("%y%m%d")


class Book:
    """The lines as they are typed, with the number that each entry will have in the book."""

    def __init__(self, entries_before):
        self.agenda, self.order = [], itertools.count()
        self.lines, self.entries = [], entries_before
        self.now = None
        self.number = {}  # of the entry that made a lot

    def at(self, when, action, *details):
        heapq.heappush(self.agenda, (when, next(self.order), action, details))

    def say(self, text, by, makes=None, entries=1):
        self.lines.append(f"{self.now.strftime('%Y-%m-%dT%H:%M')}+01:00 {text} --by {by}")
        self.entries += entries
        if makes:
            self.number[makes] = self.entries

    def remark(self, text):
        self.lines.append(f"# {text}")

    def work_off(self):
        while self.agenda:
            self.now, _, action, details = heapq.heappop(self.agenda)
            action(*details)


class Store:
    """What is on hand, first in first out, in grams."""

    def __init__(self, book):
        self.book, self.lots = book, {}

    def put(self, item, lot, grams):
        self.lots.setdefault(item, []).append([lot, grams])

    def take(self, item, grams, into, by):
        if item in SILOS:
            self.book.say(f"use {SILOS[item]} {kg(grams)} --into {into}", by)
            return
        while grams > 0:
            if not self.lots.get(item):
                raise SystemExit(f"{self.book.now}: no {item} left for {into}, {kg(grams)} short")
            lot = self.lots[item][0]
            if lot[1] > grams:
                lot[1] -= grams
                self.book.say(f"use {lot[0]} {kg(grams)} --into {into}", by)
                return
            self.book.say(f"use {lot[0]} rest --into {into}", by)
            grams -= lot[1]
            self.lots[item].pop(0)

    def reserve(self, item):
        """The next whole lot, which nobody else will take."""
        return self.lots[item].pop(0)[0]


class Bench:
    """What is on hand and on its way, and the parts that every batch has."""

    def __init__(self):
        self.book = Book(entries_before=2)  # the opening of the book and its first person
        self.store = Store(self.book)
        self.batches = {}     # (code, day): how many so far
        self.packs = {}       # (code, day): how many so far
        self.on_hand = {}     # pack: pieces
        self.shipped = {}     # pack: [(customer, pieces)]
        self.set_aside = None  # (batch of rye, pieces) for the next day's dough

    # --- small tools

    def later(self, minutes, action, *details):
        self.book.at(self.book.now + timedelta(minutes=minutes), action, *details)

    def say_later(self, minutes, text, by):
        self.later(minutes, self.book.say, text, by)

    def next_code(self, code, day):
        self.batches[code, day] = self.batches.get((code, day), 0) + 1
        return f"{code}-{ymd(day)}-{self.batches[code, day]}"

    def start(self, product, code, size, by):
        lot = self.next_code(code, self.book.now.date())
        self.book.say(f"start {product} {size}--code {lot}", by, makes=lot)
        return lot

    def use_formula(self, product, flour, lot, by, first=1, leave_out=()):
        minute = first
        for item, percent in FORMULAS[product]:
            if item not in leave_out:
                self.later(minute, self.store.take, item, weighed(round(flour * percent / 100)), lot, by)
                minute += chance.choice((0, 1))
        return minute

    def finish(self, lot, pieces, piece_grams, by, spoiled=""):
        mass = round(pieces * piece_grams * chance.uniform(0.996, 1.004) / 100) * 100
        self.book.say(f"finish {lot} --pieces {pieces} --mass {kg(mass)}{spoiled}", by)

    def label_and_pack(self, lot, product, code, pieces, by, packs=None, keep_days=4):
        """The packer's part, from now on: first pack, last pack, the entry of the run."""
        label = f"{product}-1"
        self.book.say(f"inspect {lot} label-check yes --unit 'first pack'", by)
        self.say_later(8, f"inspect {lot} label-check yes --unit 'last pack'", by)
        self.later(9, self.pack, lot, label, code, pieces, by, packs, keep_days)

    def pack(self, lot, label, code, pieces, by, packs, keep_days):
        day = self.book.now.date()
        self.packs[code, day] = self.packs.get((code, day), 0) + 1
        pack = f"{code}-P{ymd(day)}-{self.packs[code, day]}"
        printed = f"{code}{day.timetuple().tm_yday}"
        count = f" --packs {packs}" if packs else ""
        self.book.say(f"pack {lot}={pieces} --label {label} --printed {printed} --date {day + timedelta(days=keep_days)}{count}"
                      f" --code {pack}", by, makes=pack)
        self.on_hand[pack] = packs or pieces
        if code == "TL" and pack.endswith("-1"):
            self.on_hand[pack] -= 2  # they wait for quality on the shelf
            self.book.at(datetime.combine(day, time(8, 35)), self.book.say, f"sample {pack} 2pcs --why 'shelf-life shelf'",
                         who("quality", day))


def who(shift, day):
    return bakery.ROSTER[shift][1 if day.weekday() >= 5 else 0]
