"""Published tolerances of layout and of standing walls, from the data file beside this module."""

import tomllib
from importlib import resources
from typing import Final

import msgspec

from wallwright.lengths import inches
from wallwright.sources import Source


class Tolerance(msgspec.Struct, frozen=True):
    """A deviation allowed over a length, both on the grid, and where it is written."""

    deviation: int
    over: int
    source: Source

    def across(self, length: int) -> int:
        """The deviation in proportion over another length, rounded down to the grid."""
        return self.deviation * length // self.over


def _read() -> dict[str, Tolerance]:
    table = tomllib.loads(resources.files(__package__).joinpath("tolerances.toml").read_text(encoding="utf-8"))
    return {
        name: Tolerance(inches(row["deviation"]), inches(row["over"]), Source(row["source"], "", row["clause"]))
        for name, row in table.items()
    }


_TABLE: Final = _read()
PLUMB: Final = (_TABLE["plumb_finished"], _TABLE["plumb_wallboard"], _TABLE["plumb_tight"])
"""Tolerances of a standing wall's plumb, in proportion to the height looked at, the widest first."""
ROUGH_FRAMING: Final = _TABLE["rough_framing"]


def layout(length: int) -> Tolerance:
    """The tolerance of layout and squareness for a thing this long: it steps at 10 ft."""
    short = _TABLE["layout_short"]
    return short if length < short.over else _TABLE["layout_long"]
