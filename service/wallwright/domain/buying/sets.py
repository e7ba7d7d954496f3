"""The sets of rectangles that one sheet can hold, built up from single ones, each with its least boxes."""

from wallwright.domain.buying.asked import Panel
from wallwright.domain.buying.patterns import Counts, Work
from wallwright.domain.buying.shelves import Box, joined, shelved
from wallwright.domain.wall import Grain


class Sets:
    """The sets of pieces that one sheet can hold, each with its least boxes."""

    def __init__(self, panels: list[Panel], width: int, length: int, kerf: int, grain: Grain, work: Work) -> None:
        self.demand = tuple(panel.count for panel in panels)
        self.most = (width, length)
        self.kerf = kerf
        self.complete = True
        self.boxes: dict[Counts, list[Box]] = {}
        single: dict[Counts, list[Box]] = {}
        for place, panel in enumerate(panels):
            counts = tuple(int(n == place) for n in range(len(panels)))
            _keep(single, counts, Box(panel.width, panel.length, place), self.most)
            if grain == "free":
                _keep(single, counts, Box(panel.length, panel.width, place), self.most)
        levels = [single]
        self.boxes |= single
        while levels[-1] and self.complete:
            levels.append(self._joined(levels, work))
            self.boxes |= levels[-1]

    def add_shelves(self, sizes: list[tuple[int, int]]) -> set[Counts]:
        """Full sheets of each size, shelf by shelf: the sets listed end before they fill one."""
        added: set[Counts] = set()
        pieces = [box for counts, own in self.boxes.items() if sum(counts) == 1 for box in own]
        for width, length in dict.fromkeys(sizes):
            for counts, box in shelved(pieces, self.demand, width, length, self.kerf):
                _keep(self.boxes, counts, box, self.most)
                added.add(counts)
        return added

    def _joined(self, levels: list[dict[Counts, list[Box]]], work: Work) -> dict[Counts, list[Box]]:
        """Every set with one piece more than the last level's."""
        found: dict[Counts, list[Box]] = {}
        for smaller in range(len(levels) // 2 + len(levels) % 2):
            larger = len(levels) - 1 - smaller
            for one, own in levels[smaller].items():
                for other, theirs in levels[larger].items():
                    if not work.take(len(own) * len(theirs)):
                        self.complete = False
                        return found
                    counts = tuple(a + b for a, b in zip(one, other, strict=True))
                    if all(have <= most for have, most in zip(counts, self.demand, strict=True)):
                        self._join(found, counts, own, theirs)
        return found

    def _join(self, found: dict[Counts, list[Box]], counts: Counts, own: list[Box], theirs: list[Box]) -> None:
        for a in own:
            for b in theirs:
                _keep(found, counts, joined(a, b, self.kerf, beside=True), self.most)
                _keep(found, counts, joined(a, b, self.kerf, beside=False), self.most)

    def fitting(self, width: int, length: int) -> list[Counts]:
        """The sets that a sheet of this size holds."""
        return [counts for counts in self.boxes if self.box(counts, width, length) is not None]

    def box(self, counts: Counts, width: int, length: int) -> Box | None:
        """A box for a set that a sheet of this size holds, the narrowest."""
        fits = [box for box in self.boxes.get(counts, []) if box.width <= width and box.length <= length]
        return min(fits, key=lambda box: (box.width, box.length)) if fits else None


def _keep(found: dict[Counts, list[Box]], counts: Counts, box: Box, most: tuple[int, int]) -> None:
    """Add a box to a set's least ones, unless it is too large or no better than one that is there."""
    if box.width > most[0] or box.length > most[1]:
        return
    own = found.setdefault(counts, [])
    if any(one.width <= box.width and one.length <= box.length for one in own):
        return
    own[:] = [one for one in own if not (box.width <= one.width and box.length <= one.length)]
    own.append(box)
