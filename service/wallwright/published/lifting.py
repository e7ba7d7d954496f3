"""How much one person should lift with two hands, from the data file beside this module."""

from typing import Any, Final

import msgspec

from wallwright.lengths import INCH
from wallwright.published.tables import TABLES, OutsideTable, inch
from wallwright.sources import Source

_HELD: Final = TABLES["lifting_equation"]
_ROW: Final[dict[str, Any]] = _HELD.rows[0]
_GRIPS: Final = {row["grip"]: row for row in TABLES["lifting_coupling"].rows}
_FREQUENCIES: Final = TABLES["lifting_frequency"].rows
SOURCE: Final = Source(_HELD.source, "", _HELD.clause)


class Task(msgspec.Struct, frozen=True, gc=False):
    """A lift: the hands' distance before the ankles, their height and their way up (all on the grid).

    ``turn_degrees`` is the twist, ``grip`` good, fair or poor, ``per_minute`` how often, within an hour's work.
    """

    reach: int
    height: int
    way: int
    turn_degrees: float = 0.0
    grip: str = "fair"
    per_minute: float = 0.2


class Limit(msgspec.Struct, frozen=True, gc=False):
    """The recommended weight limit of a task in lb, and the multipliers that make it."""

    limit_lb: float
    constant_lb: float
    reach_factor: float
    height_factor: float
    way_factor: float
    turn_factor: float
    frequency_factor: float
    grip_factor: float


def limit(task: Task) -> Limit:
    """The recommended weight limit of a task, in full precision (SOURCE; the manual rounds each multiplier).

    Raises OutsideTable for a frequency past the table's last row.
    """
    reach, height, way = (length / INCH for length in (task.reach, task.height, task.way))
    row = {name: float(value) for name, value in _ROW.items()}
    factors = (
        0.0 if reach > row["h_most_in"] else row["h_least_in"] / max(reach, row["h_least_in"]),
        0.0 if height > row["v_most_in"] else 1 - row["v_factor"] * abs(height - row["v_middle_in"]),
        0.0 if way > row["d_most_in"] else row["d_base"] + row["d_over"] / max(way, row["d_least_in"]),
        0.0 if task.turn_degrees > row["a_most_degrees"] else 1 - row["a_factor"] * task.turn_degrees,
        _frequency(task.per_minute),
        _grip(task),
    )
    found = row["load_constant_lb"]
    for factor in factors:
        found *= factor
    return Limit(found, row["load_constant_lb"], *factors)


def _frequency(per_minute: float) -> float:
    for row in _FREQUENCIES:
        # As floats on both sides, since 0.2 as a float is more than 0.2 as it is printed.
        if per_minute <= float(row["lifts_per_minute"]):
            return float(row["factor"])
    raise OutsideTable("the lifts come faster than the table's last row")


def _grip(task: Task) -> float:
    row = _GRIPS[task.grip]
    return float(row["below"] if task.height < inch(_ROW["v_middle_in"]) else row["from_30_in"])
