"""Boards of one section: its pieces and the boards offered, put to the solver, and the plan as it is sawn."""

import math
from itertools import groupby
from typing import Literal

import msgspec

from wallwright.domain.buying.asked import Offer, Order, Piece
from wallwright.domain.buying.cutting import missing, solve
from wallwright.domain.buying.patterns import Counts, Item, ordered, step, used
from wallwright.domain.buying.problem import EFFORTS, Board, Plan, Problem
from wallwright.domain.buying.programme import Left
from wallwright.domain.buying.ties import settled
from wallwright.domain.stock import Stock
from wallwright.findings import Fault, PlanRefused, Value, at_least, at_most

Section = tuple[Stock, bool]
"""A timber section, and whether it is treated."""


LongPoint = Literal["left", "right", "both"]


class CutPiece(msgspec.Struct, frozen=True, gc=False):
    """Equal pieces sawn one after another; ``readings`` are what the tape shows at the far end of each.

    ``nested`` of them begin at the slanted cut that ends the piece before. ``ends`` of each are slanted, ``angle`` degrees off
    square, which takes ``slant`` along the board.
    """

    length: int
    count: int
    mark: str
    readings: tuple[int, ...]
    nested: int = 0
    ends: int = 0
    angle: float = 0.0
    slant: int = 0
    long_points: tuple[LongPoint, ...] = ()
    """Where each piece has its long point as the board lies, ``left`` (on the board's upper edge) or ``right`` (on its lower), or both."""


class CutBoard(msgspec.Struct, frozen=True, gc=False):
    """``count`` boards of one offer that are cut alike, their pieces in the order of the cuts, and what is left of each."""

    offer: Offer
    count: int
    cuts: tuple[CutPiece, ...]
    offcut: int


class Cut(msgspec.Struct, frozen=True):
    """One section cut: its boards, their cost in cents, and what no plan can undercut."""

    section: Section
    boards: tuple[CutBoard, ...]
    pieces: int
    """Length of all pieces together."""
    cost: int
    bound: int


class Kind(msgspec.Struct, frozen=True):
    """Pieces of one section that are alike for the saw, whatever they are for."""

    item: Item
    length: int
    pieces: tuple[Piece, ...]

    @property
    def mark(self) -> str:
        """The marks of the pieces, as on the framing drawings."""
        return ", ".join(dict.fromkeys(piece.mark for piece in self.pieces if piece.mark))


def sections(pieces: list[Piece]) -> dict[Section, list[Piece]]:
    """The pieces by section, the thickest and widest first."""
    found: dict[Section, list[Piece]] = {}
    for piece in sorted(pieces, key=lambda one: (one.treated, -one.stock.thickness, -one.stock.width)):
        found.setdefault((piece.stock, piece.treated), []).append(piece)
    return found


def kinds(pieces: list[Piece], kerf: int) -> list[Kind]:
    """The kinds of piece of one section, in the order in which patterns name them."""
    groups: dict[float, tuple[int, int]] = {}
    for piece in pieces:
        if piece.slants:
            number, least = groups.get(piece.angle, (len(groups) + 1, piece.saves))
            groups[piece.angle] = (number, min(least, piece.saves))
    alike: dict[tuple[int, int, int], list[Piece]] = {}
    for piece in pieces:
        number = groups[piece.angle][0] if piece.slants else 0
        alike.setdefault((piece.length, number, piece.slants), []).append(piece)
    joints = {number: _saved(angle, least, kerf) for angle, (number, least) in groups.items()}
    found = []
    for (length, number, slants), own in alike.items():
        saves = joints.get(number, 0)
        nests = (number, slants, saves) if saves else (0, 0, 0)
        found.append(Kind(Item(length + kerf, sum(piece.count for piece in own), *nests), length, tuple(own)))
    return [found[place] for place in ordered([kind.item for kind in found])]


def _saved(angle: float, saves: int, kerf: int) -> int:
    """What one slanted cut for two ends saves: a slanted cut takes more along the board than a square one."""
    return max(0, saves - (math.ceil(kerf / math.cos(math.radians(angle))) - kerf))


def check(order: Order, by_section: dict[Section, list[Piece]]) -> None:
    """Raise PlanRefused where a section is not offered, or a piece is longer than any board of it."""
    faults: list[Fault] = []
    for section, pieces in by_section.items():
        offers = of_section(order, section)
        if not offers:
            longest = max(piece.length for piece in pieces)
            values: tuple[tuple[str, Value], ...] = (
                ("stock", said(section)),
                ("count", str(sum(piece.count for piece in pieces))),
                ("longest", longest),
            )
            faults.append(Fault("stock-not-offered", "/offers", values))
            continue
        most = max(offer.length for offer in offers) - 2 * order.end_trim
        for at, length in dict.fromkeys((piece.at, piece.length) for piece in pieces if piece.length > most):
            values = (
                ("given", length),
                ("stock", said(section)),
                ("most", at_most(max(0, most))),
                ("least", at_least(length + 2 * order.end_trim)),
            )
            loose = at.startswith("/pieces/")
            faults.append(Fault("piece-too-long", f"{at}/length" if loose else at, values))
    if faults:
        raise PlanRefused(tuple(faults))


