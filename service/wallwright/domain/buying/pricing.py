"""Patterns as the linear programme asks for them, and a bound that no plan can undercut.

Its prices for pieces, taken down to whole millionths of a cent, give by an exact knapsack a bound that rests on no rounding of the
solver, and say of each pattern what it costs beyond the worth of its pieces.
"""

import math
from typing import Final

from wallwright.domain.buying.patterns import Fronts, Work, filled
from wallwright.domain.buying.problem import Cut, Effort, Plan, Problem
from wallwright.domain.buying.programme import Left
from wallwright.domain.buying.solver import Column, Linear, Row
from wallwright.domain.buying.tree import Priced

SCALE: Final = 1_000_000
"""Parts of a cent in which prices of pieces are reckoned."""


def up(scaled: int, divisor: int) -> int:
    """A bound in parts of a cent as the least total that is no less."""
    step = divisor * SCALE
    return -(-max(0, scaled) // step) * divisor


class Pricing:
    """Column generation: patterns as the linear programme asks for them, and the bound that its prices prove."""

    def __init__(self, problem: Problem, effort: Effort, left: Left) -> None:
        self.problem = problem
        self.effort = effort
        self.left = left
        self.cuts: dict[Cut, int] = {}
        self.bound = 0
        self._prices: list[int] = [0] * len(problem.items)
        self._work = Work(effort.steps)
        self._listing: tuple[list[int], Fronts] | None = None

    def take(self, plan: Plan) -> None:
        """The patterns of a plan that is known."""
        for cut in plan:
            self.cuts.setdefault(cut, len(self.cuts))

    def run(self) -> None:
        """Rounds until no pattern is worth adding, or the work is used up. Keeps the best bound."""
        problem = self.problem
        count = len(problem.items)
        rows = [Row(float(item.most)) for item in problem.items]
        rows += [Row(-math.inf, float(problem.supply(board))) for board in range(len(problem.boards))]
        linear = Linear(rows, self.left())
        linear.add([Column(float(price), ((place, 1.0),)) for place, price in enumerate(problem.without)])
        linear.add([self.column(cut) for cut in self.cuts])
        for _ in range(self.effort.rounds):
            _, duals = linear.solve(self.left())
            prices = [max(0, math.floor(dual * SCALE)) for dual in duals[:count]]
            if problem.without:
                prices = [min(one, cost * SCALE) for one, cost in zip(prices, problem.without, strict=True)]
            fronts = Fronts(problem.items, prices, max(board.room for board in problem.boards), self._work)
            if not fronts.complete:
                return
            self._better(prices, fronts)
            fresh = self._fresh(fronts, duals[count:])
            if not fresh:
                return
            for cut in fresh:
                self.cuts[cut] = len(self.cuts)
            linear.add([self.column(cut) for cut in fresh])

    def column(self, cut: Cut) -> Column:
        """A pattern as an unknown of the programme: rows are items, then boards."""
        board, counts = cut
        entries = [(place, float(count)) for place, count in enumerate(counts) if count]
        return Column(float(self.problem.boards[board].price), (*entries, (len(counts) + board, 1.0)))

    def _better(self, prices: list[int], fronts: Fronts) -> None:
        parts = [(1, 1)]
        for board in self.problem.boards:
            if 0 < board.price * SCALE < fronts.best(board.room):
                parts.append((board.price * SCALE, fronts.best(board.room)))
        bound, part = max((self._bound_at(prices, fronts, part), part) for part in parts)
        prices = [price * part[0] // part[1] for price in prices]
        if bound > self.bound or not any(self._prices):
            self.bound, self._prices = max(bound, self.bound), prices

    def _bound_at(self, prices: list[int], fronts: Fronts, part: tuple[int, int]) -> int:
        """The bound where all prices are a part of these: while they are still too high for the boards, the better one.

        Rounded down, pieces are worth no more than that part together.
        """
        above, below = part
        total = sum(
            item.most * (price * above // below) for item, price in zip(self.problem.items, prices, strict=True)
        )
        for number, board in enumerate(self.problem.boards):
            gain = -(-fronts.best(board.room) * above // below) - board.price * SCALE
            total -= self.problem.supply(number) * max(0, gain)
        return total

    def _bound_of(self, prices: list[int], fronts: Fronts) -> int:
        """What every plan costs at least: the pieces at their prices, less what boards to be had are worth beyond theirs."""
        return self._bound_at(prices, fronts, (1, 1))

    def _fresh(self, fronts: Fronts, duals: tuple[float, ...]) -> list[Cut]:
        fresh = []
        for number, board in enumerate(self.problem.boards):
            worth = fronts.best(board.room)
            if worth > board.price * SCALE - math.floor(min(0.0, duals[number]) * SCALE) + len(self.problem.items):
                counts = filled(self.problem.items, fronts.pattern(board.room), self.problem.demand, board.room)
                if (number, counts) not in self.cuts:
                    fresh.append((number, counts))
        return fresh

    def _at_best(self) -> Fronts:
        """The fronts at the prices of the best bound."""
        if self._listing is None or self._listing[0] is not self._prices:
            room = max(board.room for board in self.problem.boards)
            self._listing = (self._prices, Fronts(self.problem.items, self._prices, room, Work(self.effort.steps)))
        return self._listing[1]

    @property
    def base(self) -> int:
        """What every plan costs at least at the prices of the best bound, before what its patterns cost beyond the worth of their pieces."""
        fronts = self._at_best()
        return self._bound_of(self._prices, fronts) if fronts.complete else 0

    def priced(self, cuts: tuple[Cut, ...]) -> Priced:
        """Patterns with what each costs beyond the worth of its pieces."""
        dear = [self._dear(number) for number in range(len(self.problem.boards))]
        beyond = tuple(
            dear[number] - sum(count * price for count, price in zip(counts, self._prices, strict=True))
            for number, counts in cuts
        )
        return Priced(cuts, beyond, self.base, SCALE * self.problem.divisor)

    def _dear(self, number: int) -> int:
        """The price of a board; where these are few, raised by what one is worth beyond its own."""
        board = self.problem.boards[number]
        return max(board.price * SCALE, self._at_best().best(board.room))

    def listed(self, over: int, most: int, *, full: bool = True) -> tuple[tuple[Cut, ...], bool]:
        """Every pattern (full ones alone, or all) that costs no more than ``over`` beyond its pieces' worth, and whether these are all."""
        work = Work(self.effort.visits)
        fronts = self._at_best()
        if not fronts.complete:
            return (), False
        found: list[Cut] = []
        for number, board in enumerate(self.problem.boards):
            if not self.problem.supply(number):
                continue
            for counts in fronts.worth(board.room, self._dear(number) - over, work, full=full):
                found.append((number, counts))
                if len(found) > most:
                    return (), False
            if work.left < 0:
                return (), False
        return tuple(found), True
