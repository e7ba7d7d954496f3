"""Sheets: rectangles cut edge to edge (a circular saw's guillotine cuts) from as few or as cheap sheets as can be.

Sets of pieces are built up from single ones, each with the least boxes that a guillotine can cut it from: two sets lie side by
side or one above the other with a saw cut between. Every way of cutting with any depth of cuts is such a building up, so
that the list of sets for one sheet is complete unless the work allowed by count ends it; then the plan is the best over the sets
found, and its bound is that of area alone.
"""

import itertools

import msgspec

from wallwright.domain.buying.asked import Group, Panel, SheetOffer
from wallwright.domain.buying.patterns import Counts, Item, Work
from wallwright.domain.buying.problem import EFFORTS, Board, Cut, Effort, Found, Plan, Problem
from wallwright.domain.buying.programme import Left, cheapest
from wallwright.domain.buying.sets import Sets
from wallwright.domain.buying.shelves import Box
from wallwright.domain.buying.ties import settled
from wallwright.domain.wall import Grain
from wallwright.findings import Fault, PlanRefused
from wallwright.lengths import INCH


class Placed(msgspec.Struct, frozen=True, gc=False):
    """A piece on its sheet, from the sheet's lower left corner."""

    mark: str
    left: int
    bottom: int
    width: int
    length: int


class Saw(msgspec.Struct, frozen=True, gc=False):
    """A saw cut, in the order of the work: from edge to edge of what is then in hand; the cut's own width lies past the line."""

    x1: int
    y1: int
    x2: int
    y2: int


class CutSheet(msgspec.Struct, frozen=True, gc=False):
    """``count`` sheets of one offer that are cut alike."""

    offer: SheetOffer
    count: int
    pieces: tuple[Placed, ...]
    cuts: tuple[Saw, ...]


class SheetCut(msgspec.Struct, frozen=True):
    """Sheets of one kind and thickness cut; ``cost`` and ``bound`` in cents, or in sheets where no price is known."""

    group: Group
    sheets: tuple[CutSheet, ...]
    priced: bool
    cost: int
    bound: int

    @property
    def count(self) -> int:
        """How many sheets there are."""
        return sum(sheet.count for sheet in self.sheets)


_SETS = {"quick": 8_000, "normal": 40_000, "thorough": 400_000}
"""Pairs of boxes looked at."""
_CELLS = 30_000
"""Sets times kinds of piece in the programme where not all sets are known."""
_CUTS = 40_000
"""Sets times sizes of sheet: where there are more, only the fullest sets of each size are looked at."""


