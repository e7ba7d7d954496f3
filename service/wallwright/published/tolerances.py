"""Published tolerances of layout and of standing walls, from the data file beside this module."""

from typing import Final

import msgspec

from wallwright.published.tables import TABLES, inch
from wallwright.sources import Source


class Tolerance(msgspec.Struct, frozen=True):
    """A deviation allowed over a length, both on the grid, and where it is written."""

    deviation: int
    over: int
    source: Source

    def across(self, length: int) -> int:
        """The deviation in proportion over another length, rounded down to the grid."""
        return self.deviation * length // self.over


def _held(name: str) -> Tolerance:
    table = TABLES[name]
    (row,) = table.rows
    return Tolerance(inch(row["deviation_in"]), inch(row["over_in"]), Source(table.source, "", table.clause))


PLUMB: Final = (_held("plumb_finished"), _held("plumb_wallboard"), _held("plumb_tight"))
"""Tolerances of a standing wall's plumb, in proportion to the height looked at, the widest first."""
ROUGH_FRAMING: Final = _held("rough_framing")
_SHORT: Final = _held("layout_short")
_LONG: Final = _held("layout_long")


def layout(length: int) -> Tolerance:
    """The tolerance of layout and squareness for a thing this long: it steps at 10 ft."""
    return _SHORT if length < _SHORT.over else _LONG
