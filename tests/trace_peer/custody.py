"""Lots, what went into what, and what left: from what was told, without any table of the program."""
from collections import defaultdict, namedtuple
from dataclasses import dataclass

from told import read_book
from vessel import Vessel

LONGEST_RUN = 72 * 3_600_000  # ms: a batch that nobody finished ran no longer (src/fold/line.h)

Use = namedtuple("Use", "source into entry sure pieces at")
Move = namedtuple("Move", "lot entry way partner pieces document sure at left_by")


@dataclass
class Lot:
    code: str
    kind: str
    item: str
    entry: int
    at: int
    printed: str = ""
    supplier: str = ""
    supplier_lot: str = ""  # empty where it was corrected: a recall goes by what it was when it began with the lot
    line: str = ""
    pieces: int | None = None  # made
    finished: int | None = None
    on_hand: int = 0


class Custody:
    def __init__(self, folder):
        self.plan, self.told = read_book(folder)
        self.lots, self.uses, self.moves = {}, [], []
        self.returned_out = []  # what became of what came back
        self.vessels = {}
        self.make_lots()
        for vessel in self.plan.vessels:
            of_it = [one for one in self.told if one.get("vessel") == vessel and self.is_known(one.get("lot"))]
            emptied = [one for one in self.told if one.get("vessel") == vessel and one.kind == "emptied"]
            self.vessels[vessel] = Vessel([one for one in of_it if one.kind == "filled"] + emptied, self.plan.clock)
        self.take_uses()
        self.feed_lines()
        self.end_cultures()
        self.take_moves()
        self.take_stock()
        self.into, self.out_of = defaultdict(list), defaultdict(list)
        for use in self.uses:
            self.out_of[use.source].append(use)
            self.into[use.into].append(use)

    def is_known(self, code):
        return code in self.lots

    # --- lots

    def make_lots(self):
        finished = {one.get("lot"): one for one in self.told if one.kind == "finished"}
        for one in sorted(self.told, key=lambda told: told.seq):
            make = getattr(self, "make_" + one.kind.replace("-", "_"), None)
            if make and not one.struck:
                make(one)
        for code, one in finished.items():
            if code in self.lots:
                self.lots[code].finished = one.at
                pieces = one.get("pieces", 0) + one.get("spoiled", 0)
                self.lots[code].pieces = pieces or None

    def add(self, one, code, kind, item, **more):
        self.lots[code] = Lot(code, kind, item, one.seq, one.at, **more)

    def make_received(self, one):
        kind = "supply" if one.get("material") in self.plan.supplies else "received"
        pieces = one.get("pieces")
        if pieces and one.get("status") == "refused":
            pieces = 0  # none of it came into the house
        self.add(one, one.get("lot"), kind, one.get("material"), pieces=pieces, supplier=one.get("supplier", ""),
                 supplier_lot="" if one.corrected else one.get("supplier-lot", ""))

    def make_started(self, one):
        self.add(one, one.get("lot"), "batch", one.get("product"), line=one.get("line", ""))

    def make_filled(self, one):
        if self.is_known(one.get("lot")):
            self.add(one, one.get("blend"), "blend", self.lots[one.get("lot")].item)

    def make_split(self, one):
        whole = self.lots.get(one.get("lot"))
        self.add(one, one.get("child"), "rack", whole.item if whole else "", pieces=one.get("pieces"))

    def make_packed(self, one):
        first = self.lots.get(one.get("from", [{}])[0].get("lot"))
        pieces = one.get("pieces", 0) or sum(part.get("pieces", 0) for part in one.get("from", []))
        self.add(one, one.get("lot"), "pack", first.item if first else "", pieces=pieces or None, printed=one.get("printed-code", ""))

    def make_co_packed(self, one):
        self.add(one, one.get("lot"), "pack", one.get("product"), pieces=one.get("pieces"), printed=one.get("printed-code", ""))

    # --- what went into what

    def use(self, one, source, into, sure=True, pieces=0, at=None):
        if self.is_known(source) and self.is_known(into):
            self.uses.append(Use(source, into, one.seq, sure and not one.struck, pieces, one.at if at is None else at))

    def take_uses(self):
        for one in self.told:
            if one.kind == "used" and not one.struck:
                self.take_used(one)
            elif one.kind == "split":
                self.use(one, one.get("lot"), one.get("child"), pieces=one.get("pieces", 0))
            elif one.kind == "packed":
                for part in one.get("from", []):
                    self.use(one, part["lot"], one.get("lot"), pieces=part.get("pieces", 0))
            elif one.kind == "co-packed":
                for code in one.get("from", []):
                    self.use(one, code, one.get("lot"), not one.get("possible", False))
        for vessel in self.vessels.values():
            for fill, rest, fill_sure, rest_sure in vessel.blends():
                self.use(fill, fill.get("lot"), fill.get("blend"), fill_sure)
                if rest:
                    self.use(fill, rest.get("blend"), fill.get("blend"), rest_sure)
        taken = {(use.source, use.into, use.entry) for use in self.uses}
        stands = len(self.uses)
        for one in self.told:
            if one.struck:
                self.take_used(one)
        struck = [use for use in self.uses[stands:] if (use.source, use.into, use.entry) not in taken]  # or it is taken all the same
        self.uses[stands:] = struck

    def take_used(self, one):
        possible = one.get("possible", False) or one.struck
        if one.get("lot") in self.vessels:
            fills, sure = self.vessels[one.get("lot")].drawn(one.at)
            for fill in fills:
                self.use(one, fill.get("blend"), one.get("into"), sure and not possible)
        else:
            self.use(one, one.get("lot"), one.get("into"), not possible, one.get("pieces", 0))

    def feed_lines(self):
        """What stands on a line may be in every batch that runs there meanwhile (rule 29)."""
        feeds = []
        for one in self.told:
            if one.kind != "line-fed" or not self.is_known(one.get("lot")):
                continue
            if not one.get("off"):
                feeds.append([one, None])
            for feed in feeds:
                if one.get("off") and feed[1] is None and (feed[0].get("lot"), feed[0].get("line")) == (one.get("lot"), one.get("line")):
                    feed[1] = one.at
        for batch in self.lots.values():
            begins, ends = batch.at - self.plan.clock, (batch.finished or batch.at + LONGEST_RUN) + self.plan.clock
            for one, off in feeds:
                if batch.line and one.get("line") == batch.line and one.at <= ends and (off is None or off >= begins):
                    self.use(one, one.get("lot"), batch.code, False, at=max(one.at, batch.at))

    def end_cultures(self):
        """By a signed decision the leaven in a lot counts as a new culture: no trace goes on through what it took over (rule 33)."""
        renewed = {one.get("lot") for one in self.told if one.kind == "culture-renewed"}
        self.uses = [use for use in self.uses if use.into not in renewed or self.lots[use.source].item != self.lots[use.into].item]

    # --- what left, and what came back

    def take_moves(self):
        for one in self.told:
            if one.kind == "moved-out":
                of = [one.get("lot")] if one.get("lot") else one.get("any-of", [])
                list_of = self.returned_out if one.get("of-returned") else self.moves
                for code in of:
                    list_of.append(self.move(one, code, one.get("way"), one.get("pieces", 0) if one.get("lot") else 0))
            elif one.kind == "returned":
                self.moves.append(self.move(one, one.get("lot"), "returned", one.get("pieces", 0)))
            elif one.kind == "finished" and one.get("spoiled", 0):
                self.moves.append(self.move(one, one.get("lot"), "waste", one.get("spoiled")))
        self.moves = [move for move in self.moves if self.is_known(move.lot)]

    @staticmethod
    def move(one, code, way, pieces):
        left_by = one.get("way", "") if way == "returned" else ""  # of what came back without a name
        return Move(code, one.seq, way, one.get("partner", ""), pieces, one.get("document", ""), bool(one.get("lot")), one.at, left_by)

    def take_stock(self):
        """Pieces on hand: made, less what went into others and what left, as it was counted last."""
        flows = defaultdict(list)
        for use in self.uses:
            flows[use.source].append((use.at, use.entry, "less", use.pieces))
        for move in self.moves:
            if move.way != "returned":
                flows[move.lot].append((move.at, move.entry, "less", move.pieces))
        for one in self.told:
            if one.kind == "counted" and "pieces" in one.says:
                flows[one.get("lot")].append((one.at, one.seq, "count", one.get("pieces")))
        for lot in self.lots.values():
            lot.on_hand = lot.pieces or 0
            for _, _, what, pieces in sorted(flows[lot.code]):
                lot.on_hand = pieces if what == "count" else lot.on_hand - pieces
            lot.on_hand = lot.on_hand if lot.pieces is not None else 0
