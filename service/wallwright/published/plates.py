"""Plates, and what may be cut out of studs. Source: IRC R602.3.2 to R602.3.4, R602.6 and R602.6.1, all editions."""

from fractions import Fraction

from wallwright.published.tables import TABLES, inch, rows
from wallwright.sources import Source


def end_joint_offset(rules: str) -> int:
    """How far joints of the cap plate stand from those of the top plate at least, on the grid. Source: R602.3.2."""
    return inch(rows("top_plates", rules)[0]["end_joint_offset_in"])


def plates_source(rules: str) -> Source:
    """Where the rule of the joints stands."""
    return TABLES["top_plates"].of(rules)


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
