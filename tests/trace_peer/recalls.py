"""A recall or drill as the entries tell it: what it covers, who has it, what adds up by the piece, and who is still to be asked."""
from outside import Outside, Said
from reach import bearing_the_same_code, deliveries, in_the_house, reached


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
        self.is_open = not any(one.kind == "recall-closed" for one in self.of_it)
        self.was, self.added = {lot["lot"] for lot in snapshot}, {lot["lot"] for lot in widened}
        self.asked = {lot["lot"] for lot in snapshot + widened if lot.get("asked") and lot["lot"] in custody.lots}
        self.asked |= self.of_the_same_delivery()
        self.left_out = self.narrowed()
        self.now = self.covered()
        self.inside = {lot for lot in self.scope() if lot in custody.lots}
        self.outside = Outside(custody, self.inside, self.said())

    # --- what it covers

    def of_the_same_delivery(self):
        """What came from the supplier under the same code, with whatever truck and however it was written down (rule 27)."""
        if self.drill or not self.is_open:
            return set()

        def name(lot):
            return lot.supplier, lot.item, letters_and_digits(lot.supplier_lot)

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

    # --- who has it, and what they say

    def deliveries(self):
        return deliveries(self.custody, {lot: certain for lot, (_, certain) in self.scope().items() if lot in self.inside})

    def told(self):
        """By customer, the codes that they were told of; before the entries said of which, those of the snapshot."""
        frozen = {}
        for one in self.opened.get("deliveries", []):
            frozen.setdefault(one.get("partner"), []).append(one.get("printed-code") or one.get("lot"))
        return {(one.get("partner"), code) for one in self.of_it if one.kind == "contacted" and one.get("reached", False)
                for code in one.get("codes", frozen.get(one.get("partner"), []))}

    def lots_of(self, code):
        return [code] if code in self.inside else sorted(lot for lot in self.inside if code and self.custody.lots[lot].printed == code)

    def said(self):
        for one in self.of_it:
            if one.kind != "recall-counted":
                continue
            pieces = one.get("pieces", 0)
            if one.get("what") == "returned" and not self.drill:  # the rest the book has back, in an entry of its own
                pieces = one.get("excess-pieces", 0)
                if not pieces and not one.get("excess-mg", 0):
                    continue
            partner = one.get("partner", "")
            holder = (partner, "" if partner else one.get("way", ""))
            yield Said(holder, one.get("code"), self.lots_of(one.get("code")), one.get("what"), pieces, one.at, one.seq)

    def open_and_excess(self):
        """By customer (or way) and code: pieces that nobody accounts for, and pieces that were said and never went there."""
        sums = {}

        def read(lot):
            return self.custody.lots[lot].printed or lot

        for key in self.outside.went:
            (partner, way), lot = key
            sums.setdefault((partner or "way " + way, read(lot)), [0, 0])[0] += self.outside.open(key)
        for said, pieces in self.outside.excess:
            partner, way = said.holder
            code = read(said.lots[0]) if said.lots else said.code
            sums.setdefault((partner or "way " + way, code), [0, 0])[1] += pieces
        return {key: tuple(amounts) for key, amounts in sums.items() if any(amounts)}

    # --- what adds up

    def accounts(self):
        """Of each lot that is counted in pieces: made = on hand + shipped + moved on + used + waste + samples + open, and of what was
        shipped what came back, was destroyed, used up, found there, and is open."""
        out = {}
        for lot in self.inside:
            if self.custody.lots[lot].pieces is None:
                continue
            made, here, moved_on, used, waste, samples = in_the_house(self.custody, lot, self.inside)
            moved_on += self.outside.moved_on[lot]
            shipped, back, destroyed, consumed, found, there = self.outside.of_lot(lot)
            missing = made - here - shipped - moved_on - used - waste - samples
            out[lot] = (made, here, shipped, moved_on, used, waste, samples, missing, back, destroyed, consumed, found, there)
        return out
