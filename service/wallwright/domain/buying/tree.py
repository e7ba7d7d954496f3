"""The cheapest plan over some patterns, sought by how many boards of each length are bought.

The cost rests on these few numbers alone. So the search parts on them: the linear programme, least cost first, says which numbers could
yield every piece, and where all are whole a plan of just so many boards is sought in whole numbers. Its work is linear
programmes that begin where the last one ended, counted by unknowns: what the solver's own search does beside its nodes is not bounded.
"""

import heapq
import math
from typing import Final

import msgspec

from wallwright.domain.buying.problem import Cut, Plan, Problem
from wallwright.domain.buying.programme import TRUSTED, Left, columns_of, rows_of
from wallwright.domain.buying.solver import Column, Linear, Row, minimise

SURE: Final = 0.01
"""Steps by which the solver's least cost is trusted."""
SEARCH: Final = 200
"""Linear programmes that a search for a plan in whole numbers counts for."""
SPARE: Final = 2
"""Boards of a pattern of the linear programme that do not stand at first."""
EACH: Final = 400
"""Unknowns that a linear programme counts for however few it has."""
WHOLE: Final = 1e-5
"""What a number of boards may be off a whole one."""


class Allowed(msgspec.Struct):
    """How much work is left: unknowns of the linear programmes solved; and the nodes of each search for a plan of so many boards."""

    unknowns: int
    nodes: int


class Priced(msgspec.Struct, frozen=True):
    """Patterns, what each costs beyond the worth of its pieces, and what every plan costs at least beside that, in parts of a step."""

    cuts: tuple[Cut, ...]
    beyond: tuple[int, ...]
    base: int
    scale: int

    def within(self, cost: int) -> tuple[Cut, ...]:
        """The patterns that a plan of so many steps can hold."""
        over = cost * self.scale - self.base
        return tuple(cut for cut, beyond in zip(self.cuts, self.beyond, strict=True) if beyond <= over)


Numbers = tuple[int, ...]
"""Of each board how many."""
Box = tuple[tuple[int, int], ...]
"""Of each board the fewest and the most."""


def cheapest_of(problem: Problem, priced: Priced, best: Plan, allowed: Allowed, left: Left) -> tuple[Plan, int]:
    """The best plan over the patterns, no dearer than the one known, and what no plan over them can undercut, in cents.

    That is 0 where totals are too large for the solver to tell a step.
    """
    tree = _Tree(problem, priced, best, allowed, left)
    tree.run()
    return tree.best, tree.bound * problem.divisor if tree.cost <= TRUSTED else 0