def of_section(order: Order, section: Section) -> list[Offer]:
    """The offers of a section, the cheapest for its length first."""
    own = [offer for offer in order.offers if (offer.stock, offer.treated) == section and offer.at_most != 0]
    return sorted(own, key=lambda offer: (offer.length, offer.price, offer.at_most is None, offer.at_most or 0))


def said(section: Section) -> str:
    """A section in words."""
    return f"{section[0].name} treated" if section[1] else section[0].name


def problem_of(order: Order, section: Section, own: list[Kind]) -> tuple[Problem, list[Offer]]:
    """The section as the solver sees it, and the offers that its boards are."""
    offers = [offer for offer in of_section(order, section) if offer.length > 2 * order.end_trim]
    boards = [Board(offer.length - 2 * order.end_trim + order.kerf, offer.price, offer.at_most) for offer in offers]
    return Problem([kind.item for kind in own], boards), offers


def cut(order: Order, section: Section, pieces: list[Piece], left: Left) -> Cut:
    """The cheapest boards of one section, cut. Raises PlanRefused where there are too few."""
    own = kinds(pieces, order.kerf)
    problem, offers = problem_of(order, section, own)
    effort = EFFORTS[order.effort]
    found = solve(problem, effort, left)
    if found is None:
        raise PlanRefused(_too_few(order, section, own, problem, left))
    plan = settled(problem, found, effort, left)
    boards = tuple(_board(order, own, problem, offers, one, plan) for one in _sorted(problem, plan))
    length = sum(piece.length * piece.count for piece in pieces)
    return Cut(section, boards, length, found.cost, found.bound)


def _sorted(problem: Problem, plan: Plan) -> list[tuple[int, Counts]]:
    """Patterns in the order in which a yard's boards are sawn: the longest boards first, then the fullest."""
    return sorted(plan, key=lambda one: (-problem.boards[one[0]].room, one[0], [-count for count in one[1]]))


def _board(
    order: Order, own: list[Kind], problem: Problem, offers: list[Offer], one: tuple[int, Counts], plan: Plan
) -> CutBoard:
    number, counts = one
    cuts = []
    at, loose, group = order.end_trim - order.kerf, 0, 0
    for kind, run in groupby(_in_order(own, counts), key=lambda place: own[place]):
        if kind.item.group != group:
            loose, group = 0, kind.item.group
        readings: list[int] = []
        points: list[LongPoint] = []
        nested = 0
        for _ in run:
            lies_on = bool(kind.item.ends and loose)
            nested += lies_on
            size, loose = step(kind.item, loose)
            at += size
            readings.append(at)
            if kind.item.ends:
                points.append("both" if kind.item.ends > 1 else "left" if lies_on else "right")
        first = kind.pieces[0]
        angle, slant = (first.angle, first.saves) if kind.item.ends else (0.0, 0)
        shape = (nested, kind.item.ends, angle, slant, tuple(points))
        cuts.append(CutPiece(kind.length, len(readings), kind.mark, tuple(readings), *shape))
    free = problem.boards[number].room - used(problem.items, counts) - order.kerf
    return CutBoard(offers[number], plan[one], tuple(cuts), max(0, free))


def _in_order(own: list[Kind], counts: Counts) -> list[int]:
    """The pieces of a board, one after another, by the number of their kind.

    A chain of pieces with two slanted ends is closed by a piece with one at either side: one of these comes first.
    """
    found: list[int] = []
    flat = [place for place, count in enumerate(counts) for _ in range(count)]
    for _, run in groupby(flat, key=lambda place: own[place].item.group):
        group = list(run)
        single = [place for place in group if own[place].item.ends == 1]
        if len(single) > 1 and len(single) < len(group):
            group.remove(single[-1])
            group.insert(0, single[-1])
        found += group
    return found


def _too_few(order: Order, section: Section, own: list[Kind], problem: Problem, left: Left) -> tuple[Fault, ...]:
    """What cannot be cut from the boards to be had."""
    short, proven = missing(problem, EFFORTS[order.effort], left)
    code = "boards-too-few" if proven else "boards-not-found"
    return tuple(
        Fault(code, "/offers", (("stock", said(section)), ("count", str(count)), ("length", kind.length)))
        for kind, count in zip(own, short, strict=True)
        if count
    )
