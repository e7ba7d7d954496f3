"""The programme in whole numbers: patterns as its unknowns, pieces and boards as its conditions."""

import math
from collections.abc import Callable
from typing import Final

from wallwright.domain.buying.problem import Cut, Plan, Problem
from wallwright.domain.buying.solver import Column, Row, minimise

SIZE: Final = 5_000
"""Unknowns times conditions of a programme up to which all nodes of the effort are searched; of a larger one so many fewer."""
TRUSTED: Final = 10**8
"""Totals up to here, in steps of their common divisor, are told apart by the solver with certainty."""
Left = Callable[[], float]
"""Seconds left until the clock's guard."""


def nodes_of(most: int, columns: list[Column], rows: list[Row]) -> int:
    """The nodes that are searched: a node of a large programme is more work."""
    return max(4, most * SIZE // max(SIZE, len(columns) * len(rows)))


def cheapest(problem: Problem, cuts: list[Cut], nodes: int, left: Left) -> tuple[Plan, int]:
    """The best plan over some patterns and what none over them can undercut; an empty plan where they yield not every piece."""
    divisor = problem.divisor
    columns = [columns_of(problem, cut, problem.boards[cut[0]].price / divisor) for cut in cuts]
    rows = rows_of(problem)
    solved = minimise(columns, rows, step=1.0, nodes=nodes_of(nodes, columns, rows), left=left())
    plan = {cut: round(times) for cut, times in zip(cuts, solved.values, strict=False) if round(times)}
    if not plan or any(problem.missing(plan)):
        return {}, 0
    cost = problem.cost(plan)
    return plan, cost if solved.proven else min(cost, math.ceil(solved.bound - 0.01) * divisor)


def rows_of(problem: Problem) -> list[Row]:
    """The conditions of the programme: every piece cut, no more boards than there are."""
    rows = [Row(float(item.most)) for item in problem.items]
    return rows + [Row(-math.inf, float(problem.supply(board))) for board in range(len(problem.boards))]


def columns_of(problem: Problem, cut: Cut, cost: float) -> Column:
    """A pattern as an unknown in whole numbers, with the most that can be of use."""
    board, counts = cut
    need = max((-(-item.most // count) for item, count in zip(problem.items, counts, strict=True) if count), default=0)
    entries = tuple((place, float(count)) for place, count in enumerate(counts) if count)
    return Column(cost, (*entries, (len(counts) + board, 1.0)), float(min(need, problem.supply(board))))
