"""Plates: joints, ties and nails; what may be cut out of studs; fireblocking. Source: IRC R602.3.2 to R602.3.4, R602.6,
R602.6.1 and R602.8, Table R602.3(1); all editions alike.
"""

from fractions import Fraction
from typing import Final

import msgspec

from wallwright.published.tables import TABLES, Row, inch, rows
from wallwright.sources import Source


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


_TIES: Final = rows("single_top_plate_ties")


def _tie(row: Row) -> Tie:
    width, length, _ = row["plate_in"]
    return Tie(inch(width), inch(length), row["nails_each_side"])


def _ties(corner: Row, butt: Row) -> Ties:
    return Ties(f"seismic {corner['seismic']}", _tie(corner), _tie(butt))


END_JOINT_OFFSET: Final = inch(rows("top_plates")[0]["end_joint_offset_in"])
"""Least distance between the end joints of the two layers of a double top plate, on the grid."""
SINGLE_PLATE_MEMBER_OFFSET: Final = inch(rows("single_top_plate_members")[0]["most_in"])
"""How far rafters or joists may stand from the studs' centres over a single top plate."""
TIE_THICKNESS: Final = str(_TIES[0]["plate_in"][2])
"""Thickness of the galvanized steel of a tie, in inches, as it is printed."""
PLAIN_TIES: Final = _ties(_TIES[0], _TIES[1])
SEISMIC_TIES: Final = _ties(_TIES[2], _TIES[3])
SPLICE_NAILS: Final[dict[str, int]] = {row["nail"]: row["nails_each_side"] for row in rows("top_plate_splice")}
"""Nails on each side of an end joint of a double top plate, by kind; each is an equal choice."""
FIREBLOCKING_INTERVAL: Final = inch(rows("fireblocking")[0]["level_interval_in"])
"""Greatest level distance between fireblocks in a stud wall."""


def joint_source(rules: str) -> Source:
    """Where the rules on joints and ties stand, in the edition named."""
    return TABLES["single_top_plate_ties"].of(rules)


def fireblocking_source(rules: str) -> Source:
    """Where the rule on fireblocking stands, in the edition named."""
    return TABLES["fireblocking"].of(rules)


def plates_source(rules: str) -> Source:
    """Where the rule of the joints stands."""
    return TABLES["top_plates"].of(rules)


def cuts_source(rules: str) -> Source:
    """Where the rule on notches and holes in studs stands, in the edition named."""
    return TABLES["stud_cuts"].of(rules)


def cut_allowed(rules: str, cut: str, depth: int, *, bearing: bool) -> int:
    """The deepest ``notch`` or widest ``hole`` (``hole in a doubled stud``) in a stud ``depth`` deep, on the grid.

    Rounded down. Source: R602.6. Raises KeyError for a cut that the rule does not name.
    """
    where = "exterior or bearing" if bearing else "nonbearing"
    for row in rows("stud_cuts", rules):
        if row["cut"] == cut and row["wall"] == where:
            return int(depth * Fraction(row["share"]))
    raise KeyError(cut)


def hole_edge(rules: str) -> int:
    """Least wood between a hole and the stud's edge, on the grid. Source: R602.6."""
    return inch(rows("hole_edge", rules)[0]["least_in"])