class _Tree:
    """The search; costs are in steps of the problem's divisor."""

    def __init__(self, problem: Problem, priced: Priced, best: Plan, allowed: Allowed, left: Left) -> None:
        self.problem, self.priced, self.best, self.allowed, self.left = problem, priced, best, allowed, left
        self.steps = [board.price // problem.divisor for board in problem.boards]
        self.cost = problem.cost(best) // problem.divisor
        self.bound = 0
        self._open = self.cost
        self._first = len(priced.cuts)
        self._linear = Linear(_rows(problem), left())
        self._linear.add([columns_of(problem, cut, 0.0) for cut in priced.cuts])
        numbers = [
            Column(float(step), ((len(problem.items) + place, -1.0),), float(problem.supply(place)))
            for place, step in enumerate(self.steps)
        ]
        self._linear.add(numbers)

    def run(self) -> None:
        """Boxes of numbers, the one of least cost first, until none is left that could be cheaper, or the work is used up."""
        made = 0
        whole: Box = tuple((0, self.problem.supply(place)) for place in range(len(self.steps)))
        boxes: list[tuple[int, int, Box]] = [(0, 0, whole)]
        while boxes and boxes[0][0] < min(self.cost, self._open):
            if self.allowed.unknowns < 0:
                break
            _, _, box = heapq.heappop(boxes)
            for least, part in self._parted(box):
                made += 1
                heapq.heappush(boxes, (least, -made, part))
        self.bound = min(self.cost, self._open, boxes[0][0] if boxes else self.cost)

    def _parted(self, box: Box) -> list[tuple[int, Box]]:
        """The boxes that a box is parted into, with what a plan in it costs at least."""
        self.allowed.unknowns -= EACH + self._first
        self._linear.bounds(self._first, box)
        solved = self._linear.least(self.left())
        if solved is None:
            return []
        cost, values = solved
        least = max(0, math.ceil(cost - SURE))
        if least >= self.cost:
            return []
        numbers = values[self._first :]
        off = [abs(number - round(number)) for number in numbers]
        place = max(range(len(off)), key=lambda n: (off[n], -n))
        if off[place] > WHOLE:
            down = math.floor(numbers[place])
            return [(least, _with(box, place, down + 1, None)), (least, _with(box, place, None, down))]
        point = tuple(round(number) for number in numbers)
        if self._cut(point, values, least) or least >= self.cost:
            return []
        return [(least, part) for part in _around(box, point)]

    def _cut(self, point: Numbers, values: tuple[float, ...], least: int) -> bool:
        """Whether a cheaper plan of just so many boards was found. Where it was not proven that there is none its cost stays open.

        First most of what the linear programme cuts stands, so that few boards are left to be chosen.
        """
        cost = sum(step * number for step, number in zip(self.steps, point, strict=True))
        cuts = [cut for cut in self.priced.within(cost) if point[cut[0]]]
        kept = {
            cut: math.floor(times) - SPARE
            for cut, times in zip(self.priced.cuts, values, strict=False)
            if times >= SPARE + 1
        }
        for held in ([kept] if kept else []) + [{}]:
            self.allowed.unknowns -= SEARCH * len(cuts)
            if self.allowed.unknowns < 0:
                break
            plan, none = self._sought(cuts, point, held)
            if plan:
                self.best, self.cost = plan, self.problem.cost(plan) // self.problem.divisor
                return True
            if none and not held:
                return False
        self._open = min(self._open, least)
        return False

    def _sought(self, cuts: list[Cut], point: Numbers, held: Plan) -> tuple[Plan, bool]:
        """A plan of just so many boards that holds some patterns and is cheaper than the best; whether there is none."""
        rest = list(point)
        for (board, _), times in held.items():
            rest[board] -= times
        rows = [Row(float(need)) for need in self.problem.missing(held)]
        rows += [Row(float(number), float(number)) for number in rest]
        made = [columns_of(self.problem, cut, 0.0) for cut in cuts]
        columns = [
            Column(0.0, column.entries, min(column.most, float(rest[cut[0]])))
            for cut, column in zip(cuts, made, strict=True)
        ]
        solved = minimise(columns, rows, step=1.0, nodes=self.allowed.nodes, left=self.left(), plain=True)
        plan = dict(held)
        for cut, value in zip(cuts, solved.values, strict=False):
            if round(value):
                plan[cut] = plan.get(cut, 0) + round(value)
        sound = not any(self.problem.missing(plan)) and self.problem.cost(plan) < self.problem.cost(self.best)
        return (plan, False) if solved.values and sound else ({}, solved.proven and not solved.values)


def _rows(problem: Problem) -> list[Row]:
    """Every piece cut; of each board as many patterns as boards."""
    rows = rows_of(problem)
    rows[len(problem.items) :] = [Row(0.0, 0.0) for _ in problem.boards]
    return rows


def _with(box: Box, place: int, least: int | None, most: int | None) -> Box:
    low, high = box[place]
    part = (low if least is None else least, high if most is None else most)
    return (*box[:place], part, *box[place + 1 :])


def _around(box: Box, point: tuple[int, ...]) -> list[Box]:
    """What is left of a box without one point, in boxes that share nothing."""
    found = []
    for place, number in enumerate(point):
        low, high = box[place]
        if low < number:
            found.append(_with(box, place, None, number - 1))
        if number < high:
            found.append(_with(box, place, number + 1, None))
        box = _with(box, place, number, number)
    return found
