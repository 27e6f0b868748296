#!/usr/bin/env python3
"""Writes week.txt: what the people of Ternhavn Bakehouse (invented) typed from 9 to 22 November 2026.

    python3 make_week.py > week.txt        the committed week.txt is this output, byte for byte

A line is the clock's time and a command as typed at the bench. Everything a batch needs is put on one agenda, which is then worked
off in order of time, so that a lot is used only after it came and first-in stock is used first. Weights, temperatures and times
scatter as hands and ovens do (a fixed seed); only what stories.py names goes wrong. What then must be found stands in expected.txt,
which is written by hand and not from here.

    bakery.py     people, partners, formulas, deliveries        bench.py      stock, agenda, what all batches share
    stories.py    what goes wrong                               products.py   how each product is made
"""
from datetime import date, datetime, time, timedelta

import bakery
from bakery import CUSTOMERS, DELIVERIES, PARTNERS, PEOPLE, SILOS
from bench import between, chance, kg, who, ymd
from products import Products
from stories import FIRST_DAY, FORGOTTEN_CHECK, LAST_DAY, MILLERS_LOT, NO_COLD, NO_CURRENT, PEANUT_LOT, RETURNED_PACK


class Bakery(Products):
    # --- goods in and out, rooms and devices

    def receive(self, item, supplier, supplier_lot, grams, options, silo):
        day, by = self.book.now.date(), who("store", self.book.now.date())
        lot = self.next_code(bakery.CODES[item], day)
        quantity = f"--mass {kg(grams)}" if grams else "--pieces 20000"
        self.book.say(f"receive {item} --from {supplier} --lot {supplier_lot} {quantity} {options} --code {lot}", by, makes=lot)
        if silo:
            blend = f"{silo}-{ymd(day)}"
            self.say_later(14, f"fill {SILOS[item]} {lot} rest --code {blend}", by)
        elif grams:
            self.store.put(item, lot, grams)
        if "--temperature" in options:
            self.say_later(6, f"move {lot} --to cold-store", by)

    def ship_wave(self, codes, days_old=0, tour=""):
        """Sends what is packed of these products, each pack to some customers and the rest to the own shop."""
        today = self.book.now.date()
        day, by = today - timedelta(days=days_old), who("store", today)
        minute = 0
        for pack, pieces in list(self.on_hand.items()):
            code, rest = pack.split("-P")
            if code not in codes or not rest.startswith(ymd(day)) or pack in self.shipped or pieces == 0:
                continue
            self.shipped[pack] = []
            buyers = chance.sample([c for c in CUSTOMERS if code in CUSTOMERS[c]], 3)
            for customer in buyers:
                part = round(pieces * chance.uniform(0.16, 0.28))
                self.send(minute, pack, customer, part, by, today, tour)
                minute += chance.choice((0, 0, 1))
            shop = self.on_hand[pack] - sum(p for _, p in self.shipped[pack]) - chance.choice((0, 3, 5, 8))
            self.say_later(minute, f"ship {pack} --way own-shop --pieces {shop}", by)
            self.on_hand[pack] -= shop + sum(p for _, p in self.shipped[pack])
            minute += 1

    def send(self, minute, pack, customer, pieces, by, today, tour):
        note = f"DN-{ymd(today)}-{list(CUSTOMERS).index(customer) + 1:02d}"
        self.say_later(minute, f"ship {pack} --to {customer} --pieces {pieces} --document {note} --carrier OWN-VAN{tour}", by)
        self.shipped[pack].append((customer, pieces))

    def clear_unsold(self):
        """What the shop did not ask for of yesterday's packs."""
        today = self.book.now.date()
        yesterday, by = ymd(today - timedelta(days=1)), who("day", today)
        for minute, (pack, pieces) in enumerate(self.on_hand.items()):
            if f"-P{yesterday}-" not in pack or pieces == 0 or pack not in self.shipped:
                continue
            if pack.startswith("CP"):
                self.say_later(0, f"discard {pack} {pieces}pcs --why 'unsold on its last day'", by)
            elif not pack.startswith("IS"):
                way = "donation --to OPEN-TABLE" if pack[:2] in ("TL", "QR", "WH") else "animal-feed --to ASH-FARM"
                self.say_later(1, f"ship {pack} --way {way} --pieces {pieces}", "HB")
            else:
                continue
            self.on_hand[pack] = 0

    def come_back(self):
        customer = self.shipped[RETURNED_PACK][0][0]
        self.book.say(f"return {RETURNED_PACK} --from {customer} --pieces 8 --document RN-0031 "
                      "--why 'crate crushed in the van, bags torn'", who("store", self.book.now.date()))

    def sesame_with_peanut(self):
        """Refused at the door for what its paper says; the deviation holds it too, so that nobody takes it in after all."""
        day, by = self.book.now.date(), who("store", self.book.now.date())
        lot = self.next_code("SES", day)
        self.book.say(f"receive sesame --from COVE-DRY --lot {PEANUT_LOT} --mass 6kg --best-before 2027-08-31 --contains sesame "
                      f"--may-contain peanut --document CD-5601 --status refused --why 'may contain peanut: no label of ours says so' "
                      f"--code {lot}", by, makes=lot)
        self.book.entries += 1  # the hold
        self.say_later(25, f"act {self.book.number[lot]}:declaration --disposition discard --product 'sent back with the driver' "
                       "--process 'the supplier was told what the material is specified with'", "QO")

    def miller_calls(self):
        self.book.remark("The miller calls: a sieve wire broke while this lot was milled.")
        self.book.say(f"hold {MILLERS_LOT} --why 'Otterbeck mill called at 18:10: sieve wire broke during the run of this lot'", "HB")

    def read_out_logger(self):
        self.book.say("series cold-store cold-air cold-store-w47.csv --logger cold-export --with logger-cold", "QO")

    def numbers_for_the_night(self):
        """Whom to call at eighteen ten on a Sunday, and who is here no longer: said when it was missed."""
        self.book.say("partner OWN-VAN --phone '+00 555 0149'", "HB")
        self.book.say("partner FOOD-OFFICE --name 'Ternhavn Food Office' --role authority --phone '+00 555 0160' "
                      "--email alerts@food-office.example", "HB")
        self.book.say("partner TOWN-WATER --role supplier,authority --email desk@town-water.example", "HB")
        self.book.say("person PN --left", "HB")
        self.book.say("person AF --role store", "HB")

    def counts(self):
        for item, gap in (("salt", 0), ("sugar", 400)):
            lot, grams = self.store.lots[item][0]
            why = "week-end count" if not gap else "week-end count; a torn sack was swept up on Friday"
            self.book.say(f"count {lot} {kg(grams - gap)} --why '{why}'", who("day", self.book.now.date()))

    # --- the metal detector

    def check_detector(self, by):
        if abs(self.book.now - FORGOTTEN_CHECK) < timedelta(minutes=10):
            return
        if not NO_CURRENT[0] < self.book.now < NO_CURRENT[1]:
            self.book.say("inspect detector-1 metal-check yes", by)
            if timedelta(0) < self.book.now - FORGOTTEN_CHECK < timedelta(hours=1):
                self.held_since(self.last_check)
            self.last_check = self.book.entries

    def held_since(self, check):
        """The check came too late: what passed since the one before is held by itself, and passed once more."""
        self.book.entries += 1
        packs = " ".join(pack for pack in self.on_hand if pack.startswith(f"QR-P{ymd(FORGOTTEN_CHECK)}"))
        self.say_later(20, f"act {check}:metal-check:1 --disposition release --product 'both passed the detector once more: nothing found' "
                       "--process 'the detector now rings when an hour is over' --cause 'alone at the packing tables' "
                       "--prevention 'the bell'", "QO")
        self.say_later(25, f"release {packs} --why 'passed again after a good check'", "QO")

    def no_current(self):
        self.book.say(f"outage detector-1 --from {NO_CURRENT[0]:%H:%M} --until {NO_CURRENT[1]:%H:%M} "
                      "--why 'electrician at the packing tables: no current, nothing was packed'",
                      who("pack late", self.book.now.date()))
        self.say_later(25, f"act {self.book.entries}:outage --disposition release --product 'no pack passed the detector meanwhile' "
                       "--process 'checked when the current was back' --cause 'socket changed' --prevention 'such work waits for the afternoon'", "QO")

    # --- the cold store

    def look_at_cold_store(self, warmth, by):
        if not NO_COLD[0] < self.book.now < NO_COLD[1]:
            self.book.say(f"reading cold-store cold-air {warmth}C --with logger-cold", by)

    def no_cold(self):
        by = who("rye", self.book.now.date())
        self.book.say(f"outage cold-store --from {NO_COLD[0]:%H:%M} --until {NO_COLD[1]:%H:%M} "
                      "--why 'fuse of the cold store: no display, the door was kept shut'", by)
        self.later(150, self.cold_again, self.book.entries)
        self.book.say("reading cold-store cold-air 4.4C --with logger-cold", by)

    def cold_again(self, outage):
        self.book.say(f"act {outage}:outage --disposition release --product 'butter, milk and custard probed at 06:20: 4.1 C at the warmest' "
                      "--process 'fuse changed' --cause 'a wet plug at the kneader' --prevention 'the cold store has a fuse of its own now'", "QO")

    # --- the calendar

    def set_up(self):
        self.book.say("plan adopt", "HB")
        for initials, name, role in PEOPLE:
            self.book.say(f"person {initials} --name '{name}' --role {role}", "HB")
        for code, name, role, rest in PARTNERS:
            self.book.say(f"partner {code} --name '{name}' --role {role}{rest}", "HB")
        for i, code in enumerate(CUSTOMERS, start=1):
            name = bakery.CUSTOMER_NAMES[code]
            self.book.say(f"partner {code} --name '{name}' --role customer --phone '+00 555 01{i:02d}'", "HB")

    def calibrate(self, instruments):
        for instrument in instruments:
            self.book.say(f"calibrate {instrument} passed {bakery.CALIBRATION[instrument]}", "QO")

    def day(self, day):
        def at(hhmm, action, *details, spread=0):
            base = datetime.combine(day, datetime.strptime(hhmm, "%H:%M").time())
            self.book.at(base + timedelta(minutes=chance.randint(-spread, spread)), action, *details)

        def room(hhmm, text, by):
            at(hhmm, self.book.say, text, by, spread=2)

        at("09:30", self.leaven, spread=3)
        at("17:20", self.scald, spread=2)
        at("11:30", self.custard, spread=2)
        at("12:10", self.custard, spread=2)
        for hhmm, shift in bakery.COLD_LOOKS:
            if day >= FIRST_DAY or hhmm > "12:00":
                at(hhmm, self.look_at_cold_store, between(2.4, 4.3), who(shift, day), spread=2)
        if day < FIRST_DAY:
            return
        for hhmm in ("00:20", "06:10"):
            self.book.at(datetime.combine(day, datetime.strptime(hhmm, "%H:%M").time()), self.bakehouse,
                         who("night" if hhmm < "06:00" else "rye", day))
        for hhmm in ("00:40", "01:30", "02:20", "06:30"):
            at(hhmm, self.tin, spread=3)
        for hhmm in ("01:05", "02:00", "04:30"):
            at(hhmm, self.hearth, spread=3)
        for hhmm in ("03:40", "04:35"):
            at(hhmm, self.rye, hhmm == "03:40", spread=1)
        for hhmm in ("02:30", "03:30", "04:30"):
            at(hhmm, self.pastry, spread=3)
        for hhmm in ("02:50", "03:40", "04:20", "05:00"):
            at(hhmm, self.pillow, spread=3)
        self.book.at(datetime.combine(day, time(5, 22)), self.clean_small_mixer, "scrape")
        at("05:50", self.sticks, spread=3)
        self.book.at(datetime.combine(day, time(7, 30)), self.flats)
        for hhmm in ("02:25", "04:20", "06:15", "08:10", "09:32"):
            room(hhmm, f"reading pastry-room pastry-air {between(12.4, 15.8)}C --with meter-air", who("pastry", day))
        for hhmm, shift in bakery.DETECTOR_CHECKS:
            at(hhmm, self.check_detector, who(shift, day), spread=2)
        at("05:35", self.ship_wave, ("TL", "QR"), 1, " --round harbour")
        at("05:45", self.ship_wave, ("TL", "CP"), 0)
        at("09:50", self.ship_wave, ("TL", "CP", "TT"), 0)
        at("11:40", self.ship_wave, ("TL", "WH", "TT", "CP", "IS"), 0)
        at("16:20", self.clear_unsold)
        at("11:10", self.book.say, "clean line-pastry --how wet", who("pastry", day), spread=4)
        at("15:25", self.book.say, "clean line-bread --how dry", who("pack late", day), spread=4)

    def whole_book(self):
        opening = datetime(2026, 11, 9, 7, 0)
        self.book.at(opening, self.set_up)
        for when, *delivery in DELIVERIES:
            self.book.at(datetime.fromisoformat(when), self.receive, *delivery)
        for when, instruments in bakery.CALIBRATIONS:
            self.book.at(datetime.fromisoformat(when), self.calibrate, instruments)
        for when, look, shift in bakery.FIRST_LOOKS:
            when = datetime.fromisoformat(when)
            self.book.at(when, self.book.say, f"reading {look}", who(shift, when.date()))
        sunday = date(2026, 11, 15)
        for hhmm, shift in bakery.DETECTOR_CHECKS:
            if hhmm > "06:00":
                self.book.at(datetime.fromisoformat(f"{sunday}T{hhmm}"), self.check_detector, who(shift, sunday))
        self.book.at(NO_CURRENT[1], self.no_current)
        self.book.at(NO_COLD[1] + timedelta(minutes=3), self.no_cold)
        self.book.at(datetime(2026, 11, 14, 9, 30), self.leaven)
        self.book.at(datetime(2026, 11, 14, 17, 15), self.first_leaven)
        day = FIRST_DAY - timedelta(days=1)
        while day <= LAST_DAY:
            self.day(day)
            day += timedelta(days=1)
        self.book.at(datetime(2026, 11, 18, 13, 20), self.come_back)
        self.book.at(datetime(2026, 11, 20, 10, 5), self.sesame_with_peanut)
        self.book.at(datetime(2026, 11, 22, 14, 30), self.counts)
        self.book.at(datetime(2026, 11, 22, 18, 25), self.miller_calls)
        self.book.at(datetime(2026, 11, 22, 18, 40), self.read_out_logger)
        self.book.at(datetime(2026, 11, 22, 19, 5), self.numbers_for_the_night)
        self.book.work_off()
        return self.book.lines

    def first_leaven(self):
        lot = "LV-261114-1"
        self.book.say(f"act {self.book.number[lot]}:missing-use:2 --disposition release --process 'the culture stood here before the book was opened: "
                      "where it came from, the book cannot show'", "QO")


if __name__ == "__main__":
    print(bakery.HEADING + "\n".join(Bakery().whole_book()))