def cut_sheets(
    panels: list[Panel], offers: list[SheetOffer], kerf: int, grain: Grain, effort_word: str, left: Left
) -> SheetCut:
    """The cheapest sheets of one kind and thickness (the fewest where a price is not known), cut.

    Raises PlanRefused where a piece is larger than every sheet or the sheets to be had are too few.
    """
    panels = sorted(merged(panels), key=lambda one: (-one.width * one.length, -one.length, one.mark))
    priced = all(offer.price is not None for offer in offers)
    _check(panels, offers, grain)
    width, length = max(offer.width for offer in offers), max(offer.length for offer in offers)
    sets = Sets(panels, width, length, kerf, grain, Work(_SETS[effort_word]))
    full = set() if sets.complete else sets.add_shelves([(offer.width, offer.length) for offer in offers])
    unit = (INCH // 16) ** 2
    items = [Item(max(1, panel.width * panel.length // unit), panel.count) for panel in panels]
    boards = [
        Board(
            offer.width * offer.length // unit, offer.price if priced and offer.price is not None else 1, offer.at_most
        )
        for offer in offers
    ]
    problem = Problem(items, boards)
    effort = EFFORTS[effort_word]
    cuts, listed = _cuts(problem, sets, offers, full)
    # Where not all sets are known the programme proves nothing, so that the fullest of them are enough for it.
    few = _fullest(
        problem, cuts, effort.patterns if sets.complete else min(effort.patterns, _CELLS // len(items)), full
    )
    plan, proved = _chosen(problem, few, effort, left)
    if plan is None:
        values = (("kind", panels[0].kind), ("thickness", panels[0].thickness))
        raise PlanRefused((Fault("sheets-too-few", "/sheet_offers", values),))
    cost = problem.cost(plan)
    whole = listed and sets.complete and len(few) == len(cuts)
    bound = min(cost, proved if whole else _by_area(problem))
    plan = settled(
        problem, Found(plan, cost, bound, tuple(sorted(set(cuts) if len(cuts) <= 400 else plan)), False), effort, left
    )
    sheets = tuple(
        _sheet(sets, panels, offers[one[0]], one[1], times) for one, times in sorted(plan.items(), reverse=True)
    )
    return SheetCut((panels[0].kind, panels[0].thickness), sheets, priced, cost, bound)


def merged(panels: list[Panel]) -> list[Panel]:
    """Rectangles of one size as one row, with all their marks."""
    alike: dict[tuple[int, int], list[Panel]] = {}
    for panel in panels:
        alike.setdefault((panel.width, panel.length), []).append(panel)
    return [
        msgspec.structs.replace(
            own[0],
            count=sum(one.count for one in own),
            mark=", ".join(dict.fromkeys(one.mark for one in own if one.mark)),
        )
        for own in alike.values()
    ]


def _check(panels: list[Panel], offers: list[SheetOffer], grain: Grain) -> None:
    faults = []
    for panel in panels:
        sizes = [(panel.width, panel.length)] + ([(panel.length, panel.width)] if grain == "free" else [])
        if not any(w <= one.width and h <= one.length for one in offers for w, h in sizes):
            values = (("width", panel.width), ("length", panel.length), ("kind", panel.kind))
            faults.append(Fault("sheet-piece-too-large", panel.at, values))
    if faults:
        raise PlanRefused(tuple(faults))


def _chosen(problem: Problem, cuts: list[Cut], effort: Effort, left: Left) -> tuple[Plan | None, int]:
    """The cheapest plan over the sets found, and what none over them can undercut; None where sheets are too few."""
    plan, proved = cheapest(problem, sorted(cuts), effort.nodes, left)
    return (None, 0) if not plan else (plan, proved)


def _cuts(problem: Problem, sets: Sets, offers: list[SheetOffer], full: set[Counts]) -> tuple[list[Cut], bool]:
    """The sets that each size of sheet holds, and whether these are all of them: of very many the fullest."""
    if len(sets.boxes) * len(offers) <= _CUTS:
        return [
            (number, counts)
            for number, offer in enumerate(offers)
            for counts in sets.fitting(offer.width, offer.length)
        ], True
    sizes = [item.size for item in problem.items]
    held = {counts: sum(size * count for size, count in zip(sizes, counts, strict=True)) for counts in sets.boxes}
    # Single pieces first, so that every piece can be cut.
    ranked = sorted(held, key=lambda counts: (sum(counts) > 1 and counts not in full, -held[counts], counts))
    found: list[Cut] = []
    for number, offer in enumerate(offers):
        fitting = (
            (number, counts)
            for counts in ranked
            if any(box.width <= offer.width and box.length <= offer.length for box in sets.boxes[counts])
        )
        found += itertools.islice(fitting, len(sizes) + len(full) + _CUTS // len(offers))
    return found, False


def _fullest(problem: Problem, cuts: list[Cut], most: int, full: set[Counts]) -> list[Cut]:
    """So many of the sets: single pieces, so that every piece can be cut, ``full`` sheets, then what is cheapest for its area."""
    if len(cuts) <= most:
        return cuts

    def rank(cut: Cut) -> tuple[bool, int, Cut]:
        board, counts = cut
        held = sum(item.size * count for item, count in zip(problem.items, counts, strict=True))
        return counts not in full, problem.boards[board].price * 10**6 // held, cut

    singles = sorted((cut for cut in cuts if sum(cut[1]) == 1), key=rank)
    each = {cut[1]: cut for cut in reversed(singles)}
    others = sorted((cut for cut in cuts if sum(cut[1]) > 1), key=rank)
    return list(dict.fromkeys([*each.values(), *singles[: most // 2], *others[:most]]))


def _by_area(problem: Problem) -> int:
    """What the sheets cost at least by area alone, as a total that whole sheets can come to."""
    area = sum(item.size * item.most for item in problem.items)
    least = min(-(-area * board.price // board.room) for board in problem.boards)
    return -(-least // problem.divisor) * problem.divisor


def _sheet(sets: Sets, panels: list[Panel], offer: SheetOffer, counts: Counts, times: int) -> CutSheet:
    box = sets.box(counts, offer.width, offer.length)
    spare: list[int] = []
    if box is None:
        # Pieces beyond what is wanted were left off, and that set was not reached by itself: cut as the whole set is.
        whole = min(
            one
            for one in sets.fitting(offer.width, offer.length)
            if all(a >= b for a, b in zip(one, counts, strict=True))
        )
        box = sets.box(whole, offer.width, offer.length)
        spare = [a - b for a, b in zip(whole, counts, strict=True)]
    pieces: list[Placed] = []
    saws: list[Saw] = []
    left_off = spare or [0] * len(panels)
    if box is not None:
        _place(box, 0, 0, offer.width, offer.length, sets.kerf, panels, pieces, saws, left_off)
    return CutSheet(offer, times, tuple(pieces), tuple(saws))


def _place(
    box: Box, x: int, y: int, width: int, length: int, kerf: int,
    panels: list[Panel], pieces: list[Placed], saws: list[Saw], left_off: list[int],
) -> None:  # fmt: skip
    """Lay a box into a rectangle in hand: what is over is cut off first, then the box is cut in two."""
    if box.length < length:
        saws.append(Saw(x, y + box.length, x + width, y + box.length))
    if box.width < width:
        saws.append(Saw(x + box.width, y, x + box.width, y + box.length))
    if box.piece >= 0:
        if left_off[box.piece]:
            left_off[box.piece] -= 1
        else:
            pieces.append(Placed(panels[box.piece].mark, x, y, box.width, box.length))
        return
    one, other = box.parts
    if box.beside:
        saws.append(Saw(x + one.width, y, x + one.width, y + box.length))
        _place(one, x, y, one.width, box.length, kerf, panels, pieces, saws, left_off)
        past = one.width + kerf
        _place(other, x + past, y, box.width - past, box.length, kerf, panels, pieces, saws, left_off)
    else:
        saws.append(Saw(x, y + one.length, x + box.width, y + one.length))
        _place(one, x, y, box.width, one.length, kerf, panels, pieces, saws, left_off)
        past = one.length + kerf
        _place(other, x, y + past, box.width, box.length - past, kerf, panels, pieces, saws, left_off)
