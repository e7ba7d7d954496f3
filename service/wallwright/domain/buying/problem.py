"""What one section's cutting asks and finds: pieces, boards to be had, patterns, plans, and how much work is done."""

import math
from typing import Final

import msgspec

from wallwright.domain.buying.patterns import Counts, Item


class Board(msgspec.Struct, frozen=True, gc=False):
    """Boards of one length to be had: the room on each, its price in cents, and how many there are (None: any number)."""

    room: int
    price: int
    at_most: int | None = None


class Effort(msgspec.Struct, frozen=True, gc=False):
    """How much work is done, by counts: rounds and steps of pricing, patterns listed, nodes searched, unknowns of programmes solved."""

    rounds: int
    steps: int
    visits: int
    patterns: int
    nodes: int
    tie_patterns: int
    tie_nodes: int
    unknowns: int


EFFORTS: Final[dict[str, Effort]] = {
    "quick": Effort(100, 500_000, 40_000, 1_000, 50, 40, 5, 500_000),
    "normal": Effort(400, 4_000_000, 400_000, 6_000, 1_000, 100, 8, 4_000_000),
    "thorough": Effort(2_000, 30_000_000, 3_000_000, 30_000, 20_000, 600, 1_000, 40_000_000),
}

Cut = tuple[int, Counts]
"""A pattern: which board, and how many of each item."""
Plan = dict[Cut, int]
"""Patterns and how many boards are cut so."""


class Found(msgspec.Struct, frozen=True):
    """A plan for one section, and its bound, in cents.

    ``listed`` holds patterns for equally cheap plans: where ``exact`` every one, those not full included; else enough of the full ones
    for this plan.
    """

    plan: Plan
    cost: int
    bound: int
    listed: tuple[Cut, ...]
    exact: bool

    @property
    def proven(self) -> bool:
        """Whether no cheaper plan exists."""
        return self.cost == self.bound


class Problem(msgspec.Struct, frozen=True):
    """One section's pieces (in order, see `patterns.ordered`) and the boards to be had.

    ``without`` is what each piece costs that is not cut at all; empty where every piece must be.
    """

    items: list[Item]
    boards: list[Board]
    without: tuple[int, ...] = ()

    @property
    def demand(self) -> Counts:
        """How many of each item are wanted."""
        return tuple(item.most for item in self.items)

    def supply(self, board: int) -> int:
        """How many of a board can be used at most: those to be had, or one for each piece."""
        pieces = sum(item.most for item in self.items)
        most = self.boards[board].at_most
        return pieces if most is None else min(most, pieces)

    @property
    def divisor(self) -> int:
        """What every total is a multiple of."""
        return math.gcd(*(board.price for board in self.boards), *self.without) or 1

    def cost(self, plan: Plan) -> int:
        """What a plan costs, pieces left out included."""
        bought = sum(self.boards[board].price * times for (board, _), times in plan.items())
        return bought + sum(a * b for a, b in zip(self.without, self.missing(plan), strict=False))

    def missing(self, plan: Plan) -> Counts:
        """How many of each item a plan does not yield."""
        cut = [0] * len(self.items)
        for (_, counts), times in plan.items():
            for place, count in enumerate(counts):
                cut[place] += count * times
        return tuple(max(0, item.most - count) for item, count in zip(self.items, cut, strict=True))
