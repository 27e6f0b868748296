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


def covered(custody, start, missing, on_hand_mg):
    """By lot, whether it is certain: what was reached, what batches with a missing use may have passed on, and packs of the same code."""
    certain = reached(custody, start)
    everything, wider = dict(certain), list(start)
    while more := may_miss_it(custody, wider, everything, missing, on_hand_mg):
        wider += sorted(more)
        everything = reached(custody, wider)
    scope = {lot: certain.get(lot, False) for lot in everything}
    scope.update({lot: False for lot in bearing_the_same_code(custody, everything)})
    return scope


class Recall:
    def __init__(self, custody, opened, missing, on_hand_mg):
        self.custody, self.code, self.drill = custody, opened.get("recall"), opened.get("drill", False)
        of_it = [one for one in custody.told if one.get("recall") == self.code and one.seq > opened.seq]
        self.asked = [one["lot"] for one in opened.get("snapshot", []) if one.get("asked") and one["lot"] in custody.lots]
        self.was = {one["lot"] for one in opened.get("snapshot", [])}
        self.left_out = {lot for one in of_it if one.kind == "recall-decided" for lot in one.get("out", [])}
        self.now = covered(custody, self.asked, missing, on_hand_mg)
        self.contacted = [one for one in of_it if one.kind == "contacted" and one.get("reached", False)]
        self.counted = [one for one in of_it if one.kind == "recall-counted"]
        self.is_open = not any(one.kind == "recall-closed" for one in of_it)

    def scope(self):
        """By lot: its state, and whether it is certain."""
        states = {lot: ("covered" if lot in self.was else "added", certain) for lot, certain in self.now.items()}
        states.update({lot: ("cut off", False) for lot in self.was - set(self.now)})
        return {lot: ("left out" if lot in self.left_out else state, certain) for lot, (state, certain) in states.items()}

    def deliveries(self):
        return deliveries(self.custody, self.now)

    def reached(self):
        return {one.get("partner") for one in self.contacted}

    def accounts(self):
        """By lot that is counted in pieces: made, on hand, ... and what became of what was shipped."""
        inside = {lot for lot, (state, _) in self.scope().items() if state != "left out" and lot in self.custody.lots}
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
