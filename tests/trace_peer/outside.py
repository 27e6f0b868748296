"""Goods outside the house, by the piece: who had how many of which lot, and what is said of them (rules 64 and 65).

A holder is a customer, or a way out that names nobody. What is said counts at most for what went there; the rest is a question that
credits nobody. What a co-packer sent back packed is the same goods again.
"""
from collections import defaultdict
from dataclasses import dataclass

FEEDS_NOBODY = ("waste", "sample")
WORDS = ("returned", "destroyed", "used", "found")


@dataclass
class Said:
    """What a holder says of some of these lots; `back`: the book itself has them back."""
    holder: tuple
    code: str
    lots: list
    what: str
    pieces: int
    at: int
    entry: int
    back: bool = False

    def speaks_of_the_same(self, other):
        return self.holder == other.holder and (self.code == other.code or bool(set(self.lots) & set(other.lots)))


def sent_back_packed(custody, inside):
    """By move, pieces that came back as another lot that is added up too; and by lot. What may be of several is taken for others' first."""
    netted, moved_on = defaultdict(int), defaultdict(int)
    sent = sorted((move for move in custody.moves if move.way == "co-packer"), key=lambda move: (move.at, move.entry))
    for one in (told for told in custody.told if told.kind == "co-packed" and told.get("lot") in inside):
        rest = one.get("pieces", 0)
        for of_others in (True, False):
            for move in sent:
                if (move.lot in inside) == of_others or move.partner != one.get("partner") or move.at > one.at:
                    continue
                if move.lot in one.get("from", []):
                    taken = min(rest, move.pieces - netted[move])
                    netted[move] += taken
                    rest -= taken
                    if not of_others:
                        moved_on[move.lot] += taken
    return netted, moved_on


class Outside:
    def __init__(self, custody, inside, said):
        netted, self.moved_on = sent_back_packed(custody, inside)
        self.went = {}  # by holder and lot, in the order in which they first left
        self.said = list(said)
        for move in sorted(custody.moves, key=lambda move: (move.at, move.entry)):
            if move.lot not in inside or move.way in FEEDS_NOBODY:
                continue
            if move.way == "returned":
                holder = (move.partner, "" if move.partner else move.left_by)
                self.said.append(Said(holder, "", [move.lot], "returned", move.pieces, move.at, move.entry, True))
            else:
                key = ((move.partner, move.way), move.lot)
                self.went[key] = self.went.get(key, 0) + move.pieces - netted[move]
        self.credits = defaultdict(int)  # by holder, lot and word
        self.excess = []                 # (what was said, pieces)
        self.hear()

    def hear(self):
        self.said.sort(key=lambda one: (one.at, one.entry))
        for back in (True, False):
            for one in self.said:
                if one.back == back and one.what != "found":
                    self.credit(one, one.pieces)
        for one, pieces in self.last_found():
            self.credit(one, pieces)

    def open(self, key):
        return self.went[key] - sum(self.credits[(key, word)] for word in WORDS)

    def credit(self, one, left):
        for key in self.went:
            (partner, way), lot = key
            theirs = partner == one.holder[0] if one.holder[0] else not partner and way == one.holder[1] and one.what != "used"
            if theirs and lot in one.lots:
                part = min(left, self.open(key))
                self.credits[(key, one.what)] += part
                left -= part
        if left:
            self.excess.append((one, left))

    def last_found(self):
        """What stands there by their last word, less what was returned, destroyed or used since."""
        found = []
        for one in self.said:
            if one.what == "found":
                found = [(other, n) for other, n in found if not other.speaks_of_the_same(one)] + [(one, one.pieces)]
            else:
                found = [(other, max(0, n - one.pieces) if other.speaks_of_the_same(one) else n) for other, n in found]
        return found

    def of_lot(self, lot):
        """Shipped; of it returned, destroyed, used up, found there; and open."""
        keys = [key for key in self.went if key[1] == lot]
        return (sum(self.went[key] for key in keys),
                *(sum(self.credits[(key, word)] for key in keys) for word in WORDS), sum(self.open(key) for key in keys))
