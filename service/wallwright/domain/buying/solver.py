"""Linear and integer programmes by HiGHS. This module alone imports it, and only once something is to be solved.

What the solver is held to: one thread (the number is fixed for the whole process by the first solve), no gap, the status of
every solve looked at, and no word on standard output. Its class beneath the package's own is used since the
latter prints a banner when it is made.
"""

import math
from collections.abc import Sequence
from typing import Any, Final

import msgspec

INFINITE: Final = math.inf
PLAIN: Final = (
    ("presolve", "off"),
    ("mip_heuristic_effort", 0.0),
    ("mip_heuristic_run_feasibility_jump", False),
    ("mip_heuristic_run_rens", False),
    ("mip_heuristic_run_rins", False),
    ("mip_heuristic_run_root_reduced_cost", False),
)
Entry = tuple[int, float]
"""A row of the programme and the coefficient there."""


class TookTooLong(Exception):
    """The clock ran out before the work that was allowed by count was done: no plan is given, rather than a worse one."""


class SolverFailed(Exception):
    """The solver gave a status that no sound programme has."""


class Column(msgspec.Struct, frozen=True):
    """One unknown: its cost, the rows that it stands in, the most that it can be, and whether it is whole."""

    cost: float
    entries: tuple[Entry, ...]
    most: float = INFINITE
    whole: bool = True


class Row(msgspec.Struct, frozen=True, gc=False):
    """One condition: what its sum is at least and at most."""

    least: float
    most: float = INFINITE


class Solved(msgspec.Struct, frozen=True):
    """What came out. ``values`` is empty where there is no plan; ``bound`` is one that no plan can undercut."""

    proven: bool
    values: tuple[float, ...]
    objective: float
    bound: float


def _quiet(left: float) -> Any:
    """A silent solver on one thread, with no gap, that stops when ``left`` seconds are over."""
    if left <= 0:
        raise TookTooLong
    from highspy._core import _Highs

    made = _Highs()
    for name, value in (
        ("output_flag", False),
        ("threads", 1),
        ("random_seed", 1),
        ("mip_rel_gap", 0.0),
        ("time_limit", left),
    ):
        _ok(made.setOptionValue(name, value))
    return made


def _ok(status: Any) -> None:
    if status.name not in ("kOk", "kWarning"):
        raise SolverFailed(status.name)


class Linear:
    """A linear programme that grows by columns, each solve starting from the last one's end."""

    def __init__(self, rows: Sequence[Row], left: float) -> None:
        self._highs = _quiet(left)
        self._rows = len(rows)
        _conditions(self._highs, rows)

    def add(self, columns: Sequence[Column]) -> None:
        """More columns."""
        _unknowns(self._highs, columns)

    def solve(self, left: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Values of the columns and prices (duals) of the rows. Raises TookTooLong."""
        if left <= 0:
            raise TookTooLong
        highs = self._highs
        _ok(highs.setOptionValue("time_limit", highs.getRunTime() + left))
        _ok(highs.run())
        status = highs.getModelStatus().name
        if status == "kTimeLimit":
            raise TookTooLong
        if status != "kOptimal":
            raise SolverFailed(status)
        solution = highs.getSolution()
        return tuple(solution.col_value), tuple(solution.row_dual)

    def bounds(self, first: int, boxes: Sequence[tuple[int, int]]) -> None:
        """The least and the most that columns from ``first`` on can be, from here on."""
        places = list(range(first, first + len(boxes)))
        least, most = [float(low) for low, _ in boxes], [float(high) for _, high in boxes]
        _ok(self._highs.changeColsBounds(len(places), places, least, most))

    def least(self, left: float) -> tuple[float, tuple[float, ...]] | None:
        """The least cost and the values of the columns; None where no values meet the conditions. Raises TookTooLong."""
        highs = self._highs
        if left <= 0:
            raise TookTooLong
        _ok(highs.setOptionValue("time_limit", highs.getRunTime() + left))
        _ok(highs.run())
        status = highs.getModelStatus().name
        if status == "kInfeasible":
            return None
        if status == "kTimeLimit":
            raise TookTooLong
        if status != "kOptimal":
            raise SolverFailed(status)
        return highs.getInfo().objective_function_value, tuple(highs.getSolution().col_value)


def minimise(
    columns: Sequence[Column], rows: Sequence[Row], *, step: float, nodes: int, left: float, plain: bool = False
) -> Solved:
    """The least total cost in whole numbers, columns in the order given (another order may end in another plan).

    ``step`` is the least by which two different totals differ; ``nodes`` limits the search by count. Raises TookTooLong
    when the clock runs out first. ``plain``: nodes alone, without the solver's trials beside them, whose work no count bounds.
    """
    highs = _quiet(left)
    for name, value in PLAIN if plain else ():
        _ok(highs.setOptionValue(name, value))
    _ok(highs.setOptionValue("mip_abs_gap", step * 0.99))
    _ok(highs.setOptionValue("mip_max_nodes", nodes))
    _ok(highs.setOptionValue("mip_max_improving_sols", 10_000))
    _conditions(highs, rows)
    _unknowns(highs, columns)
    _whole(highs, columns)
    _ok(highs.run())
    status = highs.getModelStatus().name
    if status == "kTimeLimit":
        raise TookTooLong
    if status == "kInfeasible":
        return Solved(True, (), INFINITE, INFINITE)
    if status not in ("kOptimal", "kSolutionLimit", "kIterationLimit", "kInterrupt"):
        raise SolverFailed(status)
    info = highs.getInfo()
    bound = info.mip_dual_bound
    found = info.primal_solution_status == 2
    values = tuple(highs.getSolution().col_value) if found else ()
    objective = info.objective_function_value if found else INFINITE
    return Solved(status == "kOptimal", values, objective, bound)


# Each call lets go of the interpreter and takes it back, which beside a busy thread costs milliseconds: so all at once.


def _conditions(highs: Any, rows: Sequence[Row]) -> None:
    least, most = [row.least for row in rows], [row.most for row in rows]
    _ok(highs.addRows(len(rows), least, most, 0, [0] * len(rows), [], []))


def _whole(highs: Any, columns: Sequence[Column]) -> None:
    from highspy._core import HighsVarType

    places = [place for place, column in enumerate(columns) if column.whole]
    _ok(highs.changeColsIntegrality(len(places), places, [HighsVarType.kInteger] * len(places)))


def _unknowns(highs: Any, columns: Sequence[Column]) -> None:
    starts: list[int] = []
    places: list[int] = []
    values: list[float] = []
    for column in columns:
        starts.append(len(places))
        places += [place for place, _ in column.entries]
        values += [value for _, value in column.entries]
    count = len(columns)
    costs = [column.cost for column in columns]
    most = [column.most for column in columns]
    _ok(highs.addCols(count, costs, [0.0] * count, most, len(places), starts, places, values))
