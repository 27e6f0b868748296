"""What a lot reached, who has it, and what adds up by the piece: the slow way, over custody.py."""
from dataclasses import dataclass, field

FEEDS_NOBODY = ("waste", "sample")
CARRIES_GOODS_ON = ("rack", "pack", "blend")  # the same goods under another lot


def walk(custody, start, forward, follow):
    steps = custody.out_of if forward else custody.into
    found, waiting = set(), list(start)
    while waiting:
        here = waiting.pop()
        if here not in found:
            found.add(here)
            waiting.extend(use.into if forward else use.source for use in steps[here] if follow(use))
    return found


def reached(custody, start, forward=True, goes_on=lambda use: True):
    """By lot, whether it is certain: by a path of sure uses. `goes_on`: which uses are followed at all."""
    certain = walk(custody, start, forward, lambda use: use.sure and goes_on(use))
    return {lot: lot in certain for lot in walk(custody, start, forward, goes_on)}


def bearing_the_same_code(custody, lots):
    """Packs that a customer cannot tell from one of these (rule 36)."""
    codes = {custody.lots[lot].printed for lot in lots} - {""}
    return {code for code, lot in custody.lots.items() if lot.printed in codes} - set(lots)


@dataclass
class Delivery:
    pieces: int = 0
    returned: int = 0
    certain: bool = False
    ways: set = field(default_factory=set)
    lots: set = field(default_factory=set)
    documents: set = field(default_factory=set)


def deliveries(custody, lots):
    """Of these lots, each with whether it is certain: by partner (or way, where there is none), what can be read on the goods, and item."""
    out = {}
    for move in custody.moves:
        if move.lot not in lots or move.way in FEEDS_NOBODY:
            continue
        lot = custody.lots[move.lot]
        one = out.setdefault((move.partner or "way " + (move.left_by or move.way), lot.printed or lot.code, lot.item), Delivery())
        one.lots.add(move.lot)
        if move.way == "returned":
            one.returned += move.pieces
            continue
        one.pieces += move.pieces
        one.certain = one.certain or (move.sure and lots[move.lot])
        one.ways.add(move.way)
        one.documents |= {move.document} - {""}
    return out


def in_the_house(custody, code, inside):
    """Pieces of a lot: made, on hand, moved on under another name into one of the lots it is added up with, used, wasted, sampled."""
    lot = custody.lots[code]
    moved_on = used = 0
    for use in custody.out_of[code]:
        if use.into in inside and custody.lots[use.into].kind in CARRIES_GOODS_ON:
            moved_on += use.pieces
        else:
            used += use.pieces
    gone = {way: sum(move.pieces for move in custody.moves if move.lot == code and move.way == way) for way in FEEDS_NOBODY}
    return lot.pieces, lot.on_hand, moved_on, used, gone["waste"], gone["sample"]
