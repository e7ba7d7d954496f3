"""Joints, laps and ties of wall plates, and fireblocking, from the data file beside this module."""

import tomllib
from importlib import resources
from typing import Any, Final

import msgspec

from wallwright.lengths import inches
from wallwright.sources import Source, irc


class Tie(msgspec.Struct, frozen=True, gc=False):
    """A galvanized steel plate over a joint of a single top plate: its size, and 8d box nails on each side."""

    width: int
    length: int
    nails: int


class Ties(msgspec.Struct, frozen=True):
    """The ties that one condition asks for, at corners and at butt joints."""

    when: str
    corner: Tie
    butt: Tie


def _tie(row: dict[str, Any]) -> Tie:
    return Tie(inches(row["width"]), inches(row["length"]), row["nails"])


def _ties(row: dict[str, Any]) -> Ties:
    return Ties(row["when"], _tie(row["corner"]), _tie(row["butt"]))


_TABLE: Final = tomllib.loads(resources.files(__package__).joinpath("plates.toml").read_text(encoding="utf-8"))

END_JOINT_OFFSET: Final = inches(_TABLE["end_joint_offset"])
"""Least distance between the end joints of the two layers of a double top plate."""
SINGLE_PLATE_MEMBER_OFFSET: Final = inches(_TABLE["single_plate_member_offset"])
"""How far rafters or joists may stand from the studs' centres over a single top plate."""
TIE_THICKNESS: Final[str] = _TABLE["tie_thickness"]
"""Thickness of the galvanized steel of a tie, in inches, as it is printed."""
PLAIN_TIES: Final = _ties(_TABLE["tie"]["plain"])
SEISMIC_TIES: Final = _ties(_TABLE["tie"]["seismic"])
SPLICE_NAILS: Final[dict[str, int]] = _TABLE["splice"]["nails"]
"""Nails on each side of an end joint of a double top plate, by kind; each is an equal choice."""
FIREBLOCKING_INTERVAL: Final = inches(_TABLE["fireblocking"]["level_interval"])
"""Greatest level distance between fireblocks in a stud wall."""


def joint_source(rules: str) -> Source:
    """Where the rules on joints and ties stand, in the edition named."""
    return irc(rules, _TABLE["clause"])


def fireblocking_source(rules: str) -> Source:
    """Where the rule on fireblocking stands, in the edition named."""
    return irc(rules, _TABLE["fireblocking"]["clause"])
