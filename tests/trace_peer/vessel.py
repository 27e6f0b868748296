"""A mixed vessel (rules 30 and 32): each fill makes a blend of what stood there and what was put in, and a draw is of the blend of its
moment, or of each that it may have been of."""


class Vessel:
    def __init__(self, told, clock):
        self.clock = clock
        self.fills = sorted((one for one in told if one.kind == "filled"), key=lambda one: (one.at, one.seq))
        emptied = sorted((one for one in told if one.kind == "emptied"), key=lambda one: one.at)
        ends = [one.at for one in emptied if one.get("inspected") and not self.in_a_fill(one.at)]
        self.doubts = [one.at for one in emptied if not one.get("inspected") or self.in_a_fill(one.at)]
        # By fill: when it was emptied and looked into, before the next one.
        self.ended = [min((at for at in ends if self.last_begun(at) == k), default=None) for k in range(len(self.fills))]

    def end(self, k):
        return max(self.fills[k].get("until", 0), self.fills[k].at)

    def in_a_fill(self, at):
        return any(self.begun(k, at) and at <= self.end(k) + self.clock for k in range(len(self.fills)))

    def begun(self, k, at):
        return self.fills[k].at - self.clock <= at

    def last_begun(self, at):
        return max((k for k in range(len(self.fills)) if self.begun(k, at)), default=None)

    def in_doubt(self, older, newer):
        """An emptying that nobody looked into may have taken away what the older fill put in."""
        over = max(self.end(k) for k in range(newer + 1)) + self.clock
        return any(self.fills[older].at - self.clock <= at <= over for at in self.doubts)

    def blends(self):
        """(fill, what it stands on, whether the fill is sure, whether what it stands on is)."""
        for k, fill in enumerate(self.fills):
            rest = self.fills[k - 1] if k > 0 and self.ended[k - 1] is None else None
            yield fill, rest, not self.in_doubt(k, k), rest is not None and not self.in_doubt(k - 1, k)

    def drawn(self, at):
        """The fills whose blends a draw may be of, and whether that is sure."""
        may = [k for k in range(len(self.fills)) if self.begun(k, at) and not self.was_over(k, at)]
        if may:
            return [self.fills[k] for k in may], len(may) == 1
        last = max((k for k in range(len(self.fills)) if self.fills[k].at <= at), default=None)
        return ([self.fills[last]] if last is not None else []), False  # it had been emptied: the book contradicts itself

    def was_over(self, k, at):
        filled_over = k + 1 < len(self.fills) and at > self.end(k + 1) + self.clock
        return filled_over or (self.ended[k] is not None and at > self.ended[k] + self.clock)
