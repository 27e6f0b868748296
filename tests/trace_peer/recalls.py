"""A recall or drill as the entries tell it: what it covers, who has it, what adds up by the piece, and who is still to be asked."""
from collections import defaultdict

from reach import account, bearing_the_same_code, deliveries, reached


def in_house_until(custody, code, on_hand_mg, last):
    """None: it is still there, or never runs out."""
    if on_hand_mg.get(code, 1) > 0:
        return None
    times = [use.at for use in last[code]] + [move.at for move in custody.moves if move.lot == code]
    return max(times + [custody.lots[code].at])


def may_miss_it(custody, start, reach, missing, on_hand_mg):
    """Batches in which a use of one of the start lots is missing, made while that lot was in the house (rule 20)."""
    found = set()
    for code in start:
        lot, gone = custody.lots[code], in_house_until(custody, code, on_hand_mg, custody.out_of)
        for batch, item in missing:
            if item == lot.item and batch in custody.lots and batch not in reach and custody.lots[batch].at >= lot.at:
                if gone is None or custody.lots[batch].at <= gone:
                    found.add(batch)
    return found


def letters_and_digits(code):
    return "".join(one for one in code.upper() if one.isascii() and one.isalnum())


class Recall:
    def __init__(self, custody, opened, missing, on_hand_mg):
        self.custody, self.opened, self.missing, self.on_hand_mg = custody, opened, missing, on_hand_mg
        self.code, self.drill = opened.get("recall"), opened.get("drill", False)
        self.of_it = sorted((one for one in custody.told if one.get("recall") == self.code and one.seq > opened.seq), key=lambda one: one.seq)
        snapshot = opened.get("snapshot", [])
        widened = [lot for one in self.of_it if one.kind == "recall-widened" for lot in one.get("lots", [])]
        self.was, self.added = {lot["lot"] for lot in snapshot}, {lot["lot"] for lot in widened}
        self.asked = {lot["lot"] for lot in snapshot + widened if lot.get("asked") and lot["lot"] in custody.lots}
        self.asked |= self.of_the_same_delivery()
        self.left_out = self.narrowed()
        self.now = self.covered()
        self.contacted = [one for one in self.of_it if one.kind == "contacted" and one.get("reached", False)]
        self.counted = [one for one in self.of_it if one.kind == "recall-counted"]
        self.is_open = not any(one.kind == "recall-closed" for one in self.of_it)

    # --- what it covers

    def of_the_same_delivery(self):
        """What came from the supplier under the same code, with whatever truck and however it was written down (rule 27)."""
        if self.drill:
            return set()
        name = lambda lot: (lot.supplier, lot.item, letters_and_digits(lot.supplier_lot))
        named = {name(self.custody.lots[code]) for code in self.asked if self.custody.lots[code].kind == "received"}
        return {code for code, lot in self.custody.lots.items() if lot.kind == "received" and name(lot)[2] and name(lot) in named}

    def narrowed(self):
        """What is left out, and since which entry. It ends when somebody takes the lot in again, or for another hazard."""
        hazard, out = self.opened.get("hazard"), {}
        for one in self.of_it:
            if one.kind == "recall-decided":
                named = one.get("out", [])
                out.update({lot: (one.seq, one.get("hazard")) for lot in named})
                if not named and one.get("hazard", hazard) != hazard:
                    hazard = one.get("hazard")
                    out = {lot: ground for lot, ground in out.items() if ground[1] == hazard}
            elif one.kind == "recall-widened":
                out = {lot: ground for lot, ground in out.items() if lot not in one.get("back", [])}
        return {lot: seq for lot, (seq, _) in out.items()}

    def goes_on(self, use):
        """What was made of a lot after it was left out rests on that decision; in a time only what was taken then is followed."""
        if use.entry > self.left_out.get(use.source, use.entry):
            return False
        if not self.opened.get("taken", False) or use.source not in self.asked:
            return True
        begin, end = self.opened.get("from"), self.opened.get("until")
        return use.into not in self.asked and (begin is None or begin <= use.at) and (end is None or use.at <= end)

    def covered(self):
        """By lot, whether it is certain: what was reached, what batches with a missing use may have passed on, packs of the same code."""
        start = self.asked
        if self.opened.get("taken", False):
            start = {lot for lot in start if any(self.goes_on(use) for use in self.custody.out_of[lot])}
        found = reached(self.custody, start, goes_on=self.goes_on)
        everything, suspects = dict(found), set(start)
        while more := may_miss_it(self.custody, suspects, everything, self.missing, self.on_hand_mg):
            suspects |= more
            for lot in reached(self.custody, more, goes_on=self.goes_on):
                everything.setdefault(lot, False)
        everything.update({lot: False for lot in bearing_the_same_code(self.custody, everything)})
        return everything

    def scope(self):
        """By lot: its state, and whether it is certain."""
        states = {lot: ("covered" if lot in self.was else "added", certain) for lot, certain in self.now.items()}
        states.update({lot: ("cut off", False) for lot in (self.was | self.added) - set(self.now)})
        return {lot: ("left out" if lot in self.left_out else state, certain) for lot, (state, certain) in states.items()}

    def deliveries(self):
        return deliveries(self.custody, self.now)

    def reached(self):
        return {one.get("partner") for one in self.contacted}

    def accounts(self):
        """By lot that is counted in pieces: made, on hand, ... and what became of what was shipped."""
        inside = {lot for lot in self.scope() if lot in self.custody.lots}
        sums = {lot: account(self.custody, lot, inside) for lot in inside if self.custody.lots[lot].pieces is not None}
        said = self.said()
        out = {}
        for lot, one in sums.items():
            back, destroyed, consumed, found = (sum(amounts[i] for (_, of), amounts in said.items() if of == lot) for i in range(4))
            left = one.shipped - back - destroyed - consumed - found
            out[lot] = (one.made, one.on_hand, one.shipped, one.moved_on, one.used, one.waste, one.samples, one.open(),
                        back, destroyed, consumed, found, left)
        return out

    def said(self):
        """By partner and lot: pieces returned, destroyed, used up, and found there by their last word."""
        events = [(move.at, move.entry, move.partner, move.lot, "returned", move.pieces)
                  for move in self.custody.moves if move.way == "returned"]
        for one in self.counted:
            if one.get("what") == "returned" and not self.drill:
                continue  # an entry of its own says that they are back
            events += [(one.at, one.seq, one.get("partner", ""), part["lot"], one.get("what"), part.get("pieces", 0))
                       for part in one.get("parts", [])]
        said = defaultdict(lambda: [0, 0, 0, 0])
        for _, _, partner, lot, what, pieces in sorted(events):
            amounts = said[(partner, lot)]
            if what == "found":
                amounts[3] = pieces
                continue
            amounts[3] = max(0, amounts[3] - pieces)
            if what != "used" or partner:
                amounts[("returned", "destroyed", "used").index(what)] += pieces
        return said
