"""How each product is made in the two weeks: one method a product, from the start of the batch on. See make_week.py."""
from datetime import date, timedelta

import bakery
from bench import Bench, about, between, chance, kg, making, trade, weighed, who
from stories import (BACK_IN, CORE_FROM_MEMORY, CORE_FROM_SLIP, DROPPED, DRY_PROOF, FEW_FLATS, LAST_DAY, LATE_READING, MISTYPED, NEARLY_WARM,
                     NO_CORE, SLOW_TRAY, STILL_WAITING, THIN_TRAY, UNDERBAKED)


class Products(Bench):
    def leaven(self):
        day, by = self.book.now.date(), who("day", self.book.now.date())
        lot = self.start("rye-leaven", "LV", "--flour 16kg ", by)
        if self.store.lots.get("rye-leaven"):
            self.later(1, self.store.take, "rye-leaven", weighed(3520), lot, by)
            self.later(2, self.clear_old_leaven, by)
        self.later(3, self.store.take, "rye-flour", weighed(16000), lot, by)
        self.later(3, self.store.take, "water", weighed(15200), lot, by)
        self.say_later(8, f"reading {lot} leaven-warmth {between(26, 29)}C --with probe-bread", by)
        self.say_later(9, f"step {lot} feed", by)
        self.say_later(250, f"reading {lot} leaven-souring {about(4.45, 4.8, 2)}pH --with meter-ph", by)
        self.say_later(445, f"reading {lot} leaven-souring {about(3.88, 4.1, 2)}pH --with meter-ph", by)
        self.say_later(446, f"reading {lot} leaven-acid {between(3.86, 4.12, 2)}pH --with meter-ph", by)
        grams = round((34500 if day > date(2026, 11, 14) else 31000) * chance.uniform(0.992, 0.998) / 10) * 10
        self.later(450, self.ready, lot, "rye-leaven", grams, by)

    def ready(self, lot, item, grams, by):
        self.book.say(f"finish {lot} --mass {kg(grams)}", by)
        self.store.put(item, lot, grams)

    def clear_old_leaven(self, by):
        for item, why in (("rye-leaven", "old leaven, fed on"), ("rye-scald", "scald left over")):
            for lot, grams in self.store.lots.get(item, []):
                if grams > 0:
                    self.book.say(f"discard {lot} rest --why '{why}'", by)
            self.store.lots[item] = []

    def scald(self):
        by = who("day", self.book.now.date())
        lot = self.start("rye-scald", "SC", "--flour 9kg ", by)
        self.use_formula("rye-scald", 9000, lot, by)
        self.say_later(9, f"reading {lot} scald-heat {between(64, 71)}C --with probe-bread", by)
        self.say_later(10, f"step {lot} scald", by)
        if self.book.now.date() < LAST_DAY:  # the last one stands over the end of the week
            night = who("rye", self.book.now.date() + timedelta(days=1))
            self.later(600, self.ready, lot, "rye-scald", round(28900 * chance.uniform(0.985, 1.0) / 10) * 10, night)

    def rye(self, rework):
        by, flour = who("rye", self.book.now.date()), 52000
        dough = self.start("rye-dough", "RD", "--flour 52kg ", by)
        done = self.use_formula("rye-dough", flour, dough, by)
        extra = 0
        if rework and self.set_aside:
            old, pieces = self.set_aside
            self.later(done, self.book.say, f"use {old} {pieces}pcs --into {dough}", by)
            extra = pieces * 1030
        self.say_later(21, f"reading {dough} rye-warmth {between(28, 30.4)}C --with probe-bread", by)
        self.say_later(22, f"step {dough} mix", by)
        grams = round((flour * 2.064 + extra) * chance.uniform(0.993, 0.998) / 10) * 10
        self.say_later(86, f"finish {dough} --mass {kg(grams)}", by)
        self.later(88, self.rye_bread, dough, grams, by)

    def rye_bread(self, dough, grams, by):
        day = self.book.now.date()
        lot = self.start("quay-rye", "QR", "--pieces 90 ", by)
        self.say_later(1, f"use {dough} rest --into {lot}", by)
        self.say_later(58, f"step {lot} proof", by)
        self.say_later(124, f"reading {lot} rye-core {between(96.8, 98.4)}C --with probe-bread", by)
        self.say_later(125, f"step {lot} bake", by)
        pieces = min(grams // 1180, 93) - chance.choice((0, 1, 1, 2))
        packer = who("pack late", day)
        self.say_later(470, f"reading {lot} rye-cool {between(24, 29)}C --with probe-bread", packer)
        self.later(474, self.finish, lot, pieces, 1030, packer)
        aside = chance.choice((3, 4, 5)) if lot.endswith("-2") else 0
        if aside:
            self.later(476, setattr, self, "set_aside", (lot, aside))
        self.later(480, self.label_and_pack, lot, "quay-rye", "QR", pieces - aside, packer, None, 7)

    def tin(self):
        by, day = who("night" if self.book.now.hour < 6 else "rye", self.book.now.date()), self.book.now.date()
        lot = self.start("tin-loaf", "TL", "--flour 75kg ", by)
        self.use_formula("tin-loaf", 75000, lot, by)
        dough = between(25.6, 27.9)
        flour, water = self.flour_and_water(float(dough))
        self.say_later(2, f"reading {lot} tin-flour {flour:.1f}C --with probe-bread", by)
        self.say_later(3, f"reading {lot} tin-water {water:.1f}C --with probe-bread", by)
        self.say_later(11, f"reading {lot} tin-slow {making.choice((3.5, 4, 4, 4, 4.5))}min", by)
        self.say_later(12, f"reading {lot} tin-fast {making.choice((5, 5.5, 5.5, 6))}min", by)
        self.say_later(13, f"reading {lot} tin-scaled {about(842, 848, 0)}g --with scale-pack", by)
        warm = f"reading {lot} tin-dough {dough}C --with probe-bread"
        if lot == LATE_READING:
            read_at = self.book.now + timedelta(minutes=13)
            self.say_later(85, f"{warm} --slip 41 --at {read_at:%H:%M}", by)
        else:
            self.say_later(13, warm, by)
        self.say_later(14, f"step {lot} mix", by)
        self.say_later(50, f"reading {lot} proof-warmth {between(33, 36.5)}C --with meter-air", by)
        damp = between(75, 84, 0)
        self.say_later(50, f"reading {lot} proof-damp {68 if lot == DRY_PROOF else damp}% --with meter-air", by)
        self.say_later(14 + chance.randint(58, 72), f"step {lot} proof", by)
        if lot == DRY_PROOF:
            self.say_later(240, f"act {self.book.number[lot]}:proof-damp --disposition release --product 'crust a little dull, sound' "
                           "--process 'nozzle of the steam cleaned' --cause 'lime' --prevention 'nozzle on the list of Mondays'",
                           who("quality", self.book.now.date()))
        self.say_later(90, f"reading {lot} tin-oven {trade.choice((228, 230, 230, 232))}C", by)
        if lot == UNDERBAKED:
            self.say_later(115, f"reading {lot} tin-core 92.4C --unit 'rack front' --with probe-bread", by)
        self.later(118, self.tin_core, lot, by)
        self.later(121, self.tin_bake_done, lot, by)
        packer = who("pack early" if self.book.now.hour < 6 else "pack late", day)
        pieces = 150 - chance.choice((0, 0, 1, 2, 3))
        self.say_later(206, f"reading {lot} bread-cool {between(26, 32.5)}C --with probe-bread", packer)
        self.say_later(208, f"reading {lot} tin-weight {between(744, 768, 0)}g --with scale-pack", packer)
        spoiled = " --spoiled 3 --why 'slid off the rack'" if lot == DROPPED else ""
        self.later(210, self.finish, lot, pieces, 757, packer, spoiled)
        self.later(212, self.label_and_pack, lot, "tin-loaf", "TL", pieces, packer, None, 4)

    def flour_and_water(self, dough):
        """What made the dough so warm: the mixer adds about 21 degrees by the factor method."""
        flour, friction = making.uniform(18.5, 20.5), making.uniform(20, 22)
        return flour, 3 * dough - flour - self.air - friction

    def bakehouse(self, by):
        self.air = round(making.uniform(21.5, 24), 1)
        self.book.say(f"reading line-bread bakery-air {self.air}C --with meter-air", by)

    def tin_core(self, lot, by):
        back = f"reading {lot} tin-core {between(95.2, 97)}C --unit 'rack back' --with probe-bread"
        if lot != MISTYPED:
            self.book.say(f"reading {lot} tin-core {between(95.6, 97.8)}C --unit 'rack front' --with probe-bread", by)
            self.say_later(1, back, by)
            return
        self.book.say(f"reading {lot} tin-core 69.3C --unit 'rack front' --with probe-bread", by)
        wrong = self.book.entries
        self.say_later(2, back, by)
        self.later(4, self.amend_core, wrong, by)
        self.say_later(31, f"release {lot} --why 'entry {wrong} was a slip of the finger: the oven chart shows a full bake'",
                       who("quality", self.book.now.date()))

    def amend_core(self, wrong, by):
        """What would clear a deviation counts once another person has looked at it."""
        self.book.say(f"amend {wrong} value=96.3C --why 'typed 69.3, the probe said 96.3'", by)
        self.say_later(26, f"countersign {self.book.entries} --why 'the oven chart shows a full bake'",
                       who("quality", self.book.now.date()))

    def tin_bake_done(self, lot, by):
        self.book.say(f"step {lot} bake", by)
        if lot == MISTYPED:  # the end of the bake decides; then the hold that the program writes by itself
            self.book.entries += 1

    def hearth(self):
        by, day = who("night", self.book.now.date()), self.book.now.date()
        lot = self.start("weir-hearth", "WH", "--flour 46kg ", by)
        self.use_formula("weir-hearth", 46000, lot, by)
        self.say_later(26, f"step {lot} mix", by)
        self.say_later(25, f"reading {lot} hearth-dough {between(23.8, 26.2)}C --with probe-bread", by)
        bulk = 26 + chance.randint(128, 150)
        self.say_later(bulk - 40, f"reading {lot} hearth-folds {trade.choice((3, 3, 4))}pcs", by)
        self.say_later(bulk, f"step {lot} bulk", by)
        self.say_later(bulk + 46, f"step {lot} proof", by)
        baked = bulk + 46 + chance.randint(44, 50)
        if lot != NO_CORE:
            self.say_later(baked - 2, f"reading {lot} hearth-core {between(95.8, 97.6)}C --with probe-bread", by)
        self.say_later(baked, f"step {lot} bake", by)
        packer = who("pack late", day)
        pieces = 96 - chance.choice((0, 0, 1, 2))
        self.say_later(baked + 108, f"reading {lot} bread-cool {between(25, 32)}C --with probe-bread", packer)
        self.later(baked + 110, self.finish, lot, pieces, 792, packer)
        wait = 112 if lot != NO_CORE else 112 + 60
        if lot == NO_CORE:
            self.later(baked + 118, self.decide_no_core, lot)
        self.later(baked + wait, self.label_and_pack, lot, "weir-hearth", "WH", pieces, packer, None, 3)

    def decide_no_core(self, lot):
        by = who("quality", self.book.now.date())
        self.book.say(f"hold {lot} --why 'no core reading on the sheet or in the book'", by)
        self.say_later(24, f"act {self.book.number[lot]}:hearth-core --disposition release "
                       "--product 'six loaves cut at the door side of the deck: crumb set through; deck chart as in trial T-09' "
                       "--process 'the probe now hangs at the deck, not at the bench' --cause 'probe was at the rack oven' "
                       "--prevention 'second probe ordered'", by)
        self.say_later(26, f"release {lot} --why 'disposition signed'", by)

    def pastry(self):
        by, day, flour = who("pastry", self.book.now.date()), self.book.now.date(), 22000
        lot = self.start("tern-tail", "TT", "--flour 22kg ", by)
        self.use_formula("tern-tail", flour, lot, by)
        self.later(3, self.store.take, "butter", weighed(round(flour * 0.07)), lot, by)
        self.say_later(13, f"step {lot} mix", by)
        self.say_later(12, f"reading {lot} tail-dough {between(13.5, 17)}C --with probe-pastry", by)
        self.say_later(48, f"reading {lot} butter-bend {between(10, 14)}C --with probe-pastry", by)
        self.later(49, self.store.take, "butter", weighed(round(flour * 0.51)), lot, by)
        self.say_later(101, f"reading {lot} tail-rest {making.randint(15, 22)}min", by)
        self.say_later(102, f"reading {lot} tail-layers 27pcs", by)
        self.say_later(103, f"reading {lot} tail-sheet {about(3.6, 4.0)}mm", by)
        self.say_later(104, f"step {lot} laminate", by)
        self.say_later(150, f"reading {lot} tail-proof {between(24.2, 27.4)}C --with meter-air", by)
        self.say_later(196, f"step {lot} proof", by)
        core = f"reading {lot} tail-core {between(92.4, 96)}C --with probe-pastry"
        if lot in (CORE_FROM_MEMORY, STILL_WAITING):
            read_at = self.book.now + timedelta(minutes=214)
            self.later(262, self.core_from_memory, lot, f"{core} --at {read_at:%H:%M}", by)
        else:
            self.say_later(214, core, by)
        self.say_later(216, f"step {lot} bake", by)
        packer = who("pack early", day)
        pieces = 628 - chance.randint(0, 9)
        self.say_later(258, f"reading {lot} tail-cool {between(22, 27.5)}C --with probe-pastry", packer)
        self.later(260, self.finish, lot, pieces, 66, packer)
        if lot != STILL_WAITING:
            wait = 292 if lot == CORE_FROM_MEMORY else 261
            self.later(wait, self.label_and_pack, lot, "tern-tail", "TT", pieces, packer, None, 2)

    def core_from_memory(self, lot, core, by):
        """It was read, and typed only when packing asked for it: no better than unproven until quality countersigns."""
        self.book.say(core, by)
        if lot == CORE_FROM_MEMORY:
            self.say_later(20, f"countersign {self.book.entries} --why 'chart of the rack oven: full bake, 18 min at 195 C'",
                           who("quality", self.book.now.date()))

    def custard(self):
        by = who("day", self.book.now.date())
        lot = self.start("custard", "CU", "", by)
        for minute, (item, grams) in enumerate(bakery.CUSTARD, start=1):
            self.later(minute, self.store.take, item, weighed(grams), lot, by)
        for minute, low, high in ((24, 56.5, 58), (28, 63, 65), (32, 71, 74), (36, 80, 83)):
            self.say_later(minute, f"reading {lot} custard-kill {about(low, high)}C --with probe-custard", by)
        self.say_later(38, f"reading {lot} custard-boil {between(85.2, 89)}C --with probe-custard", by)
        grams = round(21060 * chance.uniform(0.994, 1.004) / 20) * 20
        self.say_later(40, f"finish {lot} --mass {kg(grams)}", by)
        self.later(42, self.trays, lot, grams, by)

    def trays(self, lot, grams, by):
        """Two trays, each a lot that is cooled, held and used by itself."""
        half = grams // 2
        self.book.say(f"split {lot} --part tray-A={kg(half)} --part tray-B=rest", by, entries=2)
        for tray, entry, minute in ((f"{lot}/tray-A", self.book.entries - 1, 0), (f"{lot}/tray-B", self.book.entries, 2)):
            self.book.number[tray] = entry
            self.cooling(tray, minute, by, half)

    def cooling(self, tray, minute, by, grams):
        curve = [(0, 79, 83), (22, 60, 64), (34, 50, 54), (73, 31, 35), (98, 22, 24.5), (110, 18.5, 20.6), (178, 11, 13),
                 (288, 6, 7), (318, 3.4, 4.7)]
        if tray == THIN_TRAY:  # 15 C by the next look: when it passed 21 C nobody can say
            curve = [c for c in curve if c[0] not in (98, 110)] + [(96, 25, 25.4), (163, 14.8, 15.4)]
        if tray == SLOW_TRAY:
            curve = [(0, 80, 83), (22, 61, 64), (34, 55, 56), (78, 43, 45), (113, 34, 36), (160, 25.4, 26.4)]
        for after, low, high in sorted(curve):
            self.say_later(minute + after, f"reading {tray} custard-cooling {between(low, high)}C --with probe-custard", by)
        if tray == SLOW_TRAY:
            self.later(minute + 160, self.hold_by_itself)
            self.later(minute + 170, self.decide_slow_tray, tray)
            return
        self.say_later(minute + 320, f"step {tray} cool", by)
        self.later(minute + 321, self.store.put, "custard", tray, grams)
        if tray == THIN_TRAY:
            self.later(minute + 328, self.decide_thin_tray, tray)

    def hold_by_itself(self):
        self.book.entries += 1  # the hold that the program writes for a critical deviation

    def decide_slow_tray(self, tray):
        by = who("quality", self.book.now.date())
        self.book.say(f"act {self.book.number[tray]}:custard-cooling --disposition discard "
                      "--product 'tray struck and binned, nothing of it used' "
                      "--process 'fan of the chiller was iced up: thawed, door seal cleaned' --cause 'chiller fan iced up' "
                      "--prevention 'chiller is thawed each Tuesday night from now on'", by)
        self.say_later(5, f"discard {tray} rest --why 'cooled too slowly'", by)

    def decide_thin_tray(self, tray):
        self.book.say(f"act {self.book.number[tray]}:custard-cooling --disposition release "
                      "--product 'own chart of the chiller, filed as CH-119, shows the core probe at 20.1 C after 1 h 44 min' "
                      "--process 'an alarm clock now stands at the chiller' --cause 'called away to a delivery' "
                      "--prevention 'the chart of the chiller will be read into the book'", who("quality", self.book.now.date()))

    def pillow(self):
        if not self.store.lots.get("custard"):
            return  # a tray was thrown away: one batch fewer
        by, day, flour = who("pastry", self.book.now.date()), self.book.now.date(), 11400
        tray = self.store.reserve("custard")
        lot = self.start("custard-pillow", "CP", "--flour 11.4kg ", by)
        self.use_formula("custard-pillow", flour, lot, by)
        self.say_later(14, f"step {lot} mix", by)
        self.say_later(13, f"reading {lot} pillow-dough {between(24.8, 27.2)}C --with probe-pastry", by)
        self.say_later(50, f"reading {lot} proof-warmth {between(33, 36.5)}C --with meter-air", by)
        self.say_later(50, f"reading {lot} proof-damp {between(75, 84, 0)}% --with meter-air", by)
        self.say_later(76, f"step {lot} proof", by)
        self.say_later(91, f"reading {lot} pillow-core {between(88.6, 93)}C --with probe-pastry", by)
        self.say_later(92, f"step {lot} bake", by)
        self.say_later(136, f"step {lot} cool", by)
        self.say_later(137, f"reading {tray} custard-kept {trade.uniform(2.6, 4.4):.1f}C --with probe-custard", by)
        self.say_later(138, f"use {tray} rest --into {lot}", by)
        self.say_later(158, f"step {lot} fill", by)
        packer = who("pack early", day)
        pieces = 343 - chance.randint(0, 7)
        filling = between(4.2, 6.3)
        filling = "6.8" if lot == NEARLY_WARM else filling
        self.say_later(226, f"reading {lot} pillow-chill {filling}C --with probe-pastry", packer)
        if lot == NEARLY_WARM:
            self.say_later(227, f"act {self.book.number[lot]}:pillow-chill --disposition release --product 'a second probe, good to 0.1 C, "
                           "read 6.7 C in the same tray' --process 'that probe hangs at the filler now'", who("quality", day))
        self.later(228, self.finish, lot, pieces, 85, packer)
        self.later(229, self.label_and_pack, lot, "custard-pillow", "CP", pieces, packer, None, 1)

    def flats(self):
        by, day = who("rye", self.book.now.date()), self.book.now.date()
        lot = self.start("ink-flat", "IF", "--flour 10kg ", by)
        for minute, (item, percent) in enumerate(bakery.FORMULAS["ink-flat"], start=1):
            self.later(minute, self.store.take, item, round(10000 * percent / 100) + trade.choice((-1, 0, 0, 1)), lot, by)
        self.say_later(13, f"reading {lot} flat-dough {trade.uniform(24.5, 27):.1f}C --with probe-bread", by)
        self.say_later(14, f"step {lot} mix", by)
        self.later(24, self.clean_small_mixer, "wash")
        self.say_later(80, f"reading {lot} flat-folds 2pcs", by)
        self.say_later(104, f"step {lot} bulk", by)
        self.say_later(134, f"step {lot} proof", by)
        self.say_later(136, f"reading {lot} flat-oven {trade.choice((340, 345, 345, 350))}C", by)
        self.later(139, self.flat_core, lot, by)
        packer, pieces = who("pack late", day), 84 if lot == FEW_FLATS else 119 - trade.choice((0, 1, 2))
        why = " --why 'the dough stuck to the boards and was thrown away'" if lot == FEW_FLATS else ""
        self.say_later(183, f"reading {lot} bread-cool {trade.uniform(24, 30):.1f}C --with probe-bread", packer)
        self.say_later(185, f"finish {lot} --pieces {pieces} --mass {kg(pieces * 131)}{why}", packer)
        self.later(187, self.label_and_pack, lot, "ink-flat", "IF", pieces, packer, None, 2)
        if lot == FEW_FLATS:
            for minute, point in ((300, "yield"), (301, "flat-yield")):
                self.say_later(minute, f"act {self.book.number[lot]}:{point} --disposition release --product 'what was baked is sound' "
                               "--process 'boards are dusted with semolina' --cause 'boards were wet' --prevention 'boards dry on the rack'",
                               who("quality", day))
        self.later(260, self.flats_to_shop, lot, who("store", day))

    def flat_core(self, lot, by):
        """Stone to stone in less than three minutes: what is too low goes back at once."""
        self.book.say(f"reading {lot} flat-bake 2.5min", by)
        core = f"{trade.uniform(94.2, 97):.1f}"
        if lot != BACK_IN:
            self.book.say(f"reading {lot} flat-core {core}C --with probe-bread", by)
            self.say_later(1, f"step {lot} bake", by)
            return
        self.book.say(f"step {lot} bake", by)
        self.say_later(1, f"reading {lot} flat-core 91.6C --with probe-bread", by)
        self.say_later(1, f"step {lot} bake --again", by)
        self.say_later(2, f"reading {lot} flat-core 95.1C --with probe-bread", by)
        self.say_later(2, f"step {lot} bake", by)

    def flats_to_shop(self, lot, by):
        pack = f"IF-P{lot[3:]}"
        left = trade.choice((0, 2, 4, 7))
        self.book.say(f"ship {pack} --way own-shop --pieces {self.on_hand[pack] - left}", by)
        self.on_hand[pack], self.shipped[pack] = left, []

    def clean_small_mixer(self, how):
        """Scraped between hearth dough and sticks, washed after them and after the flats; each is seen, and a wash is swabbed too."""
        by, day = who("rye", self.book.now.date()), self.book.now.date()
        self.book.say(f"clean mixer-small --how {how}", by)
        minutes = 4 if how == "scrape" else 36
        self.say_later(minutes, "inspect mixer-small mixer-seen yes", by)
        if how == "wash":
            swabs = (0.8, 1.1, 0.6, 1.9, 0.9, 2.4, 1.2)
            self.say_later(minutes + 5, f"reading mixer-small mixer-swab {swabs[day.weekday()]}ppm", by)

    def sticks(self):
        by, day = who("rye", self.book.now.date()), self.book.now.date()
        lot = self.start("ink-stick", "IS", "--flour 14kg ", by)
        self.use_formula("ink-stick", 14000, lot, by)
        self.say_later(14, f"step {lot} mix", by)
        self.say_later(13, f"reading {lot} stick-dough {between(24, 27)}C --with probe-bread", by)
        self.say_later(70, f"step {lot} proof", by)
        core, read_at = f"reading {lot} stick-core {between(97, 99.5)}C --with probe-bread", self.book.now + timedelta(minutes=116)
        if lot == CORE_FROM_SLIP:
            self.say_later(158, f"{core} --slip 57 --at {read_at:%H:%M}", by)
        else:
            self.say_later(116, core, by)
        self.say_later(118, f"step {lot} bake", by)
        packer = who("pack late", day)
        self.say_later(182, f"reading {lot} tail-cool {between(21, 26)}C --with probe-bread", packer)
        self.say_later(184, f"reading {lot} stick-dry {between(0.28, 0.41, 2)}aw --with meter-aw", packer)
        self.say_later(184, f"reading {lot} stick-class {about(5.5, 5.9)}pH --with meter-ph", packer)
        self.say_later(185, f"reading {lot} stick-class {about(0.28, 0.41, 2)}aw --with meter-aw", packer)
        self.later(186, self.finish, lot, 720, 21, packer)
        self.later(188, self.label_and_pack, lot, "ink-stick", "IS", 720, packer, 60, 59)
        self.later(24, self.clean_small_mixer, "wash")
        self.say_later(200, "clean line-bread --how wet --note 'after ink sticks: divider, belts, trays'", by)
