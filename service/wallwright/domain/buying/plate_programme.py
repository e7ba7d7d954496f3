"""The joints of level plates chosen together with the boards, in one programme a section.

Its unknowns are ways to cut a board, and for each stack of plates which of its lawful ways it is jointed. The prices of its linear
relaxation give a bound over every way (each stack counts at its cheapest), as they do for boards alone; a stack whose ways are not
all known counts for nothing there, so that the bound stays true.
"""

import math
from collections import Counter

import msgspec

from wallwright.domain.buying.patterns import Fronts, Work, filled
from wallwright.domain.buying.pricing import SCALE, up
from wallwright.domain.buying.problem import Cut, Effort, Problem
from wallwright.domain.buying.programme import TRUSTED, Left, columns_of
from wallwright.domain.buying.solver import Column, Linear, Row, minimise
from wallwright.domain.plate_choices import Way
from wallwright.domain.stock import Stock


class Stack(msgspec.Struct, frozen=True):
    """A stack of plates of one wall (its number in the order), whose joints are free."""

    wall: int
    name: str
    section: tuple[Stock, bool]
    ways: tuple[Way, ...]
    complete: bool


class Programme:
    """Boards and joints of one section."""

    def __init__(
        self,
        problem: Problem,
        least: list[int],
        stacks: list[Stack],
        needs: list[list[Counter[int]]],
        effort: Effort,
        left: Left,
    ) -> None:
        self.problem, self.least, self.stacks, self.needs, self.left = problem, least, stacks, needs, left
        self.effort = effort
        self.bound = 0
        self.cuts: dict[Cut, int] = {}
        self._prices: list[int] = [0] * len(problem.items)
        count = len(problem.items)
        self.rows = [Row(float(one)) for one in least]
        self.rows += [Row(-math.inf, float(problem.supply(board))) for board in range(len(problem.boards))]
        self.first = len(self.rows)
        self.rows += [Row(1.0) for _ in stacks]
        for n, item in enumerate(problem.items):
            for number, board in enumerate(problem.boards):
                if item.size <= board.room and board.at_most != 0:
                    alone = tuple(int(n == m) for m in range(count))
                    self.cuts.setdefault((number, filled(problem.items, alone, problem.demand, board.room)), 0)

    def _ways(self) -> list[Column]:
        made = []
        for number, ways in enumerate(self.needs):
            for need in ways:
                entries = (
                    *((place, -float(count)) for place, count in sorted(need.items())),
                    (self.first + number, 1.0),
                )
                made.append(Column(0.0, entries, 1.0))
        return made

    def run(self) -> None:
        """Rounds of pricing; keeps the best bound."""
        problem, count = self.problem, len(self.problem.items)
        dear = 10.0 * max(board.price for board in problem.boards) + 100.0
        linear = Linear(self.rows, self.left())
        linear.add([Column(dear, ((n, 1.0),)) for n in range(count)])
        linear.add(self._ways())
        linear.add([columns_of(problem, cut, float(problem.boards[cut[0]].price)) for cut in self.cuts])
        work = Work(self.effort.steps // 4)
        for _ in range(min(200, self.effort.rounds)):
            _, duals = linear.solve(self.left())
            prices = [max(0, math.floor(dual * SCALE)) for dual in duals[:count]]
            fronts = Fronts(problem.items, prices, max(board.room for board in problem.boards), work)
            if not fronts.complete:
                return
            bound = up(self._bound_of(prices, fronts), problem.divisor)
            if bound >= self.bound:
                self.bound, self._prices = bound, prices
            fresh = []
            for number, board in enumerate(problem.boards):
                if (
                    fronts.best(board.room)
                    > board.price * SCALE - math.floor(min(0.0, duals[count + number]) * SCALE) + count
                ):
                    cut = (number, filled(problem.items, fronts.pattern(board.room), problem.demand, board.room))
                    if cut not in self.cuts:
                        self.cuts[cut] = 0
                        fresh.append(cut)
            if not fresh:
                return
            linear.add([columns_of(problem, cut, float(problem.boards[cut[0]].price)) for cut in fresh])

    def _bound_of(self, prices: list[int], fronts: Fronts) -> int:
        """What the pieces are worth at these prices at least, each stack by its cheapest way, less what boards could gain."""
        total = sum(price * one for price, one in zip(prices, self.least, strict=True))
        for stack, ways in zip(self.stacks, self.needs, strict=True):
            if stack.complete:
                total += min(sum(prices[place] * count for place, count in need.items()) for need in ways)
        for number, board in enumerate(self.problem.boards):
            total -= self.problem.supply(number) * max(0, fronts.best(board.room) - board.price * SCALE)
        return total

    def closed(self, ways: list[int], cost: int) -> tuple[list[int], int | None]:
        """A cheaper plan or the proof that there is none, from every pattern that one could hold, where these can be listed."""
        problem = self.problem
        if not all(stack.complete for stack in self.stacks):
            return ways, cost
        fronts = Fronts(problem.items, self._prices, max(b.room for b in problem.boards), Work(self.effort.steps // 4))
        work = Work(self.effort.visits)
        if not fronts.complete:
            return ways, cost
        over = (cost - problem.divisor) * SCALE - self._bound_of(self._prices, fronts)
        listed = dict(self.cuts)
        for number, board in enumerate(problem.boards):
            if problem.supply(number):
                price = max(board.price * SCALE, fronts.best(board.room))
                for counts in fronts.worth(board.room, price - over, work, full=True):
                    listed[number, counts] = 0
                    if len(listed) > self.effort.patterns:
                        return ways, cost
        if work.left < 0:
            return ways, cost
        self.cuts = listed
        found, better = self.whole(proving=True, known=cost)
        return (found, better) if better is not None and better < cost else (ways, cost)

    def whole(self, *, proving: bool = False, known: int = 0) -> tuple[list[int], int | None]:
        """A way for each stack, and what the boards then cost; None where no plan was found.

        With ``proving`` the patterns are all that a plan cheaper than ``known`` can hold, so that the solver's bound is one.
        """
        problem, divisor = self.problem, self.problem.divisor
        cuts = sorted(self.cuts)
        columns = [columns_of(problem, cut, problem.boards[cut[0]].price / divisor) for cut in cuts]
        solved = minimise(
            columns + self._ways(), self.rows, step=1.0, nodes=self.effort.nodes // 4 + 10, left=self.left()
        )
        if proving and not math.isinf(solved.bound) and known // divisor < TRUSTED:
            self.bound = max(self.bound, min(known, math.ceil(solved.bound - 0.01) * divisor))
        if not solved.values:
            return [], None
        taken = solved.values[len(cuts) :]
        found, at = [], 0
        for ways in self.needs:
            own = taken[at : at + len(ways)]
            found.append(max(range(len(ways)), key=lambda n: own[n]))
            at += len(ways)
        cost = sum(problem.boards[cut[0]].price * round(times) for cut, times in zip(cuts, solved.values, strict=False))
        return found, cost
